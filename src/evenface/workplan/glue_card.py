"""Everything about one bonding on one card: amount, time, climate, pressure, and when it may be worked."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from evenface.construction import BuiltPanel
from evenface.materials import Glue
from evenface.workplan.glue_dowels import dowel_card
from evenface.workplan.glue_edges import corner_card, edging_card
from evenface.workplan.glue_faces import facing_card, lining_card
from evenface.workplan.glue_inserts import insert_card
from evenface.workplan.glue_joints import clamps_across, joint_card
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.glue_ups import closing_min
from evenface.workplan.pressing import UNCOUNTED, Means, too_few_at_once
from evenface.workplan.records import BoardToMake, PanelToMake, PieceToMake, Step, Work
from evenface.workplan.seams import seams_of

__all__ = ["GlueCard", "GlueLine", "glue_cards"]


def glue_cards(
    panels: Sequence[PanelToMake],
    steps: Sequence[Step],
    means: Means = UNCOUNTED,
    glues: Sequence[Glue] = (),
    pieces: Sequence[PieceToMake] = (),
) -> tuple[GlueCard, ...]:
    """A card for every step that glues something to a panel or closes joints, in the order of the steps.

    pieces : whose joints are closed; without them only panels have cards.
    means : clamps and press at hand. glues : all that could be had, of which one with more time is named.
    """
    known = {one.part: one.panel for one in panels}
    edged = {part: [s for s in steps if s.part == part and s.work is Work.GLUE_EDGING] for part in known}
    on_panels = {card.step: card for card in _cards(known, edged, steps, means, glues)}
    on_joints = {
        card.step: card for card in _joint_cards(steps, {piece.name: piece for piece in pieces}, means)
    }
    boards = {one.part: one for piece in pieces for one in piece.boards}
    on_boards = {card.step: card for card in _lining_cards(steps, boards, {one.name: one for one in glues})}
    cards = on_panels | on_joints | on_boards
    return tuple(cards[step.id] for step in steps if step.id in cards)


def _joint_cards(
    steps: Sequence[Step], pieces: Mapping[str, PieceToMake], means: Means
) -> Iterator[GlueCard]:
    """Cards of closing joints; a piece whose panels name no glue for joints has none."""
    for step in steps:
        piece = pieces.get(step.piece)
        if step.work not in (Work.ASSEMBLE, Work.SET_DOWELS) or piece is None or piece.glue is None:
            continue
        joints = [piece.arranged.joints[number] for number in step.joints]
        if step.work is Work.SET_DOWELS:
            yield dowel_card(step, joints, piece.arranged.worked, piece.glue, piece.count)
        elif any(joint.glued for joint in joints):
            seams = [seam for seam in seams_of(piece) if seam.number in step.joints]
            needs = closing_min(seams, len(step.dry)) / step.people
            clamps = clamps_across(seams, piece.glue)
            card = joint_card(step, joints, piece.arranged.worked, piece.glue, needs, piece.count, clamps)
            yield replace(
                card, findings=tuple(too_few_at_once(step.id, piece.name, clamps, piece.glue, means))
            )


def _lining_cards(
    steps: Sequence[Step], boards: Mapping[str, BoardToMake], glues: Mapping[str, Glue]
) -> Iterator[GlueCard]:
    """Cards of lining boards, where their glue is among those that can be had."""
    for step in steps:
        if step.work is Work.LINE_BOARD and step.part in boards:
            board = boards[step.part].board
            if board.board.lining is not None and board.board.lining.glue in glues:
                yield lining_card(step, board, glues[board.board.lining.glue])


def _cards(
    known: Mapping[str, BuiltPanel],
    edged: Mapping[str, list[Step]],
    steps: Sequence[Step],
    means: Means,
    glues: Sequence[Glue],
) -> Iterator[GlueCard]:
    for step in steps:
        if step.part not in known:
            continue
        panel = known[step.part]
        if step.work is Work.BOND:
            yield facing_card(step, panel, means, glues)
        elif step.work is Work.GLUE_EDGING:
            all_of_it = edged[step.part]
            yield edging_card(step, panel, means, glues, all_of_it.index(step), len(all_of_it))
        elif step.work is Work.GLUE_CORNERS:
            if _built(panel):
                yield corner_card(step, panel, means, glues)
        elif step.work is Work.GLUE_INSERT:
            yield insert_card(step, panel, means, glues)


def _built(panel: BuiltPanel) -> bool:
    return any(not one.fault and one.construction != "notch" and one.edging for one in panel.corners)
