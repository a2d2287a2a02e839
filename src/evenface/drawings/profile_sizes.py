"""The sizes of a profile, written outside the edge with a leader to the curve."""

from itertools import pairwise

from evenface.construction import BuiltPanel
from evenface.drawings.draft import Draft, figure
from evenface.drawings.scene import TEXT_MM, Anchor, Leader, RadiusDimension, Text
from evenface.piece.records import Profile, Side
from evenface.shape.edge_shape import EdgeShape
from evenface.shape.segment import Segment


def draw_profile_sizes(draft: Draft, panel: BuiltPanel, side: Side, shape: EdgeShape) -> None:
    """A radius for what is round, depth × height for what is not."""
    for profile in panel.panel.profiles:
        worked = shape.top if profile.face == "top" else shape.bottom
        if side in profile.sides and worked is not None:
            _draw(draft, panel, profile, shape)


def _draw(draft: Draft, panel: BuiltPanel, profile: Profile, shape: EdgeShape) -> None:
    top = profile.face == "top"
    way = 1.0 if top else -1.0
    curve = _worked(shape, top)
    if not curve:
        return
    piece = next((one for one in curve if one.is_arc), max(curve, key=lambda one: one.length))
    at = piece.at(0.5)
    level = (panel.thickness_mm if top else 0.0) + way * draft.paper(4.5)
    elbow = (min(at[0] - draft.paper(2.5), -draft.paper(1.0)), level)
    tail = (elbow[0] - draft.paper(1.5), level)
    place = (tail[0] - draft.paper(0.6), level - draft.paper(0.36 * TEXT_MM))
    text = Text(*place, _sizes(draft, profile, piece), TEXT_MM, Anchor.END, 0.0, "dimensions")
    if piece.is_arc:
        draft.add(RadiusDimension((piece.cx, piece.cy), at, elbow, tail, text))
    else:
        draft.add(Leader((at, elbow, tail), text, "dimensions"))


def _worked(shape: EdgeShape, top: bool) -> tuple[Segment, ...]:
    """The pieces of the edge that one profile has made."""
    profile = shape.top if top else shape.bottom
    if profile is None:
        return ()
    high = shape.thickness_mm
    levels = (high - profile.height_mm, high) if top else (0.0, profile.height_mm)
    return shape.curve(*levels)


def _sizes(draft: Draft, profile: Profile, piece: Segment) -> str:
    if piece.is_arc:
        return f"R{figure(piece.radius, draft.manner)}"
    if profile.curve:
        heights = [abs(b[0] - a[0]) for a, b in pairwise(profile.curve)]
        return (
            f"{figure(max(p[1] for p in profile.curve), draft.manner)}×{figure(sum(heights), draft.manner)}"
        )
    height = profile.height_mm if profile.height_mm is not None else profile.depth_mm
    depth = profile.depth_mm if profile.depth_mm is not None else profile.height_mm
    if depth is None or height is None:
        return ""
    if abs(depth - height) < 1e-9:
        return f"{figure(depth, draft.manner)}×45°"
    return f"{figure(depth, draft.manner)}×{figure(height, draft.manner)}"
