"""The card of setting dowels: glue for the holes they are driven into before the piece is closed."""

from collections.abc import Sequence
from dataclasses import replace
from math import pi
from typing import Final

from evenface.construction.placed import Joint, Worked
from evenface.materials import Glue
from evenface.words import said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_amounts import line_of
from evenface.workplan.glue_base import base_card
from evenface.workplan.glue_records import GlueCard
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
    return replace(
        base_card(step, glue, lines, count, EACH_MIN * max(joint.number for joint in joints)),
        machine_after_h=times.press_h(glue),
        how=(said("Into the hole, not on the dowel: a drop, brushed round the wall. Fluted dowels only."),),
        means=(said("Driven to the stop block with a mallet; nothing is clamped."),),
        order=said("One end after the other: all dowels of an end stand before the next is begun."),
    )


def set_mm2(joint: Joint, worked: Sequence[Worked]) -> float:
    """Walls of the holes that dowels are set into: those of the part that enters. [mm²]"""
    return sum(
        len(one.centres) * pi * one.diameter_mm * one.depth_mm
        for one in worked
        if one.joint == joint.name and one.diameter_mm > 0.0 and one.part == joint.between[1]
    )
