"""Which materials of the catalogue belong to a class, and the figures that stand there: weight, class of glues."""

from dataclasses import replace

from evenface.evidence import Status, Value, exactly
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


def with_catalogue(one: MaterialClass, catalogue: Catalogue) -> MaterialClass:
    """The class with what the catalogue knows of it; those figures go before the file's."""
    return _with_glue(one, catalogue) if one.kind == "glue" else with_weight(one, catalogue)


def _with_glue(one: MaterialClass, catalogue: Catalogue) -> MaterialClass:
    """Heat from where the joint begins to give, water from its class: D3 is grade 3."""
    if one.name not in catalogue.names("glue"):
        return one
    glue, found = catalogue.glue(one.name), dict(one.traits)
    if glue.softens_at is not None:
        found["heat"] = Trait(glue.softens_at, found["heat"].why if "heat" in found else "")
    if glue.water_class:
        value = exactly(float(glue.water_class[1:]), "grade", Status.READ, f"EN 204 class {glue.water_class}")
        found["water"] = Trait(value, found["water"].why if "water" in found else "")
    return replace(one, traits=found)


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
