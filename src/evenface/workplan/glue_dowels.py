"""The card of setting dowels: glue for the holes they are driven into before the piece is closed."""

from collections.abc import Sequence
from math import pi
from typing import Final

from evenface.construction.placed import Joint, Worked
from evenface.materials import Glue
from evenface.words import said
from evenface.workplan import glue_pace
from evenface.workplan import glue_times as times
from evenface.workplan.glue_amounts import line_of
from evenface.workplan.glue_records import GlueCard
from evenface.workplan.glue_sayings import gate_of, mixing_of, trial_of, why_this_glue
from evenface.workplan.records import Step

EACH_MIN: Final = 0.5
"""Own estimate: one dowel glued and driven to the stop."""


def dowel_card(
    step: Step, joints: Sequence[Joint], worked: Sequence[Worked], glue: Glue, count: int = 1
) -> GlueCard:
    """The card of setting the dowels of these joints. worked : of the piece; count : pieces alike.

    Raises ValueError where none of the joints has dowels.
    """
    if not any(joint.kind == "dowel" for joint in joints):
        raise ValueError(f"{step.id}: expected joints with dowels, was given none")
    number = sum(joint.number for joint in joints)
    area = sum(set_mm2(joint, worked) for joint in joints) / 1e6
    lines = (line_of(said("walls of {count:count} holes", count=number), area, glue, thirsty=True),)
    lot = sum(line.grams * line.coats for line in lines)
    return GlueCard(
        step=step.id,
        part=step.part,
        title=step.title,
        glue=glue,
        pieces=count,
        why=why_this_glue(glue),
        lines=lines,
        total_g=count * lot,
        needs_min=EACH_MIN * max(joint.number for joint in joints),
        open_min=glue_pace.window(glue),
        least_temperature_c=glue.least_temperature.nominal,
        pressure_mpa=None,
        force_n=None,
        clamping=None,
        press_h=times.press_h(glue),
        machine_after_h=times.press_h(glue),
        how=(said("Into the hole, not on the dowel: a drop, brushed round the wall. Fluted dowels only."),),
        means=(said("Driven to the stop block with a mallet; nothing is clamped."),),
        findings=(),
        mix=mixing_of(glue, lot),
        gate=gate_of(glue),
        order=said("One end after the other: all dowels of an end stand before the next is begun."),
        test=trial_of(glue),
    )


def set_mm2(joint: Joint, worked: Sequence[Worked]) -> float:
    """Walls of the holes that dowels are set into: those of the part that enters. [mm²]"""
    return sum(
        len(one.centres) * pi * one.diameter_mm * one.depth_mm
        for one in worked
        if one.joint == joint.name and one.diameter_mm > 0.0 and one.part == joint.between[1]
    )
