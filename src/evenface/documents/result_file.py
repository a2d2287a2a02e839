"""The shape of `result.json`, field by field; its schema is made from these records.

Lengths in mm rounded to 1e-6, angles in degrees, masses in kg. Sentences are finished English: other
programs show them, they do not take them apart. Fields may be added within one schema name; none changes its
meaning or leaves.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from pydantic import ConfigDict, Field

from evenface.result import SCHEMA

_STRICT = ConfigDict(extra="forbid", allow_inf_nan=False, title=None)

type Size3 = Annotated[tuple[float, float, float], Field(description="length, width, thickness [mm]")]
type Number = float | None


class _Entry:
    """Reading refuses unknown fields and numbers that are not finite."""

    __slots__ = ()
    __pydantic_config__: ClassVar[ConfigDict] = _STRICT


@dataclass(frozen=True, slots=True)
class LayerEntry(_Entry):
    """One layer of a part: its sizes in the finished piece, at the saw, as glued on, and as bought."""

    role: Annotated[str, Field(description="carrier, face, back, edging, insert, lining, corner or board")]
    edge: Annotated[str | None, Field(description="front, rear, left or right, of an edging")]
    name: str
    material: str
    title: str
    count: Annotated[int, Field(ge=1, description="in one part")]
    net_mm: Size3
    cut_mm: Size3
    blank_mm: Size3
    bought_mm: Annotated[Size3 | None, Field(description="rough stick of an edging; null for sheets")]
    inner_mm: Annotated[Number, Field(description="length at the inner side of an edging [mm]")]
    angles_deg: Annotated[tuple[float, float], Field(description="between the end cut and the strip")]
    along_x: bool
    direction_deg: float
    tolerance_mm: float
    locked: Annotated[bool, Field(description="already cut; sizes as measured")]
    fitted: Annotated[bool, Field(description="scribed into its opening")]
    depends_on: tuple[str, ...]
    reasons: tuple[str, ...]
    origin: Annotated[str, Field(description="key path in the job file")]


@dataclass(frozen=True, slots=True)
class PartEntry(_Entry):
    """One part, so many times."""

    id: str
    piece: str
    part: str
    count: Annotated[int, Field(ge=1, description="in the whole job")]
    finished_mm: Size3
    mass_kg: float
    marks: Mapping[str, str]
    layers: tuple[LayerEntry, ...]
    origin: str


@dataclass(frozen=True, slots=True)
class ChangeEntry(_Entry):
    """An entry of the job file set differently."""

    path: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class RemedyEntry(_Entry):
    """A way out, in words and as entries of the job file, with the value it is expected to lead to."""

    code: str
    message: str
    changes: tuple[ChangeEntry, ...]
    predicted_low: Number
    predicted_nominal: Number
    predicted_high: Number


@dataclass(frozen=True, slots=True)
class FindingEntry(_Entry):
    """Something to know about a piece. `value` is the end of the range that decides."""

    code: str
    severity: Literal["stop", "weigh", "note"]
    where: Annotated[str, Field(description="piece, part, place, in words")]
    piece: str
    part: str
    at: str
    origin: str
    value: Number
    value_low: Number
    value_nominal: Number
    value_high: Number
    limit: Number
    unit: str
    gauge_mm: Number
    message: str
    why: str
    source: str
    weakest: Annotated[str, Field(description="weakest evidence: measured, read, derived, practice, memory")]
    remedies: tuple[RemedyEntry, ...]


@dataclass(frozen=True, slots=True)
class PlacementEntry(_Entry):
    """A piece on a sheet: lower left corner and size as it lies. width_mm is null on a stick."""

    blank: str
    part: str
    x_mm: float
    y_mm: Number
    length_mm: float
    width_mm: Number
    turned: bool


@dataclass(frozen=True, slots=True)
class CutEntry(_Entry):
    """One cut, in order. position_mm: y of a cut along, x of a cut across. stage 0 trims the stock."""

    number: int
    stage: int
    axis: Literal["along", "across"]
    fence_mm: float
    position_mm: float
    from_mm: float
    to_mm: float
    kerf_mm: float


@dataclass(frozen=True, slots=True)
class OffcutEntry(_Entry):
    """A rectangle left over whole."""

    x_mm: float
    y_mm: Number
    length_mm: float
    width_mm: Number


@dataclass(frozen=True, slots=True)
class StockEntry(_Entry):
    """One bought sheet, run of a roll or stick, and what is cut from it."""

    stock: str
    form: Literal["sheet", "rolled_sheet", "roll", "stick", "board"]
    size_mm: Annotated[tuple[float, Number], Field(description="length, width; a stick has no width")]
    trim_mm: float
    placements: tuple[PlacementEntry, ...]
    cuts: tuple[CutEntry, ...]
    offcuts: tuple[OffcutEntry, ...]


@dataclass(frozen=True, slots=True)
class BoughtEntry(_Entry):
    """What a layout needs. price is a decimal number as text, null unless all prices are known."""

    count: int
    by_stock: Mapping[str, int]
    running_length_mm: float
    area_mm2: float
    price: str | None


@dataclass(frozen=True, slots=True)
class UnplacedEntry(_Entry):
    """A blank for which there is no stock."""

    blank: str
    count: int


@dataclass(frozen=True, slots=True)
class LayoutEntry(_Entry):
    """The plan for one material. No plan for this saw has a `measure` below `bound` (in `measure_unit`)."""

    material: str
    title: str
    aim: Literal["fewest", "money", "area", "length"]
    stock: tuple[StockEntry, ...]
    bought: BoughtEntry
    measure: float
    bound: float
    measure_unit: Literal["pieces of stock", "money", "mm2", "mm"]
    proved: bool
    method: str
    checked: bool
    seed: int
    unplaced: tuple[UnplacedEntry, ...]


@dataclass(frozen=True, slots=True)
class BuyingEntry(_Entry):
    """One line of the buying list."""

    material: str
    title: str
    form: str
    size_mm: tuple[Number, Number] | None
    amount: float
    unit: str
    note: str


@dataclass(frozen=True, slots=True)
class FlatEntry(_Entry):
    """How one part bends one way through the year. worst_mm : the end of the range that decides."""

    piece: str
    part: str
    direction: Literal["bow", "cup", "twist"]
    gauge_mm: Annotated[float, Field(description="length the rise is read over; of twist the diagonal")]
    nominal_mm: Annotated[Number, Field(description="null for twist, which has only a range")]
    worst_mm: Annotated[float, Field(description="above 0: show face domed")]
    month: Annotated[int, Field(ge=1, le=12)]
    low_mm: float
    high_mm: float
    limit_mm: Annotated[float, Field(description="over the same gauge")]
    evidence: Annotated[str, Field(description="weakest evidence: measured, read, derived, practice, memory")]
    held: Literal["free", "hinged", "screwed", "groove"]
    force_n: Annotated[Number, Field(description="at the fixing that bears most, of a held part [N]")]


@dataclass(frozen=True, slots=True)
class NotDoneEntry(_Entry):
    """What was left out, and why."""

    room: str
    why: str


@dataclass(frozen=True, slots=True)
class JobEntry(_Entry):
    """What the job file says of itself."""

    name: str
    client: str
    due: str
    place: str
    file: str


@dataclass(frozen=True, slots=True)
class ResultFile(_Entry):
    """A planned job. hashes : of the input it was made from. flatness : three rows a part."""

    schema: Literal["evenface-result-1"]
    version: str
    hashes: Mapping[str, str]
    seed: int
    seconds: float
    job: JobEntry
    parts: tuple[PartEntry, ...]
    findings: tuple[FindingEntry, ...]
    layouts: tuple[LayoutEntry, ...]
    buying: tuple[BuyingEntry, ...]
    flatness: tuple[FlatEntry, ...]
    not_done: tuple[NotDoneEntry, ...]
    files: Annotated[tuple[str, ...], Field(description="written beside this one, last this one itself")]


assert SCHEMA == "evenface-result-1"
