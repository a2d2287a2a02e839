"""Which materials of the catalogue belong to a class, and what a square metre of them weighs."""

from dataclasses import replace

from evenface.evidence import Status, Value
from evenface.materials import Catalogue
from evenface.materials.traits import MaterialClass, Trait

NAMED = ("glue", "wood", "finish")


def members(one: MaterialClass, catalogue: Catalogue) -> tuple[str, ...]:
    """Their names, as a job file says them."""
    if one.names:
        return one.names
    if one.kind in NAMED:
        return (one.name,) if one.name in catalogue.names(one.kind) else ()
    if one.boards:
        return tuple(
            name
            for name in catalogue.names("carrier")
            if any(name == board or name.rpartition("-")[0] == board for board in one.boards)
        )
    if one.family:
        sheets = [catalogue.facing(name) for name in catalogue.names("facing")]
        return tuple(
            sheet.name
            for sheet in sheets
            if sheet.family == one.family and sheet.grade == (one.grade or sheet.grade)
        )
    return ()


def with_weight(one: MaterialClass, catalogue: Catalogue) -> MaterialClass:
    """The class with its weight, kg/m²; of boards the one nearest to 18 mm, for a compact board 12 mm."""
    if one.kind not in ("facing", "carrier"):
        return one
    names = members(one, catalogue)
    if not names:
        return one
    if one.boards:
        boards = [catalogue.carrier(name) for name in names]
        wanted = 12.0 if boards[0].board == "compact" else 18.0
        board = min(boards, key=lambda each: abs(each.nominal_mm - wanted))
        density, thickness, title = board.density, board.thickness, board.title
    else:
        sheet = catalogue.facing(names[0])
        density, thickness, title = sheet.density, sheet.thickness, sheet.title
    low, nominal, high = (
        getattr(density, end) * getattr(thickness, end) / 1000.0 for end in ("low", "nominal", "high")
    )
    value = Value(nominal, low, high, "kg/m²", Status.DERIVED, f"Density × thickness of {title}")
    return replace(one, traits={**one.traits, "weight": Trait(value)})
