"""Forms to bend and glue strips on: their outline, the pack of strips on them, and where the bend begins."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from evenface.words import said

from .corner_pieces import BentStrips
from .faults import need
from .outline import Outline
from .segment import Box, Segment

STRAIGHT_MM = 60.0  # each end of the strips runs on straight by so much, to be clamped and cut off
TALLER_MM = 13.0  # strips are taller than the finished edging by so much, planed true after gluing: practice
BACK_MM = 60.0  # least wood behind a form's face
CLAMPED_MM = 40.0  # of its back, by which a form is held down
WIDEST_DEG = 150.0  # a form that turns further does not let go of what was bent on it


@dataclass(frozen=True, slots=True)
class BendingForm:
    """One half of a bending form, symmetrical about x = 0, the centre of its bend at (0, 0).

    radius_mm : of the form itself. pack : the strips as they lie against it. begins : the two lines square to
    the strips at which the bend begins, where the piece is cut after gluing. middle : the line through the
    bend's middle. back : zone by which it is held down.
    """

    outline: Outline
    radius_mm: float
    sweep_deg: float
    straight_mm: float
    pack: Outline
    begins: tuple[Segment, Segment]
    middle: Segment
    back: Box


def bending_form(bend: BentStrips, inside: bool, straight_mm: float = STRAIGHT_MM) -> BendingForm:
    """The inside form, or the outside one that closes on the pack lying on it.

    The inside form leads: its radius is the finished inner radius less the share that springs back. The outside
    form is larger by the thickness of the pack, which does not change in bending.

    Raises
    ShapeError
        ``sweep`` when the bend turns by more than 150°, ``size`` without straight ends.
    """
    need(straight_mm > 0, "size", f"strips need straight ends to clamp, got {straight_mm} mm")
    need(
        bend.form_sweep_deg <= WIDEST_DEG,
        "sweep",
        said(
            "a bend of {sweep:deg} does not come off its form: build it of two bends, each at most {most:deg}",
            sweep=round(bend.form_sweep_deg),
            most=WIDEST_DEG,
        ),
        WIDEST_DEG,
    )
    thick = bend.count * bend.thickness_mm
    inner = bend.form_inner_mm
    outer = inner + thick
    half = radians(bend.form_sweep_deg) / 2
    faces = {r: _face(r, half, straight_mm) for r in (inner, outer)}
    low = min(y for _, y, _ in faces[inner]) - BACK_MM
    high = outer + BACK_MM
    wide = max(x for x, _, _ in faces[outer if not inside else inner])
    body = [(wide, low if inside else high, 0.0), (-wide, low if inside else high, 0.0)]
    outline = Outline.of([*faces[inner if inside else outer], *body])
    pack = Outline.of([*faces[inner], *_turned_back(faces[outer])])
    back = (-wide, low, wide, low + CLAMPED_MM) if inside else (-wide, high - CLAMPED_MM, wide, high)
    begins = tuple(
        Segment(way * inner * sin(half), inner * cos(half), way * outer * sin(half), outer * cos(half))
        for way in (-1.0, 1.0)
    )
    middle = Segment(0.0, low if inside else inner, 0.0, outer if inside else high)
    return BendingForm(
        outline, inner if inside else outer, bend.form_sweep_deg, straight_mm, pack,
        (begins[0], begins[1]), middle, back,
    )  # fmt: skip


def _face(radius: float, half: float, straight: float) -> list[tuple[float, float, float]]:
    """From the left straight end over the bend to the right one; the arc runs clockwise."""
    x, y = radius * sin(half), radius * cos(half)
    dx, dy = straight * cos(half), straight * sin(half)
    return [(-x - dx, y - dy, 0.0), (-x, y, -tan(half / 2)), (x, y, 0.0), (x + dx, y - dy, 0.0)]


def _turned_back(face: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """The same line from its end to its start."""
    (ax, ay, _), (bx, by, bulge), (cx, cy, _), (dx, dy, _) = face
    return [(dx, dy, 0.0), (cx, cy, -bulge), (bx, by, 0.0), (ax, ay, 0.0)]
