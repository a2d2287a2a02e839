"""The packet: everything a maker takes to the bench, as one PDF on A4."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from evenface.documents.display import SEVERITY_WORDS, length, titles_of, weights_in
from evenface.documents.finding_tables import (
    CAUTION,
    buying_table,
    evidence_line,
    gathered,
    tally,
)
from evenface.documents.flat_tables import flat_notes, flat_table, rows_of
from evenface.documents.layout_tables import (
    cut_list,
    layout_summary,
    offcut_line,
    pieces_table,
)
from evenface.documents.moisture_table import moisture_table
from evenface.documents.panel_pages import build_ups, panel_pages, picture_data
from evenface.documents.pictures import Pictures
from evenface.documents.setting import plain, set_pdf, shortened, table_data
from evenface.documents.size_tables import (
    boards_table,
    parts_table,
    reasons,
)
from evenface.documents.standing_words import standing_words
from evenface.documents.template_files import templates_table
from evenface.documents.whole_pages import whole_pages
from evenface.finding import Severity
from evenface.result import Result
from evenface.units import from_grid
from evenface.words import ENGLISH, Manner, Said, figure, said, say

_WORDS: Final = {
    "packet": "WORKSHOP PACKET",
    "job": "job",
    "day": "date",
    "made_with": "made with",
    "page": "page",
    "of": "of",
    "check": "This line measures 100 mm. If it does not, the printer has changed the scale: print at 100 %.",
    "nothing": "Nothing here.",
    "found": "found",
    "limit": "limit",
    "source": "Limit from",
    "rests": "Rests on figures",
    "findings": "Findings",
    "not_done": "Not done",
    "contents": "Contents",
    "elsewhere": "Order of work, bench cards and care sheet are papers of their own: evenface steps, or Making.",
    "on_page": "Page",
    "ladder": "Size ladder",
    "reasons": "Why these sizes",
    "marked": "Marking out",
    "marked_note": (
        "Each part as it stands in the piece, seen on the face that is worked. Figures run from 0 at its lower, left "
        "or front edge, as in the table. Dashed: worked into the edges."
    ),
    "build_ups": "Build-ups",
    "boards": "Boards of solid wood",
    "templates": "Templates",
    "layouts": "Layouts",
    "moisture": "Moisture log",
    "flatness": "Flat through the year",
    "cuts": "Cuts in order",
    "pieces": "Pieces",
    "offcuts": "Worth keeping",
    "buying": "To buy",
}
_GROUPS: Final = {
    Severity.STOP: "Stops: it cannot be made so, or it will fail",
    Severity.WEIGH: "Your risk: decide",
    Severity.NOTE: "Good to know",
}


def packet_pdf(result: Result, pictures: Pictures, day: date, manner: Manner = ENGLISH) -> bytes:
    """The packet of a job as PDF; the same input gives the same bytes.

    day : printed on every page. pictures : drawn beforehand, see `pictures.pictures_of`.
    """
    return set_pdf("packet.typ", packet_data(result, pictures, day, manner), manner.language)


def packet_data(result: Result, pictures: Pictures, day: date, manner: Manner = ENGLISH) -> dict[str, object]:
    """What the template sets: finished strings only."""
    job = result.sketch.job
    titles = titles_of(result)
    return {
        "words": {key: manner.translate(word) for key, word in _WORDS.items()},
        "job": {"name": plain(job.name)},
        "short_name": shortened(plain(job.name), 48),
        "day": day.isoformat(),
        "date": [day.year, day.month, day.day],
        "version": plain(f"evenface {result.version}"),
        "facts": list(_facts(result, day, manner)),
        "tally": tally(result.findings, manner).capitalize(),
        "evidence": evidence_line(result, manner),
        "caution": manner.translate(CAUTION),
        "parts": table_data(parts_table(result.sketch.all_parts, manner)),
        "chapters": [[key, plain(title)] for key, title in _chapters(result, manner)],
        "not_done": [[plain(room), plain(say(why, manner))] for room, why in result.not_done],
        "findings": list(_findings(result, manner)),
        "wholes": [
            {
                "heading": plain(page.heading),
                "key": f"piece {page.number}",
                "facts": page.facts,
                "pictures": [picture_data(one) for one in pictures.wholes.get(page.number, ())],
                "marked": [picture_data(one) for one in pictures.marked.get(page.number, ())],
                "tables": [table_data(one) for one in page.tables],
            }
            for page in whole_pages(result.sketch, manner)
        ],
        "panels": list(
            panel_pages(result.sketch.parts, titles, pictures, manner, standing_words(result.sketch, manner))
        ),
        "build_ups": [picture_data(one) for one in build_ups(result.sketch.parts, pictures)],
        "boards": _boards(result, titles, pictures, manner),
        "moisture": _moisture(result, manner),
        "flatness": _flatness(result, pictures, manner),
        "templates": table_data(templates_table(result.sketch.templates, manner, result.sketch.jigs)),
        "layouts": {
            "summary": table_data(layout_summary(result.layouts, titles, manner, result.sketch.all_parts)),
            "sheets": list(_sheets(result, titles, pictures, manner)),
        },
        "buying": table_data(buying_table(result.buying, manner)),
    }


def _facts(result: Result, day: date, manner: Manner) -> Iterator[list[str]]:
    job = result.sketch.job
    given = {
        "client": job.client,
        "place": job.place,
        "wanted by": job.due,
        "date": day.isoformat(),
        "parts": str(sum(part.count for part in result.sketch.all_parts)),
        "mass in all": f"{figure(sum(p.count * p.mass_kg for p in result.sketch.all_parts), 0, manner)} kg",
        "made from": ", ".join(
            f"{manner.translate(name)} {text[:8]}" for name, text in sorted(result.hashes.items())
        ),
    }
    for name, text in given.items():
        if text:
            yield [manner.translate(name), plain(text)]


def _chapters(result: Result, manner: Manner) -> Iterator[tuple[str, str]]:
    """What stands where, besides the parts: a key of each place, and its title."""
    sketch = result.sketch
    if result.findings:
        yield "findings", manner.translate(_WORDS["findings"])
    for number, construction in enumerate(sketch.constructions, start=1):
        if construction.arranged.placements:
            name = construction.piece.name
            yield f"piece {number}", f"{name}: {manner.translate('drawings, joints, fittings')}"
    there = {
        "build_ups": any(panel.edgings for one in sketch.constructions for panel in one.panels),
        "boards": bool(sketch.boards),
        "templates": bool(templates_table(sketch.templates, manner, sketch.jigs).rows),
        "moisture": bool(sketch.made.moisture),
        "flatness": bool(rows_of(sketch)),
        "layouts": bool(result.layouts),
        "buying": True,
    }
    titles = titles_of(result)
    for key, is_there in there.items():
        if is_there:
            yield key, manner.translate(_WORDS[key])
        if key == "layouts":
            for number, layout in enumerate(result.layouts):
                if layout.sheets:
                    yield (
                        f"layout {number}",
                        f"{manner.translate(_WORDS[key])}: "
                        f"{manner.name(titles.get(layout.material, layout.material))}",
                    )


def _findings(result: Result, manner: Manner) -> Iterator[dict[str, object]]:
    for severity in SEVERITY_WORDS:
        group = gathered([one for one in result.findings if one.severity is severity], manner)
        if group:
            yield {
                "title": manner.translate(_GROUPS[severity]),
                "findings": [
                    {
                        "severity": t.severity,
                        "word": t.word,
                        "code": plain(t.code),
                        "where": plain(t.where),
                        "message": plain(t.message),
                        "found": plain(t.found),
                        "limit": plain(t.limit),
                        "why": plain(t.why),
                        "source": plain(t.source),
                        "evidence": plain(t.evidence),
                        "remedies": [plain(remedy) for remedy in t.remedies],
                        "also": [plain(line) for line in t.also],
                        "long": len(t.message + t.why) + sum(map(len, (*t.remedies, *t.also))) > 1500,
                    }
                    for t in group
                ],
            }


def _boards(
    result: Result, titles: Mapping[str, str], pictures: Pictures, manner: Manner
) -> dict[str, object]:
    """One table of all boards, then each with its drawing and the reasons of its sizes."""
    boards = result.sketch.boards
    told = {part.id: [one for _, said in reasons(part, manner) for one in said] for part in boards}
    shared = [one for one in dict.fromkeys(n for notes in told.values() for n in notes) if len(boards) > 1]
    shared = [one for one in shared if all(one in notes for notes in told.values())]
    return {
        "table": table_data(boards_table(boards, titles, manner)),
        "notes": [plain(sentence) for sentence in shared],
        "parts": [
            {
                "id": part.id,
                "title": plain(f"{part.id} {part.piece}: {manner.name(part.name)}"),
                "pictures": [picture_data(one) for one in pictures.boards.get(part.id, ())],
                "notes": [plain(sentence) for sentence in told[part.id] if sentence not in shared],
            }
            for part in boards
        ],
    }


def _moisture(result: Result, manner: Manner) -> dict[str, object] | None:
    """The moisture log; None where nothing was read."""
    readings = result.sketch.made.moisture
    return table_data(moisture_table(readings, manner)) if readings else None


def _flatness(result: Result, pictures: Pictures, manner: Manner) -> dict[str, object]:
    """The table of all parts, a chart for each that bends in its own way, and what it all rests on."""
    rows = rows_of(result.sketch)
    notes = dict.fromkeys(note for _, behaviour in rows for note in flat_notes(behaviour, manner))
    shared = {note for note in notes if all(note in flat_notes(one, manner) for _, one in rows)}
    names = {part.id: f"{part.piece}: {manner.name(part.name)}" for part in result.sketch.parts}
    told = {
        part.id: [plain(note) for note in flat_notes(behaviour, manner) if note not in shared]
        for part, (_, behaviour) in zip(result.sketch.parts, rows, strict=False)
    }
    return {
        "table": table_data(flat_table(rows, manner)) if rows else None,
        "notes": [plain(note) for note in notes if note in shared],
        "parts": [
            {
                "title": plain(names[part]),
                "pictures": [picture_data(one) for one in made],
                "notes": told[part],
            }
            for part, made in pictures.years.items()
        ],
    }


def _sheets(
    result: Result, titles: Mapping[str, str], pictures: Pictures, manner: Manner
) -> Iterator[dict[str, object]]:
    names = {part.id: f"{part.id} {manner.name(part.name)}" for part in result.sketch.all_parts}
    weights = weights_in(result.sketch)
    for number, layout in enumerate(result.layouts):
        title = manner.name(titles.get(layout.material, layout.material))
        for position, one in enumerate(layout.sheets):
            sizes = (one.length,) if one.form == "stick" else (one.length, one.width)
            shown = " × ".join(length(from_grid(n), manner=manner) for n in sizes)
            yield {
                "key": "" if position else f"layout {number}",
                "title": plain(f"{title}, {say(_one_of(position, layout.sheets), manner)}: {shown}"),
                "pictures": [picture_data(p) for p in pictures.sheets.get((number, position), ())],
                "cuts": table_data(cut_list(one, manner, weights.get(layout.material, 0.0))),
                "pieces": table_data(pieces_table(one, names, manner)),
                "offcuts": offcut_line(one, manner),
            }


def _one_of(position: int, sheets: Sequence[object]) -> Said:
    return said("{count:count} of {all:count}", count=position + 1, all=len(sheets))
