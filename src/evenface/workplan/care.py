"""How the finished piece is cared for, from what it is built of: heat, cleaning, light, mending, spares."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from typing import Final

from evenface.construction import BuiltBoard, BuiltPanel
from evenface.evidence import Status
from evenface.words import Said, said
from evenface.workplan import glue_times as times


@dataclass(frozen=True, slots=True)
class CareLine:
    """One piece of advice, and how sure it is."""

    heading: str
    text: Said
    status: Status
    source: str


_FLOOR: Final = "floor trade"
_LINOLEUM: Final = (
    CareLine(
        "Cleaning",
        said(
            "Linoleum: a damp cloth and neutral cleaner. No ammonia, strong alkali, hot water, solvent or flooding."
        ),
        Status.READ,
        _FLOOR,
    ),
    CareLine(
        "Light",
        said(
            "A yellow film on new linoleum goes within hours to weeks of light, not under covers; covered places "
            "darken again: move what stands on it."
        ),
        Status.READ,
        _FLOOR,
    ),
    CareLine(
        "Mending",
        said(
            "Linoleum: one trade source says damage cannot be sanded out; another that it can be sanded and "
            "refinished. What both allow: light abrading and sealing anew, with some change of colour and sheen. "
            "Dents and deep scratches stay."
        ),
        Status.READ,
        "a trade magazine against common practice; the two disagree",
    ),
)
_LINOLEUM_NEW: Final = CareLine(
    "The first weeks",
    said(
        "Linoleum on wet glue: nothing heavy for 24 h, no wet cleaning for 4 days; fully hard after up to 6 weeks."
    ),
    Status.READ,
    _FLOOR,
)
_LAMINATE: Final = (
    CareLine(
        "Heat",
        said(
            "Laminate itself: sources allow 135, 154 or 180 °C for a short accident; use a mat for anything hot."
        ),
        Status.READ,
        "a maker, a care sheet and a vendor; they differ",
    ),
    CareLine(
        "Cleaning",
        said(
            "Laminate: a damp cloth and mild cleaner; nothing that scours. Wipe water off joints and edges."
        ),
        Status.PRACTICE,
        "common practice",
    ),
    CareLine(
        "Mending",
        said(
            "Laminate cannot be sanded or refinished: a deep scratch or chip stays, or is filled in its colour."
        ),
        Status.PRACTICE,
        "common practice",
    ),
)
_LAMINATE_LIGHT: Final = CareLine(
    "Light",
    said(
        "Laminate holds its colour well; right behind glass it pales over years, and not under what stands on it."
    ),
    Status.PRACTICE,
    "common practice",
)
_POTS: Final = CareLine(
    "Heat",
    said("Linoleum: nothing hot straight on it. A pot leaves a ring that stays; a mat keeps it off."),
    Status.PRACTICE,
    "common practice",
)
_WET: Final = CareLine(
    "Water",
    said(
        "Look at the sealing round wet openings once a year and renew it when it comes loose: water in the cut edge "
        "swells the board for good."
    ),
    Status.PRACTICE,
    "common practice",
)
_SPOILS: Final = CareLine(
    "What cannot be mended",
    said(
        "A facing that has come loose over a large area, swollen board and a chipped arris are made anew, not mended: "
        "call before anybody glues or sands."
    ),
    Status.PRACTICE,
    "common practice",
)
_WOOD_LIGHT: Final = CareLine(
    "Light",
    said(
        "Wood changes colour in its first months, most in the sun: move what stands on it, or its outline stays."
    ),
    Status.PRACTICE,
    "common practice",
)
_EDGING: Final = CareLine(
    "Wood",
    said("The edging can be sanded lightly along the grain and finished again; mask the facing first."),
    Status.PRACTICE,
    "common practice",
)
_SOLID: Final = CareLine(
    "Wood",
    said(
        "Solid wood can be sanded along the grain and finished again; mask a facing beside it first. Wipe spills up at "
        "once."
    ),
    Status.PRACTICE,
    "common practice",
)
_AIR: Final = CareLine(
    "Air",
    said("Wood and sheets move with the air: keep the room within about 30 to 60 % humidity."),
    Status.PRACTICE,
    "common practice",
)
_SPARE: Final = CareLine(
    "Spare piece",
    said("Keep the offcut of the facing and the batch number: another batch never matches quite."),
    Status.PRACTICE,
    "common practice",
)


ORDER: Final = (
    "Heat",
    "Water",
    "Cleaning",
    "The first weeks",
    "Light",
    "Mending",
    "What cannot be mended",
    "Wood",
    "Air",
    "Spare piece",
)


def care_sheet(panels: Sequence[BuiltPanel], boards: Sequence[BuiltBoard] = ()) -> tuple[CareLine, ...]:
    """Advice for a piece with these panels and boards, each line once, by heading in reading order."""
    lines = dict.fromkeys(line for panel in panels for line in _of(panel))
    lines |= dict.fromkeys(line for board in boards for line in _of_board(board))
    return tuple(sorted(lines, key=lambda line: ORDER.index(line.heading)))


def _of(panel: BuiltPanel) -> Iterator[CareLine]:
    families = {face.material.family for face in panel.faces}
    soft = panel.glue.softens_at
    if soft is not None and panel.faces:
        yield CareLine(
            "Heat",
            said(
                "The glue under the facing gives from about {warm:count} °C: no hot pots, no strong sun on a dark "
                "face, no heater close by.",
                warm=soft.low,
            ),
            soft.status,
            soft.source,
        )
    yield from _of_facings(families)
    if "linoleum" in families and times.is_wet(panel.glue):
        yield _LINOLEUM_NEW
    if any(cutout.wet for cutout in panel.panel.cutouts):
        yield _WET
    if panel.edgings or panel.inserts:
        yield from (_WOOD_LIGHT, _EDGING, _AIR)
    if families:
        yield from (_SPOILS, _SPARE)


def _of_facings(families: Set[str]) -> Iterator[CareLine]:
    if "linoleum" in families:
        yield from (_POTS, *_LINOLEUM)
    if families - {"linoleum", "paper", "veneer"}:
        yield from (*_LAMINATE, _LAMINATE_LIGHT)


def _of_board(board: BuiltBoard) -> Iterator[CareLine]:
    """Of a board, and of the facing it is lined with."""
    yield from (_WOOD_LIGHT, _SOLID, _AIR)
    if board.facing is None:
        return
    yield from _of_facings({board.facing.family})
    yield from (_SPOILS, _SPARE)
