"""The tables of a job file as they are written: every field is a key, any other word an unknown key."""

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from evenface.errors import Unreadable
from evenface.piece.bench_forms import FlatForm, MoistureForm
from evenface.piece.calendar_forms import DoneForm
from evenface.piece.fields import (
    Count,
    Currency,
    Day,
    FileName,
    Flag,
    Humidity,
    Line,
    Month,
    Number,
    Positive,
    Size,
    SizeOrNone,
    Spot,
    Temperature,
    Word,
)
from evenface.piece.form import CutWord, Form, OrderWord, Section, SideWord
from evenface.piece.shape_forms import (
    CornersForm,
    CutoutForm,
    GripForm,
    HoldForm,
    InsertForm,
    OutlineForm,
    ProfileForm,
)

UseWord = Literal["top", "shelf", "door", "front", "side", "panel"]


def _money(given: object) -> object:
    return str(given) if isinstance(given, int | float) and not isinstance(given, bool) else given


Price = Annotated[Decimal, BeforeValidator(_money), Field(ge=0, allow_inf_nan=False, max_digits=12)]


def _as_table(given: object) -> object:
    return {"material": given} if isinstance(given, str) else given


def _as_list(given: object) -> object:
    return [given] if isinstance(given, dict) else given


def _whole_year(given: object) -> object:
    """Twelve monthly values, or one for all of them."""
    if not isinstance(given, list):
        return [given] * 12
    if len(given) != 12:
        raise Unreadable("twelve values, January to December", str(len(given)))
    return given


def _as_overhang(given: object) -> object:
    return given if isinstance(given, dict) else {"every": given}


@dataclass(frozen=True, kw_only=True)
class LayerForm(Form):
    material: Word
    thickness: Size | None = None
    turned: Flag = False
    humidity: Humidity | None = None
    days_conditioned: Number | None = None
    batch: Line = ""


LayerEntry = Annotated[LayerForm, BeforeValidator(_as_table)]


@dataclass(frozen=True, kw_only=True)
class EdgingForm(Form):
    wood: Word | None = None
    width: Size | None = None
    cut: CutWord | None = None
    section: Section | None = None
    top: Section | None = None
    bottom: Section | None = None
    order: OrderWord | None = None
    proud: SizeOrNone | None = None
    broken_edge: SizeOrNone | None = None
    sealed: Flag | None = None


@dataclass(frozen=True, kw_only=True)
class PanelEdgingForm(EdgingForm):
    front: EdgingForm | None = None
    rear: EdgingForm | None = None
    left: EdgingForm | None = None
    right: EdgingForm | None = None


@dataclass(frozen=True, kw_only=True)
class BuildUpForm(Form):
    carrier: LayerEntry
    glue: Word
    face: LayerEntry | None = None
    back: LayerEntry | None = None
    edging: EdgingForm | None = None
    edging_glue: Line = ""
    finish: Line = ""
    same_sheet: Line = ""
    same_batch: Line = ""
    bonding_humidity: Humidity | None = None


@dataclass(frozen=True, kw_only=True)
class OverhangForm(Form):
    every: SizeOrNone | None = None
    front: SizeOrNone | None = None
    rear: SizeOrNone | None = None
    left: SizeOrNone | None = None
    right: SizeOrNone | None = None


@dataclass(frozen=True, kw_only=True)
class AllowancesForm(Form):
    overhang: Annotated[OverhangForm, BeforeValidator(_as_overhang)] = field(default_factory=OverhangForm)
    proud_under: SizeOrNone | None = None
    proud_flush: SizeOrNone | None = None
    end: SizeOrNone | None = None
    carrier: SizeOrNone | None = None


@dataclass(frozen=True, kw_only=True)
class LimitForm(Form):
    mm: Size
    gauge: Size = 1000.0


@dataclass(frozen=True, kw_only=True)
class ClimateForm(Form):
    top: Line = ""
    bottom: Line = ""


@dataclass(frozen=True, kw_only=True)
class PanelForm(Form):
    name: Word
    buildup: Word
    size: tuple[Size, Size]
    count: Count = 1
    use: UseWord = "panel"
    outline: OutlineForm | None = None
    edges: tuple[SideWord, ...] | None = None
    edging: PanelEdgingForm | None = None
    corners: CornersForm | None = None
    profile: Annotated[tuple[ProfileForm, ...], BeforeValidator(_as_list)] = ()
    insert: Annotated[tuple[InsertForm, ...], BeforeValidator(_as_list)] = ()
    grip: Annotated[tuple[GripForm, ...], BeforeValidator(_as_list)] = ()
    cutout: Annotated[tuple[CutoutForm, ...], BeforeValidator(_as_list)] = ()
    allowances: AllowancesForm = field(default_factory=AllowancesForm)
    hold: HoldForm | None = None
    limit: LimitForm | None = None
    climate: ClimateForm = field(default_factory=ClimateForm)
    run: Line = ""
    same_sheet: Line = ""
    same_batch: Line = ""
    seams: tuple[Size, ...] | Literal["none"] | None = None
    span: Size | None = None
    load: Positive | None = None


