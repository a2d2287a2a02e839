"""What pieces are cut from: sheets, rolls, sticks and boards, with their faults. Whole hundredths of a millimetre.

x runs along the length of a sheet, y across it; the reference corner is (0, 0).
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal

from evenface.errors import EvenfaceError

type Form = Literal["sheet", "rolled_sheet", "roll", "stick", "board"]
type Axis = Literal["along", "across"]

type Box = tuple[int, int, int, int]
"""x, y, length, width."""

LONGEST: Final = 10_000_000
"""100 m: the longest roll. Engine and bounds stay far inside 64 bits."""
MOST_COPIES: Final = 200_000
UNTOLD: Final = "?"
"""Batch of what lies in the rack without one: no two of them are known to be alike."""


class LayoutError(EvenfaceError):
    """A blank, stock size or saw that cannot exist: a slip of the caller, not of the piece."""


def whole(what: str, given: object, least: int, most: int = LONGEST) -> None:
    if not isinstance(given, int) or isinstance(given, bool) or not least <= given <= most:
        raise LayoutError(f"{what}: expected a whole number from {least} to {most}, was given {given!r}")


@dataclass(frozen=True, slots=True)
class Flaw:
    """A rectangle of a board in which nothing may be cut: a knot, a split with some wood round it."""

    x: int
    y: int
    length: int
    width: int
    kind: str = "knot"

    def meets(self, x0: int, y0: int, x1: int, y1: int) -> bool:
        """Whether it reaches into the rectangle."""
        return self.x < x1 and x0 < self.x + self.length and self.y < y1 and y0 < self.y + self.width


def sound_part(x: int, y: int, length: int, width: int, flaws: tuple[Flaw, ...]) -> Box | None:
    """The larger part of a rectangle that one straight cut beside all its flaws leaves; None where nothing is left.

    x, y, length, width, given and returned. Of equal parts the one that keeps the reference corner.
    """
    met = [flaw for flaw in flaws if flaw.meets(x, y, x + length, y + width)]
    if not met:
        return x, y, length, width
    low_x, low_y = min(flaw.x for flaw in met) - x, min(flaw.y for flaw in met) - y
    high_x = max(flaw.x + flaw.length for flaw in met) - x
    high_y = max(flaw.y + flaw.width for flaw in met) - y
    parts = (
        (x, y, low_x, width),
        (x, y, length, low_y),
        (x + high_x, y, length - high_x, width),
        (x, y + high_y, length, width - high_y),
    )
    return max(
        (part for part in parts if min(part[2:]) > 0), key=lambda part: part[2] * part[3], default=None
    )


@dataclass(frozen=True, slots=True)
class Timber:
    """What makes a board more than a rectangle; x from its butt end, y from its lower edge.

    Of a sheet only the flaws count: damage, in whose stead one straight cut leaves a sound part to plan on.

    near_width, far_width : where it tapers, at the butt and the far end; the upper edge runs straight between
    them. wane : ripped off along
    the lower and the upper edge. rip_first : None for the better way.
    Raises LayoutError for widths that cannot be.
    """

    near_width: int | None = None
    far_width: int | None = None
    wane: tuple[int, int] = (0, 0)
    flaws: tuple[Flaw, ...] = ()
    rip_first: bool | None = None

    def __post_init__(self) -> None:
        for width in (self.near_width, self.far_width):
            if width is not None:
                whole("width of a board at one end", width, 1)
        for wane in self.wane:
            whole("wane of a board", wane, 0)


@dataclass(frozen=True, slots=True)
class StockSize:
    """A size that can be bought, or is in the rack.

    form : sheet and rolled_sheet are bought whole; roll by its running length; stick is one-dimensional.
    length : of the sheet or stick; for a roll the longest run that can be had, None when any.
    copies : how many there are, None when any number can be bought.
    price : of one sheet or stick; of a roll per running metre; None when not known.
    trim : lost all round before the first cut, its saw cut included (at the ends only, for sticks and boards).
    thickness : of sticks and boards, 0 when not known. offcut : lies in the rack already.
    timber : shape and faults of a board. batch : "" for what is bought together, UNTOLD of what lies there and
    nobody told.
    Raises LayoutError when nothing is left inside the trims.
    """

    id: str
    material: str
    form: Form
    length: int | None
    width: int = 1
    copies: int | None = None
    price: Decimal | None = None
    trim: int = 0
    thickness: int = 0
    offcut: bool = False
    timber: Timber | None = None
    batch: str = ""

    def __post_init__(self) -> None:
        if self.form not in ("sheet", "rolled_sheet", "roll", "stick", "board"):
            raise LayoutError(f"stock {self.id}: no form is called {self.form!r}")
        if self.form != "roll" or self.length is not None:
            whole(f"length of stock {self.id}", self.length, 1)
        whole(f"width of stock {self.id}", self.width, 1)
        whole(f"trim of stock {self.id}", self.trim, 0)
        if self.copies is not None:
            whole(f"copies of stock {self.id}", self.copies, 0, MOST_COPIES)
        if self.price is not None and not (self.price.is_finite() and self.price >= 0):
            raise LayoutError(f"price of stock {self.id}: expected 0 or more, was given {self.price}")
        if self.usable_width < 1 or (self.length is not None and self.usable_length < 1):
            raise LayoutError(f"stock {self.id}: trims of {self.trim} and damage leave nothing of it")

    @property
    def usable_length(self) -> int:
        """Length inside the trims; of a damaged sheet what is sound; for an endless roll the longest there can be."""
        return self.sound[2] if self.damaged else self._inner_length

    @property
    def usable_width(self) -> int:
        """Width inside the trims; of a damaged sheet what is sound; 1 for a stick, all of a board."""
        return self.sound[3] if self.damaged else self._inner_width

    @property
    def damaged(self) -> bool:
        """Whether it is a sheet with flaws; those of boards are planned round one by one."""
        return self.form in ("sheet", "rolled_sheet") and self.timber is not None and bool(self.timber.flaws)

    @property
    def sound(self) -> Box:
        """Of a damaged sheet the part inside the trims to plan on: x, y, length, width; of others all of it.

        All zero where nothing is sound.
        """
        x, y, length, width = self.trim, self.side_trim, self._inner_length, self._inner_width
        if not self.damaged or self.timber is None:
            return x, y, length, width
        return sound_part(x, y, length, width, self.timber.flaws) or (0, 0, 0, 0)

    @property
    def _inner_length(self) -> int:
        return (self.length if self.length is not None else LONGEST) - 2 * self.trim

    @property
    def _inner_width(self) -> int:
        return 1 if self.form == "stick" else self.width - 2 * self.side_trim

    @property
    def side_trim(self) -> int:
        """Lost along each long edge."""
        return 0 if self.form in ("stick", "board") else self.trim
