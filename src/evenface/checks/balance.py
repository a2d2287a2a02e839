"""Are both faces pulled alike? Same product, same thickness, same direction, or it will bow."""

from collections.abc import Iterator

from evenface.checks.changes import held_flat
from evenface.checks.question import Asked
from evenface.construction import FaceLayer
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Role
from evenface.words import Said, said

SAME_THICKNESS_MM = 0.05
SOURCE = rule("both-faces-alike").source
HELD_FLAT = ("screwed", "groove")


def check_balance(asked: Asked) -> Iterator[Finding]:
    """Findings `balance.bare`, `balance.product`, `balance.thickness`, `balance.direction`."""
    panel = asked.panel
    face, back = panel.face(Role.FACE), panel.face(Role.BACK)
    if panel.carrier.material.faced and face is None and back is None:
        return
    if face is None and back is None:
        return
    if face is None or back is None:
        yield _bare(asked, face or back)
        return
    if face.material.name != back.material.name:
        yield _product(asked, face, back)
    if abs(face.thickness.nominal - back.thickness.nominal) > SAME_THICKNESS_MM:
        yield _thickness(asked, face, back)
    if _turned(face) != _turned(back):
        yield _direction(asked, face, back)


def _turned(layer: FaceLayer) -> bool:
    return layer.direction_deg % 180 == 90


def _bare(asked: Asked, only: FaceLayer | None) -> Finding:
    assert only is not None
    missing = "back" if only.role is Role.FACE else "face"
    held = asked.panel.panel.hold.how in HELD_FLAT
    same = Remedy(
        "balance.same_sheet",
        said("Face the other side with the same sheet in the same direction."),
        (Change(f"{_buildup_path(asked)}.{missing}", "", only.material.name),),
    )
    hold = Remedy(
        "balance.hold_down", said("Hold it flat: screw it to a frame or an apron."), held_flat(asked.panel)
    )
    return Finding(
        code="balance.bare",
        severity=Severity.NOTE if held else Severity.WEIGH,
        origin=only.origin,
        at=missing,
        message=said(
            "Only one face carries a sheet ({title:word}); the {missing:word} is bare.",
            title=only.material.title,
            missing=missing,
        ),
        why=said(
            "A free panel faced on one side bows through the year: the bare side takes up and gives off "
            "moisture at once, the faced side late, and the sheet pulls."
        ),
        source=SOURCE,
        weakest=only.material.expansion_along.status,
        remedies=(same,) if held else (same, hold),
    )


def _product(asked: Asked, face: FaceLayer, back: FaceLayer) -> Finding:
    return Finding(
        code="balance.product",
        severity=Severity.NOTE
        if back.material.family == "hpl_backer" and face.material.family == "hpl"
        else Severity.WEIGH,
        origin=back.origin,
        at="back",
        message=said(
            "Face and back are different products: {face:word} over {back:word}.",
            face=face.material.title,
            back=back.material.title,
        ),
        why=_product_why(face, back),
        source=SOURCE,
        weakest=back.material.expansion_along.status,
        remedies=(
            Remedy(
                "balance.same_sheet",
                said("Use the same sheet on the back."),
                (Change(f"{_buildup_path(asked)}.back", back.material.name, face.material.name),),
            ),
        ),
    )


def _product_why(face: FaceLayer, back: FaceLayer) -> Said:
    if face.material.family == "linoleum" and back.material.family != "linoleum":
        return said(
            "Linoleum hardly pulls; what counts is that both faces let moisture through equally slowly. A "
            "laminate on the back has another vapour resistance and pulls where linoleum does not."
        )
    return said(
        "Different sheets move and let moisture through differently, so the panel bows with the seasons."
    )


def _thickness(asked: Asked, face: FaceLayer, back: FaceLayer) -> Finding:
    return Finding(
        code="balance.thickness",
        severity=Severity.WEIGH,
        origin=back.origin,
        at="back",
        value=certain(back.thickness.nominal),
        limit=face.thickness.nominal,
        unit="mm",
        message=said(
            "The back is {back:mm} thick, the face {face:mm}.",
            back=back.thickness.nominal,
            face=face.thickness.nominal,
        ),
        why=said(
            "The thicker sheet pulls harder; a thin backer holds less well, most on shelves and long spans."
        ),
        source=rule("backer-thickness").source,
        remedies=(
            Remedy(
                "balance.same_sheet",
                said("Take the back in the thickness of the face."),
                (Change(f"{_buildup_path(asked)}.back", back.material.name, face.material.name),),
            ),
        ),
    )


def _direction(asked: Asked, face: FaceLayer, back: FaceLayer) -> Finding:
    turned = face if _turned(face) else back
    return Finding(
        code="balance.direction",
        severity=Severity.WEIGH,
        origin=turned.origin,
        at=turned.role.value,
        message=said("The sheets of face and back lie in different directions."),
        why=said(
            "Laminate moves about twice as much across its machine direction as along it: crossed "
            "sheets bend the panel into a saddle."
        ),
        source=rule("both-faces-alike").source,
        weakest=turned.material.expansion_across.status,
        remedies=(
            Remedy(
                "balance.turn",
                said("Lay both sheets in the same direction."),
                (Change(f"{turned.origin}.turned", "true", "false"),),
            ),
        ),
    )


def _buildup_path(asked: Asked) -> str:
    return asked.job.buildups[asked.panel.panel.buildup].origin
