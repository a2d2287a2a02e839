"""What a layout is made of. All lengths are whole hundredths of a millimetre, areas their squares.

x runs along the length of the sheet, y across it; the reference corner is (0, 0). A cut *along* runs
parallel to x at one y; a cut *across* runs parallel to y at one x. For sticks only x counts: every
width is 1, so that areas are lengths.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Final, Literal

from evenface.errors import EvenfaceError
from evenface.finding import Finding
from evenface.piece.cutting_records import USUAL_AIMS, CuttingAim

type Form = Literal["sheet", "rolled_sheet", "roll", "stick", "board"]
type Axis = Literal["along", "across"]
type Aim = Literal["fewest", "money", "area", "length"]

LONGEST: Final = 10_000_000
"""100 m: the longest roll. Engine and bounds stay far inside 64 bits."""
MOST_COPIES: Final = 200_000
DEFAULT_LEAST_OFFCUT: Final = (30_000, 10_000)


class LayoutError(EvenfaceError):
    """A blank, stock size or saw that cannot exist: a slip of the caller, not of the piece."""


def _whole(what: str, given: object, least: int, most: int = LONGEST) -> None:
    if not isinstance(given, int) or isinstance(given, bool) or not least <= given <= most:
        raise LayoutError(f"{what}: expected a whole number from {least} to {most}, was given {given!r}")


@dataclass(frozen=True, slots=True)
class Inside:
    """A piece that is cut from its blank last: where it begins in the blank and how long it is there.

    Counted along the length of the blank, or along its width where the blank says so.
    """

    part: str
    layer: str
    start: int
    size: int

    def __post_init__(self) -> None:
        _whole(f"start of {self.part} inside its blank", self.start, 0)
        _whole(f"size of {self.part} inside its blank", self.size, 1)


@dataclass(frozen=True, slots=True)
class Section:
    """What a stick is planed to: wood, width and height in 0.01 mm."""

    wood: str
    width: int
    height: int

    @property
    def title(self) -> str:
        """Name of the material of a layout in such sticks: "ash 12.5 × 20"."""
        return f"{self.wood} {self.width / 100:g} × {self.height / 100:g}"


@dataclass(frozen=True, slots=True)
class Blank:
    """One rectangle to be cut `count` times.

    id : unique within its demand. part, layer : names the maker knows.
    length, width : along and across the direction of the material, in 0.01 mm.
    may_turn : whether it may lie with its length across the sheet.
    thickness : what the board or stick it comes from has to have at least, planing included; 0 for not asked.
    same : name of the set whose blanks all come from one sheet, empty for none. seam : what it is joined to
    make, empty for whole pieces.
    inside : pieces cut from it last, in order, "across" its length one after another, or "along" it side
        by side, as `parted` says. run : name of the matched run they make, empty for a bundle.
    Raises LayoutError for sizes below 1 or counts beyond 200,000.
    """

    id: str
    part: str
    layer: str
    length: int
    width: int
    count: int = 1
    may_turn: bool = False
    inside: tuple[Inside, ...] = ()
    parted: Axis = "across"
    run: str = ""
    thickness: int = 0
    same: str = ""
    seam: str = ""

    def __post_init__(self) -> None:
        _whole(f"length of blank {self.id}", self.length, 1)
        _whole(f"width of blank {self.id}", self.width, 1)
        _whole(f"count of blank {self.id}", self.count, 1, MOST_COPIES)


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


@dataclass(frozen=True, slots=True)
class Timber:
    """What makes a board more than a rectangle; x from its butt end, y from its lower edge.

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
                _whole("width of a board at one end", width, 1)
        for wane in self.wane:
            _whole("wane of a board", wane, 0)


