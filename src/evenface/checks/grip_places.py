"""Where grips lie: against their edge, its ends, what is let in or cut beside it, and the hinges."""

from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel
from evenface.construction.hollows import BuiltGrip, built_grip
from evenface.construction.notches import notches_of
from evenface.construction.shapes import finished_outline
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Grip, Side
from evenface.shape.build import rounded_rectangle
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.reserve import reserve_of, reserve_outside
from evenface.words import Said, said

APART = rule("insert-apart")
CUP = rule("hinge-cup-diameter")
CUP_EDGE = rule("hinge-cup-edge-most")


def check_grip_places(asked: Asked) -> Iterator[Finding]:
    """Findings `grip.past_edge`, `grip.web`, `grip.on_hinge_side` and `grip.hinge_cup`."""
    panel = asked.panel
    for grip in panel.panel.grips:
        try:
            made = built_grip(panel, grip)
        except ShapeError:
            continue  # a finding of its own
        if made.side is not None:
            yield from _past_edge(panel, made, made.side)
            yield from _beside(panel, made, made.side)
        elif made.wood is None:
            yield from _over_outline(panel, made)
        yield from _hinges(panel, made)


def footprint(panel: BuiltPanel, grip: BuiltGrip) -> Outline | None:
    """What the grip takes from the panel as seen from above: opening of one from a face, depth of one from an
    edge. None where its opening has no one outline."""
    if grip.side is None:
        try:
            return grip.hollow.section_at(0.0)
        except ShapeError:
            return None
    x0, x1 = _run(grip)
    depth, side = grip.asked.depth_mm, grip.side
    if side.runs_along_length:
        y = 0.0 if side is Side.FRONT else panel.width_mm - depth
        return rounded_rectangle(x1 - x0, depth, 0.0).moved(x0, y)
    x = 0.0 if side is Side.LEFT else panel.length_mm - depth
    return rounded_rectangle(depth, x1 - x0, 0.0).moved(x, x0)


def _run(grip: BuiltGrip) -> tuple[float, float]:
    """From where to where a grip from an edge is open along it. [mm]"""
    reach = grip.hollow.half_width_at(0.0)
    along = [x for x, _ in grip.asked.path]
    return min(along) - reach, max(along) + reach


def _past_edge(panel: BuiltPanel, grip: BuiltGrip, side: Side) -> Iterator[Finding]:
    """The hollow against the two ends of its edge and the two faces."""
    size = panel.length_mm if side.runs_along_length else panel.width_mm
    x0, x1 = _run(grip)
    reach = grip.hollow.half_width_at(0.0)
    heights = [z for _, z in grip.asked.path]
    left = {
        "end": min(x0, size - x1),
        "face": min(min(heights) - reach, panel.thickness_mm - max(heights) - reach),
    }
    for what, web in left.items():
        if web < -1e-9:
            yield _finding(
                grip.asked,
                "grip.past_edge",
                Severity.STOP,
                web,
                0.0,
                said("{name} runs {out:mm} past the end of the {side:word} edge.", name=grip.asked.name,
                     out=-web, side=side.value)
                if what == "end"
                else said("{name} breaks {out:mm} out of a face beside the {side:word} edge.",
                          name=grip.asked.name, out=-web, side=side.value),
            )  # fmt: skip


def _over_outline(panel: BuiltPanel, grip: BuiltGrip) -> Iterator[Finding]:
    """A hollow in the board itself against the outline of the panel; one in its own wood is held by that."""
    try:
        outline = finished_outline(panel)
    except ShapeError:
        return  # a finding of its own
    axis = reserve_of(grip.hollow.way, outline.outer).reserve_mm
    web, name = axis - grip.hollow.half_width_at(0.0), grip.asked.name
    if web >= -1e-9:
        return
    outside = axis < -1e-9
    yield _finding(
        grip.asked,
        "grip.past_edge",
        Severity.STOP if outside else Severity.WEIGH,
        web,
        0.0,
        said("{name} lies outside the panel, by {out:mm}.", name=name, out=-axis)
        if outside
        else said(
            "{name} runs {out:mm} out over the edge of the panel and is open there.", name=name, out=-web
        ),
    )


