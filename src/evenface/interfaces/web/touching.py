"""Places on a drawing that lead to an entry: touch an edge, and its entry is ready to be typed in.

A place is a link in the drawing, so that it works by mouse, thumb and keyboard, and without a script too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final
from xml.sax.saxutils import quoteattr

from markupsafe import Markup

from evenface.construction import BuiltPanel
from evenface.drawings import Scene, to_svg
from evenface.interfaces.web.entries import Entry
from evenface.piece.records import Role, Side
from evenface.shape.segment import Box
from evenface.words import Manner, said, say

THUMB_MM: Final = 9.0
"""Least size of a place on the paper: drawings are shown larger than their paper."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the drawing, in mm of the piece, the entry it leads to, and what it is called."""

    box: Box
    entry: Entry
    label: str


def plan_spots(panel: BuiltPanel, entries: Sequence[Entry], scale: float, manner: Manner) -> list[Spot]:
    """Facing, edges, corners, cut-outs and grips of a plan; later ones lie over earlier ones.

    scale : paper over piece.
    """
    return list(_on_plan(panel, _Known(entries, manner), THUMB_MM / scale))


def build_up_spots(
    panel: BuiltPanel, entries: Sequence[Entry], width_mm: float, manner: Manner
) -> list[Spot]:
    """The layers of a build-up drawn that wide, from its left end and its underside."""
    known = _Known(entries, manner)
    found: list[Spot | None] = []
    back, face = panel.face(Role.BACK), panel.face(Role.FACE)
    low = back.thickness.nominal if back is not None else 0.0
    high = panel.thickness_mm - (face.thickness.nominal if face is not None else 0.0)
    least = 0.18 * panel.thickness_mm
    found.append(known.spot((0.0, low, width_mm, high), "carrier"))
    found.append(
        known.spot((0.0, min(high, panel.thickness_mm - least), width_mm, panel.thickness_mm), "face")
    )
    found.append(known.spot((0.0, 0.0, width_mm, max(low, least)), "back"))
    return [one for one in found if one is not None]


def section_spots(scene: Scene, entries: Sequence[Entry], manner: Manner) -> list[Spot]:
    """A section of an edge leads, wherever it is touched, to its profile or else to the width of its edging."""
    known = _Known(entries, manner)
    spots = (known.spot(scene.bounds, end) for end in ("profile[0].shape", "edging.width"))
    return next(([one] for one in spots if one is not None), [])


def with_spots(scene: Scene, spots: Sequence[Spot]) -> Markup:
    """The drawing with its places laid over it; the writer and the quoting have escaped every text."""
    svg = to_svg(scene).rstrip()
    if not spots:
        return Markup(svg)
    left, top = scene.bounds[0], scene.bounds[3]
    rows = []
    for spot in spots:
        x0, y0, x1, y1 = spot.box
        x, y = (x0 - left) * scene.scale, (top - y1) * scene.scale
        wide, high = (x1 - x0) * scene.scale, (y1 - y0) * scene.scale
        rows.append(
            f'<a class="spot" href="#{spot.entry.id}" aria-label={quoteattr(spot.label)}>'
            f'<rect x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="{high:.2f}" fill="transparent"/></a>'
        )
    # what holds links is no mere picture
    head = svg.replace('role="img"', 'role="group"', 1).removesuffix("</svg>")
    return Markup(f"{head}{''.join(rows)}</svg>")


class _Known:
    """The entries of a part, looked up by the end of their path."""

    def __init__(self, entries: Sequence[Entry], manner: Manner) -> None:
        self.entries, self.manner = entries, manner

    def ending(self, end: str) -> Entry | None:
        return next((one for one in self.entries if one.path.endswith(f".{end}")), None)

    def under(self, origin: str) -> Entry | None:
        return next((one for one in self.entries if one.path.startswith(f"{origin}.")), None)

    def spot(self, box: Box, end: str, place: str = "") -> Spot | None:
        entry = self.ending(end)
        return None if entry is None else Spot(box, entry, self.called(entry, place))

    def own(self, box: Box, end: str) -> Spot | None:
        """An entry of this edge or corner alone, where it is written."""
        entry = self.ending(end)
        return Spot(box, entry, self.called(entry, "")) if entry is not None and entry.value else None

    def called(self, entry: Entry, place: str) -> str:
        word = self.manner.translate
        if not place:
            return word(entry.label)
        return say(said("{what}, {place:word}", what=word(entry.label), place=place), self.manner)


def _on_plan(panel: BuiltPanel, known: _Known, thumb: float) -> Iterator[Spot]:
    long, wide = panel.length_mm, panel.width_mm
    middle = (thumb, thumb, max(long - thumb, thumb), max(wide - thumb, thumb))
    edges: dict[Side, Box] = {
        Side.FRONT: (0.0, 0.0, long, thumb),
        Side.REAR: (0.0, wide - thumb, long, wide),
        Side.LEFT: (0.0, 0.0, thumb, wide),
        Side.RIGHT: (long - thumb, 0.0, long, wide),
    }
    places = [known.spot(middle, "face")]
    if panel.panel.outline is None:
        places += [
            known.own(edges[side], f"edging.{side.value}.width")
            or known.spot(edges[side], "edging.width", side.value)
            for side in edges
            if panel.edging(side)
        ]
        for corner in panel.panel.corners:
            x = 0.0 if "left" in corner.at.value else long - thumb
            y = 0.0 if "front" in corner.at.value else wide - thumb
            box = (x, y, x + thumb, y + thumb)
            own = known.own(box, f"corners.{corner.at.value.replace(' ', '_')}.radius")
            places.append(own or known.spot(box, "corners.radius", corner.at.value))
    yield from (one for one in places if one is not None)
    for origin, box in _features(panel):
        entry = known.under(origin)
        if entry is not None:
            yield Spot(_about(box, thumb), entry, known.called(entry, ""))


def _features(panel: BuiltPanel) -> Iterator[tuple[str, Box]]:
    """Where cut-outs and grips are written, and the box around each."""
    for cutout in panel.panel.cutouts:
        yield cutout.origin, cutout.outline.bounds
    for grip in panel.panel.grips:
        xs, ys = zip(*grip.path, strict=True)
        half = grip.cutter_diameter_mm / 2
        yield grip.origin, (min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half)


def _about(box: Box, thumb: float) -> Box:
    """The box, grown about its middle to what a thumb can hit."""
    x0, y0, x1, y1 = box
    more_x, more_y = (max(0.0, thumb - length) / 2 for length in (x1 - x0, y1 - y0))
    return x0 - more_x, y0 - more_y, x1 + more_x, y1 + more_y
