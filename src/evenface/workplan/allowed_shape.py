"""What shaping, routing, finishing and drilling a faced panel needs to find and leaves behind."""

from evenface.words import said
from evenface.workplan import glue_times as times
from evenface.workplan.records import Placed, Work
from evenface.workplan.rules import Rule, Told
from evenface.workplan.surfaces import Surfaces


def may_machine(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut:
        yield Rule.PRESENT, said("The carrier is not cut.")
    if panel.unset(one.start_h):
        yield Rule.NOT_SET, said("Glue of this panel has not set.")
    if panel.finish_dry_h is not None and one.step.work is not Work.DRILL:
        yield Rule.FINISHED, said("The wood is finished already.")
    if one.step.work is Work.DRILL:
        yield from finish_set(panel, one)


def finish_set(panel: Surfaces, one: Placed) -> Told:
    if panel.finish_dry_h is not None and one.start_h < panel.finish_dry_h - 1e-9:
        yield Rule.NOT_SET, said("The finish is not dry.")


def _no_overhang(panel: Surfaces) -> Told:
    for role in panel.overhanging():
        yield Rule.OVERHANG, said("The {role:word} is not on and trimmed.", role=role.value)


def _no_long_ends(panel: Surfaces) -> Told:
    for side, at in sorted(panel.long_ends):
        yield (
            Rule.ENDS,
            said(
                "The {side:word} edging is still long at the {at:word} corner.", side=side.value, at=at.value
            ),
        )


def _nothing_proud(panel: Surfaces) -> Told:
    for name in panel.proud():
        yield Rule.PROUD, said("Not level yet: {name}.", name=name)


def shape_corners(panel: Surfaces, _one: Placed) -> Told:
    if panel.profiled:
        yield Rule.CORNERS_FIRST, said("The edge has its profile already.")
    shaped = panel.shaped_corners()
    needed = {
        edging.side
        for edging in panel.panel.edgings
        if any(edging.side in (at.along_length, at.along_width) for at in shaped)
    }
    if not needed <= panel.edged.keys():
        yield Rule.PRESENT, said("The edging of a corner is not on.")
    if panel.needs_corner_pieces() and panel.corner_pieces is None:
        yield Rule.PRESENT, said("The corner pieces are not in.")
    yield from _no_long_ends(panel)
    for role in panel.bonded:
        if role in panel.overhanging():
            yield Rule.OVERHANG, said("The {role:word} is not trimmed.", role=role.value)
    panel.rounded = True


def profile(panel: Surfaces, one: Placed) -> Told:
    if any(panel.panel.edging(side) and side not in panel.edged for side in one.step.sides):
        yield Rule.PRESENT, said("An edging to be profiled is not on.")
    if panel.shaped_corners() and not panel.rounded:
        yield Rule.CORNERS_FIRST, said("The corners are still square.")
    yield from _no_overhang(panel)
    yield from _no_long_ends(panel)
    yield from _nothing_proud(panel)
    panel.profiled = True


def rout_hole(panel: Surfaces, one: Placed) -> Told:
    if one.step.feature in panel.holes:
        yield Rule.TWICE, said("That is there already.")
    grip = next((g for g in panel.panel.panel.grips if g.name == one.step.feature), None)
    if grip is not None and panel.insert(grip.insert) and grip.insert not in panel.insert_level:
        yield Rule.PROUD, said("The insert it lies in is not in and level.")
    panel.holes.add(one.step.feature)


def clear_joint(panel: Surfaces, _one: Placed) -> Told:
    yield from _no_overhang(panel)
    panel.cleared = True


def cut_joint(panel: Surfaces, _one: Placed) -> Told:
    if panel.joints_cut:
        yield Rule.TWICE, said("The joints are cut already.")
    if panel.to_clear and not panel.cleared:
        yield Rule.CLEARED, said("The facing still covers the joint.")
    if set(panel.bonded) != set(panel.sheets):
        yield Rule.BENEATH, said("The facing would bridge a groove.")
    yield from _no_overhang(panel)
    yield from _no_long_ends(panel)
    panel.joints_cut = True


def finish(panel: Surfaces, one: Placed) -> Told:
    yield from _no_overhang(panel)
    yield from _no_long_ends(panel)
    yield from _nothing_proud(panel)
    panel.finish_dry_h = one.end_h + times.FINISH_H.nominal


def drill(panel: Surfaces, _one: Placed) -> Told:
    yield from _no_overhang(panel)
    panel.drilled = True
