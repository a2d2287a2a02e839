"""Boards beside the templates: forms strips are bent on, and rails a scooped grip is cut along."""

from collections.abc import Iterator, Sequence
from math import ceil, floor

from evenface.construction import BuiltPanel, Construction
from evenface.construction.hollows import BuiltGrip, built_grip
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Job, Shop
from evenface.shape.bending_form import TALLER_MM, BendingForm, bending_form
from evenface.shape.corner_pieces import BentStrips
from evenface.shape.cutter import Cutter, passes, reach_left
from evenface.shape.faults import ShapeError, need
from evenface.shape.scoop_rail import ScoopRail, deepest_scoop, scoop_rail
from evenface.templates.make import ANY_LENGTH_MM, cutter_of
from evenface.templates.records import Jig
from evenface.templates.wanted import side_it_lies_on
from evenface.words import Said, said

HOURS = 24
"""In the form: trade practice."""

type _Bent = tuple[str, BentStrips, float, float, str]
"""Name, strips, finished height and finished sweep of a bend, with where it stands in the job."""


def jigs_of(job: Job, constructions: Sequence[Construction]) -> tuple[tuple[Jig, ...], tuple[Finding, ...]]:
    """Every bending form and rail of the job, alike ones of a piece once, and findings `jig.*`."""
    made: dict[tuple[object, ...], Jig] = {}
    findings: list[Finding] = []
    for panel in (panel for construction in constructions for panel in construction.panels):
        for bent in _bends(panel):
            for inside in (True, False):
                try:
                    one = _form(job.shop, panel, bent, inside)
                except ShapeError as fault:
                    findings.append(_refused(panel, bent[0], bent[4], fault, _smaller(job.shop, fault)))
                    break
                made.setdefault((one.piece, one.what, one.outline, one.count), one)
        for grip, rail in _scoops(panel, findings):
            one = _rail(job.shop, panel, grip, rail)
            made.setdefault((one.piece, one.what, one.outline, grip.asked.depth_mm), one)
            findings += _reach(job.shop, panel, grip, rail)
    return tuple(made.values()), tuple(findings)


def _bends(panel: BuiltPanel) -> Iterator[_Bent]:
    for corner in panel.corners:
        if corner.strips is not None and not corner.fault and corner.edging is not None:
            name = f"corner R{round(corner.radius_mm, 1):g}"
            yield name, corner.strips, corner.edging.height_mm, 90.0, corner.origin
    for piece in panel.edge_pieces:
        if piece.strips is not None:
            name = f"arc R{round(piece.radius_mm, 1):g}"
            yield name, piece.strips, piece.edging.height_mm, piece.sweep_deg, piece.origin


def _form(shop: Shop, panel: BuiltPanel, bent: _Bent, inside: bool) -> Jig:
    name, bend, height, sweep, origin = bent
    form = bending_form(bend, inside)
    cutter = cutter_of(shop)
    need(
        inside or cutter.radius_mm <= form.radius_mm,
        "too_tight",
        said(
            "the hollow of the outside form, R {radius:mm2}, cannot be followed with a cutter of {cutter:mm2}: one "
            "of at most {most:mm2} would do",
            radius=form.radius_mm,
            cutter=cutter.diameter_mm,
            most=2 * form.radius_mm,
        ),
        2 * form.radius_mm,
    )
    steps = passes(shop.template_mm, cutter)
    begins = said("bend begins; cut here after gluing")
    return Jig(
        piece=panel.piece,
        panel=panel.name,
        name=f"{name} {'inside' if inside else 'outside'} form",
        what="inside form" if inside else "outside form",
        outline=form.outline,
        shown=(form.pack,),
        marks=tuple((line, begins) for line in form.begins),
        middle=form.middle,
        hold_down=(form.back,),
        count=ceil((height + TALLER_MM) / shop.template_mm - 1e-9),
        cutter_mm=cutter.diameter_mm,
        guide_mm=cutter.diameter_mm,
        guide_kind="bearing",
        depth_mm=shop.template_mm,
        reach_mm=2 * shop.template_mm,  # the board and the finished one it follows
        passes=steps.count,
        pass_mm=steps.each_mm,
        notes=tuple(_of_form(bend, form, height, sweep, inside)),
        origin=origin,
    )


def _smaller(shop: Shop, fault: ShapeError) -> tuple[Remedy, ...]:
    if fault.problem != "too_tight" or fault.value is None:
        return ()
    most = floor(100 * fault.value + 1e-6) / 100
    change = Change("shop.cutter", f"{shop.cutter_mm:g}", f"{most:g}")
    return (Remedy("jig.cutter", said("Take a cutter of at most {size:mm}.", size=most), (change,)),)


def _of_form(
    bend: BentStrips, form: BendingForm, height: float, sweep: float, inside: bool
) -> Iterator[Said]:
    yield said(
        "form R {form:mm2} over {form_sweep:deg}; what is bent on it springs to R {inner:mm2} inside, "
        "{outer:mm2} outside, over {sweep:deg}",
        form=form.radius_mm,
        form_sweep=bend.form_sweep_deg,
        inner=bend.inner_radius_mm,
        outer=bend.outer_radius_mm,
        sweep=sweep,
    )
    if not inside:
        yield said(
            "it closes on the pack lying on the inside form; used alone, without that form, it is to be R {alone:mm2}",
            alone=bend.form_outer_mm,
        )
    lengths = [length + 2 * form.straight_mm for length in bend.lengths_mm]
    yield said(
        "{count:count} strips of {thick:mm2}, {tall:mm} high ({more:mm} more than finished), {least:mm} long inside "
        "to {most:mm} outside",
        count=bend.count,
        thick=bend.thickness_mm,
        tall=height + TALLER_MM,
        more=TALLER_MM,
        least=lengths[0],
        most=lengths[-1],
    )
    yield said("stretched by {strain:percent} at most; {hours:count} hours in the form",
               strain=bend.strain_inner, hours=HOURS)  # fmt: skip


