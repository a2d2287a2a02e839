"""How boards and sheets look where they are cut: the plies, grains and tones of each material."""

from collections.abc import Callable, Iterator
from typing import Final

from evenface.construction import CarrierLayer, FaceLayer
from evenface.drawings.scene import Area, Fill, Line, Primitive, Stroke
from evenface.piece.records import Side
from evenface.shape.ring import Ring, ring_bounds

type Strip = Callable[[float, float], Ring]
"""The section between two levels of the thickness, as a ring; empty where nothing is left."""

GRAINED: Final = ("plywood", "blockboard", "solid")
"""Boards that look different from the end than from the side."""
_PLY_MM: Final = 1.4
_VENEER_MM: Final = 2.5
_STICK_MM: Final = 24.0
SHEETS: Final = {
    "hpl": Fill.LAMINATE,
    "hpl_backer": Fill.LAMINATE,
    "continuous_laminate": Fill.LAMINATE,
    "melamine": Fill.LAMINATE,
    "compact": Fill.LAMINATE,
    "linoleum": Fill.LINOLEUM,
    "paper": Fill.PAPER,
}


def runs_out(direction_deg: float, side: Side) -> bool:
    """Whether a grain of that direction runs out of the paper in a section across that side."""
    along_length = round(direction_deg / 90.0) % 2 == 0
    return along_length == side.runs_along_length


def sheet_areas(face: FaceLayer, ring: Ring, side: Side) -> Iterator[Primitive]:
    """A facing: a flat tone; a veneer by its grain."""
    if len(ring) > 2:
        grain = Fill.END_GRAIN if runs_out(face.direction_deg, side) else Fill.LONG_GRAIN
        yield Area((ring,), SHEETS.get(face.material.family, grain))


def board_areas(carrier: CarrierLayer, strip: Strip, side: Side) -> Iterator[Primitive]:
    """A carrier by its make, seen in a section across that side."""
    z0, z1 = carrier.z0_mm, carrier.z1_mm
    along = Fill.END_GRAIN if runs_out(carrier.direction_deg, side) else Fill.LONG_GRAIN
    across = Fill.LONG_GRAIN if along is Fill.END_GRAIN else Fill.END_GRAIN
    match carrier.material.board:
        case "plywood":
            yield from _plies(strip, z0, z1, _count(carrier), along, across)
        case "blockboard":
            yield from _block(strip, z0, z1, along, across)
        case "solid":
            yield from _area(strip(z0, z1), along)
        case "mdf":
            yield from _area(strip(z0, z1), Fill.MDF)
        case "particleboard":
            yield from _area(strip(z0, z1), Fill.PARTICLEBOARD)
        case "compact":
            yield from _area(strip(z0, z1), Fill.COMPACT)


def _count(carrier: CarrierLayer) -> int:
    """Plies of the board; where they are not known the odd number nearest to 1.4 mm each."""
    if carrier.material.plies:
        return carrier.material.plies
    pairs = round((carrier.thickness.nominal / _PLY_MM - 1) / 2)
    return max(3, 2 * pairs + 1)


def _plies(strip: Strip, z0: float, z1: float, count: int, along: Fill, across: Fill) -> Iterator[Primitive]:
    each = (z1 - z0) / count
    for number in range(count):
        low = z0 + number * each
        ring = strip(low, z1 if number == count - 1 else low + each)
        yield from _area(ring, across if number % 2 else along)
        if number and len(ring) > 2:
            yield _floor(ring)


def _block(strip: Strip, z0: float, z1: float, along: Fill, across: Fill) -> Iterator[Primitive]:
    """Sticks side by side between veneers whose grain, the board's face grain, runs across them."""
    veneer = min(_VENEER_MM, (z1 - z0) / 5)
    for low, high in ((z0, z0 + veneer), (z1 - veneer, z1)):
        yield from _area(strip(low, high), along)
    core = strip(z0 + veneer, z1 - veneer)
    yield from _area(core, across)
    if len(core) > 2:
        yield _floor(core)
        upper = strip(z1 - veneer, z1)
        if len(upper) > 2:
            yield _floor(upper)
        if across is Fill.END_GRAIN:
            x0, y0, x1, y1 = ring_bounds(core)
            x = x0 + _STICK_MM
            while x < x1 - 1.0:
                yield Line(x, y0, x, y1, Stroke.FINE, "hatch")
                x += _STICK_MM


def _area(ring: Ring, fill: Fill) -> Iterator[Primitive]:
    if len(ring) > 2:
        yield Area((ring,), fill)


def _floor(ring: Ring) -> Line:
    """The lower border of a ring that lies between two levels."""
    low = min(y for _, y, _ in ring)
    xs = [x for x, y, _ in ring if abs(y - low) < 1e-9]
    return Line(min(xs), low, max(xs), low, Stroke.FINE, "hatch")