@dataclass(frozen=True, slots=True)
class StockSize:
    """A size that can be bought, or is in the rack.

    form : sheet and rolled_sheet are bought whole; roll by its running length; stick is one-dimensional.
    length : of the sheet or stick; for a roll the longest run that can be had, None when any.
    copies : how many there are, None when any number can be bought.
    price : of one sheet or stick; of a roll per running metre; None when not known.
    trim : lost all round before the first cut, its saw cut included (at the ends only, for sticks and boards).
    thickness : of sticks and boards, 0 when not known. offcut : lies in the rack already.
    timber : shape and faults of a board.
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

    def __post_init__(self) -> None:
        if self.form not in ("sheet", "rolled_sheet", "roll", "stick", "board"):
            raise LayoutError(f"stock {self.id}: no form is called {self.form!r}")
        if self.form != "roll" or self.length is not None:
            _whole(f"length of stock {self.id}", self.length, 1)
        _whole(f"width of stock {self.id}", self.width, 1)
        _whole(f"trim of stock {self.id}", self.trim, 0)
        if self.copies is not None:
            _whole(f"copies of stock {self.id}", self.copies, 0, MOST_COPIES)
        if self.price is not None and not (self.price.is_finite() and self.price >= 0):
            raise LayoutError(f"price of stock {self.id}: expected 0 or more, was given {self.price}")
        if self.usable_width < 1 or (self.length is not None and self.usable_length < 1):
            raise LayoutError(f"stock {self.id}: trims of {self.trim} leave nothing of it")

    @property
    def usable_length(self) -> int:
        """Length inside the trims; for an endless roll the longest length the room can count."""
        return (self.length if self.length is not None else LONGEST) - 2 * self.trim

    @property
    def usable_width(self) -> int:
        """Width inside the trims; 1 for a stick, all of a board."""
        return 1 if self.form == "stick" else self.width - 2 * self.side_trim

    @property
    def side_trim(self) -> int:
        """Lost along each long edge."""
        return 0 if self.form in ("stick", "board") else self.trim


@dataclass(frozen=True, slots=True)
class Saw:
    """What the cutting can do.

    kerf : width a cut takes away (0 for knife and shears).
    stages : how often the direction may change, counting the first; one more cut may trim a piece to
        size. None: any number of turns.
    first_cut : which way the first cuts run.
    least_offcut : shorter and longer side from which a rest counts as useful, in any order.
    Raises LayoutError for fewer than two stages or a negative kerf.
    """

    kerf: int = 320
    stages: int | None = 3
    first_cut: Literal["along", "across", "any"] = "any"
    least_offcut: tuple[int, int] = DEFAULT_LEAST_OFFCUT

    def __post_init__(self) -> None:
        _whole("kerf", self.kerf, 0, 10_000)
        if self.stages is not None:
            _whole("stages of the saw", self.stages, 2, 20)
        if self.first_cut not in ("along", "across", "any"):
            raise LayoutError(f"first cut: expected along, across or any, was given {self.first_cut!r}")


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece on a sheet: lower left corner and size as it lies there, and what is cut from it last."""

    blank: str
    part: str
    x: int
    y: int
    length: int
    width: int
    turned: bool = False
    inside: tuple[Inside, ...] = ()
    parted: Axis = "across"

    @property
    def apart(self) -> "tuple[Placed, ...]":
        """The pieces it is cut into last, each where it lies; itself where it is not cut further."""
        if not self.inside:
            return (self,)
        in_y = (self.parted == "along") is not self.turned
        return tuple(
            Placed(self.blank, one.part, self.x, self.y + one.start, self.length, one.size, self.turned)
            if in_y
            else Placed(self.blank, one.part, self.x + one.start, self.y, one.size, self.width, self.turned)
            for one in self.inside
        )


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut of the list, in the order it is made.

    stage : 0 trims the stock; from 1 on how often the direction has changed.
    fence : what the fence is set to: width of what lies between fence and saw.
    from_, to_ : where the cut begins and ends. axis : which way it runs.
    position : the near side of the cut (y of a cut along, x of a cut across).
    kerf : what it takes away here; less than the saw's kerf where it runs half off the edge.
    """

    number: int
    stage: int
    fence: int
    from_: int
    to_: int
    axis: Axis
    position: int
    kerf: int

    @property
    def area(self) -> int:
        """What the cut turns to dust."""
        return (self.to_ - self.from_) * self.kerf


@dataclass(frozen=True, slots=True)
class Offcut:
    """A rectangle that is left over, whole, when the last cut is made."""

    x: int
    y: int
    length: int
    width: int

    @property
    def area(self) -> int:
        """Length times width."""
        return self.length * self.width

    def useful(self, least: tuple[int, int]) -> bool:
        """Whether it is at least as large as `least`, lying either way."""
        return min(self.length, self.width) >= min(least) and max(self.length, self.width) >= max(least)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One bought sheet, run of a roll, or stick, with what is cut from it."""

    stock: str
    form: Form
    length: int
    width: int
    trim: int
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]

    @property
    def area(self) -> int:
        """Of the whole sheet, trims included."""
        return self.length * self.width

    @property
    def pieces_area(self) -> int:
        """Of all pieces together."""
        return sum(piece.length * piece.width for piece in self.placed)

    @property
    def kerf_area(self) -> int:
        """Lost to all cuts but those that trim the stock."""
        return sum(cut.area for cut in self.cuts if cut.stage > 0)

    @property
    def offcuts_area(self) -> int:
        """Of everything left over."""
        return sum(offcut.area for offcut in self.offcuts)

    @property
    def trims_area(self) -> int:
        """Lost to the trims."""
        across = 0 if self.form in ("stick", "board") else self.trim
        return self.area - (self.length - 2 * self.trim) * (self.width - 2 * across)

    @property
    def unaccounted(self) -> int:
        """Sheet less pieces, offcuts, kerfs and trims: 0, exactly, or the sheet is wrong."""
        return self.area - self.pieces_area - self.offcuts_area - self.kerf_area - self.trims_area