def _beside(panel: BuiltPanel, grip: BuiltGrip, side: Side) -> Iterator[Finding]:
    """What lies in the panel behind a grip worked from its edge."""
    mine = footprint(panel, grip)
    if mine is None:
        return
    others = [(cutout.name, cutout.outline) for cutout in panel.panel.cutouts]
    others += [(notch.name, notch.outline) for notch in notches_of(panel)]
    others += [
        (insert.asked.name, insert.asked.outline)
        for insert in panel.inserts
        if insert.asked.name != grip.asked.insert
    ]
    for name, outline in others:
        web = reserve_outside(mine.outer, outline.outer).reserve_mm
        if web < APART.nominal - 1e-9:
            yield _finding(
                grip.asked,
                "grip.web",
                Severity.STOP if web <= 1e-9 else Severity.WEIGH,
                web,
                APART.nominal,
                said("{name} runs into {other}.", name=grip.asked.name, other=name)
                if web < 0
                else said(
                    "Between {name} and {other} {web:mm2} are left.",
                    name=grip.asked.name,
                    other=name,
                    web=web,
                ),
                (
                    Remedy(
                        "grip.move",
                        said("Move it {more:mm} away.", more=APART.nominal - web),
                        (),
                        certain(APART.nominal),
                    ),
                ),
            )


def _hinges(panel: BuiltPanel, grip: BuiltGrip) -> Iterator[Finding]:
    """On a hinged panel: a grip beside the hinges pulls without leverage, and may meet a cup."""
    hold = panel.panel.hold
    if hold.how != "hinged" or hold.hinges is None:
        return
    side, mine = hold.hinges, footprint(panel, grip)
    if mine is None:
        return
    x0, y0, x1, y1 = mine.bounds
    length, width = panel.length_mm, panel.width_mm
    near, far, size = {
        Side.FRONT: (y0, y1, width),
        Side.REAR: (width - y1, width - y0, width),
        Side.LEFT: (x0, x1, length),
        Side.RIGHT: (length - x1, length - x0, length),
    }[side]
    begins = hold.from_edge_mm.get(side, CUP_EDGE.nominal)
    cups = begins + CUP.nominal
    if near < cups + APART.nominal - 1e-9:
        yield _finding(
            grip.asked,
            "grip.hinge_cup",
            Severity.WEIGH,
            near - cups,
            APART.nominal,
            said(
                "{name} lies within {reach:mm} of the {side:word} edge, where the hinge cups are.",
                name=grip.asked.name,
                reach=cups + APART.nominal,
                side=side.value,
            ),
        )
    elif (near + far) / 2 < size / 2 - 1e-9:
        yield _finding(
            grip.asked,
            "grip.on_hinge_side",
            Severity.WEIGH,
            (near + far) / 2,
            size / 2,
            said(
                "{name} lies {away:mm} from the hinges of a panel {size:mm} across: it pulls with little leverage.",
                name=grip.asked.name,
                away=(near + far) / 2,
                size=size,
            ),
            _other_edge(grip, side),
        )


def _other_edge(grip: BuiltGrip, hinges: Side) -> tuple[Remedy, ...]:
    if grip.asked.side is not hinges:
        return ()
    return (
        Remedy(
            "grip.other_edge",
            said("Work it from the {side:word} edge.", side=hinges.opposite.value),
            (Change(f"{grip.asked.origin}.edge", hinges.value, hinges.opposite.value),),
        ),
    )


def _finding(
    grip: Grip,
    code: str,
    severity: Severity,
    value: float,
    limit: float,
    message: Said,
    remedies: tuple[Remedy, ...] = (),
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        origin=grip.origin,
        at=grip.name,
        value=certain(value),
        limit=limit,
        unit="mm",
        message=message,
        source=APART.source if code == "grip.web" else CUP_EDGE.source,
        weakest=APART.status if code == "grip.web" else CUP_EDGE.status,
        remedies=remedies,
    )
