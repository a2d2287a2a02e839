"""What lies in the rack, and what was done with it, as frozen records. Lengths are whole 0.01 mm."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Final, Literal, get_args
from unicodedata import category

from evenface.errors import Sentence, one_of, parts_of
from evenface.store.rack_codes import code_text, read_code
from evenface.store.schema import StoreError
from evenface.words import said

type Form = Literal["sheet", "rolled_sheet", "roll", "board", "offcut", "stick"]
type Grain = Literal["along", "across", "none"]
type Faces = Literal["label", "other", "both"]
type State = Literal["free", "reserved", "cut", "spoiled"]
type Kind = Literal["receive", "correct", "import", "reserve", "release", "cut", "spoil", "undo"]

FORMS: Final[tuple[str, ...]] = get_args(Form.__value__)
GRAINS: Final[tuple[str, ...]] = get_args(Grain.__value__)
FACES: Final[tuple[str, ...]] = get_args(Faces.__value__)
STATES: Final[tuple[str, ...]] = get_args(State.__value__)
KINDS: Final[tuple[str, ...]] = get_args(Kind.__value__)

LONGEST: Final = 20_000_000
"""200 m: the longest roll."""
_KIND_OF_DEFECT: Final = re.compile(r"[^\W\d_]+(?:[ -][^\W\d_]+){0,4}")
MOST_TEXT: Final = 2_000
MOST_MONEY: Final = 10_000_000
NEEDS_THICKNESS: Final = ("board", "stick")


class RackError(StoreError):
    """Something cannot be done with the rack; the text says what, why, and what to try."""


class WrongItem(RackError):
    """An item that cannot be: which entry of it, what was expected there, what was given."""

    def __init__(self, name: str, expected: Sentence, given: Sentence = "") -> None:
        self.name, self.expected, self.given = name, expected, given
        if given:
            told = said(
                "{name}: expected {expected:word}, was given {given:word}",
                name=name,
                expected=expected,
                given=given,
            )
        else:
            told = said("{name}: expected {expected:word}", name=name, expected=expected)
        super().__init__(told)


class NoSuchItem(RackError):
    """No item of the rack has that code."""


class Taken(RackError):
    """Somebody else was quicker; the text says who has it now. Nothing was changed."""


@dataclass(frozen=True, slots=True)
class Defect:
    """A knot, split or bruise: a rectangle from the lower left corner, and what it is."""

    x: int
    y: int
    length: int
    width: int
    kind: str = "knot"


@dataclass(frozen=True, slots=True)
class Left:
    """A rest that a plan leaves, or that was booked in: length along the length of what it is cut from."""

    length: int
    width: int


@dataclass(frozen=True, slots=True)
class RackItem:
    """One piece of stock.

    code : on its label; empty until it is booked in. thickness : as measured, None when not measured.
    grain : which way grain or pattern runs, along or across its length. faces : which side is good to show,
    that with the label, the other, or both. moisture : water as share of the dry mass, measured on moisture_on.
    place : where in the rack. price : of this one piece. value : what it still counts for in a plan; None takes
    the price. least : shorter and longer side from which a rest of it is worth keeping; None for the job's figure.
    photo : name of a file in the data folder, given by the rack alone. parent : code of what it was cut from.
    planned : rests that the plan it is reserved for leaves of it.
    last_action : number of the action that changed it last.
    Raises RackError for figures that cannot be.
    """

    form: Form
    material: str
    length: int
    width: int
    thickness: int | None = None
    code: str = ""
    batch: str = ""
    grain: Grain = "along"
    faces: Faces = "both"
    moisture: float | None = None
    moisture_on: date | None = None
    place: str = ""
    price: Decimal | None = None
    currency: str = ""
    value: Decimal | None = None
    least: tuple[int, int] | None = None
    received: date | None = None
    notes: str = ""
    defects: tuple[Defect, ...] = ()
    photo: str = ""
    state: State = "free"
    reserved_for: str = ""
    parent: str = ""
    planned: tuple[Left, ...] = ()
    last_action: int = 0

    def __post_init__(self) -> None:
        for wrong in _faults(self):
            raise WrongItem(*wrong)

    @property
    def area(self) -> int:
        """Length times width, in squares of 0.01 mm."""
        return self.length * self.width

    @property
    def size_mm(self) -> tuple[float, float]:
        """Length and width in mm."""
        return self.length / 100, self.width / 100


CORRECTABLE: Final = (
    *(
        "form",
        "material",
        "length",
        "width",
        "thickness",
        "batch",
        "grain",
        "faces",
        "moisture",
        "moisture_on",
    ),
    *("place", "price", "currency", "value", "least", "received", "notes", "defects", "photo"),
)
"""What `correct` may change; the rest is changed by reserving, cutting, spoiling and undoing alone."""
ALWAYS_CORRECTABLE: Final = ("place", "notes", "photo", "value", "received", "batch")
"""What may be corrected of an item that is cut or spoiled: its size is settled."""


def _faults(item: RackItem) -> Iterator[tuple[str, Sentence, Sentence]]:
    for name, given, known in (
        ("form", item.form, FORMS),
        ("grain", item.grain, GRAINS),
        ("faces", item.faces, FACES),
        ("state", item.state, STATES),
    ):
        if given not in known:
            yield name, one_of(known), repr(given)
    yield from _size_faults(item)
    yield from _money_faults(item)
    if item.moisture is not None and not 0.0 <= item.moisture <= 2.0:
        yield "moisture", "a share from 0 to 2", repr(item.moisture)
    if (item.state == "reserved") != bool(item.reserved_for):
        state = said("{state:word} for the job {job}", state=item.state, job=repr(item.reserved_for))
        yield "state", "a job where it is reserved, only there", state
    if item.planned and item.state != "reserved":
        yield "planned rests", "only of what is reserved", ""
    if "/" in item.photo or "\\" in item.photo or item.photo.startswith("."):
        yield "photo", "the plain name of a file", repr(item.photo)
    for defect in item.defects:
        if not _KIND_OF_DEFECT.fullmatch(defect.kind):
            yield "defects", "a word or two for what it is", repr(defect.kind)
        if min(defect.x, defect.y) < 0 or min(defect.length, defect.width) < 1:
            yield "defects", "a corner from 0 on and a size", str(defect)
    yield from _text_faults(item)
    yield from _code_faults(item)


def _size_faults(item: RackItem) -> Iterator[tuple[str, Sentence, Sentence]]:
    for name, size in (("length", item.length), ("width", item.width), ("thickness", item.thickness)):
        if size is None and name == "thickness":
            if item.form in NEEDS_THICKNESS:
                yield "thickness", said("one for a {form:word}", form=item.form), "none"
        elif not isinstance(size, int) or isinstance(size, bool) or not 1 <= size <= LONGEST:
            yield (
                name,
                said("from {least} mm to {most} mm", least=0.01, most=LONGEST // 100),
                said("{size} hundredths", size=repr(size)),
            )
    if item.least is not None and not (0 <= item.least[0] <= item.least[1] <= LONGEST):
        yield "least", "two sizes, the shorter first", str(item.least)


def _money_faults(item: RackItem) -> Iterator[tuple[str, Sentence, Sentence]]:
    for name, money in (("price", item.price), ("value", item.value)):
        if money is not None and not (money.is_finite() and 0 <= money <= MOST_MONEY):
            yield name, said("from 0 to {most}", most=str(MOST_MONEY)), str(money)
    if (item.price is not None or item.value is not None) and not item.currency:
        yield "currency", "one beside a price or value, such as EUR", "none"


def _text_faults(item: RackItem) -> Iterator[tuple[str, Sentence, Sentence]]:
    if not item.material:
        yield "material", "the name of one", "none"
    for name in ("material", "batch", "place", "currency", "notes", "reserved_for", "photo"):
        text: str = getattr(item, name)
        if text != text.strip() or any(category(sign) in ("Cc", "Cs") for sign in text):
            yield name, "one line without blanks at its ends", repr(text[:60])
        elif len(text) > MOST_TEXT:
            yield name, said("at most {most} signs", most=MOST_TEXT), str(len(text))


def _code_faults(item: RackItem) -> Iterator[tuple[str, Sentence, Sentence]]:
    for name in ("code", "parent"):
        code: str = getattr(item, name)
        try:
            kept = read_code(code) if code else ""
        except ValueError as problem:
            yield name, *parts_of(problem)
        else:
            if kept != code:
                yield name, kept, repr(code)


@dataclass(frozen=True, slots=True)
class Change:
    """What an action did to one item: None before means it was booked in, None after that it was taken out again."""

    code: str
    before: Mapping[str, object] | None
    after: Mapping[str, object] | None


@dataclass(frozen=True, slots=True)
class Action:
    """One entry of the log, which only ever grows.

    undoes : number of the action it takes back, for an undo. undone : whether a later entry takes this one back.
    """

    number: int
    kind: Kind
    at: str
    person: str
    job: str
    note: str
    undoes: int | None
    undone: bool
    changes: tuple[Change, ...] = ()

    @property
    def codes(self) -> tuple[str, ...]:
        """Codes of what it changed, as people read them."""
        return tuple(code_text(change.code) for change in self.changes)


@dataclass(frozen=True, slots=True)
class Balance:
    """What became of everything received, of one material or of all. areas : squares of 0.01 mm.

    received = free + reserved + cut + spoiled, in area exactly: what is cut counts without the rests that were
    booked in of it, for these lie in the rack as items of their own. booked_in : how many such rests there are.
    counts : items by state; their sum is received items + booked_in.
    """

    received: int
    free: int
    reserved: int
    cut: int
    spoiled: int
    received_count: int
    booked_in: int
    counts: Mapping[str, int] = field(default_factory=dict)

    @property
    def closes(self) -> bool:
        """Whether the sums are right."""
        return (
            self.received == self.free + self.reserved + self.cut + self.spoiled
            and self.received_count + self.booked_in == sum(self.counts.values())
        )
