"""How long a glued joint is left alone: under pressure, and until the glue's water has spread.

Times are the longest any source of the glue gives, because pressing by hand needs them; a data sheet goes
before. READ: white glue by hand 6 to 8 h (a trade association), against under an hour in an industrial press.
"""

from typing import Final

from evenface.construction import BuiltPanel
from evenface.evidence import Status, Value
from evenface.materials import Glue
from evenface.materials.rules import rule
from evenface.piece.records import Role

WET_JOINT_H: Final = Value(
    24.0,
    24.0,
    72.0,
    "h",
    Status.DERIVED,
    "own reckoning: 180 g/m² swells a joint by 0.04 to 0.1 mm per face; 1 to 3 days until it has spread",
)
"""Flushed sooner, the joint sinks later and shows through a thin facing."""
LINOLEUM_REST_H: Final = Value(
    24.0,
    24.0,
    1000.0,
    "h",
    Status.READ,
    "floor trade: no load for 24 h after wet gluing; fully hard in 6 weeks",
)
FINISH_H: Final = Value(24.0, 12.0, 336.0, "h", Status.PRACTICE, "overnight; two weeks until fully hard")


def press_h(glue: Glue) -> float:
    """Hours under pressure by hand: the longest figure of the glue."""
    return glue.press_time.high / 60.0 if glue.press_time is not None else 0.0


def is_wet(glue: Glue) -> bool:
    """Whether the glue brings water into the joint. Contact glue has let go of it before closing."""
    return glue.water_share.nominal > 0.0 and not is_contact(glue)


def is_contact(glue: Glue) -> bool:
    return glue.kind in ("contact_solvent", "contact_water")


def flush_wait_h(glue: Glue) -> float:
    """Hours from gluing until the joint may be flushed: longer than the press time when the glue is wet."""
    return max(press_h(glue), WET_JOINT_H.nominal) if is_wet(glue) else press_h(glue)


def facing_wait_h(panel: BuiltPanel) -> float:
    """Hours from bonding until the panel may be machined."""
    soft = any(face.material.family == "linoleum" for face in panel.faces)
    rest = LINOLEUM_REST_H.nominal if soft and is_wet(panel.glue) else 0.0
    return max(press_h(panel.glue), rest)


def conditioning_h(role: Role) -> float:
    """Hours of conditioning before a joint: edging after lying apart, facings also after lying stacked."""
    apart = rule("conditioning-apart").nominal / 60.0
    return apart if role is Role.EDGING else apart + rule("conditioning-stacked").nominal / 60.0
