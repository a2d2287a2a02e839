"""The order of work, derived from the construction of each panel.

The rule of the house: all woodwork that can be done before the facing is done before it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from evenface.construction import Construction
from evenface.evidence import Status
from evenface.finding import Finding, Severity
from evenface.parts import Part
from evenface.piece.records import Order, Role
from evenface.words import said
from evenface.workplan import glue_times as times
from evenface.workplan.durations import usual_minutes
from evenface.workplan.panel_steps import CONDITION_ID, CornersWhen, PanelDeriver, glued_later
from evenface.workplan.records import After, Minutes, PanelToMake, Step, Wait, Work
from evenface.workplan.safety import cautions_of
from evenface.workplan.sayings import SAYINGS, title_of
from evenface.workplan.settings import settings_of


def panels_to_make(constructions: Sequence[Construction], parts: Sequence[Part]) -> tuple[PanelToMake, ...]:
    """Each built panel with the id of its part. Raises ValueError when the two do not belong together."""
    panels = [panel for construction in constructions for panel in construction.panels]
    if [(panel.piece, panel.name) for panel in panels] != [(part.piece, part.name) for part in parts]:
        raise ValueError("expected the parts of these constructions, in the same order")
    return tuple(PanelToMake(part.id, panel, part) for panel, part in zip(panels, parts, strict=True))


def derive_steps(
    panels: Sequence[PanelToMake],
    days_lain: float = 0.0,
    corners: CornersWhen = "before facing",
    own_minutes: Mapping[Work, tuple[float, float]] | None = None,
) -> tuple[Step, ...]:
    """Every step of the job, in an order that keeps all precedence.

    days_lain : days the stock has already lain together in the room.
    corners : when corners under a facing that lies over the edging are shaped; both are accepted. Corners
    beside a facing that is flush with the edging are always shaped after it.
    own_minutes : the maker's own times, setting up and each piece, instead of the estimates.
    """
    if not panels:
        return ()
    steps = [_conditioning(panels)]
    ends: dict[str, list[Step]] = {}
    for panel in panels:
        made = PanelDeriver(panel, days_lain * 24.0, corners).steps()
        steps += made
        ends.setdefault(panel.panel.piece, []).append(made[-1])
    for number, (piece, last) in enumerate(ends.items(), start=1):
        steps.append(_dry_fit(number, piece, last, panels))
    return tuple(_with_own(step, own_minutes or {}) for step in steps)


def _with_own(step: Step, own: Mapping[Work, tuple[float, float]]) -> Step:
    if step.work not in own:
        return step
    minutes = Minutes(*own[step.work], step.hand_minutes.pieces, Status.MEASURED, "the maker's own times")
    return replace(step, hand_minutes=minutes)


def order_findings(panels: Sequence[PanelToMake]) -> tuple[Finding, ...]:
    """Where the order asked for could not be kept: an edging goes on first because a facing lies over it."""
    return tuple(
        Finding(
            code="steps.edging_goes_first",
            severity=Severity.WEIGH,
            origin=edging.origin or one.panel.origin,
            piece=one.panel.piece,
            part=one.panel.name,
            at=edging.side.value,
            message=said(
                "The {side:word} edging is glued on before the facings, not after them as asked.",
                side=edging.side.value,
            ),
            why=said("One of the facings lies over it, and back and face are bonded the same day."),
            source="geometry of the edge section",
        )
        for one in panels
        for edging in one.panel.edgings
        if edging.order is Order.FACING_FIRST
        and one.panel.faces
        and not glued_later(edging, [face.role for face in one.panel.faces])
    )


def _conditioning(panels: Sequence[PanelToMake]) -> Step:
    told = SAYINGS[Work.CONDITION]
    hours = times.conditioning_h(Role.FACE)
    return Step(
        id=CONDITION_ID,
        work=Work.CONDITION,
        part="",
        parts=tuple(one.part for one in panels),
        piece="",
        title=title_of(Work.CONDITION),
        why=told.why,
        after=(),
        hand_minutes=usual_minutes(Work.CONDITION, len(panels)),
        tools=told.tools,
        settings=settings_of(Work.CONDITION, panels[0].panel),
        check=told.check,
        cautions=cautions_of(Work.CONDITION, panels[0].panel),
        undo_risk=told.undo,
        occupies=("floor",),
        wait=Wait("conditioning", 48.0, hours, told.why),
    )


def _dry_fit(number: int, piece: str, last: Sequence[Step], panels: Sequence[PanelToMake]) -> Step:
    told = SAYINGS[Work.DRY_FIT]
    own = [one for one in panels if one.panel.piece == piece]
    return Step(
        id=f"fit-{number:02}",
        work=Work.DRY_FIT,
        part="",
        parts=tuple(one.part for one in own),
        piece=piece,
        title=said("Dry fit: {piece}", piece=piece),
        why=told.why,
        after=tuple(After(step.id) for step in last),
        hand_minutes=usual_minutes(Work.DRY_FIT, len(own)),
        tools=told.tools,
        check=told.check,
        cautions=cautions_of(Work.DRY_FIT, own[0].panel),
        undo_risk=told.undo,
        occupies=told.occupies,
    )