def _scoops(panel: BuiltPanel, findings: list[Finding]) -> Iterator[tuple[BuiltGrip, ScoopRail]]:
    for grip in panel.panel.grips:
        if not grip.scooped:
            continue
        try:
            made = built_grip(panel, grip)
        except ShapeError:
            continue  # told by the checks
        if not made.hollow.scoop_radius_mm:
            continue  # it only plunges
        try:
            yield made, scoop_rail(made.hollow)
        except ShapeError as fault:
            deepest = floor(10 * deepest_scoop(made.hollow.path[0].length) + 1e-6) / 10
            shallower = Remedy(
                "jig.shallower",
                said("Make it at most {depth:mm} deep, or its path longer.", depth=deepest),
                (Change(f"{grip.origin}.depth", f"{grip.depth_mm:g}", f"{deepest:g}"),),
            )
            findings.append(_refused(panel, grip.name, grip.origin, fault, (shallower,)))


def _rail(shop: Shop, panel: BuiltPanel, grip: BuiltGrip, rail: ScoopRail) -> Jig:
    asked = grip.asked
    cutter = Cutter(asked.cutter_diameter_mm, ANY_LENGTH_MM)
    steps = passes(asked.depth_mm, cutter)
    way = said("way of a foot and of the tip")
    return Jig(
        piece=panel.piece,
        panel=panel.name,
        name=f"{asked.name} rail",
        what="rail",
        outline=rail.outline,
        shown=rail.feet,
        marks=((rail.tip, way),),
        middle=rail.middle,
        hold_down=rail.ends,
        count=2,
        cutter_mm=asked.cutter_diameter_mm,
        guide_mm=rail.foot_mm,
        guide_kind="foot",
        depth_mm=asked.depth_mm,
        reach_mm=asked.depth_mm + _above(shop, rail),
        passes=steps.count,
        pass_mm=steps.each_mm,
        cutter_shape=asked.cutter,
        notes=tuple(_of_rail(shop, grip, rail)),
        origin=asked.origin,
    )


def _of_rail(shop: Shop, grip: BuiltGrip, rail: ScoopRail) -> Iterator[Said]:
    way = grip.hollow.path[0]
    yield said(
        "two rails along the way of the grip, from {x0:mm}, {y0:mm} to {x1:mm}, {y1:mm}, on the {side:word}, their "
        "middles over its middle",
        x0=way.x0,
        y0=way.y0,
        x1=way.x1,
        y1=way.y1,
        side=side_it_lies_on(grip),
    )
    yield said(
        "a carriage at least {wide:mm} wide on four half rounds of {foot:mm}, {apart:mm} apart from middle to middle; "
        "it slides between fences and does not turn",
        wide=shop.base_mm,
        foot=rail.foot_mm,
        apart=rail.apart_mm,
    )
    yield said(
        "set the depth with the feet in the middle of their hollows; R {radius:mm2}, {angle:deg} at the ends",
        radius=grip.hollow.scoop_radius_mm,
        angle=rail.steepest_deg,
    )


def _refused(
    panel: BuiltPanel, name: str, origin: str, fault: ShapeError, remedies: tuple[Remedy, ...] = ()
) -> Finding:
    return Finding(
        code=f"jig.{fault.problem}",
        severity=Severity.WEIGH,
        origin=origin,
        piece=panel.piece,
        part=panel.name,
        at=name,
        value=certain(fault.value) if fault.value is not None else None,
        unit="" if fault.value is None else "°" if fault.problem == "sweep" else "mm",
        message=said("No form or rail can be made for {name}: {why:word}.", name=name, why=fault.sentence),
        source="geometry of form and carriage",
        remedies=remedies,
    )


def _above(shop: Shop, rail: ScoopRail) -> float:
    """What stands between router and wood: the rail at its lowest, a foot, and the plate of the carriage. [mm]"""
    return rail.rise_mm + shop.template_mm


def _reach(shop: Shop, panel: BuiltPanel, grip: BuiltGrip, rail: ScoopRail) -> Iterator[Finding]:
    if shop.reach_mm is None:
        return
    above = _above(shop, rail)
    cutter = Cutter(grip.asked.cutter_diameter_mm, shop.reach_mm)
    left = reach_left(cutter, grip.asked.depth_mm, above)
    if left >= -1e-9:
        return
    wanted = grip.asked.depth_mm + above
    yield Finding(
        code="jig.reach",
        severity=Severity.WEIGH,
        origin=grip.asked.origin,
        piece=panel.piece,
        part=panel.name,
        at=grip.asked.name,
        value=certain(left),
        limit=0.0,
        unit="mm",
        message=said(
            "For {name} the cutter is {short:mm} too short: {depth:mm} of wood, {above:mm} of rail and carriage.",
            name=grip.asked.name,
            short=-left,
            depth=grip.asked.depth_mm,
            above=above,
        ),
        source="geometry of form and carriage",
        remedies=(
            Remedy(
                "jig.longer_cutter",
                said("Take a cutter that reaches {reach:mm}, or set the rails {short:mm} lower beside the work.",
                     reach=wanted, short=-left),
                (Change("shop.reach", f"{shop.reach_mm:g}", f"{wanted:g}"),),
                certain(0.0),
            ),
        ),
    )  # fmt: skip
