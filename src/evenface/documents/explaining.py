"""What is what, on one page for a client: sheets, grades, boards, glues, with two build-ups drawn."""

from collections.abc import Callable
from datetime import date
from typing import Final

from evenface.documents.setting import plain, set_pdf
from evenface.drawings import to_svg
from evenface.drawings.scene import (
    SMALL_MM,
    Anchor,
    Area,
    Fill,
    Line,
    Path,
    Primitive,
    Scene,
    Stroke,
    Text,
    scene_of,
)
from evenface.materials.traits import MaterialClass, traits
from evenface.units import number_text
from evenface.words import ENGLISH, Manner

SHEETS: Final = (
    (
        "High-pressure laminate (HPL)",
        (
            "Papers soaked in resin, pressed at 5 N/mm² or more and at least 120 °C into "
            "one hard sheet, then glued to a board. Many colours, hard, cool; a worn sheet "
            "is replaced, not sanded."
        ),
    ),
    (
        "Continuous-pressed laminate",
        (
            "Much the same from a running press, thinner and in rolls. For fronts and sides"
            " more than for tops. There was no European product standard of its own in "
            "2018."
        ),
    ),
    (
        "Low-pressure melamine",
        (
            "One printed paper pressed straight onto the board, about 0.1 mm. Cheap and "
            "always balanced; it chips at edges, and the board under it swells where water "
            "gets in."
        ),
    ),
    (
        "Compact laminate",
        ("HPL from 2 mm up, thick enough to be board and face in one. Bears water best; heavy and dear."),
    ),
    (
        "Backing laminate",
        (
            "The same core without a pattern, for the side nobody sees. It pulls against "
            "the face, so that the panel stays flat. Lacquer slows damp but does not pull."
        ),
    ),
    (
        "Furniture linoleum",
        (
            "Linseed oil, resin and wood flour on paper, 2 mm. Matt, warm, good to write "
            "on. Not for standing water, alkali, ammonia, solvents or hot pans; colours "
            "shift with light and dents stay."
        ),
    ),
)
GRADES: Final = (
    ("First letter", "H horizontal, V vertical, C compact, E outdoors"),
    ("Second letter", "G general use, D heavy use"),
    ("Third letter", "S standard, P can be bent hot, F slow to burn"),
    (
        "So",
        ("HGS is for tops, about 0.8 to 1.2 mm; VGS for fronts, 0.6 to 0.8; HGP for bent edges; CGS compact"),
    ),
)
GLUES: Final = (
    ("D1", "indoors, dry: wood up to 15 % moisture"),
    ("D2", "indoors, now and then short water: up to 18 %"),
    ("D3", "indoors, often short water or steam; outdoors under cover"),
    ("D4", "indoors, often and long water; outdoors if the surface is protected"),
    ("No class", "contact glues: they give from about 60 °C and creep"),
)
BOARDS: Final = (
    ("Birch plywood", "thin plies crosswise: strong, holds screws, bears damp; doors of it may twist"),
    ("MDF", "pressed fibres: even and flat, heavy; swells at wet edges for good"),
    ("Particleboard", "pressed chips: cheapest; weak edges, swells when wet"),
    ("Blockboard", "strips of wood between veneers: light for its stiffness; not for wet places"),
)
QUESTIONS: Final = (
    ("Hot pots on it? Sources put the limit of laminate at 135, 154 and 180 °C: use a trivet."),
    "May food lie on it? Only if the maker of that very sheet declares it.",
    ("Why a sheet underneath too? One face alone pulls the panel hollow and round with the seasons."),
    ("Can it be mended? Oiled wood yes; laminate hardly; linoleum a little, and sources differ how far."),
)
MATRIX: Final = (
    "heat",
    "water",
    "chemicals",
    "scratch",
    "writing",
    "touch",
    "glare",
    "light",
    "repair",
    "budget",
)
_HEADS: Final = {
    "heat": "heat °C",
    "chemicals": "cleaners",
    "touch": "warm",
    "glare": "no glare",
    "light": "sunlight",
    "repair": "mending",
    "budget": "price",
}
_WORDS: Final = {
    "matrix": (
        "How they bear it: 0 do not, 2 will do, 4 best; price 1 cheap to 5 dear; a "
        "range where sources or products differ"
    ),
    "title": "What is what",
    "sheets": "The face",
    "grades": "Grades of laminate, EN 438-3",
    "glues": "Glue and water, EN 204",
    "boards": "The board inside",
    "questions": "Often asked",
    "caution": (
        "Words for a client, not a data sheet: the data of the sheet, board and glue "
        "that are bought go before."
    ),
}


