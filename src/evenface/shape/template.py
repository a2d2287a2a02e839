"""Templates for a cutter guided by a bush or a bearing, and what can and cannot be cut with them.

The guide's edge runs along the template; the cut lies (guide − cutter)/2 away from it. For inside work the
template is a hole and the cutter stays in it; for outside work the cutter runs round the template.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from evenface.words import said

from .cutter import Cutter, cutter_that_would_do, reach_left
from .faults import Place, ShapeError, need
from .offset import offset
from .outline import Outline
from .ring import segments_of, turn_at

type Work = Literal["inside", "outside"]
type GuideKind = Literal["bush", "bearing"]

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Guide:
    """A guide bush or bearing as measured: outside diameter, and how far a bush stands below the base, mm."""

    diameter_mm: float
    kind: GuideKind = "bush"
    collar_mm: float = 0.0

    def __post_init__(self) -> None:
        need(self.diameter_mm > 0, "size", f"a guide needs a diameter above 0, got {self.diameter_mm}")
        need(self.kind in ("bush", "bearing"), "guide", f"a guide is a bush or a bearing, not {self.kind!r}")


@dataclass(frozen=True, slots=True)
class TooTight:
    """A place of the part that guide and cutter cannot make, with the radius there and the one they need."""

    place: Place
    radius_mm: float
    needed_mm: float


@dataclass(frozen=True, slots=True)
class Template:
    """A template with the part it makes. ``offset_mm`` is the distance from its edge to the cut."""

    part: Outline
    outline: Outline
    work: Work
    guide: Guide
    cutter: Cutter
    offset_mm: float


def guide_offset(guide: Guide, cutter: Cutter) -> float:
    """Distance from the template's edge to the cut: (guide − cutter)/2, 0 for a flush bearing, mm."""
    return (guide.diameter_mm - cutter.diameter_mm) / 2


def too_tight(part: Outline, work: Work, guide: Guide, cutter: Cutter) -> tuple[TooTight, ...]:
    """Places of the part's outer ring whose radius is too small for cutter or guide.

    Where the cutter goes into a corner the part needs half the cutter's diameter; where the template stands
    out into the guide's way it needs the offset (a sharp template corner is cut as an arc of that radius).
    """
    into = cutter.radius_mm
    around = max(guide_offset(guide, cutter), 0.0)
    segments = segments_of(part.outer)
    found: list[TooTight] = []
    for number, (before, s) in enumerate(zip((segments[-1], *segments[:-1]), segments, strict=True)):
        turn = turn_at(before, s)
        corners = [(s.x0, s.y0, 0.0, turn)] if abs(turn) > 1e-6 else []
        if s.is_arc:
            corners.append((*s.at(0.5), s.radius, s.sweep))
        for x, y, radius, way in corners:
            needed = into if (way > 0) == (work == "inside") else around
            if radius < needed - _SAME_MM:
                found.append(TooTight(Place(0, number, x, y), radius, needed))
    return tuple(found)


def template_for(
    part: Outline, work: Work, guide: Guide, cutter: Cutter, cutters: Sequence[Cutter] = ()
) -> Template:
    """The template that makes ``part`` (a hole for inside work), its radii and necks checked.

    ``cutters`` are those at hand: a refusal names the largest of them that would do.

    Raises
    ShapeError
        ``too_tight`` with the place and the largest diameter that would do as its value; ``bush`` (the cutter
        does not pass); ``too_narrow`` when cutter or guide does not fit through; ``vanished``.
    """
    need(not part.holes, "holes", "a template makes one ring: give every hole its own template")
    o = guide_offset(guide, cutter)
    if guide.kind == "bush":
        message = said(
            "a cutter of {cutter:mm2} does not pass a bush of {bush:mm2}",
            cutter=cutter.diameter_mm, bush=guide.diameter_mm,
        )  # fmt: skip
        need(o > 0, "bush", message, o)
    tight = too_tight(part, work, guide, cutter)
    if tight:
        raise _refusal(tight, guide, cutter, tuple(cutters))
    way = -cutter.radius_mm if work == "inside" else cutter.radius_mm
    axis = offset(part, way)
    fits = len(axis.outlines) == 1 and abs(offset(axis.only, -way).area_mm2 - part.area_mm2) < 1e-4
    message = said("a cutter of {cutter:mm2} does not pass a neck of the part", cutter=cutter.diameter_mm)
    need(fits, "too_narrow", message)
    outline = offset(part, o if work == "inside" else -o).only
    return Template(part, outline, work, guide, cutter, o)


def _refusal(
    tight: Sequence[TooTight], guide: Guide, cutter: Cutter, cutters: tuple[Cutter, ...]
) -> ShapeError:
    """Says what would do: a smaller cutter for inner corners, a smaller guide for outer ones."""
    inner = [t for t in tight if t.needed_mm == cutter.radius_mm]
    worst = min(inner or tight, key=lambda t: t.radius_mm)
    if not inner:
        largest_guide = cutter.diameter_mm + 2 * worst.radius_mm
        message = said(
            "the part's outer radius of {radius:mm2} needs a guide of at most {most:mm2} with this cutter, got "
            "{guide:mm2}",
            radius=worst.radius_mm, most=largest_guide, guide=guide.diameter_mm,
        )  # fmt: skip
        return ShapeError("too_tight", message, worst.place, largest_guide)
    largest = 2 * worst.radius_mm
    would_do = cutter_that_would_do(cutters, largest)
    if would_do:
        remedy = said("the cutter of {cutter:mm2} would do", cutter=would_do.diameter_mm)
    else:
        remedy = (
            said("a cutter of at most {largest:mm2} would do", largest=largest)
            if largest
            else said("no cutter makes a sharp inner corner")
        )
    message = said(
        "a radius of {radius:mm2} cannot be cut with {cutter:mm2}, which leaves {needed:mm2}: {remedy}",
        radius=worst.radius_mm, cutter=cutter.diameter_mm, needed=worst.needed_mm, remedy=remedy,
    )  # fmt: skip
    return ShapeError("too_tight", message, worst.place, largest)


def cut_by(template: Template) -> Outline:
    """What the template really makes: its edge moved by the guide's radius, back by the cutter's."""
    way = -1.0 if template.work == "inside" else 1.0
    axis = offset(template.outline, way * template.guide.diameter_mm / 2).only
    return offset(axis, -way * template.cutter.radius_mm).only


def template_reach(cutter: Cutter, depth_mm: float, template_thickness_mm: float) -> float:
    """Reach left below a template laid on the work; negative: the cutter does not get to the floor."""
    return reach_left(cutter, depth_mm, template_thickness_mm)
