"""What is left on to be taken off again: the maker's own figures, else the trade's."""

from dataclasses import replace

from evenface.materials.rules import rule
from evenface.piece.records import Allowances, Side

GLUE_LINE = rule("glue-line")


def allowed(job: Allowances, panel: Allowances) -> Allowances:
    """Every allowance filled in: the panel's own figure, else the job's, else the trade's. [mm]"""

    def first(name: str, rule_id: str) -> float:
        for given in (getattr(panel, name), getattr(job, name)):
            if given is not None:
                return float(given)
        return rule(rule_id).nominal

    usual = rule("facing-overhang").nominal
    overhang = {side: panel.overhang_mm.get(side, job.overhang_mm.get(side, usual)) for side in Side}
    return replace(
        panel,
        overhang_mm=overhang,
        proud_under_mm=first("proud_under_mm", "edging-proud-under"),
        proud_flush_mm=first("proud_flush_mm", "edging-proud-flush"),
        end_mm=first("end_mm", "edging-end"),
        carrier_mm=next((given for given in (panel.carrier_mm, job.carrier_mm) if given is not None), 0.0),
    )
