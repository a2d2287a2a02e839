"""Every tenon of a base lies in a mortise with air at its bottom, every dowel in two holes that meet.

Reckoned from the placements: what is worked into the parts, as boxes and points of the piece.
"""

from math import dist

from construction.test_joints_clear_of_each_other import into, mouths
from construction.test_top_on_base_laws import GROUND, desks
from hypothesis import given, settings

from evenface.construction.kinds.top_on_base.build import build
from evenface.construction.placed import Assembly, Board, Placement, Worked

NEAR_MM = 0.01
type Box = tuple[tuple[float, ...], tuple[float, ...]]


def thicknesses(assembly: Assembly) -> dict[str, tuple[float, float, float]]:
    return {
        one.name: (
            one.length_mm,
            one.width_mm,
            one.thickness_mm if isinstance(one, Board) else GROUND.thickness_mm(one.buildup),
        )
        for one in (*assembly.panels, *assembly.boards)
    }


def standing(placement: Placement, low, high) -> Box:
    two = placement.point(*low), placement.point(*high)
    return tuple(map(min, *two)), tuple(map(max, *two))


def hollow(one: Worked, size) -> tuple:
    """What a work takes out of its part, or a tenon leaves of it."""
    inner = {
        "left": (0, 1),
        "right": (0, -1),
        "front": (1, 1),
        "rear": (1, -1),
        "bottom": (2, 1),
        "top": (2, -1),
    }
    axis, way = inner[one.face]
    low, high = (
        list(into(one.face, a, b, size)) for a, b in ((one.x0_mm, one.y0_mm), (one.x1_mm, one.y1_mm))
    )
    high[axis] = low[axis] + way * one.depth_mm
    return tuple(low), tuple(high)


def solids(assembly: Assembly, kind: str, ends: bool = False) -> list[Box]:
    """Boxes in the piece of every work of a kind; with ends, at both ends of its part."""
    size, found = thicknesses(assembly), []
    for placement in assembly.placements:
        for one in assembly.worked:
            if one.part != placement.part or one.kind != kind:
                continue
            low, high = hollow(one, size[one.part])
            found.append(standing(placement, low, high))
            if ends:
                length = size[one.part][0]
                found.append(standing(placement, (length - high[0], *low[1:]), (length, *high[1:])))
    return found


def within(small: Box, large: Box) -> bool:
    low, high = zip(small[0], large[0], strict=True), zip(small[1], large[1], strict=True)
    return all(a >= b - NEAR_MM for a, b in low) and all(a <= b + NEAR_MM for a, b in high)


def below_haunch(tenon: Box, assembly: Assembly) -> Box:
    """What is left of a tenon over its whole length, under the stretch that is cut back to a haunch."""
    low, high = tenon
    for cut_low, cut_high in solids(assembly, "haunch", ends=True):
        if within((cut_low, cut_high), tenon):
            high = (high[0], high[1], min(high[2], cut_low[2]))
    return low, high


@settings(max_examples=150, deadline=None)
@given(desks(given_base=False))
def test_every_tenon_lies_in_a_mortise_and_every_dowel_in_two_holes(desk) -> None:
    assembly = build(desk, GROUND)
    if not assembly.panels:
        return
    mortises = solids(assembly, "mortise")
    tenons = [below_haunch(one, assembly) for one in solids(assembly, "tenon", ends=True)]
    bearers = 2 * desk.apron.bearers
    kind = desk.apron.joint.kind
    assert len(tenons) == bearers + (8 if kind == "mortise and tenon" else 0)
    for one in tenons:
        (held,) = [box for box in mortises if within(one, box)]
        # as wide and as high as the tenon, and 1 mm deeper, half a millimetre for the stub of a bearer
        more = [
            (b - a) - (d - c)
            for a, b, c, d in zip(held[0], held[1], one[0], one[1], strict=True)
            if abs((b - a) - (d - c)) > NEAR_MM
        ]
        assert len(more) == 1
        assert min(abs(more[0] - 1.0), abs(more[0] - 0.5)) < NEAR_MM
    if kind == "loose tenon":
        # eight in the legs, eight in the aprons, each pair mouth to mouth
        assert len(mortises) == 16 + bearers
    dowels = [
        (number, point, way) for what, number, point, way in mouths(assembly, GROUND) if what == "dowel holes"
    ]
    assert bool(dowels) is (kind == "dowel")
    for number, point, way in dowels:
        mates = [
            other
            for other, there, back in dowels
            if other != number
            and dist(there, point) < NEAR_MM
            and all(abs(a + b) < 1e-9 for a, b in zip(way, back, strict=True))
        ]
        assert len(mates) == 1
