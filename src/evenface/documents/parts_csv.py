"""`parts.csv`: one row a layer, for a spreadsheet or a merchant.

UTF-8 with a byte order mark, which is how spreadsheets know it; commas between cells, a point before
decimals, lengths in mm to 0.1. Columns: no (part), piece, part, count (of that layer in the whole job),
layer, edge, material, title, net, cut, blank and bought sizes, inside length and end angles of edging, keep
to (tolerance), state (already cut, scribe) and notes. A text that a spreadsheet would take for a formula is
written with an apostrophe before it.
"""

import csv
import io
from collections.abc import Iterable, Iterator
from typing import Final

from evenface.documents.display import sentence, titles_of
from evenface.parts import LayerSizes, Part, Size
from evenface.result import Result

COLUMNS: Final = (
    *("no", "piece", "part", "count", "layer", "edge", "material", "title"),
    *("net_length_mm", "net_width_mm", "net_thickness_mm"),
    *("cut_length_mm", "cut_width_mm", "cut_thickness_mm"),
    *("blank_length_mm", "blank_width_mm", "blank_thickness_mm"),
    *("bought_length_mm", "bought_width_mm", "bought_thickness_mm"),
    *("inside_length_mm", "start_angle_deg", "end_angle_deg", "keep_to_mm", "state", "notes"),
)
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n")


def parts_text(result: Result) -> str:
    """The whole file as text, byte order mark first."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for row in part_rows(result):
        writer.writerow([safe_cell(cell) for cell in row])
    return "\ufeff" + out.getvalue()


def part_rows(result: Result) -> Iterator[tuple[str | float | int, ...]]:
    """One row a layer, numbers as numbers."""
    titles = titles_of(result)
    for part in result.sketch.all_parts:
        for layer in part.layers:
            yield tuple(_row(part, layer, titles.get(layer.material, "")))


def safe_cell(cell: str | float | int) -> str:
    """A cell that no spreadsheet takes for a formula; numbers to 0.1 without trailing zeros."""
    if isinstance(cell, str):
        return "'" + cell if cell.lstrip(" ").startswith(_FORMULA) or cell.startswith(_FORMULA) else cell
    return f"{cell:.1f}".removesuffix(".0") if isinstance(cell, float) else str(cell)


def _row(part: Part, layer: LayerSizes, title: str) -> Iterator[str | float | int]:
    yield from (part.id, part.piece, part.name, part.count * layer.count, layer.role.value)
    yield from (layer.side.value if layer.side else "", layer.material, title)
    for size in (layer.net_mm, layer.cut_mm, layer.blank_mm, layer.bought_mm):
        yield from _three(size)
    yield "" if layer.inner_mm is None else layer.inner_mm
    yield from layer.angles_deg
    yield layer.tolerance_mm
    yield "already cut" if layer.locked else "scribe" if layer.fitted else ""
    yield " ".join(sentence(reason) for reason in layer.reasons)


def _three(size: Size | None) -> Iterable[str | float]:
    return ("", "", "") if size is None else size
