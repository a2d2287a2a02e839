"""What every glue card says alike: whatever follows from the step, the glue and what is spread."""

from collections.abc import Sequence

from evenface.materials import Glue
from evenface.workplan import glue_pace
from evenface.workplan import glue_times as times
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.glue_sayings import gate_of, how_of, mixing_of, trial_of, why_this_glue
from evenface.workplan.records import Step


def base_card(step: Step, glue: Glue, lines: Sequence[GlueLine], pieces: int, needs_min: float) -> GlueCard:
    """A card without pressure, clamps, means and findings; a card of its own kind replaces what differs.

    pieces : alike. needs_min : from the first spread to the closed joint.
    """
    lot = sum(line.grams * line.coats for line in lines)
    return GlueCard(
        step=step.id,
        part=step.part,
        title=step.title,
        glue=glue,
        pieces=pieces,
        why=why_this_glue(glue),
        lines=tuple(lines),
        total_g=pieces * lot,
        needs_min=needs_min,
        open_min=glue_pace.window(glue),
        least_temperature_c=glue.least_temperature.nominal,
        pressure_mpa=None,
        force_n=None,
        clamping=None,
        press_h=times.press_h(glue),
        machine_after_h=times.flush_wait_h(glue),
        how=tuple(how_of(glue)),
        means=(),
        findings=(),
        mix=mixing_of(glue, lot),
        gate=gate_of(glue),
        test=trial_of(glue),
    )
