"""What is set at a machine, and how speed and feed of a router are said."""

from dataclasses import dataclass
from typing import Final

from evenface.words import Said, said
from evenface.workplan import cutters as c

TRACING_M_MIN: Final = (2.0, 4.0)
"""COMMON PRACTICE: a router led by hand along a fence or template."""


@dataclass(frozen=True, slots=True)
class Machining:
    """What is set: in the order it is set. face : which side is up."""

    tool: Said
    speed: Said
    feed: Said
    passes: Said
    backing: Said
    face: Said

    @property
    def lines(self) -> tuple[Said, ...]:
        return (self.tool, self.speed, self.feed, self.passes, self.backing, self.face)


def spoken_speed(cutter: c.Cutter) -> Said:
    """The most a cutter may turn, with its rim speed."""
    turns = c.most_turns(cutter.diameter_mm)
    return said(
        "Cutter Ø {diameter:mm}: at most {turns:count} turns a minute, {rim:count} m/s at the rim.",
        diameter=cutter.diameter_mm,
        turns=turns,
        rim=c.rim_speed_m_s(cutter.diameter_mm, turns),
    )


def traced(cutter: c.Cutter) -> Said:
    """Feed of a router led by hand, with what a tooth takes."""
    turns = c.most_turns(cutter.diameter_mm)
    return said(
        "By hand {low:count} to {high:count} m a minute, against the rotation, never resting: {tooth:mm2} a tooth at "
        "the most.",
        low=TRACING_M_MIN[0],
        high=TRACING_M_MIN[1],
        tooth=c.tooth_mm(TRACING_M_MIN[1], turns, cutter.teeth),
    )
