"""The true shape of a board or damaged sheet: its outline with the taper, wane along its edges, faults as boxes."""

from collections.abc import Iterator
from typing import NamedTuple

from evenface.layouts.records import Sheet
from evenface.shape.ring import Ring
from evenface.units import from_grid


class Fault(NamedTuple):
    """A knot, split or damaged spot: the box that nothing is cut from, mm, and what it is."""

    box: tuple[float, float, float, float]
    kind: str


def outline_of(sheet: Sheet) -> Ring:
    """The edge of a sheet from its reference corner on; of a board with its taper. Sticks are not drawn by it."""
    length = from_grid(sheet.length)
    near, far = _widths(sheet)
    return ((0.0, 0.0, 0.0), (length, 0.0, 0.0), (length, far, 0.0), (0.0, near, 0.0))


def wane_of(sheet: Sheet) -> Iterator[Ring]:
    """Bark or round edge along the lower and the upper edge."""
    if sheet.timber is None:
        return
    length = from_grid(sheet.length)
    near, far = _widths(sheet)
    low, high = (from_grid(one) for one in sheet.timber.wane)
    if low > 0:
        yield ((0.0, 0.0, 0.0), (length, 0.0, 0.0), (length, low, 0.0), (0.0, low, 0.0))
    if high > 0:
        yield ((0.0, near - high, 0.0), (length, far - high, 0.0), (length, far, 0.0), (0.0, near, 0.0))


def faults_of(sheet: Sheet) -> Iterator[Fault]:
    """Knots, splits and damage, as far as they lie in the sheet."""
    length, width = from_grid(sheet.length), from_grid(sheet.width)
    for flaw in sheet.timber.flaws if sheet.timber is not None else ():
        x0, y0 = max(0.0, from_grid(flaw.x)), max(0.0, from_grid(flaw.y))
        x1 = min(length, from_grid(flaw.x + flaw.length))
        y1 = min(width, from_grid(flaw.y + flaw.width), _edge(sheet, x0), _edge(sheet, x1))
        if x1 > x0 and y1 > y0:
            yield Fault((x0, y0, x1, y1), flaw.kind)


def beyond(sheet: Sheet) -> Ring:
    """What lies between the tapered edge of a board and the box it is reckoned in; empty where it does not taper."""
    length, width = from_grid(sheet.length), from_grid(sheet.width)
    near, far = _widths(sheet)
    if near == far == width:
        return ()
    return ((0.0, near, 0.0), (length, far, 0.0), (length, width, 0.0), (0.0, width, 0.0))


def _edge(sheet: Sheet, x: float) -> float:
    """Height of the upper edge there."""
    near, far = _widths(sheet)
    return near + (far - near) * x / from_grid(sheet.length)


def _widths(sheet: Sheet) -> tuple[float, float]:
    """At the butt and at the far end."""
    timber = sheet.timber
    near = sheet.width if timber is None or timber.near_width is None else timber.near_width
    far = near if timber is None or timber.far_width is None else timber.far_width
    return from_grid(near), from_grid(far)
