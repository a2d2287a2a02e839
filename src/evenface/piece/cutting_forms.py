"""Tables about cutting as they are written: `[cutting]` of a job; a stock entry's board as a record."""

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator

from evenface.piece.cutting_records import (
    USUAL_AIMS,
    Cutting,
    CuttingAim,
    Defect,
    MerchantSaw,
    RoughBoard,
)
from evenface.piece.fields import Positive, Size, SizeOrNone
from evenface.piece.form import Form
from evenface.piece.forms import Price, StockForm

AimWord = Literal[
    "fewest sheets", "least money", "offcuts first", "largest offcut", "fewest cuts", "fewest settings"
]


def _once(aims: tuple[CuttingAim, ...]) -> tuple[CuttingAim, ...]:
    if not aims or len(set(aims)) < len(aims):
        raise ValueError("expected at least one aim and each once")
    return aims


@dataclass(frozen=True, kw_only=True)
class MerchantForm(Form):
    kerf: SizeOrNone = 4.0
    sheet_trim: SizeOrNone = 10.0
    piece_trim: SizeOrNone = 5.0
    least_strip: Size = 50.0


@dataclass(frozen=True, kw_only=True)
class CuttingForm(Form):
    aims: Annotated[tuple[AimWord, ...], AfterValidator(_once)] = USUAL_AIMS
    least_offcut: tuple[Size, Size] = (100.0, 300.0)
    offcut_value: Price | None = None
    lift: Positive = 25.0
    rail: Size = 1400.0
    shears: Size = 1300.0
    boards: Literal["rip first", "crosscut first", "better"] = "better"
    planed_width: SizeOrNone = 3.0
    planed_thickness: SizeOrNone = 3.0
    merchant: MerchantForm = field(default_factory=MerchantForm)


def cutting_of(form: CuttingForm) -> Cutting:
    """The table as a record."""
    value: Decimal | None = form.offcut_value
    merchant = form.merchant
    return Cutting(
        aims=form.aims,
        least_offcut_mm=form.least_offcut,
        offcut_value=value,
        lift_kg=form.lift,
        rail_mm=form.rail,
        shears_mm=form.shears,
        rip_first={"rip first": True, "crosscut first": False}.get(form.boards),
        planed_width_mm=form.planed_width,
        planed_thickness_mm=form.planed_thickness,
        merchant=MerchantSaw(merchant.kerf, merchant.sheet_trim, merchant.piece_trim, merchant.least_strip),
    )


def board_of(form: StockForm) -> RoughBoard:
    """What a stock entry says of its board."""
    defects = tuple(Defect(one.at, one.size, one.kind) for one in form.defect)
    return RoughBoard(form.thickness, form.far_width, form.wane, defects)
