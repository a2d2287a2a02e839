"""What can only be said of the finished carcase: whether it tips, and how far loaded shelves sag."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.records import Carcase
from evenface.construction.loaded_shelves import sagging_shelves
from evenface.construction.records import Construction
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.words import said

TALL: Final = 2.0
"""COMMON PRACTICE: a free carcase higher than so many times its depth, or with drawers, is fixed to the wall."""


def check(construction: Construction, ground: Ground) -> tuple[Finding, ...]:
    """Findings `carcase.tips` and `shelf.sags`."""
    carcase = construction.piece.description
    assert isinstance(carcase, Carcase)
    return (*_tips(carcase), *sagging_shelves(construction, ground))


def _tips(carcase: Carcase) -> Iterator[Finding]:
    _, height, depth = carcase.size_mm
    drawers = any(row.what == "drawers" for bay in carcase.bays for row in bay.rows)
    ratio = height / depth
    if carcase.hanging_rail is not None or not (drawers or ratio > TALL):
        return
    yield Finding(
        code="carcase.tips",
        severity=Severity.NOTE if ratio <= TALL else Severity.WEIGH,
        origin=carcase.origin,
        value=certain(ratio),
        limit=TALL,
        unit="1",
        message=said(
            "It is {ratio} times as high as deep{drawers:word}: fix it to the wall, or to what stands over it.",
            ratio=round(ratio, 1),
            drawers=" and has drawers" if drawers else "",
        ),
        why=said("With doors or drawers open, or a child on them, it tips forward."),
        source="rules for the safety of storage furniture ask for a fixing against tipping",
        weakest=Status.PRACTICE,
        remedies=(Remedy("carcase.fix", said("Screw it to the wall through the back near the top.")),),
    )