@dataclass(frozen=True, slots=True)
class Bought:
    """What a layout needs: how many, of which sizes, how much running length and area, and the price.

    running_length : of rolls together, 0 for other forms. price : None unless all prices are known.
    """

    count: int
    by_stock: Mapping[str, int] = field(default_factory=dict)
    running_length: int = 0
    area: int = 0
    price: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Demand:
    """All blanks of one material and what they may be cut from.

    section : of sticks. aims : what a good layout is, the first aim first.
    findings : what was found in gathering it; they go on to the layout.
    Raises LayoutError when ids repeat, nothing can be bought, or forms are mixed that cannot be
    (sheets and rolled sheets go together; rolls and sticks each stand alone).
    """

    material: str
    blanks: tuple[Blank, ...]
    stock: tuple[StockSize, ...]
    saw: Saw = field(default_factory=Saw)
    section: Section | None = None
    findings: tuple[Finding, ...] = ()
    aims: tuple[CuttingAim, ...] = USUAL_AIMS

    def __post_init__(self) -> None:
        for what, ids in (("blank", [b.id for b in self.blanks]), ("stock", [s.id for s in self.stock])):
            if len(set(ids)) != len(ids):
                twice = sorted({name for name in ids if ids.count(name) > 1})
                raise LayoutError(f"{self.material}: {what} ids stand more than once: {twice}")
        if not self.stock:
            raise LayoutError(f"{self.material}: expected at least one stock size, was given none")
        kinds = {"sheet" if s.form == "rolled_sheet" else s.form for s in self.stock}
        if len(kinds) > 1:
            raise LayoutError(f"{self.material}: cannot mix stock of the forms {sorted(kinds)}")

    @property
    def aim(self) -> Aim:
        """What is made least: running length, money, area (prices not known), or the count.

        One size alone is counted. Of several the first of "least money" and "fewest sheets" among the aims
        says; without prices the least area is taken for the least money.
        """
        widths = {s.width for s in self.stock}
        roll = self.stock[0].form == "roll"
        in_rack = any(s.offcut for s in self.stock)
        if len(self.stock) == 1 or (roll and len(widths) == 1 and not in_rack):
            return "length" if roll else "fewest"
        first = next((aim for aim in self.aims if aim in ("fewest sheets", "least money")), "least money")
        if first == "fewest sheets" and not roll:
            return "fewest"
        return "money" if all(s.price is not None for s in self.stock) else "area"

    @property
    def pieces(self) -> int:
        """How many pieces there are in all."""
        return sum(blank.count for blank in self.blanks)


@dataclass(frozen=True, slots=True)
class Layout:
    """The answer for one material.

    bound : no plan for this saw can have a smaller `measure` (same unit as the aim: pieces of stock,
        money, 0.01 mm² or 0.01 mm). proved : `measure` equals `bound`.
    unplaced : blank ids and counts for which no stock is large enough, or not enough of it there;
        a finding says which and why.
    method : strips, engine, or lengths. checked : `verify` found no fault.
    """

    material: str
    sheets: tuple[Sheet, ...]
    bought: Bought
    aim: Aim
    bound: int | Decimal
    proved: bool
    seed: int = 0
    seconds: float = 0.0
    method: str = "strips"
    checked: bool = False
    findings: tuple[Finding, ...] = ()
    unplaced: tuple[tuple[str, int], ...] = ()
    section: Section | None = None

    @property
    def measure(self) -> int | Decimal:
        """The number the aim makes small."""
        return measure_of(self.aim, self.bought)

    @property
    def gap(self) -> float:
        """Share by which the measure stands above the bound; 0 when proved."""
        measure = self.measure
        return float((measure - self.bound) / measure) if measure else 0.0


def measure_of(aim: Aim, bought: Bought) -> int | Decimal:
    """The number that `aim` makes small."""
    if aim == "money":
        return bought.price if bought.price is not None else Decimal(0)
    return {"fewest": bought.count, "area": bought.area, "length": bought.running_length}[aim]
