"""Does the carrier suit a facing? Solid wood moves too much; about some boards the sources disagree."""

from collections.abc import Iterator

from evenface.checks.balance import HELD_FLAT
from evenface.checks.question import Asked
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.words import said

UNFRAMED_USES = ("top",)
LOOSE_USES = ("door", "front")


def check_carrier(asked: Asked) -> Iterator[Finding]:
    """Findings `carrier.solid_wood`, `carrier.disagreement`, `carrier.thin_top`, `carrier.ply_door`."""
    panel = asked.panel
    board = panel.carrier.material
    laminated = [face for face in panel.faces if face.material.is_laminate]
    if panel.faces and board.board == "solid":
        yield Finding(
            code="carrier.solid_wood",
            severity=Severity.STOP if laminated else Severity.WEIGH,
            origin=panel.carrier.origin,
            at="carrier",
            message=said(
                "The carrier is solid wood ({title:word}): a facing cannot follow its movement.",
                title=board.title,
            ),
            why=said("Across the grain solid wood moves several times as much as any sheet glued to it."),
            source=rule("facing-on-solid-wood").source,
            remedies=(
                Remedy("carrier.board", said("Use a board: plywood, MDF or blockboard, edged in the wood.")),
            ),
        )
    if laminated and board.disagreement:
        yield Finding(
            code="carrier.disagreement",
            severity=Severity.NOTE,
            origin=panel.carrier.origin,
            at="carrier",
            message=said("The sources do not agree about {title:word} under this facing.", title=board.title),
            why=said(board.disagreement.replace("{", "(").replace("}", ")")),
            source=board.source,
        )
    if laminated and panel.panel.use in UNFRAMED_USES and panel.panel.hold.how == "free":
        yield from _thin_top(asked)
    screwed = panel.panel.hold.how in HELD_FLAT  # a drawer front on its box is as flat as the box
    if panel.panel.use in LOOSE_USES and not screwed and board.board == "plywood":
        yield Finding(
            code="carrier.ply_door",
            severity=Severity.WEIGH,
            origin=panel.carrier.origin,
            at="carrier",
            message=said("A loose {use:word} of plywood may twist.", use=panel.panel.use),
            why=said(
                "The plies are never laid at exactly right angles, and the panel twists with the humidity."
            ),
            source=rule("veneer-core-door").source,
            remedies=(
                Remedy("carrier.homogeneous", said("Use MDF or another board without grain as the carrier.")),
                Remedy(
                    "carrier.same_sheet",
                    said("Cut doors that hang together from one sheet, and make a test door."),
                ),
            ),
        )


def _thin_top(asked: Asked) -> Iterator[Finding]:
    least = rule("top-least-carrier")
    thickness = asked.panel.carrier.material.nominal_mm
    if thickness < least.nominal:
        yield Finding(
            code="carrier.thin_top",
            severity=Severity.WEIGH,
            origin=asked.panel.carrier.origin,
            at="carrier",
            value=certain(thickness),
            limit=least.nominal,
            unit="mm",
            message=said(
                "A free top on a carrier of {given:mm}; {least:mm} is the usual least without a frame.",
                given=thickness,
                least=least.nominal,
            ),
            source=least.source,
            weakest=least.status,
            remedies=(
                Remedy("carrier.frame", said("Hold it on a frame or apron, or take a thicker board.")),
            ),
        )
