"""What is particular to each kind of glue: why it, how it is mixed and worked, what air it wants, how it is tried."""

from collections.abc import Iterator, Mapping
from typing import Final

from evenface.materials import Glue
from evenface.words import NOTHING, Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_gate import MOST_HUMIDITY

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
    "pva": _PRESSED,
    "contact_solvent": _CONTACT,
    "contact_water": (
        *_CONTACT,
        said("Between two dense surfaces it dries slowly: give it time before closing."),
    ),
    "urea": (*_PRESSED, said("Colder than the least temperature it does not set at all.")),
    "polyurethane": (
        said("Spread thinly on one side, dampen the other with a wrung cloth."),
        said("It foams and lifts: keep the pressure on until it has set; scrape the foam when rubbery."),
    ),
    "hot_melt": (said("Close within seconds; for machines or very small pieces."),),
    "hide": (said("Warm board and sheet; close at once, or press with a warm caul."), *_PRESSED),
    "epoxy": (
        said("Wet both sides; little pressure, or the joint starves."),
        said("Warm mixed glue in a cup runs away from you: spread it out."),
    ),
}
FACES_WET: Final = said("It brings water: face and back together, and a bow for two days is usual.")
LINOLEUM_WET: Final = said(
    "On wet glue linoleum grows across the roll and shortens along it: let it lie about 30 min before a "
    "neighbour is fitted, ends free; pad clamps, marks stay."
)
LINOLEUM_FITTED: Final = said(
    "Here it lies between edgings. Lay a trial strip with this glue, measure it after 30 min, and fit the sheet "
    "tighter along the roll and slacker across it by what the strip shows."
)
_WATER: Final[Mapping[str, str]] = {
    "D1": "water class D1: dry rooms only, wood up to 15 % moisture",
    "D2": "water class D2: now and then a little water for a short time",
    "D3": "water class D3: water often but briefly, damp air",
    "D4": "water class D4: water often and long",
}
_TWO_PARTS: Final = ("urea", "epoxy")
_TRIED: Final[Mapping[str, str]] = {
    "contact": "bond, wait a day, peel it: the film must stretch or tear on both sides, not come off one clean",
    "rigid": "bond it with the same pressure and time, prise it apart next day: wood must tear, not the glue line",
}
STRIP_MM: Final = (450.0, 150.0)
"""READ, a magazine: a test piece of the whole build-up, run through every setup."""


def why_this_glue(glue: Glue) -> Said:
    """What the glue is for, in one sentence: water (EN 204), heat, creep, its time."""
    parts: list[Said] = []
    if glue.water_class:
        parts.append(Said(_WATER[glue.water_class]))
    else:
        parts.append(said("no water class of EN 204"))
    if glue.softens_at is not None:
        parts.append(said("gives from about {warm:count} °C", warm=glue.softens_at.low))
    if not glue.rigid:
        parts.append(said("stays soft and creeps"))
    elif glue.kind in ("pva", "hide"):
        parts.append(said("sets hard, yields a little under lasting load"))
    else:
        parts.append(said("sets hard"))
    if times.is_contact(glue):
        parts.append(said("no clamps, but it does not move once it grabs"))
    return _row(parts)


def mixing_of(glue: Glue, lot_g: float) -> Said:
    """How a glue in two parts is mixed; empty for glue used as it comes."""
    if glue.kind in _TWO_PARTS:
        return said(
            "Mix {grams:count} g for one piece, resin and hardener weighed in the data sheet's proportion, until "
            "it is of one colour; write down the minute: pot life runs, and is shorter when warm.",
            grams=lot_g,
        )
    if glue.water_class == "D4" and glue.kind == "pva":
        return said(
            "Many D4 white glues take a hardener: then weigh it to the {grams:count} g of one piece and mind the "
            "pot life.",
            grams=lot_g,
        )
    return NOTHING


def gate_of(glue: Glue) -> Said:
    """What warmth and dryness the shop must have."""
    least = glue.least_temperature
    warm = said(
        "Air, board and glue at least {least:count} °C (sources say {low:count} to {high:count})",
        least=least.nominal,
        low=least.low,
        high=least.high,
    )
    if times.is_wet(glue):
        return said("{warm}; air not above {damp:percent}.", warm=warm, damp=MOST_HUMIDITY.nominal)
    if times.is_contact(glue):
        return said("{warm}; no dew on the film: damp air and a cold board make it blush.", warm=warm)
    if glue.kind == "polyurethane":
        return said("{warm}; it sets by water: dampen dry wood.", warm=warm)
    return said("{warm}.", warm=warm)


def trial_of(glue: Glue) -> Said:
    """The test strip: what to glue and how it must break."""
    key = "contact" if times.is_contact(glue) else "rigid"
    return said(
        "Test strip {long:mm} × {wide:mm} of the same materials and batch: {how:word}.",
        long=STRIP_MM[0],
        wide=STRIP_MM[1],
        how=_TRIED[key],
    )


def how_of(glue: Glue) -> Iterator[Said]:
    """How it is worked, with the glue's own times."""
    if times.is_contact(glue):
        yield said(
            "Dry after {low:count} to {high:count} min; close within {most:count} min of the first spread.",
            low=glue.open_time.low,
            high=glue.open_time.high,
            most=(glue.closed_time or glue.open_time).nominal,
        )
    yield from HOW[glue.kind]


def _row(parts: list[Said]) -> Said:
    fields = {f"p{number}": one for number, one in enumerate(parts)}
    return Said(", ".join(f"{{{name}}}" for name in fields), fields)
