"""What a brief rules out and what is good, and variants side by side: tables, JSON, picture and page."""

import json
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Final

from evenface.behaviour import Behaviour, Direction
from evenface.choice import Candidate, Ranking, Verdict
from evenface.documents.display import DASH, cited, sentence
from evenface.documents.finding_tables import STATUS_WORDS
from evenface.documents.flat_tables import range_text
from evenface.documents.setting import plain, set_pdf, table_data
from evenface.documents.tables import Table, table
from evenface.drawings import to_svg
from evenface.drawings.comparison import Strip, comparison_of
from evenface.drawings.scene import Scene
from evenface.errors import Sentence, in_words
from evenface.materials.traits import traits
from evenface.units import number_text
from evenface.words import ENGLISH, Manner, figure

KIND_WORDS: Final = {
    "facing": "Facing",
    "surface": "Surface of a laminate",
    "carrier": "Carrier",
    "back": "Balancing sheet",
    "glue": "Glue",
    "wood": "Wood of the edging",
    "finish": "Finish of the wood",
}
APART: Final = " Sources or products differ: at the better end it would do."
RANK_NOTE: Final = (
    "Ruled out: a must is not met by the usual figure. Doubt: sources or products differ across the limit. Wishes: the "
    "share met, with what is not known. The sheet maker's own data go before these figures."
)
BUILD_UP_NOTE: Final = (
    "A free panel of 1000 × 600 on a board of about 18 mm through the year, bonded at the shop's air; the worse edge "
    "of the range is held against the limit. Price level 1 cheap to 5 dear, of the dearest layer; "
    "one that bows is not cheap."
)
COMPARE_NOTE: Final = (
    "Bow and cup of the part named, mm over the part, nine of ten panels lie within. Hours of all hands; days from the "
    "first morning to the last step as the shop works, waits included. A price that says from leaves something out "
    "that has no price."
)


def ranking_table(ranking: Ranking, manner: Manner = ENGLISH) -> Table:
    """One kind of material: verdict, why, wishes met and given up."""
    rows = [
        (
            one.title,
            manner.translate({"out": "ruled out", "doubt": "doubt", "good": "good"}[one.verdict.value]),
            _share(one),
            "; ".join(why_text(one, manner)),
            "; ".join(_lost(one, manner)),
        )
        for one in ranking.candidates
    ]
    headings = (KIND_WORDS[ranking.kind], "Verdict", ">Wishes", "Why", "Gives up")
    return table("", headings, rows, manner=manner)


def why_text(one: Candidate, manner: Manner = ENGLISH) -> list[str]:
    """Each reason with its source, how sure it is, and whether sources disagree."""
    told = []
    for reason in one.reasons:
        plainly = reason.source.lower().startswith(("from memory", "common practice", "trade practice"))
        status = "" if plainly else f"; {manner.translate(STATUS_WORDS[reason.status])}"
        why = f" {manner.translate(reason.why)}" if reason.why else ""
        apart = manner.translate(APART) if reason.disagreement and reason.verdict is Verdict.OUT else ""
        told.append(
            f"{sentence(reason.message, manner)}{why}{apart} ({cited(reason.source, manner)}{status})"
        )
    return told


def _share(one: Candidate) -> str:
    if not one.known:
        return DASH
    low, high = (number_text(100 * end, 0) for end in (one.score.low, one.score.high))
    return f"{low} %" if low == high else f"{low} … {high} %"


def _lost(one: Candidate, manner: Manner) -> list[str]:
    return [manner.translate(traits().needs[need].title) for need, _ in one.gives_up]


type BuildUpCells = tuple[str, str, str, Behaviour, bool, float]


def build_ups_table(rows: Sequence[BuildUpCells], manner: Manner = ENGLISH) -> Table:
    """Facing, carrier, back, behaviour, whether it lies flat, price level."""
    cells = [
        (
            facing,
            carrier or DASH,
            back or DASH,
            range_text(behaviour.bend(Direction.BOW).worst, manner),
            range_text(behaviour.bend(Direction.CUP).worst, manner),
            manner.translate("lies flat" if flat else "bows: hold it or leave it"),
            f"{figure(behaviour.mass_kg_m2, 1, manner)}",
            number_text(level, 0),
        )
        for facing, carrier, back, behaviour, flat, level in rows
    ]
    headings = ("Facing", "Carrier", "Back", ">Bow", ">Cup", "Through the year", ">kg/m²", ">Price level")
    return table("Build-ups, flat ones first", headings, cells, manner.translate(BUILD_UP_NOTE), manner)


class Shown:
    """One variant ready to be shown; documents do not know the room that reckons them.

    findings : stops, risks, notes. price : text and number, None where nothing is priced.
    """

    def __init__(
        self,
        name: str,
        behaviour: Behaviour | None,
        mass_kg: float,
        sheets: int,
        roll_m: float,
        hours: float,
        days: float,
        price: tuple[str, Decimal] | None,
        findings: tuple[int, int, int],
        why_not: Sentence = "",
    ) -> None:
        self.name, self.behaviour, self.mass_kg = name, behaviour, mass_kg
        self.sheets, self.roll_m, self.hours, self.days = sheets, roll_m, hours, days
        self.price, self.findings, self.why_not = price, findings, why_not

    @property
    def bought(self) -> str:
        return f"{self.sheets} + {number_text(self.roll_m, 1)} m" if self.roll_m else str(self.sheets)

    @property
    def price_text(self) -> str:
        return self.price[0] if self.price is not None else "not priced"


