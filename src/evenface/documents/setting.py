"""Setting a template into PDF or pictures: data goes in as JSON, nothing is spliced into the markup.

The template sees the folder of templates and nothing else, fonts are those Typst carries with it, and no
package is fetched: every machine sets the same pages.
"""

import json
import unicodedata
from functools import cache
from pathlib import Path
from typing import Final, Literal

import typst

from evenface.documents.tables import Table
from evenface.errors import EvenfaceError
from evenface.words import Said

TEMPLATES: Final = Path(__file__).parent / "templates"
_LONGEST_WORD: Final = 18
BREAK: Final = "\u200b"
"""Where a very long word may be broken; nothing is seen of it."""


class SettingError(EvenfaceError):
    """A template could not be set: a fault of this program, with Typst's own words."""


def set_pdf(template: str, data: object, language: str = "en") -> bytes:
    """The PDF of a template of this room and its data. SettingError when Typst refuses.

    language : of the texts in `data`, for breaking words.
    """
    pages = _set(template, data, "pdf", None, language)
    return pages if isinstance(pages, bytes) else pages[0]


def set_pictures(template: str, data: object, dots_per_inch: float = 110.0) -> list[bytes]:
    """The same as one PNG a page."""
    pages = _set(template, data, "png", dots_per_inch, "en")
    return [pages] if isinstance(pages, bytes) else pages


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False)


def _set(
    template: str, data: object, form: Literal["pdf", "png"], ppi: float | None, language: str
) -> bytes | list[bytes]:
    made: bytes | list[bytes]
    try:
        made = typst.compile(
            str(TEMPLATES / template),
            root=str(TEMPLATES),
            font_paths=_fonts(),
            ignore_system_fonts=True,
            format=form,
            ppi=ppi,
            sys_inputs={"data": json.dumps(data, ensure_ascii=False, allow_nan=False), "language": language},
            timestamp=0,
        )
    except typst.TypstError as error:
        raise SettingError(
            # the value's own name is that of a parameter of `said`
            Said(
                "the pages of {template} could not be set: {why}",
                {"template": template, "why": error.message},
            )
        ) from error
    return made


def plain(text: str) -> str:
    """Text as it can be set anywhere: no control signs, and places to break in very long words."""
    clean = "".join(" " if unicodedata.category(sign) in ("Cc", "Cs") else sign for sign in text)
    return " ".join(_breakable(word) for word in clean.split(" "))


def _breakable(word: str) -> str:
    if len(word) <= _LONGEST_WORD:
        return word
    return BREAK.join(word[start : start + 6] for start in range(0, len(word), 6))


def shortened(text: str, most: int) -> str:
    """The beginning of a text, with an ellipsis when something is left out."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def table_data(table: Table) -> dict[str, object]:
    """A table as the templates want it. share : part of the free width; 0 takes what the cells need."""
    columns = []
    for number, column in enumerate(table.columns):
        longest = max((len(row[number]) for row in table.rows), default=0)
        share = 0 if column.numeric or longest <= 14 else min(60, longest)
        columns.append({"title": plain(column.title), "numeric": column.numeric, "share": share})
    rows = [[plain(cell) for cell in row] for row in table.rows]
    return {"title": plain(table.title), "columns": columns, "rows": rows, "note": plain(table.note)}
