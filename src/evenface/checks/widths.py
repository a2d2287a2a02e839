"""Is the edging wider than what a facing over it, a mitre, or a stable panel will bear?"""

from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.construction import Edging, EndKind
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Meeting
from evenface.words import said

UNDER = rule("edging-width-under")
MITRE = rule("edging-width-mitre")


def check_widths(asked: Asked) -> Iterator[Finding]:
    """Findings `edging.wide_under` and `edging.wide_mitre`."""
    for edging in asked.panel.edgings:
        covered = [face for face in asked.panel.faces if edging.meets(face.role) is Meeting.UNDER]
        if covered and edging.width_mm > UNDER.high + 1e-9:
            yield _under(edging)
        mitred = EndKind.MITRE in (edging.start.kind, edging.end.kind)
        if mitred and edging.width_mm > MITRE.high + 1e-9:
            yield _mitre(edging)


def _under(edging: Edging) -> Finding:
    return Finding(
        code="edging.wide_under",
        severity=Severity.WEIGH,
        origin=edging.origin,
        at=edging.side.value,
        value=certain(edging.width_mm),
        limit=UNDER.high,
        unit="mm",
        message=said(
            "The {side:word} edging under the facing is {width:mm} wide; keep it to {limit:mm}.",
            side=edging.side.value,
            width=edging.width_mm,
            limit=UNDER.high,
        ),
        why=said(
            "Wood and carrier move differently in thickness; the wider the wood, the plainer its joint "
            "shows through a thin facing."
        ),
        source=UNDER.source,
        weakest=UNDER.status,
        remedies=(
            Remedy(
                "edging.narrower",
                said("Make it {limit:mm} or narrower.", limit=UNDER.high),
                (Change(f"{edging.origin}.width", f"{edging.width_mm:g}", f"{UNDER.high:g}"),),
                certain(UNDER.high),
            ),
            Remedy("edging.flush", said("Let it stand flush with the facing."), _flush(edging)),
        ),
    )


def _flush(edging: Edging) -> tuple[Change, ...]:
    """The facing stopping beside the wood, above and below."""
    faces = (("top", edging.top), ("bottom", edging.bottom))
    return tuple(
        Change(f"{edging.origin}.{key}", str(Meeting.UNDER), str(Meeting.FLUSH))
        for key, meeting in faces
        if meeting is Meeting.UNDER
    )


def _mitre(edging: Edging) -> Finding:
    return Finding(
        code="edging.wide_mitre",
        severity=Severity.WEIGH,
        origin=edging.origin,
        at=edging.side.value,
        value=certain(edging.width_mm),
        limit=MITRE.high,
        unit="mm",
        message=said(
            "The mitred {side:word} edging is {width:mm} wide; mitres over {limit:mm} open with the seasons.",
            side=edging.side.value,
            width=edging.width_mm,
            limit=MITRE.high,
        ),
        why=said(
            "The wood swells across its width only, so the angle of the mitre changes with the humidity."
        ),
        source=MITRE.source,
        weakest=MITRE.status,
        remedies=(
            Remedy("edging.butt", said("Butt the corners.")),
            Remedy("edging.quarter", said("Use quarter-sawn wood and a loose tongue.")),
        ),
    )
