"""Where a facing or carrier longer than its sheet is joined.

COMMON PRACTICE and read advice, which disagrees about sinks (150 mm off, or right in it; 250 mm from any cut-out
for joints of worktops): the wider distance is kept, and said. A joint of the facing lies at least 150 mm from a
joint of the carrier, so that no line goes right through. Where the maker says nothing seams are placed as
symmetrically as the rules allow; both edges of a seam are cut in one pass from blanks a little long.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Final

from evenface.construction import BuiltPanel
from evenface.construction.notches import notches_of
from evenface.materials import Carrier, Facing
from evenface.parts.records import LayerSizes, Part
from evenface.parts.supplies import may_turn, supplies_for, trim_mm
from evenface.piece.records import Job, Role, Side

FROM_CUTOUT_MM: Final = 250.0
FROM_JOINT_MM: Final = 150.0
"""COMMON PRACTICE: between a joint of the carrier and a seam of the facing over it."""
AT_SEAM_MM: Final = 5.0
"""COMMON PRACTICE: left on each blank at a seam, cut off in one pass through both."""
LEAST_PART_MM: Final = 300.0
"""COMMON PRACTICE: a narrower strip shows as a patch."""
STEP_MM: Final = 5.0
MOST_SEAMS: Final = 3
NEAR: Final = 24
"""Spots tried round each even place."""


@dataclass(frozen=True, slots=True)
class Seamed:
    """A sheet layer joined from parts.

    along_length : whether the parts lie one after another along the sheet's own length (else along its width).
    at_mm : where the seams lie, from the left or front edge of the finished panel. sizes_mm : of the blanks, in
    order, the allowance at the seams included. on_x : whether at_mm counts along the panel's length.
    nearest_mm : least distance of a seam from a cut-out, None without cut-outs. stated : placed by the maker.
    """

    along_length: bool
    at_mm: tuple[float, ...]
    sizes_mm: tuple[float, ...]
    on_x: bool
    nearest_mm: float | None
    stated: bool = False


def seams_of(
    job: Job, panel: BuiltPanel, part: Part, layer: LayerSizes, material: Carrier | Facing
) -> Seamed | None:
    """The seams of a layer that goes on no sheet whole; None where none is needed, allowed or possible."""
    needed = _needed(job, layer, material)
    if needed is None or panel.panel.seams_mm is None or panel.panel.run:
        return None
    along, longest = needed
    on_x = along is (layer.direction_deg % 180 != 90)
    stated = panel.panel.seams_mm
    if stated:
        found = Seamed(
            along, stated, _sizes(panel, layer, stated, on_x), on_x, _nearest(panel, stated, on_x), True
        )
        return found if max(found.sizes_mm) <= longest and _in_order(panel, found) else None
    avoid: tuple[float, ...] = ()
    if layer.role is not Role.CARRIER:
        carrier = part.layer(Role.CARRIER)
        below = seams_of(job, panel, part, carrier, panel.carrier.material) if carrier is not None else None
        avoid = below.at_mm if below is not None and below.on_x is on_x else ()
    return _placed(panel, layer, along, longest, on_x, avoid)


def forbidden(panel: BuiltPanel, on_x: bool) -> tuple[tuple[float, float], ...]:
    """Stretches of the panel in which no seam may lie: round its cut-outs and notches."""
    spans = []
    for cutout in panel.panel.cutouts:
        box = cutout.outline.bounds
        low, high = (box[0], box[2]) if on_x else (box[1], box[3])
        spans.append((low - FROM_CUTOUT_MM, high + FROM_CUTOUT_MM))
    for notch in notches_of(panel):
        low, high = (notch.box.x0, notch.box.x1) if on_x else (notch.box.y0, notch.box.y1)
        spans.append((low - FROM_CUTOUT_MM, high + FROM_CUTOUT_MM))
    return tuple(spans)


def _needed(job: Job, layer: LayerSizes, material: Carrier | Facing) -> tuple[bool, float] | None:
    """Whether it is joined along the sheet's length, and the longest part; None where it goes on whole or never.

    A joint across one way alone is thought of: what is too large both ways has to be made in two panels.
    """
    trim = trim_mm(job, material)
    length, width = layer.blank_mm[:2]
    if layer.direction_deg % 180 == 90:
        length, width = width, length
    if min(length, width) <= 0:
        return None
    endless = float("inf")
    sheets = [
        (
            endless if supply.length_mm is None else supply.length_mm - 2 * trim,
            endless if supply.width_mm is None else supply.width_mm - 2 * trim,
        )
        for supply, _ in supplies_for(job, material)
    ]
    ways = [(length, width), (width, length)] if may_turn(material) else [(length, width)]
    if any(one <= long and other <= wide for long, wide in sheets for one, other in ways):
        return None
    along = [long for long, wide in sheets if width <= wide]
    across = [wide for long, wide in sheets if length <= long]
    if along:
        return True, max(along)
    return (False, max(across)) if across else None


def _placed(
    panel: BuiltPanel, layer: LayerSizes, along: bool, longest: float, on_x: bool, avoid: Sequence[float]
) -> Seamed | None:
    """As few seams as the sheet allows, as symmetrical as the rules allow."""
    whole = panel.length_mm if on_x else panel.width_mm
    spans = forbidden(panel, on_x)
    spots = [
        at * STEP_MM
        for at in range(1, int(whole / STEP_MM))
        if all(not low < at * STEP_MM < high for low, high in spans)
        and all(abs(at * STEP_MM - joint) >= FROM_JOINT_MM for joint in avoid)
        and LEAST_PART_MM <= at * STEP_MM <= whole - LEAST_PART_MM
    ]
    if whole / 2 % STEP_MM and _allowed(whole / 2, whole, spans, avoid):
        spots.append(whole / 2)
    for count in range(1, MOST_SEAMS + 1):
        best: tuple[float, tuple[float, ...]] | None = None
        for seams in _candidates(sorted(spots), count, whole):
            sizes = _sizes(panel, layer, seams, on_x)
            if max(sizes) > longest:
                continue
            odd = _unevenness(seams, whole)
            if best is None or odd < best[0]:
                best = odd, seams
        if best is not None:
            at = best[1]
            return Seamed(along, at, _sizes(panel, layer, at, on_x), on_x, _nearest(panel, at, on_x))
    return None


def _allowed(at: float, whole: float, spans: Sequence[tuple[float, float]], avoid: Sequence[float]) -> bool:
    clear = all(not low < at < high for low, high in spans)
    return (
        clear
        and all(abs(at - joint) >= FROM_JOINT_MM for joint in avoid)
        and LEAST_PART_MM <= at <= whole - LEAST_PART_MM
    )


def _candidates(spots: Sequence[float], count: int, whole: float) -> list[tuple[float, ...]]:
    """One seam anywhere; more of them mirrored about the middle first, else near the even places."""
    if count == 1:
        return [(at,) for at in spots]
    near: list[tuple[float, float]] = []
    for number in range(1, count + 1):
        even = whole * number / (count + 1)
        near += sorted((abs(at - even), at) for at in spots)[:NEAR]
    pool = sorted({at for _, at in near})
    return [
        seams
        for seams in combinations(pool, count)
        if min(b - a for a, b in pairwise(seams)) >= LEAST_PART_MM
    ]


def _unevenness(seams: Sequence[float], whole: float) -> float:
    """How far the seams are from lying mirrored about the middle; then how uneven the parts are."""
    mirrored = sum(abs(at + other - whole) for at, other in zip(seams, reversed(seams), strict=True))
    even = sum(abs(at - whole * n / (len(seams) + 1)) for n, at in enumerate(seams, start=1))
    return mirrored + even / 1000


def _sizes(panel: BuiltPanel, layer: LayerSizes, seams: Sequence[float], on_x: bool) -> tuple[float, ...]:
    """Blanks between the seams: the layer's own blank, cut up, and the allowance at each side of a seam."""
    axis = 0 if on_x else 1
    blank = layer.blank_mm[axis]
    start = _start(panel, layer, axis)
    ends = [start, *seams, start + blank]
    sizes = []
    for number, (low, high) in enumerate(pairwise(ends)):
        at_seams = (number > 0) + (number < len(seams))
        sizes.append(high - low + AT_SEAM_MM * at_seams)
    return tuple(sizes)


def _start(panel: BuiltPanel, layer: LayerSizes, axis: int) -> float:
    """Where the layer's blank begins: its net rectangle, and what it stands over there."""
    face = None if layer.role is Role.CARRIER else panel.face(layer.role)
    net = panel.carrier.rectangle if face is None else face.rectangle
    over = (layer.blank_mm[axis] - layer.net_mm[axis]) / 2
    if face is not None and not layer.fitted:
        over = panel.allowances.overhang_mm.get((Side.LEFT, Side.FRONT)[axis], over)
    return (net.x0, net.y0)[axis] - over


def _in_order(panel: BuiltPanel, found: Seamed) -> bool:
    return min(found.sizes_mm) > 0 and list(found.at_mm) == sorted(set(found.at_mm))


def _nearest(panel: BuiltPanel, seams: Sequence[float], on_x: bool) -> float | None:
    gaps = []
    for low, high in forbidden(panel, on_x):
        first, last = low + FROM_CUTOUT_MM, high - FROM_CUTOUT_MM
        gaps += [max(first - at, at - last, 0.0) for at in seams]
    return min(gaps, default=None)
