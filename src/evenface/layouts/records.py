"""What a layout is made of. All lengths are whole hundredths of a millimetre, areas their squares.

x runs along the length of the sheet, y across it; the reference corner is (0, 0). A cut *along* runs
parallel to x at one y; a cut *across* runs parallel to y at one x. For sticks only x counts: every
width is 1, so that areas are lengths.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Final, Literal

from evenface.finding import Finding
from evenface.layouts.stock_records import (
    MOST_COPIES,
    Axis,
    Form,
    LayoutError,
    StockSize,
    Timber,
    sound_part,
    whole,
)
from evenface.piece.cutting_records import USUAL_AIMS, CuttingAim

type Aim = Literal["fewest", "money", "area", "length"]

DEFAULT_LEAST_OFFCUT: Final = (30_000, 10_000)


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
        whole(f"start of {self.part} inside its blank", self.start, 0)
        whole(f"size of {self.part} inside its blank", self.size, 1)


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
    same : name of the set whose blanks all come from one sheet, same_batch from one batch, empty for none.
    batch : the one it has to come from, "" for what is bought together, None for any. seam : what it is joined to
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
    same_batch: str = ""
    batch: str | None = None

    def __post_init__(self) -> None:
        whole(f"length of blank {self.id}", self.length, 1)
        whole(f"width of blank {self.id}", self.width, 1)
        whole(f"count of blank {self.id}", self.count, 1, MOST_COPIES)


@dataclass(frozen=True, slots=True)
class Saw:
    """What the cutting can do.

    kerf : width a cut takes away (0 for knife and shears).
    stages : how often the direction may change, counting the first; one more cut may trim a piece to
        size. None: any number of turns.
    first_cut : which way the first cuts run.
    least_offcut : shorter and longer side from which a rest counts as useful, in any order.
    most_turned : largest area that is turned on the saw in one piece, None for any. Of a larger sheet the edges
        across the first cuts are trimmed when it lies there in strips.
    Raises LayoutError for fewer than two stages or a negative kerf.
    """

    kerf: int = 320
    stages: int | None = 3
    first_cut: Literal["along", "across", "any"] = "any"
    least_offcut: tuple[int, int] = DEFAULT_LEAST_OFFCUT
    most_turned: int | None = None

    def __post_init__(self) -> None:
        whole("kerf", self.kerf, 0, 10_000)
        if self.stages is not None:
            whole("stages of the saw", self.stages, 2, 20)
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

    stage : 0 trims the stock; from 1 on how often the direction has changed. A trim in the list after cuts of a
    higher stage is made on every strip there is by then, each by itself; the cuts before it run on to the raw edge.
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
    """One bought sheet, run of a roll, or stick, with what is cut from it.

    timber : shape and faults that it was cut round.
    """

    stock: str
    form: Form
    length: int
    width: int
    trim: int
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]
    timber: Timber | None = None

    @property
    def area(self) -> int:
        """Of the whole sheet, trims included."""
        return self.length * self.width

    @property
    def pieces_area(self) -> int:
        """Of all pieces together."""
        return sum(piece.length * piece.width for piece in self.placed)

    @property
    def sound_rests(self) -> tuple[Offcut, ...]:
        """What is left over, each rest with its knots and damage cut away."""
        flaws = self.timber.flaws if self.timber is not None else ()
        parts = (sound_part(one.x, one.y, one.length, one.width, flaws) for one in self.offcuts)
        return tuple(Offcut(*part) for part in parts if part is not None)

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
    method : strips, engine, or lengths. checked : `verify` found no fault. kept : made before, and not anew.
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
    kept: bool = False

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
