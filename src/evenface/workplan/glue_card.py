"""Everything about one bonding on one card: amount, time, climate, pressure, and when it may be worked."""

from collections.abc import Iterator, Mapping, Sequence

from evenface.construction import BuiltPanel
from evenface.materials import Glue
from evenface.workplan.glue_edges import corner_card, edging_card
from evenface.workplan.glue_faces import facing_card
from evenface.workplan.glue_inserts import insert_card
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.pressing import UNCOUNTED, Means
from evenface.workplan.records import PanelToMake, Step, Work

__all__ = ["GLUED", "GlueCard", "GlueLine", "glue_cards"]

GLUED = (Work.BOND, Work.GLUE_EDGING, Work.GLUE_CORNERS, Work.GLUE_INSERT)


def glue_cards(
    panels: Sequence[PanelToMake],
    steps: Sequence[Step],
    means: Means = UNCOUNTED,
    glues: Sequence[Glue] = (),
) -> tuple[GlueCard, ...]:
    """A card for every step that glues something to a panel, in the order of the steps.

    means : clamps and press at hand. glues : all that could be had, of which one with more time is named.
    """
    known = {one.part: one.panel for one in panels}
    edged = {part: [s for s in steps if s.part == part and s.work is Work.GLUE_EDGING] for part in known}
    return tuple(_cards(known, edged, steps, means, glues))


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
