"""What the sheets of a job may be bought from: the maker's own stock list, else what the trade supplies."""

from evenface.evidence import Status
from evenface.materials import Carrier, Facing, Supply
from evenface.piece.records import Job, StockItem

KNIFE_CUT = ("linoleum", "paper", "veneer")
SHEET_FORMS = ("sheet", "rolled_sheet", "roll")


def supplies_for(job: Job, material: Carrier | Facing) -> tuple[tuple[Supply, int | None], ...]:
    """Sizes of supply with the number of copies at hand (None: as many as wanted).

    A material named in the job's stock list is bought from that list alone.
    """
    own = [item for item in job.stock if item.material == material.name]
    if own:
        return tuple((_supply(item, job.currency), item.copies) for item in own)
    return tuple((supply, None) for supply in material.supplies if supply.form in SHEET_FORMS)


def may_turn(material: Carrier | Facing) -> bool:
    """Whether a blank may lie across the sheet: only boards without grain, pattern or machine direction."""
    return isinstance(material, Carrier) and material.board in ("mdf", "particleboard") and not material.faced


def cut_by_knife(material: Carrier | Facing) -> bool:
    """Whether it is cut with a knife or shears: no kerf, and no saw trim on a sheet's edges."""
    return isinstance(material, Facing) and material.family in KNIFE_CUT


def trim_mm(job: Job, material: Carrier | Facing) -> float:
    """What each edge of a bought sheet loses before the first cut."""
    return 0.0 if cut_by_knife(material) else job.saw.trim_mm


def _supply(item: StockItem, currency: str) -> Supply:
    by_metre = item.length_mm is None or bool(item.codes and item.form == "roll")
    return Supply(
        form="roll" if by_metre else "rolled_sheet" if item.form == "rolled_sheet" else "sheet",
        length_mm=item.length_mm,
        width_mm=item.width_mm,
        thickness_mm=None,
        sold_by="metre" if by_metre else "piece",
        price=item.price,
        currency=(currency or "¤") if item.price is not None else None,
        status=Status.MEASURED,
        source="stock list of the job",
    )
