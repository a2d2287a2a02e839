"""What does not fit into a plan, in rows below it: corners with their radii, openings and inserts with their sizes."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from evenface.construction import BuiltPanel
from evenface.drawings.draft import figure
from evenface.drawings.outlines import corners_of
from evenface.drawings.scene import SMALL_MM
from evenface.piece.records import Corner, CornerAt
from evenface.shape.outline import Outline
from evenface.words import Manner, Own, Said, said, say

ROW_LETTERS: Final = 76
NAME_LETTERS: Final = 32
ROW_MM: Final = 1.5 * SMALL_MM


def detail_rows(panel: BuiltPanel, numbers: Mapping[str, int], manner: Manner) -> Iterator[str]:
    """Cut-outs, inserts and grips with their sizes, as many in a row as fit; numbers of those not named in the plan."""
    told = list(_told(panel, numbers, manner))
    row = ""
    for one in told:
        if row and len(row) + len(one) + 2 > ROW_LETTERS:
            yield row + ";"
            row = one
        else:
            row = f"{row}; {one}" if row else one
    if row:
        yield row


def _told(panel: BuiltPanel, numbers: Mapping[str, int], manner: Manner) -> Iterator[str]:
    openings = [(one.name, one.outline) for one in panel.panel.cutouts]
    openings += [(one.name, one.outline) for one in panel.panel.inserts]
    for name, outline in openings:
        yield f"{_number(numbers, name)}{_short(name, manner)} {outline_size(outline, manner)}"
    for grip in panel.panel.grips:
        words = said(
            "{name}: {cutter:word} {size:mm}, {depth:mm} deep", name=_short(grip.name, manner),
            cutter=grip.cutter, size=grip.cutter_diameter_mm, depth=grip.depth_mm,
        )  # fmt: skip
        yield _number(numbers, grip.name) + say(words, manner)
    for notch in panel.panel.notches:
        sizes = " × ".join(figure(size, manner) for size in (notch.length_mm, notch.depth_mm))
        radius = f", R{figure(notch.inner_radius_mm, manner)}" if notch.inner_radius_mm else ""
        yield f"{_number(numbers, notch.name)}{_short(notch.name, manner)} {sizes}{radius}"


def _number(numbers: Mapping[str, int], name: str) -> str:
    return f"({numbers[name]}) " if name in numbers else ""


def _short(name: str, manner: Manner) -> Own:
    shown = manner.name(name)
    return Own(shown if len(shown) <= NAME_LETTERS else shown[: NAME_LETTERS - 1] + "…")


def outline_size(outline: Outline, manner: Manner) -> str:
    """Ø of a circle; else length × width of the box round it and the radii of its corners."""
    segments = outline.outer_segments()
    length, width = outline.size
    radii = sorted({round(s.radius, 3) for s in segments if s.is_arc})
    if len(radii) == 1 and all(s.is_arc for s in segments) and abs(length - width) < 1e-6:
        return f"Ø{figure(length, manner)}"
    sizes = f"{figure(length, manner)} × {figure(width, manner)}"
    return sizes + "".join(f", R{figure(radius, manner)}" for radius in radii)


def corner_rows(panel: BuiltPanel, lettered: Sequence[CornerAt]) -> Iterator[Said]:
    """Corners that carry no figure in the plan, or are built of pieces: where, how large and how."""
    for corner in corners_of(panel).values():
        if corner.construction != "rounded" or corner.at not in lettered:
            yield _corner_row(corner)


def _corner_row(corner: Corner) -> Said:
    letter = "R" if corner.shape == "radius" else ""
    if corner.construction == "rounded":
        return said(
            "{at:word} corner {letter}{size:mm}", at=corner.at.value, letter=letter, size=corner.size_mm
        )
    return said("{at:word} corner {letter}{size:mm}, {how:word}", at=corner.at.value, letter=letter,
                size=corner.size_mm, how=corner.construction)  # fmt: skip


def paired(rows: Sequence[Said]) -> Iterator[Said]:
    """Short rows put together, two in a row."""
    for k in range(0, len(rows), 2):
        pair = rows[k : k + 2]
        yield pair[0] if len(pair) == 1 else said("{one}; {other}", one=pair[0], other=pair[1])
