"""A glue card and its lines."""

from dataclasses import dataclass

from evenface.evidence import Value
from evenface.finding import Finding
from evenface.materials import Glue
from evenface.words import NOTHING, Said
from evenface.workplan.clamps import Clamping


@dataclass(frozen=True, slots=True)
class GlueLine:
    """One surface to be spread. spread_g_m2 : wet, in one coat. grams : of one piece and coat, with the usual loss."""

    surface: Said
    area_m2: float
    coats: int
    grams: float
    spread_g_m2: float = 0.0


@dataclass(frozen=True, slots=True)
class GlueCard:
    """One bonding, per piece; `total_g` is for all pieces.

    needs_min : from the first spread to the closed joint, for one person. open_min : what the glue allows.
    pressure_mpa, force_n : None where the glue's pressure is not known. clamping : of edging only.
    press_h : under pressure; machine_after_h : until it may be worked. mix : of glues in two parts.
    gate : warmth and dryness asked for. order : of sides or faces. test : the test strip.
    clamps : closed on one piece at once, all of its corners or joints together; 0 where none or a press is asked for.
    """

    step: str
    part: str
    title: Said
    glue: Glue
    pieces: int
    why: Said
    lines: tuple[GlueLine, ...]
    total_g: float
    needs_min: float
    open_min: Value
    least_temperature_c: float
    pressure_mpa: float | None
    force_n: float | None
    clamping: Clamping | None
    press_h: float
    machine_after_h: float
    how: tuple[Said, ...]
    means: tuple[Said, ...]
    findings: tuple[Finding, ...]
    mix: Said = NOTHING
    gate: Said = NOTHING
    order: Said = NOTHING
    test: Said = NOTHING
    clamps: int = 0

    @property
    def lot_g(self) -> float:
        """What is poured or mixed at once: all coats of one piece."""
        return sum(line.grams * line.coats for line in self.lines)