def comparison_table(rows: Sequence[Shown], part: str, manner: Manner = ENGLISH) -> Table:
    """A row for each variant."""
    cells = []
    for one in rows:
        if one.why_not:
            cells.append(
                (
                    one.name,
                    *[DASH] * 7,
                    f"{manner.translate('cannot be made')}: {in_words(one.why_not, manner)}",
                )
            )
            continue
        bow, cup = (_bend(one, way, manner) for way in (Direction.BOW, Direction.CUP))
        stops, weighs, notes = one.findings
        told = f"{stops} / {weighs} / {notes}"
        cells.append(
            (one.name, bow, cup, figure(one.mass_kg, 1, manner), one.bought, figure(one.hours, 1, manner),
             number_text(one.days, 0), manner.translate(one.price_text), told)
        )  # fmt: skip
    headings = (
        "Variant",
        ">Bow",
        ">Cup",
        ">kg",
        ">Sheets",
        ">Hours",
        ">Days",
        ">Price",
        ">Stops / risks / notes",
    )
    title = f"{manner.translate('Variants side by side')}: {part}" if part else "Variants side by side"
    return table(title, headings, cells, manner.translate(COMPARE_NOTE), manner)


def _bend(one: Shown, way: Direction, manner: Manner) -> str:
    return range_text(one.behaviour.bend(way).worst, manner) if one.behaviour is not None else DASH


def comparison_scene(rows: Sequence[Shown], part: str, manner: Manner = ENGLISH) -> Scene:
    """Bars side by side: bow, weight, hours, days, price."""
    bends = [one.behaviour.bend(Direction.BOW).worst if one.behaviour is not None else None for one in rows]
    word = manner.translate
    bow = Strip(
        word("bow, mm"),
        tuple(None if one is None else one.low for one in bends),
        tuple(None if one is None else one.high for one in bends),
        tuple(_bend(one, Direction.BOW, manner) for one in rows),
    )
    plain_strips = [
        _plain(word("weight, kg"), [_figure(one, one.mass_kg, 1) for one in rows]),
        _plain(word("hours"), [_figure(one, one.hours, 1) for one in rows]),
        _plain(word("days"), [_figure(one, one.days, 0) for one in rows]),
    ]
    if any(one.price is not None for one in rows):
        prices = [
            (float(one.price[1]), one.price[0])
            if one.price is not None
            else (None, DASH if one.why_not else word("not priced"))
            for one in rows
        ]
        plain_strips.append(_plain(word("price"), prices))
    title = f"{word('Variants side by side')}: {part}" if part else word("Variants side by side")
    return comparison_of(title, [one.name for one in rows], [bow, *plain_strips])


def _figure(one: Shown, figure: float, decimals: int) -> tuple[float | None, str]:
    return (None, DASH) if one.why_not else (figure, number_text(figure, decimals))


def _plain(title: str, figures: Sequence[tuple[float | None, str]]) -> Strip:
    return Strip(
        title,
        tuple(None if figure is None else 0.0 for figure, _ in figures),
        tuple(figure for figure, _ in figures),
        tuple(text for _, text in figures),
    )


def comparison_json(rows: Sequence[Shown], part: str) -> str:
    """The same for other programs; bows in mm, mass in kg, money as text."""
    made = [
        {
            "name": one.name,
            "bow_mm": _ends(one, Direction.BOW),
            "cup_mm": _ends(one, Direction.CUP),
            "mass_kg": round(one.mass_kg, 3),
            "sheets": one.sheets,
            "roll_m": round(one.roll_m, 3),
            "hours": round(one.hours, 2),
            "days": one.days,
            "price": str(one.price[1]) if one.price is not None else None,
            "findings": dict(zip(("stop", "weigh", "note"), one.findings, strict=True)),
            "why_not": one.why_not,
        }
        for one in rows
    ]
    return json.dumps({"part": part, "variants": made}, ensure_ascii=False, indent=1) + "\n"


def _ends(one: Shown, way: Direction) -> list[float] | None:
    if one.behaviour is None:
        return None
    worst = one.behaviour.bend(way).worst
    return [round(worst.low, 3), round(worst.high, 3)]


def page_pdf(
    title: str,
    tables: Sequence[Table],
    scenes: Sequence[Scene],
    day: date,
    paragraphs: Sequence[str] = (),
    language: str = "en",
) -> bytes:
    """A page with a title, paragraphs, pictures and tables."""
    return set_pdf("choosing.typ", page_data(title, tables, scenes, day, paragraphs), language)


def page_data(
    title: str,
    tables: Sequence[Table],
    scenes: Sequence[Scene],
    day: date,
    paragraphs: Sequence[str] = (),
    language: str = "en",
) -> dict[str, object]:
    """What the template sets: finished strings only."""
    widest = 262.0
    return {
        "title": plain(title),
        "day": day.isoformat(),
        "date": [day.year, day.month, day.day],
        "paragraphs": [plain(one) for one in paragraphs],
        "tables": [table_data(one) for one in tables],
        "pictures": [
            {"title": plain(one.title), "svg": to_svg(one), "width": min(widest, one.width_mm)}
            for one in scenes
        ],
    }
