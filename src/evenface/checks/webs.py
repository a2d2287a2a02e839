"""Where openings lie: inside the outline, with enough board to the edge and between one another."""

from collections.abc import Iterator
from itertools import combinations

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel
from evenface.construction.shapes import finished_outline
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Cutout
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.reserve import reserve_inside, reserve_outside
from evenface.words import said

WEB = rule("cutout-web")
THIRSTY = ("mdf", "particleboard", "hdf")
"""Boards that swell for good where water gets at a cut edge."""


def check_webs(asked: Asked) -> Iterator[Finding]:
    """Findings `cutout.outside`, `cutout.in_edging`, `cutout.web`, `cutout.overlap` and `cutout.wet_edge`."""
    panel = asked.panel
    cutouts = panel.panel.cutouts
    try:
        whole = finished_outline(panel)
    except ShapeError:
        whole = None  # a finding of its own
    for cutout in cutouts:
        if whole is not None:
            yield from _to_the_edge(panel, cutout, whole)
        if cutout.wet and not cutout.lining:
            yield _wet_edge(panel, cutout)
    for one, other in combinations(cutouts, 2):
        yield from _between(one, other)


def _to_the_edge(panel: BuiltPanel, cutout: Cutout, whole: Outline) -> Iterator[Finding]:
    web = reserve_inside(cutout.outline.outer, whole.outer).reserve_mm
    if web < -1e-9:
        met = reserve_outside(cutout.outline.outer, whole.outer).reserve_mm < -1e-9
        yield _notch(cutout, -web) if met else _outside(cutout, web)
        return
    carrier = panel.carrier_outline
    if carrier is not None and panel.edgings:
        inside = reserve_inside(cutout.outline.outer, carrier.outer).reserve_mm
        if inside < -1e-9:
            yield _in_edging(cutout, inside)
            return
    if web < WEB.low - 1e-9:
        yield _web(cutout, web, None)


def _between(one: Cutout, other: Cutout) -> Iterator[Finding]:
    web = reserve_outside(one.outline.outer, other.outline.outer).reserve_mm
    if web < -1e-9:
        yield Finding(
            code="cutout.overlap",
            severity=Severity.STOP,
            origin=other.origin,
            at=other.name,
            value=certain(web),
            limit=0.0,
            unit="mm",
            message=said("{one} and {other} run into each other.", one=one.name, other=other.name),
            source="geometry of the panel",
        )
    elif web < WEB.low - 1e-9:
        yield _web(other, web, one)


def _web(cutout: Cutout, web: float, other: Cutout | None) -> Finding:
    return Finding(
        code="cutout.web",
        severity=Severity.WEIGH,
        origin=cutout.origin,
        at=cutout.name,
        value=certain(web),
        limit=WEB.low,
        unit="mm",
        message=said(
            "Between {name} and the edge {web:mm} are left; {low:mm} to {high:mm} are usual.",
            name=cutout.name,
            web=web,
            low=WEB.low,
            high=WEB.high,
        )
        if other is None
        else said(
            "Between {name} and {other} {web:mm} are left; {low:mm} to {high:mm} are usual.",
            name=cutout.name,
            other=other.name,
            web=web,
            low=WEB.low,
            high=WEB.high,
        ),
        why=said("A narrow web breaks when the panel is carried, and moves on its own."),
        source=WEB.source,
        weakest=WEB.status,
        remedies=(
            Remedy(
                "cutout.move",
                said("Move it {more:mm} away.", more=WEB.low - web),
                (),
                certain(WEB.low),
            ),
        ),
    )


def _outside(cutout: Cutout, web: float) -> Finding:
    return Finding(
        code="cutout.outside",
        severity=Severity.STOP,
        origin=cutout.origin,
        at=cutout.name,
        value=certain(web),
        limit=0.0,
        unit="mm",
        message=said("{name} lies outside the panel.", name=cutout.name),
        source="geometry of the panel",
    )


def _notch(cutout: Cutout, out: float) -> Finding:
    return Finding(
        code="cutout.notch",
        severity=Severity.WEIGH,
        origin=cutout.origin,
        at=cutout.name,
        value=certain(-out),
        limit=0.0,
        unit="mm",
        message=said(
            "{name} runs {out:mm} out over the edge: it is a notch and cuts the edging: name its edge.",
            name=cutout.name,
            out=out,
        ),
        why=said("The bare ends of the edging and the board show in it; the facing tears from its corners."),
        source="geometry of the panel",
    )


def _in_edging(cutout: Cutout, inside: float) -> Finding:
    return Finding(
        code="cutout.in_edging",
        severity=Severity.WEIGH,
        origin=cutout.origin,
        at=cutout.name,
        value=certain(inside),
        limit=0.0,
        unit="mm",
        message=said("{name} cuts {into:mm} into the edging.", name=cutout.name, into=-inside),
        why=said("Only a strip of wood closes it there, and the joint of the edging lies open in it."),
        source="geometry of the panel",
        remedies=(Remedy("cutout.move", said("Move it {more:mm} away.", more=-inside), (), certain(0.0)),),
    )


def _wet_edge(panel: BuiltPanel, cutout: Cutout) -> Finding:
    thirsty = panel.carrier.material.board in THIRSTY
    return Finding(
        code="cutout.wet_edge",
        severity=Severity.WEIGH if thirsty else Severity.NOTE,
        origin=cutout.origin,
        at=cutout.name,
        message=said(
            "Water reaches the cut edge of {name}: seal it all round before anything is set in, or line it with "
            "solid wood.",
            name=cutout.name,
        ),
        why=said("The board swells where it drinks, and lifts the facing."),
        source="usual caution",
        remedies=(
            Remedy(
                "cutout.line",
                said("Line it with solid wood."),
                (Change(f"{cutout.origin}.lining", "", panel.edgings[0].wood.name),) if panel.edgings else (),
            ),
        ),
    )
