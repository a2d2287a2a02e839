"""Flatness through the year as tables, and as rows for other programs."""

from collections.abc import Iterator, Sequence
from typing import Final

from evenface.behaviour import Behaviour, Bend, Direction, Drying
from evenface.behaviour.causes import cause_said
from evenface.checks.flat_limits import limit_for, over_the_part
from evenface.checks.flatness import BOW_ROUGH, BOW_UNKNOWN
from evenface.climate.outdoors import MONTHS
from evenface.construction import BuiltPanel
from evenface.documents import result_file as f
from evenface.documents.display import DASH, FIT_MM, length
from evenface.documents.finding_tables import STATUS_WORDS
from evenface.documents.tables import Table, table
from evenface.evidence import Band
from evenface.result import Sketch
from evenface.words import ENGLISH, Manner, Said, figure, said, say

NOTE: Final = (
    "Rise in the middle over the gauge, plus: show face domed. The range holds nine of ten panels as far as the "
    "figures are known; its worse end is held against the limit, and one that reaches both sides of 0 leaves the "
    "direction open. A held part does not bow so far: its fixings pull instead. Twist has no mean, only a range."
)
type Row = tuple[BuiltPanel, Behaviour]


def rows_of(sketch: Sketch) -> tuple[Row, ...]:
    """Each panel with its behaviour; none where flatness was left out."""
    panels = [panel for construction in sketch.constructions for panel in construction.panels]
    return tuple(zip(panels, sketch.behaviours, strict=True)) if sketch.behaviours else ()


def flat_table(rows: Sequence[Row], manner: Manner = ENGLISH) -> Table:
    """Every part and direction: gauge, nominal, range, the worst month, the limit over that gauge."""
    cells = []
    for panel, behaviour in rows:
        for bend in behaviour.bends:
            first = bend.direction is Direction.BOW
            cells.append(
                (
                    f"{behaviour.piece}, {manner.name(behaviour.part)}" if first else "",
                    manner.translate(bend.direction.value),
                    length(bend.gauge_mm, manner=manner),
                    DASH if bend.worst.nominal is None else length(bend.worst.nominal, FIT_MM, manner),
                    range_text(bend.worst, manner),
                    manner.translate(MONTHS[bend.month - 1]),
                    length(over_the_part(bend, limit_for(panel, bend.direction)), FIT_MM, manner),
                    _held(behaviour, manner) if first else "",
                )
            )
    headings = ("Part", "Way", ">Gauge", ">Nominal", ">Range", "Worst in", ">Limit", "Held")
    return table("Flat through the year", headings, cells, manner.translate(NOTE), manner)


def range_text(worst: Band, manner: Manner = ENGLISH) -> str:
    """The range of a rise, plain numbers in the reader's unit: "−1.4 … 1.3", of twist "± 5.2"."""
    low, high = (length(end, FIT_MM, manner) for end in (worst.low, worst.high))
    if worst.nominal is None:
        return f"± {high}"
    return low if low == high else f"{low} … {high}"


def _held(behaviour: Behaviour, manner: Manner) -> str:
    word = manner.translate(behaviour.held)
    return word if behaviour.holding_n is None else f"{word}, {figure(behaviour.holding_n, 0, manner)} N"


def month_table(behaviour: Behaviour, manner: Manner = ENGLISH) -> Table:
    """Bow and cup month by month: two years after bonding, nominal, and the range of the settled year."""
    cells = []
    for number in range(24):
        month = (behaviour.first_month - 1 + number) % 12
        row = [f"{manner.translate(MONTHS[month])} {1 + number // 12}"]
        for direction in (Direction.BOW, Direction.CUP):
            bend = behaviour.bend(direction)
            row.append(length(behaviour.first_years[direction][number], FIT_MM, manner))
            row.append(range_text(bend.year[month], manner) if number < 12 else "")
        cells.append(row)
    headings = ("Month, year", ">Bow then", ">Bow settled", ">Cup then", ">Cup settled")
    title = f"{behaviour.piece}, {manner.name(behaviour.part)}"
    return table(title, headings, cells, manner=manner)


def flat_notes(behaviour: Behaviour, manner: Manner = ENGLISH) -> tuple[str, ...]:
    """What the figures rest on, what makes them uncertain, and what the glue's water does."""
    told = [say(note, manner) for note in behaviour.notes]
    for direction in (Direction.BOW, Direction.CUP):
        shares = list(behaviour.bend(direction).shares.items())[:2]
        if shares and shares[0][1] > 0.01:
            said_of = "; ".join(
                f"{say(cause_said(name), manner)} ({figure(100 * share, 0, manner)} %)"
                for name, share in shares
            )
            what = said("Most uncertain in the {what:word}: {causes}.", what=direction.value, causes=said_of)
            told.append(say(what, manner))
    told += [say(one, manner) for one in _how_sure(behaviour)]
    told += [say(_dries(one), manner) for one in behaviour.drying]
    told.append(
        manner.translate("Weakest evidence: {what}.").format(
            what=manner.translate(STATUS_WORDS[behaviour.weakest])
        )
    )
    return tuple(told)


def _how_sure(behaviour: Behaviour) -> Iterator[Said]:
    """What a rise that is large for its thickness still says."""
    for bend in behaviour.bends[:2]:
        share = abs(bend.deciding_mm) / behaviour.thickness_mm
        if share > BOW_UNKNOWN:
            sentence = (
                "The {what:word} may pass the thickness: that it bends is certain, how far is not claimed."
            )
        elif share > BOW_ROUGH:
            sentence = "The {what:word} may pass a third of the thickness: its figures are rough."
        else:
            continue
        yield said(sentence, what=bend.direction.value)


def _dries(one: Drying) -> Said:
    return said(
        "The glue's water alone: {what:word} up to {rise:mm} on day {day:count}, mostly gone after {gone:days}.",
        what=one.direction.value,
        rise=one.most_mm,
        day=one.day,
        gone=one.gone_day,
    )


def flat_entries(rows: Sequence[Row]) -> Iterator[f.FlatEntry]:
    """Rows of `flatness` in `result.json`."""
    for panel, behaviour in rows:
        for bend in behaviour.bends:
            yield _entry(panel, behaviour, bend)


def _entry(panel: BuiltPanel, behaviour: Behaviour, bend: Bend) -> f.FlatEntry:
    return f.FlatEntry(
        piece=behaviour.piece,
        part=behaviour.part,
        direction=bend.direction.value,
        gauge_mm=bend.gauge_mm,
        nominal_mm=bend.worst.nominal,
        worst_mm=bend.deciding_mm,
        month=bend.month,
        low_mm=bend.worst.low,
        high_mm=bend.worst.high,
        limit_mm=over_the_part(bend, limit_for(panel, bend.direction)),
        evidence=behaviour.weakest.value,
        held=behaviour.held,  # type: ignore[arg-type]
        force_n=behaviour.holding_n if bend.direction is Direction.BOW else None,
    )
