"""A glue card on paper: amounts to weigh, time and air, order, clamps drawn in their places, test strip."""

from collections.abc import Iterator

from evenface.documents.setting import plain
from evenface.words import ENGLISH, Manner, Said, length_said, said, say
from evenface.workplan.clamps import CLAMP_N
from evenface.workplan.glue_card import GlueCard, GlueLine
from evenface.workplan.pressing import clamped

_MOST_DRAWN = 40


def glue_page(card: GlueCard, part: str, when: str, manner: Manner = ENGLISH) -> dict[str, object]:
    """What the template sets of one card: finished strings only. rows : label, lines, whether in bold, whether
    each has a box to tick."""
    title = say(card.title, manner)
    return {
        "kind": "glue",
        "id": card.step,
        "part": plain(part),
        "when": when,
        "title": plain(title[:1].upper() + title[1:]),
        "rows": [row for row in _rows(card, manner) if row["lines"]],
        "risks": [say(one.message, manner) for one in card.findings if one.severity != "note"],
        "clamps": _drawn(card, manner),
    }


def short_lines(card: GlueCard) -> list[Said]:
    """What the step's own card says of its gluing; the rest is on the glue card."""
    lines = [
        said(
            "{glue}, {grams:count} g in all; {needs:count} min needed, {open:count} min given.",
            glue=card.glue.title,
            grams=_upwards(card.total_g),
            needs=card.needs_min,
            open=card.open_min.nominal,
        )
    ]
    if card.clamping is not None:
        lines.append(next(clamped(card.clamping)))
    return [*lines, said("Weigh and lay out after the glue card.")]


def _rows(card: GlueCard, manner: Manner) -> Iterator[dict[str, object]]:
    def row(label: str, *lines: Said, bold: bool = False, tick: bool = False) -> dict[str, object]:
        told = [say(one, manner) for one in lines if one.template]
        return {"label": manner.translate(label), "lines": told, "bold": bold, "tick": tick}

    yield row("glue", said("{glue}: {why}.", glue=card.glue.title, why=card.why))
    yield row("air", card.gate, tick=True)
    yield row("test", card.test, tick=True)
    yield row("weigh", *map(_amount, card.lines), _total(card), bold=True)
    yield row("mix", card.mix)
    yield row("time", _time(card), bold=True)
    yield row("order", card.order)
    yield row("how", *card.how)
    yield row("press", *card.means, tick=True)
    yield row("then", _then(card), bold=True)


def _amount(line: GlueLine) -> Said:
    return said(
        "{surface}: {grams} g ({rate:count} g/m² on {area} m²)."
        if line.coats == 1
        else "{surface}: {coats:count} coats of {grams} g ({rate:count} g/m² on {area} m²).",
        surface=line.surface,
        coats=line.coats,
        grams=round(line.grams, 0 if line.grams >= 10.0 else 1),
        rate=line.spread_g_m2,
        area=round(line.area_m2, 3),
    )


def _total(card: GlueCard) -> Said:
    if card.pieces == 1:
        return said("In all {grams:count} g.", grams=_upwards(card.total_g))
    return said(
        "One piece {lot:count} g; all {pieces:count} pieces {grams:count} g.",
        lot=_upwards(card.lot_g),
        pieces=card.pieces,
        grams=_upwards(card.total_g),
    )


def _upwards(grams: float) -> float:
    """Grams as they are weighed: never less than reckoned."""
    return float(-(-grams // 1))


def _time(card: GlueCard) -> Said:
    return said(
        "From the first spread to the closed joint about {needs:count} min; the glue gives {low:count} to "
        "{high:count}.",
        needs=card.needs_min,
        low=card.open_min.low,
        high=card.open_min.high,
    )


def _then(card: GlueCard) -> Said:
    if card.machine_after_h < 0.1:
        return said("It holds at once and may be worked.")
    return said(
        "{press} h under pressure, worked after {machine} h. Written down: begun ____ closed ____ out ____",
        press=round(card.press_h, 1),
        machine=round(card.machine_after_h, 1),
    )


def _drawn(card: GlueCard, manner: Manner) -> dict[str, object] | None:
    """The clamps along the strip; None where there are none, or too many to be drawn apart."""
    made = card.clamping
    if made is None or made.count > _MOST_DRAWN:
        return None
    text = said(
        "{count:count} clamps of {force} kN: the outer ones {half:mm} from the ends, then every {every:mm}",
        count=made.count,
        force=CLAMP_N.nominal / 1000.0,
        half=float(round(made.spacing_mm / 2.0)),
        every=float(round(made.spacing_mm)),
    )
    length = length_said(made.count * made.spacing_mm, manner, 0)
    return {"count": made.count, "text": say(text, manner), "length": length}
