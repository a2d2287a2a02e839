"""Sizes of a base of legs and aprons: where the legs stand, how long the aprons are, how deep tenons go.

Two aprons meet in every leg. Tenons that are short enough pass each other with a web of wood between them;
longer ones are mitred at their ends. [mm]
"""

from dataclasses import dataclass
from math import floor
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.top_on_base.records import Apron, Legs, TopOnBase
from evenface.construction.placed import HAIR_MM
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Side
from evenface.words import said

CHISELS_MM: Final = (6.0, 8.0, 10.0, 12.0, 15.0, 18.0, 20.0)
"""COMMON PRACTICE: mortises as wide as a cutter or chisel, about a third of the apron."""
WEB_MM: Final = 2.0
"""COMMON PRACTICE: wood or air between two tenons, and at the bottom of a mortise."""
LEAST_TENON_MM: Final = 25.0
"""COMMON PRACTICE: a shorter tenon is made longer by mitring its end."""
LOWER_SHOULDER_MM: Final = 4.0
HAUNCH: Final = (0.25, 25.0, 10.0)
"""COMMON PRACTICE: share of the apron's height and most of it a tenon stays below the edge; length of its haunch."""
STUB_MM: Final = 12.0
"""COMMON PRACTICE: stub tenon of a bearer, at most half of the apron."""
LEAST_MM: Final = 50.0
"""Own limit: less between two legs or under a top is a slip of the pen."""


@dataclass(frozen=True, slots=True)
class Tenon:
    """What joins an apron to a leg. [mm]

    thick, length : of the tenon, or of the half of a loose one that goes into the leg. low, high : its edges
    above the apron's lower edge. wall : wood between it and the leg's outer face. mitred : its end meets the
    other one in the leg. haunch : length of the haunch above it, 0 for none.
    """

    thick: float
    length: float
    low: float
    high: float
    wall: float
    mitred: bool = False
    haunch: float = 0.0


@dataclass(frozen=True, slots=True)
class BaseSizes:
    """Where things stand. [mm]

    x, y : outside of the base. legs_mm : length of a leg, or height of the supports. top_mm : thickness of the
    top. clear : between legs, along x and along y.
    """

    x: tuple[float, float]
    y: tuple[float, float]
    legs_mm: float
    top_mm: float
    clear: tuple[float, float]

    def apron_line(self, side: Side, apron: Apron) -> tuple[float, float]:
        """Outer and inner face of the apron at that side, in x or in y."""
        low, high = self.x if side in (Side.LEFT, Side.RIGHT) else self.y
        if side in (Side.FRONT, Side.LEFT):
            return low + apron.back, low + apron.back + apron.thickness
        return high - apron.back, high - apron.back - apron.thickness


def base_sizes(piece: TopOnBase, ground: Ground) -> BaseSizes:
    """The sizes of the base under its top."""
    width, height, depth = piece.size_mm
    over, top = piece.overhang, ground.thickness_mm(piece.top.buildup)
    x = (over[Side.LEFT], width - over[Side.RIGHT])
    y = (over[Side.FRONT], depth - over[Side.REAR])
    leg = piece.legs.size if piece.legs else (piece.supports.width if piece.supports else 0.0, 0.0)
    return BaseSizes(x, y, height - top, top, (x[1] - x[0] - 2 * leg[0], y[1] - y[0] - 2 * leg[1]))


def tenon_of(legs: Legs, apron: Apron, side: Side) -> Tenon:
    """The tenon of the apron at that side, mitred where it and the other one in the leg would both be in the way."""
    joint, height = apron.joint, apron.height_at(side)
    thick = joint.thickness or tenon_thick(apron)
    wall = apron.back + (apron.thickness - thick) / 2
    own, other = legs.size if side.runs_along_length else reversed(legs.size)
    length = _tenon_length(apron, own, wall, thick)
    passes = own - wall - thick - WEB_MM, other - wall - thick - WEB_MM
    share, most, haunch = HAUNCH
    below = joint.haunch if joint.haunch is not None else float(round(min(height * share, most)))
    low = LOWER_SHOULDER_MM
    if joint.kind == "loose tenon":
        low = below = float(round(min(height * share, 15.0)))
    return Tenon(
        thick,
        length,
        low,
        max(height - below, low + 1.0),
        wall,
        mitred=length > passes[0] + 1e-9 and _tenon_length(apron, other, wall, thick) > passes[1] + 1e-9,
        haunch=haunch if below > 0.0 and joint.kind == "mortise and tenon" else 0.0,
    )


