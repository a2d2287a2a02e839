"""Shelves whose span and load are given, held against the sag that is aimed for and the one that is seen."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.panel_mass import mass_of
from evenface.construction.records import BuiltPanel, Construction
from evenface.construction.sagging import N_PER_KG, bars_of, sag_mm, status_of, stiffness_of
from evenface.finding import Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.words import said

TARGET: Final = rule("sag-target")
SEEN: Final = rule("sag-seen")


def sagging_shelves(construction: Construction, ground: Ground) -> Iterator[Finding]:
    """Finding `shelf.sags` for every shelf whose span and load are given, with its own weight."""
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
