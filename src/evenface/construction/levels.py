"""Where each layer lies in the thickness, and how high each edging must be.

An edging reaches through every sheet it stands flush with, glue line included, and stops under every sheet
that lies over it: carrier + the sheets and glue lines of its flush faces only.
"""

from dataclasses import dataclass

from evenface.piece.records import Edge, Meeting


@dataclass(frozen=True, slots=True)
class Levels:
    """Heights above the underside of the finished panel, mm. A bare face has no thickness and no glue."""

    back_mm: float
    back_glue_mm: float
    carrier_mm: float
    face_glue_mm: float
    face_mm: float

    @property
    def carrier_bottom_mm(self) -> float:
        return self.back_mm + self.back_glue_mm

    @property
    def carrier_top_mm(self) -> float:
        return self.carrier_bottom_mm + self.carrier_mm

    @property
    def face_bottom_mm(self) -> float:
        return self.carrier_top_mm + self.face_glue_mm

    @property
    def total_mm(self) -> float:
        return self.face_bottom_mm + self.face_mm


def stack_levels(
    carrier_mm: float, face_mm: float | None, back_mm: float | None, glue_line_mm: float
) -> Levels:
    """Levels of a carrier with an optional sheet on each face. [mm]"""
    return Levels(
        back_mm=back_mm or 0.0,
        back_glue_mm=glue_line_mm if back_mm is not None else 0.0,
        carrier_mm=carrier_mm,
        face_glue_mm=glue_line_mm if face_mm is not None else 0.0,
        face_mm=face_mm or 0.0,
    )


def edging_levels(edge: Edge, levels: Levels) -> tuple[float, float]:
    """Lower and upper side of a finished edging. [mm above the underside of the panel]"""
    lower = 0.0 if edge.bottom is Meeting.FLUSH else levels.carrier_bottom_mm
    upper = levels.total_mm if edge.top is Meeting.FLUSH else levels.carrier_top_mm
    return lower, upper
