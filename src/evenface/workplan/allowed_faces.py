"""What the facing of a panel needs to find and leaves behind: fitting, cleaning, bonding, trimming, levelling."""

from typing import Final

from evenface.piece.records import Role
from evenface.words import said
from evenface.workplan import glue_times as times
from evenface.workplan.allowed_wood import firm
from evenface.workplan.records import Placed
from evenface.workplan.rules import Rule, Told
from evenface.workplan.surfaces import Joint, Surfaces, shows_at

SAME_DAY_H: Final = 12.0
"""Back and face within one working day: own estimate of what "the same day" allows."""


def fit_facing(panel: Surfaces, one: Placed) -> Told:
    if not panel.blanks_cut:
        yield Rule.PRESENT, said("The facing is not cut.")
    for role in one.step.roles:
        if role in panel.bonded:
            yield Rule.COVERED, said("The {role:word} is on already.", role=role.value)
        panel.fitted[role] = frozenset(side for side in panel.edged if panel.beside(side, role))


def prepare(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut:
        yield Rule.PRESENT, said("The carrier is not cut.")
    panel.clean |= set(one.step.roles)


def bond(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut or not panel.blanks_cut:
        yield Rule.PRESENT, said("Carrier and facings must be cut before they are bonded.")
    if panel.unset(one.start_h):
        yield Rule.NOT_SET, said("Glue of this panel has not set.")
    for role in one.step.roles:
        if role in panel.bonded:
            yield Rule.TWICE, said("The {role:word} is on already.", role=role.value)
        if role not in panel.clean:
            yield Rule.CLEAN, said("Not cleaned since it was last worked: {role:word}.", role=role.value)
        yield from _ready_beneath(panel, role)
        here = frozenset(side for side in panel.edged if panel.beside(side, role))
        if not here <= panel.fitted.get(role, frozenset()):
            yield Rule.FITTED, said("An edging stands beside the {role:word}.", role=role.value)
        for other, hour in panel.bonded_at_h.items():
            if other is not role and one.start_h - hour > SAME_DAY_H:
                yield Rule.SAME_DAY, said("{hours:count} h apart.", hours=one.start_h - hour)
        panel.bonded[role] = Joint(one.end_h + times.facing_wait_h(panel.panel), one.end_h)
        panel.bonded_at_h[role] = one.start_h


def _ready_beneath(panel: Surfaces, role: Role) -> Told:
    for edging in panel.panel.edgings:
        if not panel.beside(edging.side, role) and (edging.side, role) not in panel.level:
            yield Rule.BENEATH, said("The {side:word} edging is not on and level.", side=edging.side.value)
    for insert in panel.panel.panel.inserts:
        before = insert.when == "before facing"
        level = insert.name in panel.insert_level
        begun = insert.name in panel.recessed | panel.inserted.keys()
        if role in shows_at(insert) and ((before and not level) or (begun and not before)):
            yield Rule.BENEATH, said("Not as it must be under a facing: {name}.", name=insert.name)
    if panel.holes or panel.drilled or panel.joints_cut:
        yield Rule.BENEATH, said("The facing would bridge a hole.")


def trim(panel: Surfaces, one: Placed) -> Told:
    for role in one.step.roles:
        if role not in panel.bonded:
            yield Rule.PRESENT, said("The {role:word} is not on.", role=role.value)
        else:
            panel.trimmed.add(role)


def level(panel: Surfaces, one: Placed) -> Told:
    for role in one.step.roles:
        if role not in panel.bonded:
            yield Rule.PRESENT, said("The {role:word} is not on.", role=role.value)
        elif role in panel.overhanging():
            yield Rule.OVERHANG, said("The {role:word} is not trimmed.", role=role.value)
        for side in one.step.sides:
            if side not in panel.edged:
                yield Rule.PRESENT, said("The {side:word} edging is not on.", side=side.value)
                continue
            yield from firm(panel.edged[side], one)
            panel.level.add((side, role))
