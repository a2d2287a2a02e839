"""Is wood levelled down to a facing that is already laid? It is the step that scraps parts."""

from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Meeting, Order
from evenface.words import said


def check_order(asked: Asked) -> Iterator[Finding]:
    """Finding `edging.after_facing` for every edging that is glued on after a facing it is flush with."""
    for edging in asked.panel.edgings:
        flush = [face for face in asked.panel.faces if edging.meets(face.role) is Meeting.FLUSH]
        if edging.order is not Order.FACING_FIRST or not flush:
            continue
        soft = any(face.material.family == "linoleum" for face in flush)
        yield Finding(
            code="edging.after_facing",
            severity=Severity.WEIGH,
            origin=edging.origin or asked.panel.origin,
            at=edging.side.value,
            message=said(
                "The {side:word} edging is glued on after the facing and has to be flushed down to it.",
                side=edging.side.value,
            ),
            why=said(
                "A slip of plane or sander marks the facing, and {facing:word} cannot be made good.",
                facing=_facing_word(soft),
            ),
            source=rule("edging-after-facing").source,
            weakest=rule("edging-after-facing").status,
            remedies=(
                Remedy(
                    "edging.first",
                    said("Glue the edging on first and lay the facing into the opening, or over the edging."),
                    (Change(f"{edging.origin}.order", "facing first", "edging first"),),
                ),
            ),
        )


def _facing_word(soft: bool) -> str:
    return "linoleum" if soft else "a laminate"
