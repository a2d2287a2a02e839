"""Stickers for what is cut, 3 × 8 on A4, in the order in which it comes off the saw: one for each part and layer.

Beside the number of the part: its name and piece, material and layer, size as cut, the sheet and the cut after which it
is free, an outline with the way the grain or pattern of the sheet runs in it, and the marks to be put on it.
"""

from collections.abc import Iterator
from datetime import date
from typing import Final

from evenface.documents.display import FIT_MM, length, sentence, titles_of
from evenface.documents.setting import plain, set_pdf, set_pictures, shortened
from evenface.documents.stickers import check_skip, outline_in
from evenface.errors import EvenfaceError
from evenface.layouts import Label, Layout, part_labels
from evenface.parts import Part
from evenface.result import Result
from evenface.units import from_grid
from evenface.words import ENGLISH, Manner

TEMPLATE: Final = "part_labels.typ"
OUTLINE_MM: Final = (17.0, 12.0)
"""Room for the outline on the label."""


def part_label_pdf(result: Result, day: date, skip: int = 0, manner: Manner = ENGLISH) -> bytes:
    """The stickers as PDF. skip : stickers already used at the head of the first sheet, 0 to 23.

    Raises EvenfaceError when nothing is cut, or for another number to skip.
    """
    return set_pdf(TEMPLATE, part_labels_data(result, day, skip, manner), manner.language)


def part_label_pngs(
    result: Result, day: date, skip: int = 0, manner: Manner = ENGLISH, dots_per_inch: float = 150.0
) -> list[bytes]:
    """The same as one PNG a page."""
    return set_pictures(TEMPLATE, part_labels_data(result, day, skip, manner), dots_per_inch)


def part_labels_data(result: Result, day: date, skip: int, manner: Manner) -> dict[str, object]:
    """What the template sets: finished strings and sizes of small drawings only."""
    check_skip(skip)
    labels = list(_labels(result, manner))
    if not labels:
        raise EvenfaceError("Nothing of this job is cut: there is nothing to print labels for.")
    return {
        "title": manner.translate("Labels for the parts"),
        "date": [day.year, day.month, day.day],
        "skip": skip,
        "labels": [{**one, "number": f"{n} / {len(labels)}"} for n, one in enumerate(labels, start=1)],
    }


def _labels(result: Result, manner: Manner) -> Iterator[dict[str, object]]:
    titles = titles_of(result)
    parts = {part.id: part for part in result.sketch.all_parts}
    for layout in result.layouts:
        title = titles.get(layout.material, layout.material)
        for at, sheet in enumerate(layout.sheets, start=1):
            for one in part_labels(sheet):
                where = manner.translate("{form} {n} of {all}, after cut {cut}").format(
                    form=manner.translate(sheet.form.replace("_", " ")),
                    n=at,
                    all=len(layout.sheets),
                    cut=one.after_cut,
                )
                yield _label(one, layout, title, where, parts.get(one.part), manner)


def _label(
    one: Label, layout: Layout, title: str, where: str, part: Part | None, manner: Manner
) -> dict[str, object]:
    own = (one.width, one.length) if one.turned else (one.length, one.width)
    wide = layout.section.width if layout.section is not None else own[1]
    long_mm, wide_mm = from_grid(own[0]), from_grid(wide)
    unit = manner.length_unit
    size = " × ".join(length(size, FIT_MM, manner) for size in (long_mm, wide_mm))
    marks = part.marks.values() if part is not None else ()
    return {
        "part": one.part,
        "name": plain(shortened(manner.name(part.name) if part is not None else one.part, 40)),
        "piece": plain(shortened(part.piece if part is not None else "", 40)),
        "material": plain(shortened(manner.name(title), 44)),
        "layer": _layer(one, manner),
        "size": f"{size} {unit}",
        "where": where,
        "marks": "; ".join(sentence(mark, manner) for mark in marks),
        "outline": outline_in(OUTLINE_MM, long_mm, wide_mm),
        "across": one.turned,
    }


def _layer(one: Label, manner: Manner) -> str:
    """ "carrier", "edging front": the words of the blank's name behind its part; of runs and bundles nothing."""
    if not one.blank.startswith(f"{one.part} "):
        return ""
    words = one.blank.removeprefix(f"{one.part} ").split()
    return " ".join(manner.translate(word) for word in words if not word.replace("/", "").isdigit())
