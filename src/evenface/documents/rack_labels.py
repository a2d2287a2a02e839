"""Labels for what lies in the rack: a sheet of stickers, 3 × 8 on A4, each with a code the rack finds again.

Beside the code: material, size, batch, place, an outline with the grain, and which face is good.
"""

from collections.abc import Sequence
from datetime import date
from typing import Final

import segno

from evenface.documents.display import length
from evenface.documents.setting import plain, set_pdf, set_pictures, shortened
from evenface.documents.stickers import check_skip, outline_in
from evenface.errors import EvenfaceError
from evenface.store.rack_codes import code_text
from evenface.store.rack_records import RackItem
from evenface.words import ENGLISH, Manner

TEMPLATE: Final = "labels.typ"
OUTLINE_MM: Final = (17.0, 8.0)
"""Room for the outline on the label."""
_FACES: Final = {"label": "good face: this", "other": "good face: other", "both": "both faces good"}


def label_pdf(items: Sequence[RackItem], day: date, skip: int = 0, manner: Manner = ENGLISH) -> bytes:
    """The sheet as PDF. skip : stickers already used at the head of the first sheet, 0 to 23.

    Raises EvenfaceError when there is nothing to print, or for another number to skip.
    """
    return set_pdf(TEMPLATE, labels_data(items, day, skip, manner), manner.language)


def label_pngs(
    items: Sequence[RackItem],
    day: date,
    skip: int = 0,
    manner: Manner = ENGLISH,
    dots_per_inch: float = 150.0,
) -> list[bytes]:
    """The same as one PNG a page."""
    return set_pictures(TEMPLATE, labels_data(items, day, skip, manner), dots_per_inch)


def labels_data(items: Sequence[RackItem], day: date, skip: int, manner: Manner) -> dict[str, object]:
    """What the template sets: finished strings and small drawings only."""
    if not items:
        raise EvenfaceError("There is nothing in the rack to print labels for: expected at least one item.")
    check_skip(skip)
    return {
        "title": manner.translate("Labels for the rack"),
        "date": [day.year, day.month, day.day],
        "skip": skip,
        "labels": [_label(item, manner) for item in items],
    }


def code_svg(code: str) -> str:
    """A QR code (ISO/IEC 18004) of the eight signs, level Q: it is read with a quarter of it scratched away."""
    return segno.make_qr(code, error="q").svg_inline(border=2, scale=1, omitsize=True)


def _label(item: RackItem, manner: Manner) -> dict[str, object]:
    word = manner.translate
    long, wide = item.size_mm
    size = f"{length(long, manner=manner)} × {length(wide, manner=manner)}"
    if item.thickness is not None:
        size += f" × {length(item.thickness / 100, 0.1, manner)}"
    unit = manner.length_unit
    return {
        "code": code_text(item.code),
        "qr": code_svg(item.code),
        "material": plain(shortened(item.material, 40)),
        "form": word(item.form.replace("_", " ")),
        "size": f"{size} {unit}",
        "batch": plain(shortened(f"{word('batch')} {item.batch}", 26)) if item.batch else "",
        "place": plain(shortened(item.place, 26)),
        "face": word(_FACES[item.faces]),
        "marks": {"label": [True], "other": [False], "both": [True, False]}[item.faces],
        "outline": outline_in(OUTLINE_MM, long, wide),
        "grain": item.grain,
        "grain_word": word("no grain" if item.grain == "none" else "grain"),
    }
