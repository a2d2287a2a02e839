"""Does the outline close, fit its size, and leave a carrier inside its edging?"""

from collections.abc import Iterator
from typing import Final

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel
from evenface.construction.free_outlines import edging_of_free_outline
from evenface.construction.shapes import finished_outline
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.shape.faults import ShapeError
from evenface.words import said

CLOSES_MM = 0.1
_FACTORS: Final = (
    (1000.0, "m"), (304.8, "ft"), (25.4, "in"), (10.0, "cm"),
    (96 / 25.4, "mm"), (1 / 25.4, "mm"), (1 / 1000.0, "mm"), (1 / 10.0, "mm"),
)  # fmt: skip
"""How much too small what was read is, and the unit it then was drawn in."""
_NEAR: Final = 0.02


def check_outline(asked: Asked) -> Iterator[Finding]:
    """Findings `outline.impossible`, `outline.size` and `outline.edging`."""
    panel = asked.panel
    try:
        outline = finished_outline(panel)
    except ShapeError as fault:
        yield _impossible(panel, fault)
        return
    if panel.panel.outline is None:
        return
    unit = _unit_meant(panel, outline.bounds)
    yield from _size(panel, outline.bounds, unit)
    if panel.edgings and not unit:  # drawn in another unit, no edging can follow it: one fault is told once
        yield from _edging(panel)


def _unit_meant(panel: BuiltPanel, box: tuple[float, float, float, float]) -> str:
    """The unit the outline seems to be drawn in: where its size is the panel's but for one usual factor."""
    along, across = panel.length_mm / (box[2] - box[0]), panel.width_mm / (box[3] - box[1])
    for factor, unit in _FACTORS:
        if max(abs(along / factor - 1.0), abs(across / factor - 1.0)) < _NEAR:
            return unit
    return ""


def _impossible(panel: BuiltPanel, fault: ShapeError) -> Finding:
    return Finding(
        code="outline.impossible",
        severity=Severity.STOP,
        origin=panel.panel.notches[0].origin if fault.problem == "notch" else f"{panel.origin}.corners",
        at="outline",
        message=said("The outline cannot be made: {why:word}.", why=fault.sentence),
        source="geometry of the outline",
        remedies=(Remedy("outline.smaller_corners", said("Make corners and notches smaller.")),),
    )


def _size(panel: BuiltPanel, box: tuple[float, float, float, float], unit: str) -> Iterator[Finding]:
    off = max(abs(box[0]), abs(box[1]), abs(box[2] - panel.length_mm), abs(box[3] - panel.width_mm))
    if off <= CLOSES_MM:
        return
    yield Finding(
        code="outline.size",
        severity=Severity.STOP if unit else Severity.WEIGH,
        origin=f"{panel.origin}.outline",
        at="outline",
        value=certain(off),
        limit=CLOSES_MM,
        unit="mm",
        message=said(
            "The outline runs from {x0:mm}, {y0:mm} to {x1:mm}, {y1:mm}, the size says {length:mm} × {width:mm}.",
            x0=box[0],
            y0=box[1],
            x1=box[2],
            y1=box[3],
            length=panel.length_mm,
            width=panel.width_mm,
        ),
        why=said("Sheets are cut from the size, templates from the outline: both must speak of one panel."),
        source="the job itself",
        remedies=(
            *_other_unit(unit),
            Remedy(
                "outline.move",
                said("Let the outline begin at 0, 0 and write its own length and width as size."),
            ),
        ),
    )


def _other_unit(unit: str) -> Iterator[Remedy]:
    if unit:
        message = said('It seems to be drawn in another unit: write unit = "{unit}" beside file.', unit=unit)
        yield Remedy("outline.unit", message)


def _edging(panel: BuiltPanel) -> Iterator[Finding]:
    try:
        edging_of_free_outline(panel)
    except ShapeError as fault:
        yield Finding(
            code="outline.edging",
            severity=Severity.STOP,
            origin=f"{panel.origin}.outline",
            at="outline",
            message=said(
                "An edging of these widths cannot follow the outline: {why:word}.", why=fault.sentence
            ),
            source="geometry of the outline",
            remedies=(Remedy("outline.even_edging", said("Give the edging one width all round.")),),
        )
