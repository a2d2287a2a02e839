"""What cannot be made of a lined box as asked, or only loosely: lining, fingers, dividers."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.kinds.lined_box.records import FRONT, PAIRS, DividersAsked, LinedBox
from evenface.construction.kinds.lined_box.sizes import BoxSizes
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.units import number_text
from evenface.words import Said, said

THICK: Final = 0.5
"""OWN ESTIMATE: a lining thicker than so much of its wall is no lining any more."""
FIT_MM: Final = 0.4
"""OWN ESTIMATE: a slot so much wider than its finger is a gap that glue does not bridge."""
BARE_MM: Final = 2.0
"""Own limit: more bare wood than this beside a corner is seen."""
HELD_MM: Final = 1.0
"""Own limit: what a divider reaches into its housing, at least."""


def slips(box: LinedBox, sizes: BoxSizes) -> Iterator[Finding]:
    """Findings `box.lining_thick`, `box.lining_gap`, `box.finger_loose`, `box.divider_loose`."""
    yield from _lining(box, sizes)
    yield from _fit(box, sizes)
    for one in box.dividers:
        yield from _divider(one)


def _lining(box: LinedBox, sizes: BoxSizes) -> Iterator[Finding]:
    thinnest = min(PAIRS, key=sizes.wood_mm)
    wood = sizes.wood_mm(thinnest)
    if sizes.sheet_mm > THICK * wood:
        own = thinnest != FRONT and box.walls.side_thickness is not None
        path = f"{box.origin}.walls.{'side_thickness' if own else 'thickness'}"
        new = round(sizes.sheet_mm / THICK + 0.4)
        yield _told(
            "box.lining_thick", Severity.STOP if sizes.sheet_mm >= wood else Severity.WEIGH,
            f"{box.origin}.lining.thickness", (sizes.sheet_mm, THICK * wood), said(
                "The lining is {sheet:mm} thick, its wall {wood:mm}.", sheet=sizes.sheet_mm, wood=wood
            ),
            Remedy("box.thicker_wall", said("Make the wall {thick:mm} thick.", thick=float(new)),
                   (Change(path, number_text(wood, 1), number_text(float(new), 1)),)),
        )  # fmt: skip
    if box.lining.gap > BARE_MM:
        path = f"{box.origin}.lining.gap"
        yield _told(
            "box.lining_gap", Severity.WEIGH, path, (box.lining.gap, BARE_MM), said(
                "A strip of {gap:mm} of bare wood is left beside the lining in each corner.", gap=box.lining.gap
            ),
            Remedy("box.gap", said("Leave at most {gap:mm}.", gap=0.5),
                   (Change(path, number_text(box.lining.gap, 1), "0.5"),)),
        )  # fmt: skip


def _fit(box: LinedBox, sizes: BoxSizes) -> Iterator[Finding]:
    fit, narrow = box.fingers.fit, sizes.joint.narrowest_mm
    if fit <= FIT_MM:
        return
    path = f"{box.origin}.fingers.fit"
    yield _told(
        "box.finger_loose", Severity.STOP if fit >= narrow / 2 else Severity.WEIGH, path, (fit, FIT_MM), said(
            "A slot {fit:mm2} wider than its finger: the joint is loose, and glue does not fill it.", fit=fit
        ),
        Remedy("box.fit", said("Make it {fit:mm2} wider.", fit=0.1), (Change(path, number_text(fit, 2), "0.1"),)),
    )  # fmt: skip


def _divider(one: DividersAsked) -> Iterator[Finding]:
    held = one.depth - one.play
    if one.held != "housed" or held >= HELD_MM:
        return
    path = f"{one.origin}.play"
    yield _told(
        "box.divider_loose", Severity.STOP if held <= 0.0 else Severity.WEIGH, path, (held, HELD_MM), said(
            "With {play:mm2} of air a divider reaches {held:mm2} into its housing.", play=one.play, held=held
        ),
        Remedy("box.divider_air", said("Leave {play:mm2} of air at each end.", play=0.2),
               (Change(path, number_text(one.play, 2), "0.2"),)),
    )  # fmt: skip


def _told(
    code: str,
    severity: Severity,
    origin: str,
    value_limit: tuple[float, float],
    message: Said,
    *remedies: Remedy,
) -> Finding:
    return Finding(
        code=code, severity=severity, origin=origin, at=origin.rsplit(".", 1)[-1], value=certain(value_limit[0]),
        limit=value_limit[1], unit="mm", message=message, source="sum of the sizes, limits by common practice",
        weakest=Status.PRACTICE, remedies=remedies,
    )  # fmt: skip
