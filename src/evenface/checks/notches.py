"""Notches: can they be cut, do their inner corners hold, what of the edging, what shows in them?"""

from collections.abc import Iterator
from itertools import combinations

from evenface.checks.cutouts import service_caution
from evenface.checks.inner_radius import inner_radius
from evenface.checks.question import Asked
from evenface.checks.webs import THIRSTY
from evenface.construction import BuiltPanel
from evenface.construction.notches import BuiltNotch, fault_of, notches_of
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Side
from evenface.shape.reserve import reserve_outside
from evenface.words import Said, said

WEB = rule("cutout-web")
RESERVE = rule("corner-reserve")


def check_notches(asked: Asked) -> Iterator[Finding]:
    """Findings `notch.cannot_return`, `notch.bare`, `notch.thin_edging`, `notch.tongue`, `notch.wet_edge`,
    `notch.mitre` and, as for cut-outs, `cutout.inner_radius` and `cutout.service`."""
    panel = asked.panel
    notches = notches_of(panel)
    for notch in notches:
        yield from _inner_corners(panel, notch)
        yield from _edging(panel, notch)
        yield from _tongues(panel, notch)
        if notch.service in ("water", "gas", "electricity"):
            yield service_caution(notch.name, notch.service, notch.origin)
    for one, other in combinations(notches, 2):
        web = reserve_outside(one.outline.outer, other.outline.outer).reserve_mm
        if -1e-9 <= web < WEB.low - 1e-9:
            yield _tongue(other, web, one.name)


def _inner_corners(panel: BuiltPanel, notch: BuiltNotch) -> Iterator[Finding]:
    longest = max(notch.box.length_mm, notch.box.width_mm)
    key = "inner_radius" if notch.corner else "radius"
    yield from inner_radius(panel, notch.inner_radius_mm, longest, notch.name, f"{notch.origin}.{key}")


def _edging(panel: BuiltPanel, notch: BuiltNotch) -> Iterator[Finding]:
    edged = [edging for side in notch.sides if (edging := panel.edging(side))]
    if notch.returned:
        fault = fault_of(panel, notch)
        if fault:
            yield _cannot_return(notch, fault)
        if not fault:
            return
    through = [
        (side, left)
        for side, depth in zip(notch.sides, notch.depths_mm, strict=True)
        if (edging := panel.edging(side)) and (left := edging.width_mm - depth) < RESERVE.nominal - 1e-9
    ]
    yield from (_thin(notch, side, left) for side, left in through if left > 1e-9 and notch.corner is None)
    if len(edged) < len(notch.sides) or any(left <= 1e-9 for _, left in through):
        yield _bare(panel, notch, bool(edged) and not fault_of(panel, notch))


def _cannot_return(notch: BuiltNotch, fault: Said | str) -> Finding:
    return Finding(
        code="notch.cannot_return",
        severity=Severity.STOP,
        origin=notch.origin,
        at=notch.at,
        message=said("The edging cannot return round {name}: {why}.", name=notch.name, why=fault),
        source="geometry of the edge section",
        remedies=(
            Remedy(
                "notch.cut_through",
                said("Cut the notch through the edging and seal what shows."),
                (Change(f"{notch.origin}.returned", "true", "false"),),
            ),
        ),
    )


def _thin(notch: BuiltNotch, side: Side, left: float) -> Finding:
    return Finding(
        code="notch.thin_edging",
        severity=Severity.WEIGH,
        origin=notch.origin,
        at=notch.at,
        value=certain(left),
        limit=RESERVE.nominal,
        unit="mm",
        message=said(
            "Behind {name} only {left:mm2} of the {side:word} edging are left.",
            name=notch.name,
            left=left,
            side=side.value,
        ),
        why=said("So thin a strip springs off the carrier when the notch is cut."),
        source=RESERVE.source,
        weakest=Status.DERIVED,
        remedies=(
            Remedy(
                "notch.deeper_or_less",
                said("Cut {less:mm2} less deep, or right through the edging.", less=RESERVE.nominal - left),
                (),
                certain(RESERVE.nominal),
            ),
        ),
    )


def _bare(panel: BuiltPanel, notch: BuiltNotch, can_return: bool) -> Finding:
    """Board and ends of edging that show, or drink."""
    thirsty = panel.carrier.material.board in THIRSTY
    return Finding(
        code="notch.wet_edge" if notch.wet else "notch.bare",
        severity=Severity.WEIGH if thirsty or not notch.wet else Severity.NOTE,
        origin=notch.origin,
        at=notch.at,
        message=said(
            "Water reaches the cut edge of {name}: seal it all round, or return the edging round it.",
            name=notch.name,
        )
        if notch.wet
        else said(
            "In {name} the board and the ends of the edging show: seal and finish them, or return the edging "
            "round it.",
            name=notch.name,
        ),
        why=said("A cut board drinks through its edge, swells there and lifts the facing."),
        source="usual caution",
        remedies=(
            Remedy(
                "notch.return",
                said("Return the edging round it, in pieces of its own."),
                (Change(f"{notch.origin}.returned", "false", "true"),),
            ),
        )
        if can_return
        else (),
    )


def _tongues(panel: BuiltPanel, notch: BuiltNotch) -> Iterator[Finding]:
    """What is left between a notch and the next edge of the panel, across and along."""
    box = notch.box
    left = {
        Side.LEFT: box.x0,
        Side.RIGHT: panel.length_mm - box.x1,
        Side.FRONT: box.y0,
        Side.REAR: panel.width_mm - box.y1,
    }
    for side, web in left.items():
        if side not in notch.sides and 0.0 < web < WEB.low - 1e-9:
            yield _tongue(notch, web, side.value)


def _tongue(notch: BuiltNotch, web: float, to: str) -> Finding:
    return Finding(
        code="notch.tongue",
        severity=Severity.WEIGH,
        origin=notch.origin,
        at=notch.at,
        value=certain(web),
        limit=WEB.low,
        unit="mm",
        message=said(
            "Between {name} and {to:word} a tongue of {web:mm} is left; {low:mm} to {high:mm} are usual.",
            name=notch.name,
            to=to,
            web=web,
            low=WEB.low,
            high=WEB.high,
        ),
        why=said("A narrow tongue breaks when the panel is carried, and moves on its own."),
        source=WEB.source,
        weakest=WEB.status,
        remedies=(
            Remedy("notch.move", said("Move it {more:mm} away.", more=WEB.low - web), (), certain(WEB.low)),
        ),
    )