@dataclass(frozen=True, kw_only=True)
class PieceForm(Form):
    """What every kind of piece has; a kind's own form adds its tables. brief : what this piece must bear."""

    name: Word
    count: Count = 1
    kind: str = "panels"
    brief: dict[str, object] | None = None


@dataclass(frozen=True, kw_only=True)
class JobTableForm(Form):
    name: Word
    client: Line = ""
    due: Day = ""
    place: Line = ""
    room: Line = ""
    humidity: Annotated[tuple[Humidity, ...], BeforeValidator(_whole_year)] = ()
    temperature: Annotated[tuple[Temperature, ...], BeforeValidator(_whole_year)] = ()
    logger: FileName | None = None
    shop_humidity: Humidity = 0.5
    bonding_month: Month = 9
    currency: Currency = ""


@dataclass(frozen=True, kw_only=True)
class SawForm(Form):
    kerf: SizeOrNone = 3.2
    trim: SizeOrNone = 10.0
    stages: Annotated[int, Field(strict=True, ge=2, le=20)] | None = 3
    first_cut: Literal["along", "across", "any"] = "any"


@dataclass(frozen=True, kw_only=True)
class ShopForm(Form):
    """Router, bushes and cutters as measured."""

    bush: Size = 30.0
    cutter: Size = 12.0
    bearing: Size | None = None
    small_bush: Size | None = None
    cutters: tuple[Size, ...] = ()
    reach: Size | None = None
    template: Size = 12.0
    base: Size = 150.0


def _both(given: object) -> object:
    """One figure stands for both edges."""
    return given if isinstance(given, list) else [given, given]


@dataclass(frozen=True, kw_only=True)
class DefectForm(Form):
    at: tuple[Spot, Spot]
    size: tuple[Size, Size]
    kind: Literal["knot", "split", "pith", "sapwood", "other"] = "knot"


@dataclass(frozen=True, kw_only=True)
class StockForm(Form):
    material: Word
    size: tuple[Size, Size] | None = None
    width: Size | None = None
    copies: Count | None = None
    price: Price | None = None
    form: Literal["sheet", "rolled_sheet", "roll", "offcut", "board", "stick"] | None = None
    batch: Line = ""
    thickness: Size | None = None
    far_width: Size | None = None
    wane: Annotated[tuple[SizeOrNone, SizeOrNone], BeforeValidator(_both)] = (0.0, 0.0)
    defect: Annotated[tuple[DefectForm, ...], BeforeValidator(_as_list)] = ()


@dataclass(frozen=True, kw_only=True)
class CutForm(Form):
    """Of a made file: one layer as it came out at the bench."""

    piece: Word
    panel: Word
    layer: Literal["carrier", "face", "back", "edging"]
    edge: SideWord | None = None
    length: Size | None = None
    width: Size | None = None


@dataclass(frozen=True, kw_only=True)
class OpeningMadeForm(Form):
    """Of a made file: an opening a facing is to be fitted into."""

    piece: Word
    panel: Word
    layer: Literal["face", "back"] = "face"
    length: Size | None = None
    width: Size | None = None


@dataclass(frozen=True, kw_only=True)
class SpoiledForm(Form):
    """Of a made file: a part that has to be made again."""

    piece: Word
    panel: Word
    layer: Literal["carrier", "face", "back", "edging"]
    edge: SideWord | None = None
    count: Count = 1


@dataclass(frozen=True, kw_only=True)
class MadeForm(Form):
    format: Annotated[int, Field(strict=True)]
    thickness: dict[str, Size] = field(default_factory=dict)
    humidity: dict[str, Humidity] = field(default_factory=dict)
    cut: tuple[CutForm, ...] = ()
    opening: tuple[OpeningMadeForm, ...] = ()
    spoiled: tuple[SpoiledForm, ...] = ()
    done: tuple[DoneForm, ...] = ()
    moisture: tuple[MoistureForm, ...] = ()
    flat: tuple[FlatForm, ...] = ()
