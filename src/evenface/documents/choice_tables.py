"""Backers side by side, and how wide solid wood may be, as tables."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Final

from evenface.behaviour import Behaviour, Direction
from evenface.behaviour.widths import Ground, Reason, WidthLimit
from evenface.documents.display import DASH, FIT_MM, amount, length
from evenface.documents.flat_tables import range_text
from evenface.documents.money_text import sum_text
from evenface.documents.tables import Table, table
from evenface.words import ENGLISH, Manner, Said, figure, say

BACKERS_NOTE: Final = (
    "Rise over the whole part in its worst month, plus: show face domed; the range holds nine of ten panels. "
    "Weight and cost of board and sheets, without glue and edging. A test panel decides."
)
LIMITS_NOTE: Final = (
    "Only what grows with the width sets a width. Shear of the glue line and tension across the grain reach their "
    "level within a few centimetres: elastic figures, upper values, for creep takes some of them. Most properties "
    "across the grain are from memory."
)
SHOWN_MM: Final = 0.05
type BackerCells = tuple[Said, Behaviour, Decimal | None]


def backers_table(
    rows: Sequence[BackerCells], part: str, currency: str = "", manner: Manner = ENGLISH
) -> Table:
    """Title, behaviour and cost of each way to build a part."""
    cells = []
    for title, behaviour, cost in rows:
        bow, cup, twist = (behaviour.bend(way) for way in Direction)
        shown = manner.translate("no price") if cost is None else sum_text(cost, currency, manner)
        cells.append(
            (
                say(title, manner).rstrip("."),
                range_text(bow.worst, manner),
                range_text(cup.worst, manner),
                range_text(twist.worst, manner),
                figure(behaviour.mass_kg_m2, 1, manner),
                shown,
            )
        )
    headings = ("Built so", ">Bow", ">Cup", ">Twist", ">kg/m²", ">Cost per m²")
    heading = manner.translate("Backers for {part}").format(part=part)
    return table(heading, headings, cells, manner.translate(BACKERS_NOTE), manner)


def limits_table(ground: Ground, limits: Sequence[WidthLimit], manner: Manner = ENGLISH) -> Table:
    """Every use: largest width with its range, what binds, the levels beside it, and the trade's rule."""
    cells = [
        (
            say(one.title, manner),
            _width(one, manner),
            manner.translate(one.binds) or manner.translate("nothing that grows"),
            "; ".join(_levels(one.reasons, manner)) or DASH,
            say(one.practice, manner),
        )
        for one in limits
    ]
    headings = ("Use", ">Largest width", "Binds", "Beside it", "Practice")
    change = f"{figure(100 * ground.moisture_change, 1, manner)} %"
    title = manner.translate("Widths of solid wood that changes its moisture by {change}").format(
        change=change
    )
    return table(title, headings, cells, manner.translate(LIMITS_NOTE), manner)


def _width(one: WidthLimit, manner: Manner) -> str:
    if one.width_mm is None:
        return manner.translate("see practice")
    low, middle, high = one.width_mm
    return f"{length(middle, 1.0, manner)} ({length(low, 1.0, manner)} … {length(high, 1.0, manner)})"


def _levels(reasons: Sequence[Reason], manner: Manner) -> Iterator[str]:
    """What does not grow, against what it may be; and what grows, at 200 mm."""
    for one in reasons:
        name, limit = manner.translate(one.name), amount(one.limit, one.unit, manner)
        level = amount(one.level, one.unit, manner)
        if one.grows and one.level < SHOWN_MM:
            continue
        if one.grows:
            yield f"{name} {level} {manner.translate('at')} {length(200.0, FIT_MM, manner)}"
        else:
            yield f"{name} {level} {manner.translate('of')} {limit}, {manner.translate('at any width')}"
