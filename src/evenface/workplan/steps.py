"""The order of work, derived from the construction of each panel.

The rule of the house: all woodwork that can be done before the facing is done before it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from evenface.construction import Construction
from evenface.evidence import Status
from evenface.finding import Finding, Remedy, Severity
from evenface.parts import Part, boards_of
from evenface.piece.order_moves import CornersWhen
from evenface.piece.records import Order, Role
from evenface.words import said
from evenface.workplan import glue_times as times
from evenface.workplan.board_steps import BoardDeriver, bored
from evenface.workplan.durations import usual_minutes
from evenface.workplan.panel_steps import CONDITION_ID, PanelDeriver, glued_later
from evenface.workplan.records import (
    After,
    BoardToMake,
    Minutes,
    PanelToMake,
    PieceToMake,
    Step,
    Wait,
    Work,
)
from evenface.workplan.safety import SHEETS, cautions_of
from evenface.workplan.sayings import SAYINGS, title_of
from evenface.workplan.settings import settings_of
from evenface.workplan.whole_steps import WholeDeriver, delivery


def panels_to_make(constructions: Sequence[Construction], parts: Sequence[Part]) -> tuple[PanelToMake, ...]:
    """Each built panel with the id of its part. Raises ValueError when the two do not belong together."""
    panels = [panel for construction in constructions for panel in construction.panels]
    if [(panel.piece, panel.name) for panel in panels] != [(part.piece, part.name) for part in parts]:
        raise ValueError("expected the parts of these constructions, in the same order")
    worked = {
        (one.piece.name, place.part): tuple(
            w
            for w in one.arranged.worked
            if w.part == place.part and w.kind != "runner line"  # marked, not worked
        )
        for one in constructions
        for place in one.arranged.worked
    }
    whole = {one.piece.name for one in constructions if one.arranged.placements}
    found = []
    for panel, part in zip(panels, parts, strict=True):
        own = worked.get((panel.piece, panel.name), ())
        found.append(PanelToMake(part.id, panel, part, own, panel.piece not in whole or bool(bored(own))))
    return tuple(found)


def pieces_to_make(
    constructions: Sequence[Construction], panels: Sequence[PanelToMake]
) -> tuple[PieceToMake, ...]:
    """Each piece with its panels, boards, joints and fittings. panels : those of `panels_to_make`."""
    boards = iter(boards_of(constructions))
    found = []
    for number, one in enumerate(constructions, start=1):
        own = tuple(panel for panel in panels if panel.panel.piece == one.piece.name)
        solid = []
        for board in one.boards:
            part = next(boards)
            worked = tuple(w for w in one.arranged.worked if w.part == board.name)
            solid.append(BoardToMake(part.id, board, part, worked))
        found.append(PieceToMake(number, one.piece.name, one.piece.count, own, tuple(solid), one.arranged))
    return tuple(found)


def derive_steps(
    panels: Sequence[PanelToMake],
    days_lain: float = 0.0,
    corners: CornersWhen = "before facing",
    own_minutes: Mapping[Work, tuple[float, float]] | None = None,
    pieces: Sequence[PieceToMake] = (),
) -> tuple[Step, ...]:
    """Every step of the job, in an order that keeps all precedence.

    pieces : those the panels belong to; with them boards get their steps, and every piece is assembled, fitted,
    packed, delivered and fixed where it stands. Without them a job ends with the dry fit.

    days_lain : days the stock has already lain together in the room.
    corners : when corners under a facing that lies over the edging are shaped; both are accepted. Corners
    beside a facing that is flush with the edging are always shaped after it.
    own_minutes : the maker's own times, setting up and each piece, instead of the estimates.
    """
    whole = {one.name: one for one in pieces}
    boards = [board for one in pieces for board in one.boards]
    if not panels and not boards:
        return ()
    steps = [_conditioning(panels, boards)]
    ends: dict[str, list[After]] = {}
    for panel in panels:
        made = PanelDeriver(panel, days_lain * 24.0, corners).steps()
        steps += made
        ends.setdefault(panel.panel.piece, []).append(_when_dry(made[-1]))
    for piece in pieces:
        for board in piece.boards:
            made = BoardDeriver(board, days_lain * 24.0, piece.glue).steps()
            steps += made
            ends.setdefault(piece.name, []).append(_when_dry(made[-1]))
    packed: list[tuple[WholeDeriver, Step]] = []
    for number, (name, last) in enumerate(ends.items(), start=1):
        own = [one for one in panels if one.panel.piece == name]
        fit = _dry_fit(number, name, last, own, whole.get(name))
        steps.append(fit)
        if name in whole:
            deriver = WholeDeriver(whole[name], [After(fit.id)])
            steps += deriver.assembled()
            packed.append((deriver, steps[-1]))
    if packed:
        delivered = delivery([step for _, step in packed], pieces)
        steps.append(delivered)
        for deriver, _ in packed:
            steps += deriver.on_site(After(delivered.id))
    return tuple(_with_own(step, own_minutes or {}) for step in steps)


def _when_dry(step: Step) -> After:
    """After this step, its glue or finish given its time."""
    if step.wait is None:
        return After(step.id)
    return After(step.id, times.FINISH_H.nominal if step.work is Work.FINISH else step.wait.most_h)


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


def joint_findings(pieces: Sequence[PieceToMake]) -> tuple[Finding, ...]:
    """Pieces with glued joints in a job that names no glue a joint can be closed with."""
    return tuple(
        Finding(
            code="steps.no_glue_for_joints",
            severity=Severity.WEIGH,
            origin=piece.panels[0].panel.origin if piece.panels else "",
            piece=piece.name,
            message=said("No glue of this piece holds a joint; its times are those of white glue."),
            why=said("Contact glue grabs before a joint is home, and creeps under load afterwards."),
            source="common practice",
            remedies=(
                Remedy(
                    "steps.edging_glue",
                    said('Give the build-up a glue for wood: edging_glue = "pva-d3".'),
                ),
            ),
        )
        for piece in pieces
        if piece.glue is None and any(joint.glued for joint in piece.arranged.joints)
    )


def _conditioning(panels: Sequence[PanelToMake], boards: Sequence[BoardToMake]) -> Step:
    told = SAYINGS[Work.CONDITION]
    hours = times.conditioning_h(Role.FACE)
    return Step(
        id=CONDITION_ID,
        work=Work.CONDITION,
        part="",
        parts=(*(one.part for one in panels), *(one.part for one in boards)),
        piece="",
        title=title_of(Work.CONDITION),
        why=told.why,
        after=(),
        hand_minutes=usual_minutes(Work.CONDITION, len(panels) + len(boards)),
        tools=told.tools,
        settings=settings_of(Work.CONDITION, panels[0].panel) if panels else (),
        check=told.check,
        cautions=cautions_of(Work.CONDITION, panels[0].panel) if panels else (SHEETS,),
        undo_risk=told.undo,
        occupies=("floor",),
        wait=Wait("conditioning", 48.0, hours, told.why),
    )


def _dry_fit(
    number: int, name: str, last: Sequence[After], own: Sequence[PanelToMake], piece: PieceToMake | None
) -> Step:
    told = SAYINGS[Work.DRY_FIT]
    boards = piece.boards if piece is not None else ()
    parts = (*(one.part for one in own), *(one.part for one in boards))
    return Step(
        id=f"fit-{number:02}",
        work=Work.DRY_FIT,
        part="",
        parts=parts,
        piece=name,
        title=said("Dry fit: {piece}", piece=name),
        why=told.why,
        after=tuple(last),
        hand_minutes=usual_minutes(Work.DRY_FIT, len(parts)),
        tools=told.tools,
        check=told.check,
        cautions=cautions_of(Work.DRY_FIT, own[0].panel) if own else (),
        undo_risk=told.undo,
        occupies=told.occupies,
    )
