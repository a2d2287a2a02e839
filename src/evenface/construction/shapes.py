"""The shapes of a built panel: its outline, its carrier seen from above, the profiles of its edges."""

from collections.abc import Mapping
from typing import Final, Literal

from evenface.construction.records import BuiltPanel
from evenface.piece import records as asked
from evenface.piece.records import CornerAt, Side
from evenface.shape import profile_shapes
from evenface.shape.build import SQUARE, CornerCut, Notch, rectangle
from evenface.shape.edge_shape import EdgeShape
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.profile import Profile
from evenface.words import said

TRAVEL = (CornerAt.FRONT_LEFT, CornerAt.FRONT_RIGHT, CornerAt.REAR_RIGHT, CornerAt.REAR_LEFT)
"""Corners in the order an outline runs through them."""


def corner_cuts(panel: BuiltPanel) -> dict[CornerAt, CornerCut]:
    """How each corner is treated; square where nothing is said."""
    given = {corner.at: corner for corner in panel.panel.corners}
    cuts = {}
    for at in TRAVEL:
        corner = given.get(at)
        if corner is not None and corner.shape == "notch":
            cuts[at] = CornerCut("notch", bite_mm=corner.notch_mm, inner_mm=corner.inner_radius_mm)
        elif corner is None or corner.size_mm <= 0 or corner.shape == "square":
            cuts[at] = SQUARE
        else:
            cuts[at] = CornerCut("radius" if corner.shape == "radius" else "chamfer", corner.size_mm)
    return cuts


def finished_outline(panel: BuiltPanel) -> Outline:
    """The outline over the edging: the free outline, or the rectangle with its corners.

    Raises ShapeError `corners_overlap` or `notch` when corners and notches do not fit on the panel.
    """
    if panel.panel.outline is not None:
        return panel.panel.outline
    cuts = corner_cuts(panel)
    notches = [_notch(panel, notch) for notch in panel.panel.notches]
    return rectangle(panel.length_mm, panel.width_mm, [cuts[at] for at in TRAVEL], notches)


def _notch(panel: BuiltPanel, notch: asked.Notch) -> Notch:
    """The notch as an outline runs past it: from the right along the rear, from the rear along the left."""
    run = panel.length_mm if notch.side.runs_along_length else panel.width_mm
    middle = run - notch.along_mm if notch.side in (Side.REAR, Side.LEFT) else notch.along_mm
    side: Literal["front", "right", "back", "left"] = _SIDE_OF[notch.side]
    start = middle - notch.length_mm / 2
    return Notch(side, start, notch.length_mm, notch.depth_mm, notch.inner_radius_mm)


_SIDE_OF: Final[Mapping[Side, Literal["front", "right", "back", "left"]]] = {
    Side.FRONT: "front",
    Side.RIGHT: "right",
    Side.REAR: "back",
    Side.LEFT: "left",
}


def profile_of(profile: asked.Profile) -> Profile:
    """The exact curve of a profile as the maker described it.

    Raises ShapeError when a figure it needs is missing or its curve cannot be cut.
    """
    if profile.shape not in _SHAPES:
        return profile_shapes.free_profile(profile.curve)
    return _SHAPES[profile.shape](profile)


def _round_over(profile: asked.Profile) -> Profile:
    return profile_shapes.round_over(_needed(profile, "radius_mm"))


def _cove(profile: asked.Profile) -> Profile:
    return profile_shapes.cove(_needed(profile, "radius_mm"))


def _chamfer(profile: asked.Profile) -> Profile:
    height = profile.depth_mm if profile.height_mm is None else profile.height_mm
    if height is None:
        _needed(profile, "height_mm")
    return profile_shapes.chamfer(height or 0.0, profile.depth_mm)


def _bevel(profile: asked.Profile) -> Profile:
    return profile_shapes.bevel_under(_needed(profile, "height_mm"), _needed(profile, "depth_mm"))


def _thumbnail(profile: asked.Profile) -> Profile:
    step = profile.height_mm or 0.0
    return profile_shapes.thumbnail(_needed(profile, "radius_mm"), step, _needed(profile, "depth_mm"))


def _stepped(profile: asked.Profile) -> Profile:
    return profile_shapes.stepped((_needed(profile, "height_mm"), _needed(profile, "depth_mm")))


_SHAPES = {
    "round-over": _round_over,
    "cove": _cove,
    "chamfer": _chamfer,
    "bevel under": _bevel,
    "thumbnail": _thumbnail,
    "stepped": _stepped,
}


def edge_shape(panel: BuiltPanel, side: Side) -> EdgeShape:
    """The edge of one side through the whole thickness, with the profiles worked on it.

    Raises ShapeError `profiles_meet` when the upper and lower profile run into each other.
    """
    found: dict[str, Profile] = {}
    for profile in panel.panel.profiles:
        if side in profile.sides:
            found[profile.face] = profile_of(profile)
    return EdgeShape(panel.thickness_mm, found.get("top"), found.get("bottom"))


def _needed(profile: asked.Profile, field: str) -> float:
    given = getattr(profile, field)
    if given is None:
        raise ShapeError(
            "missing",
            said("a {shape:word} needs its {size:word}", shape=profile.shape, size=field.removesuffix("_mm")),
        )
    return float(given)