def _tenon_length(apron: Apron, leg: float, wall: float, thick: float) -> float:
    """As given; else so long that it passes the other one, or, where that is short, as long as a mitre lets it."""
    if apron.joint.length is not None:
        return apron.joint.length
    passing, meeting = leg - wall - thick - WEB_MM, leg - wall - WEB_MM
    if apron.joint.kind == "mortise and tenon" and passing < LEAST_TENON_MM:
        return float(max(floor(meeting + 1e-9), 1))
    return float(max(floor(passing + 1e-9), 1))


def tenon_thick(apron: Apron) -> float:
    """About a third of the apron. [mm]"""
    return min(CHISELS_MM, key=lambda one: abs(one - apron.thickness / 3))


def bearer_height_mm(apron: Apron) -> float:
    """As given, else as high as the lower of the two aprons it stands between. [mm]"""
    return apron.bearer_height or min(apron.height_at(Side.FRONT), apron.height_at(Side.REAR))


def bearer_places(apron: Apron, legs: Legs, sizes: BaseSizes) -> tuple[float, ...]:
    """Left faces of the bearers: the legs' clear width shared equally. [mm]"""
    free = (sizes.clear[0] - apron.bearers * apron.thickness) / (apron.bearers + 1)
    start = sizes.x[0] + legs.size[0]
    return tuple(start + (n + 1) * free + n * apron.thickness for n in range(apron.bearers))


def stub_mm(apron: Apron) -> float:
    """Length of a bearer's stub tenon. [mm]"""
    return min(STUB_MM, apron.thickness / 2)


def support_places(piece: TopOnBase, sizes: BaseSizes) -> tuple[float, ...]:
    """Left faces of the supports, the outer ones at the overhang, others between them evenly. [mm]"""
    supports = piece.supports
    assert supports is not None
    pitch = (sizes.x[1] - sizes.x[0] - supports.width) / (supports.count - 1)
    return tuple(sizes.x[0] + n * pitch for n in range(supports.count))


def troubles_of(piece: TopOnBase, sizes: BaseSizes) -> tuple[Finding, ...]:
    """What leaves no room for a base; with any of these nothing is built."""
    names = [("under the top", sizes.legs_mm)]
    if piece.legs is not None:
        names.append(("between the legs in width", sizes.clear[0]))
        names.append(("between the legs in depth", sizes.clear[1]))
    else:
        names.append(("for the depth of the base", sizes.y[1] - sizes.y[0]))
    if piece.apron is not None:
        highest = max(piece.apron.height_at(side) for side in Side)
        names.append(("under the apron", sizes.legs_mm - highest))
    told = [_small(piece, what, size, LEAST_MM) for what, size in names if size < LEAST_MM]
    if piece.supports is not None:
        places = support_places(piece, sizes)
        between = places[1] - places[0] - piece.supports.width
        if between < -HAIR_MM:  # they may stand beside each other
            told.append(_small(piece, "between the supports", between, 0.0))
    return tuple(told)


def _small(piece: TopOnBase, what: str, size: float, least: float) -> Finding:
    return Finding(
        code="base.no_room", severity=Severity.STOP, origin=f"{piece.origin}.size", value=certain(size),
        limit=least, unit="mm",
        message=said(
            "{size:mm} is left {what:word}; {least:mm} is the least there can be.", size=size, what=what, least=least
        ), source="sum of the sizes",
        remedies=(Remedy("base.larger", said("Make the piece larger, or overhang, legs and aprons smaller.")),),
    )  # fmt: skip
