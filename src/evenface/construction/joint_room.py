"""Whether the end of a part has room for what is to join it."""

from typing import Final

from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.words import said

NAMES: Final = {
    "dowel": "dowels",
    "biscuit": "a biscuit",
    "screw": "screws",
    "loose tongue": "a loose tongue",
}


def no_room(kind: str, part: str, free_mm: float, needs_mm: float, origin: str) -> Finding:
    """Finding `joint.no_room`: what is left of an end between grooves and rebates is too short for the joint."""
    return Finding(
        code="joint.no_room", severity=Severity.STOP, origin=origin, part=part, value=certain(free_mm),
        limit=needs_mm, unit="mm",
        message=said(
            "The end of {part} has {free:mm} free for {what:word}, which takes {needs:mm}.",
            part=part, free=free_mm, what=NAMES.get(kind, kind), needs=needs_mm,
        ),
        why=said("Grooves and rebates at its edges take the rest."),
        source="sum of the sizes", weakest=Status.PRACTICE,
        remedies=(Remedy("joint.other", said("Take another joint, a shallower groove, or a wider part.")),),
    )  # fmt: skip
