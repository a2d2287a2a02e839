"""An edge with a profile from above, one from below, or both, seen through the panel's thickness.

Levels z run up from the under face (z = 0) to the show face (z = thickness).
"""

from __future__ import annotations

from dataclasses import dataclass

from evenface.words import said

from .faults import need
from .outline import Outline
from .profile import Profile
from .segment import ON_MM, Segment


@dataclass(frozen=True, slots=True)
class EdgeShape:
    """Thickness of the finished panel and the profiles worked on its upper and lower arris.

    Raises
    ShapeError
        ``size``; ``profiles_meet`` when the two reach past each other, with the overlap as its value.
    """

    thickness_mm: float
    top: Profile | None = None
    bottom: Profile | None = None

    def __post_init__(self) -> None:
        need(self.thickness_mm > 0, "size", f"a panel's thickness must be above 0, got {self.thickness_mm}")
        left = self.flat_mm
        need(
            left > -ON_MM,
            "profiles_meet",
            said("the profiles overlap by {over:mm2} of the edge's height", over=-left),
            -left,
        )

    @property
    def flat_mm(self) -> float:
        """Height of the edge left flat between the profiles: the edge's apparent thickness."""
        used = sum(p.height_mm for p in (self.top, self.bottom) if p)
        return self.thickness_mm - used

    def depth_at(self, z_mm: float) -> float:
        """Depth of the profile at a level, mm."""
        return self.depth_between(z_mm, z_mm)[0]

    def depth_between(self, z_from_mm: float, z_to_mm: float) -> tuple[float, float]:
        """The greatest depth between two levels and the level it is found at, mm."""
        t = self.thickness_mm
        found = [(0.0, z_from_mm)]
        if self.top:
            depth, below = self.top.depth_between(t - z_to_mm, t - z_from_mm)
            found.append((depth, t - below))
        if self.bottom:
            found.append(self.bottom.depth_between(z_from_mm, z_to_mm))
        return max(found, key=lambda pair: pair[0])

    def curve(self, z_from_mm: float, z_to_mm: float) -> tuple[Segment, ...]:
        """The edge between two levels as segments in the plane (x = depth into the panel, y = z), upwards."""
        t = self.thickness_mm
        pieces: list[Segment] = []
        if self.bottom:
            pieces += [
                Segment(s.y0, s.x0, s.y1, s.x1, -s.bulge) for s in self.bottom.clipped(z_from_mm, z_to_mm)
            ]
        low = max(z_from_mm, self.bottom.height_mm if self.bottom else 0.0)
        high = min(z_to_mm, t - (self.top.height_mm if self.top else 0.0))
        if high - low > ON_MM:
            pieces.append(Segment(0.0, low, 0.0, high))
        if self.top:
            clipped = self.top.clipped(t - z_to_mm, t - z_from_mm)
            pieces += [Segment(s.y1, t - s.x1, s.y0, t - s.x0, -s.bulge) for s in reversed(clipped)]
        return tuple(p for p in pieces if p.length > ON_MM)

    def layer_section(self, z_from_mm: float, z_to_mm: float, inner_mm: float) -> Outline:
        """Section of the material between two levels, from the edge to ``inner_mm`` inside, for drawing 1:1.

        x is the depth into the panel from its finished edge, y the level z.

        Raises
        ShapeError
            ``layer`` (levels outside the panel), ``inner`` (the profile reaches as far in).
        """
        inside = 0 <= z_from_mm < z_to_mm <= self.thickness_mm + ON_MM
        need(inside, "layer", f"a layer from {z_from_mm} to {z_to_mm} mm is not in {self.thickness_mm} mm")
        reach = self.depth_between(z_from_mm, z_to_mm)[0]
        need(inner_mm > reach, "inner", f"the section must reach past the profile's {reach:.2f} mm", reach)
        curve = self.curve(z_from_mm, z_to_mm)
        corners = ((inner_mm, z_from_mm, 0.0), (inner_mm, z_to_mm, 0.0))
        back = tuple(s.reversed() for s in reversed(curve))
        vertices = (*corners, *((s.x0, s.y0, s.bulge) for s in back), (back[-1].x1, back[-1].y1, 0.0))
        return Outline((vertices,))


@dataclass(frozen=True, slots=True)
class WoodLeft:
    """Least wood between what lies inside and the profiled edge: how much, and at which level."""

    wood_mm: float
    z_mm: float
    depth_mm: float


def wood_left(least_distance_mm: float, edge: EdgeShape, z_from_mm: float, z_to_mm: float) -> WoodLeft:
    """Wood left between two levels: the least distance in plan once, less the profile's greatest depth there.

    Exact, since moving an outline inwards by d takes d off the distance of every point inside. A carrier is
    asked about from its under side to its top, not at the face: a 4 mm round-over is only 1.47 mm deep where
    a carrier under 0.9 mm of facing and glue begins. Negative: the profile breaks through.
    """
    depth, z = edge.depth_between(z_from_mm, z_to_mm)
    return WoodLeft(least_distance_mm - depth, z, depth)


def level_of_breakthrough(
    least_distance_mm: float, edge: EdgeShape, z_from_mm: float, z_to_mm: float
) -> float | None:
    """The level at which the wood is used up, seen from the deepest; None when it never is (to 1e-9 mm)."""
    depth, z = edge.depth_between(z_from_mm, z_to_mm)
    if depth <= least_distance_mm:
        return None
    far = z_from_mm if abs(z - z_from_mm) > abs(z - z_to_mm) else z_to_mm
    if edge.depth_at(far) > least_distance_mm:
        return far
    inside, outside = far, z
    while abs(outside - inside) > 1e-9:
        middle = (inside + outside) / 2
        if edge.depth_at(middle) > least_distance_mm:
            outside = middle
        else:
            inside = middle
    return inside


def undercut(edge: EdgeShape, inset_mm: float, z_mm: float = 0.0) -> float:
    """Wood between the edge at a level and a frame or fitting set in by ``inset_mm``; negative: it shows.

    ``z_mm`` 0 is the under face, where a bevel under is deepest.
    """
    return inset_mm - edge.depth_at(z_mm)
