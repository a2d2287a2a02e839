"""What was taken of the rack, as measured, against the thickness the job is reckoned with."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from evenface.construction import Construction
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.job.from_rack import TakenPiece
from evenface.store.rack_codes import code_text
from evenface.units import from_grid
from evenface.words import said

CLOSE_MM: Final = 0.1
"""COMMON PRACTICE: edging is planed to the panel to a tenth; a difference above it shows at the edge."""


def thickness_findings(
    taken: Iterable[TakenPiece], constructions: Sequence[Construction]
) -> tuple[Finding, ...]:
    """One finding for each taken sheet or roll whose measured thickness is not the one reckoned with.

    Wood is planed and not looked at; neither is what nobody measured.
    """
    reckoned = dict(_reckoned(constructions))
    found = []
    for one in taken:
        thickness, wanted = one.item.thickness, reckoned.get(one.item.material)
        if thickness is None or wanted is None:
            continue
        measured = from_grid(thickness)
        if abs(measured - wanted[0]) > CLOSE_MM + 1e-9:
            found.append(_unlike(one, measured, *wanted))
    return tuple(found)


def _reckoned(constructions: Sequence[Construction]) -> Iterator[tuple[str, tuple[float, str]]]:
    """Thickness of each sheet material in the job, and where it stands."""
    for construction in constructions:
        for panel in construction.panels:
            carrier = panel.carrier
            yield carrier.material.name, (carrier.thickness.nominal, carrier.origin or panel.origin)
            for face in panel.faces:
                yield face.material.name, (face.thickness.nominal, face.origin or panel.origin)


def _unlike(one: TakenPiece, measured: float, reckoned: float, origin: str) -> Finding:
    code = code_text(one.item.code)
    return Finding(
        code="layout.rack_thickness",
        severity=Severity.WEIGH,
        at=one.item.material,
        origin=origin,
        value=certain(measured),
        limit=reckoned,
        unit="mm",
        message=said(
            "{code} of the rack measures {measured:mm2}; the job is reckoned with {reckoned:mm2} of {material}.",
            code=code,
            measured=measured,
            reckoned=reckoned,
            material=one.item.material,
        ),
        why=said("Edging and everything that meets the faces is sized from the thickness reckoned with."),
        source="rack, as measured",
        weakest=Status.MEASURED,
        remedies=(
            Remedy(
                "layout.made_thickness",
                said(
                    "Enter {measured:mm2} for {material} in the made file and plan again, or take another sheet.",
                    measured=measured,
                    material=one.item.material,
                ),
            ),
        ),
    )
