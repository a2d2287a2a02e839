"""From the validated form of a made file to `Made`."""

from evenface.piece.forms import MadeForm
from evenface.piece.records import Made, MadeSize, Role, Side

_ROLES = {"carrier": Role.CARRIER, "face": Role.FACE, "back": Role.BACK, "edging": Role.EDGING}


def made_of(form: MadeForm) -> Made:
    """What was measured and cut, as records."""
    cuts = [
        MadeSize(
            piece=cut.piece,
            panel=cut.panel,
            role=_ROLES[cut.layer],
            side=Side(cut.edge) if cut.edge else None,
            length_mm=cut.length,
            width_mm=cut.width,
            origin=f"cut[{number}]",
        )
        for number, cut in enumerate(form.cut)
    ]
    openings = [
        MadeSize(
            piece=one.piece,
            panel=one.panel,
            role=_ROLES[one.layer],
            length_mm=one.length,
            width_mm=one.width,
            opening=True,
            origin=f"opening[{number}]",
        )
        for number, one in enumerate(form.opening)
    ]
    return Made(dict(form.thickness), (*cuts, *openings), dict(form.humidity))
