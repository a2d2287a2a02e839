"""What can only be said of the finished carcase: whether it tips, and how far loaded shelves sag."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.records import Carcase
from evenface.construction.panel_mass import mass_of
from evenface.construction.records import BuiltPanel, Construction
from evenface.construction.sagging import N_PER_KG, bars_of, sag_mm, status_of, stiffness_of
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.words import said

TARGET: Final = rule("sag-target")
SEEN: Final = rule("sag-seen")
TALL: Final = 2.0
"""COMMON PRACTICE: a free carcase higher than so many times its depth, or with drawers, is fixed to the wall."""


def check(construction: Construction, ground: Ground) -> tuple[Finding, ...]:
    """Findings `carcase.tips` and `shelf.sags`."""
    carcase = construction.piece.description
    assert isinstance(carcase, Carcase)
    return (*_tips(carcase), *_shelves(construction, ground))


def _shelves(construction: Construction, ground: Ground) -> Iterator[Finding]:
    """Every shelf whose load is given, with its own weight; fixed ones are held at their ends by a part of it."""
    for shelf in construction.panels:
        panel = shelf.panel
        if panel.span_mm is not None and panel.load_n_per_m is not None:
            own = mass_of(panel, ground) * N_PER_KG / shelf.length_mm
            yield from _sags(shelf, panel.load_n_per_m / 1000.0 + own, panel.span_mm)


def _sags(shelf: BuiltPanel, load: float, span: float) -> Iterator[Finding]:
    bars = bars_of(shelf)
    sag = sag_mm(load, span, stiffness_of(bars), fixed_ends=shelf.panel.hold.how == "screwed")
    target, seen = TARGET.nominal * span, SEEN.nominal * span
    if sag.high <= target:
        return
    yield Finding(
        code="shelf.sags",
        severity=Severity.WEIGH if (sag.nominal or 0.0) > seen else Severity.NOTE,
        origin=f"{shelf.panel.origin}.load",
        part=shelf.name,
        value=sag,
        limit=target,
        unit="mm",
        message=said(
            "Loaded for years it sags by {least:mm} to {most:mm} over {span:mm}.",
            least=sag.low,
            most=sag.high,
            span=span,
        ),
        why=said(
            "{target:mm} is what is aimed for over that span, {seen:mm} is seen.", target=target, seen=seen
        ),
        source=f"{TARGET.source}; {SEEN.source}; own reckoning: the layered section with its edging, and creep",
        weakest=status_of(bars),
        remedies=(
            Remedy("shelf.divide", said("Put a divider under it, or take a thicker board.")),
            Remedy("shelf.edge", said("Edge it in wood that is wider or stands below the board.")),
        ),
    )


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
