"""What is particular to each kind of glue: why it, and how it is worked."""

from collections.abc import Mapping
from typing import Final

from evenface.materials import Glue
from evenface.words import Said, said

_PRESSED: Final = (
    said("Spread evenly on the board, close at once, press within the open time."),
    said("Pressure until the press time is over; then stand it with air on both sides."),
)
_CONTACT: Final = (
    said("Spread both surfaces, the second at right angles to the first; a dull spot wants a second coat."),
    said("Wait until a knuckle no longer sticks. Cool or wet to the back of the finger: wait longer."),
    said("Lay on spacers, line up, draw the spacers from the middle: once it grabs it does not move."),
)
HOW: Final[Mapping[str, tuple[Said, ...]]] = {
    "pva": (*_PRESSED, said("It brings water: face and back together, and a bow for two days is usual.")),
    "contact_solvent": _CONTACT,
    "contact_water": (
        *_CONTACT,
        said("Between two dense surfaces it dries slowly: give it time before closing."),
    ),
    "urea": (
        said("Mix resin and hardener by weight, as the data sheet says; note the minute: pot life runs."),
        *_PRESSED,
        said("Colder than the least temperature it does not set at all."),
    ),
    "polyurethane": (
        said("Spread thinly on one side, dampen the other with a wrung cloth."),
        said("It foams and lifts: keep the pressure on until it has set; scrape the foam when rubbery."),
    ),
    "hot_melt": (said("Close within seconds; for machines or very small pieces."),),
    "hide": (said("Warm board and sheet; close at once, or press with a warm caul."), *_PRESSED),
    "epoxy": (
        said("Mix by weight exactly; wet both sides; little pressure, or the joint starves."),
        said("Warm mixed glue in a cup runs away from you: spread it out."),
    ),
}
LINOLEUM_WET: Final = said(
    "On wet glue linoleum grows across the roll and shortens along it: let it lie about 30 min before a "
    "neighbour is fitted, ends free; pad clamps, marks stay."
)


def why_this_glue(glue: Glue) -> Said:
    """What the glue is for, in one sentence: water, heat, creep."""
    parts: list[Said] = []
    if glue.water_class:
        parts.append(said("water class {name}", name=glue.water_class))
    if glue.softens_at is not None:
        parts.append(said("gives from about {warm:count} °C", warm=glue.softens_at.low))
    parts.append(said("sets hard") if glue.rigid else said("stays soft and creeps"))
    return _row(parts)


def _row(parts: list[Said]) -> Said:
    fields = {f"p{number}": one for number, one in enumerate(parts)}
    return Said(", ".join(f"{{{name}}}" for name in fields), fields)
