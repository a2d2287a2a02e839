"""The cutters a job needs: how large each may be, how fast it may turn, how far it has to reach."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from evenface.shape.cutter import rotation_limit
from evenface.shape.ring import segments_of
from evenface.templates.records import Jig, RoutedTemplate


@dataclass(frozen=True, slots=True)
class NeededCutter:
    """One cutter and all it is used for.

    largest_mm : the largest straight one that still gets into every corner of these curves, None where no corner
    limits it or the cutter's own size makes the hollow. limit_rpm : highest rotation for its size, None above 89 mm.
    reach_mm : wood and template together, or wood alone below a carriage. used_for : names of curves and forms.
    """

    shape: str
    diameter_mm: float
    largest_mm: float | None
    limit_rpm: int | None
    reach_mm: float
    used_for: tuple[str, ...]


type _Use = tuple[str, float, float, float, str]
"""Shape, diameter, largest diameter, reach, name."""


def cutters_of(templates: Sequence[RoutedTemplate], jigs: Sequence[Jig] = ()) -> tuple[NeededCutter, ...]:
    """Every cutter of the job once, straight ones first, the smallest first."""
    found: dict[tuple[str, float], list[_Use]] = {}
    for use in (*map(_of_template, templates), *map(_of_jig, jigs)):
        found.setdefault((use[0], use[1]), []).append(use)
    return tuple(_needed(found[key]) for key in sorted(found, key=lambda key: (key[0] != "straight", *key)))


def _needed(uses: Sequence[_Use]) -> NeededCutter:
    shape, diameter = uses[0][:2]
    largest = min(use[2] for use in uses)
    return NeededCutter(
        shape,
        diameter,
        None if largest == inf else largest,
        rotation_limit(diameter),
        max(use[3] for use in uses),
        tuple(dict.fromkeys(use[4] for use in uses)),
    )


def _of_template(one: RoutedTemplate) -> _Use:
    curve, cutter = one.curve, one.template.cutter
    reach = curve.depth_mm + one.board.thickness_mm
    largest = inf if curve.way else min(_corners(one), default=inf)
    return curve.cutter_shape, cutter.diameter_mm, largest, reach, curve.name


def _corners(one: RoutedTemplate) -> Iterator[float]:
    """Twice the radius of every corner the cutter has to get into."""
    into = 1.0 if one.template.work == "inside" else -1.0
    for segment in segments_of(one.template.part.outer):
        if segment.is_arc and segment.sweep * into > 0:
            yield 2 * segment.radius


def _of_jig(one: Jig) -> _Use:
    return one.cutter_shape, one.cutter_mm, inf, one.reach_mm, one.name