def explaining_pdf(day: date, manner: Manner = ENGLISH) -> bytes:
    """The page as PDF; the same day gives the same bytes."""
    return set_pdf("explaining.typ", explaining_data(day, manner), manner.language)


def explaining_data(day: date, manner: Manner = ENGLISH) -> dict[str, object]:
    """What the template sets."""

    def rows(pairs: tuple[tuple[str, str], ...]) -> list[list[str]]:
        return [[plain(manner.translate(word)) for word in pair] for pair in pairs]

    scene = build_ups_scene(manner)
    return {
        "words": {key: plain(manner.translate(word)) for key, word in _WORDS.items()},
        "date": [day.year, day.month, day.day],
        "day": day.isoformat(),
        "sheets": rows(SHEETS),
        "grades": rows(GRADES),
        "glues": rows(GLUES),
        "boards": rows(BOARDS),
        "questions": [plain(manner.translate(one)) for one in QUESTIONS],
        "heads": ["", *(manner.translate(_HEADS.get(need, need)) for need in MATRIX)],
        "matrix": [
            [plain(manner.name(one.title)), *map(_grade(one), MATRIX)] for one in traits().of_kind("facing")
        ],
        "svg": to_svg(scene),
        "width": scene.width_mm,
    }


def _grade(one: MaterialClass) -> Callable[[str], str]:
    """The figure of a need, or its range."""

    def shown(need: str) -> str:
        value = one.traits[need].value
        low, high = (number_text(end, 0) for end in (value.low, value.high))
        return low if low == high else f"{low} … {high}"

    return shown


def build_ups_scene(manner: Manner = ENGLISH) -> Scene:
    """Three build-ups cut through, not to scale: sheet, board, sheet; melamine; compact."""
    made: list[Primitive] = []
    columns = (
        (
            "laminate on both faces",
            (
                (1.2, Fill.LAMINATE, "laminate"),
                (9.0, Fill.MDF, "MDF board"),
                (1.2, Fill.LAMINATE, "the same, or backing laminate"),
            ),
        ),
        (
            "linoleum on both faces",
            (
                (2.2, Fill.LINOLEUM, "linoleum"),
                (9.0, Fill.LONG_GRAIN, "plywood"),
                (2.2, Fill.LINOLEUM, "linoleum"),
            ),
        ),
        (
            "melamine board",
            (
                (0.5, Fill.LAMINATE, "paper and resin"),
                (9.0, Fill.PARTICLEBOARD, "particleboard"),
                (0.5, Fill.LAMINATE, "paper and resin"),
            ),
        ),
        ("compact", ((6.5, Fill.COMPACT, "laminate right through"),)),
    )
    for number, (title, layers) in enumerate(columns):
        made += _column(number * 44.0, manner.translate(title), layers, manner)
    return scene_of(manner.translate("Four build-ups, not to scale"), 1.0, made)


def _column(
    x0: float, title: str, layers: tuple[tuple[float, Fill, str], ...], manner: Manner
) -> list[Primitive]:
    made: list[Primitive] = [Text(x0, 3.0, title, SMALL_MM, Anchor.START)]
    y = 0.0
    for thick, fill, _ in layers:
        ring = ((x0, y - thick, 0.0), (x0 + 38.0, y - thick, 0.0), (x0 + 38.0, y, 0.0), (x0, y, 0.0))
        made += [Area((ring,), fill), Path(ring, True, Stroke.FINE)]
        y -= thick
    names = dict.fromkeys(manner.translate(name) for _, _, name in layers)
    for row, name in enumerate(names):
        made.append(Text(x0, -17.0 - 3.2 * row, name, 2.0, Anchor.START))
    made.append(Line(x0, -14.6, x0 + 38.0, -14.6, Stroke.HATCH))
    return made
