"""Everything that can be known of a job without laying pieces out on stock."""

from evenface.checks import ask_all
from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.finding import gravest_first
from evenface.job.opening import Opened
from evenface.parts import parts_of
from evenface.result import Sketch


def sketch(opened: Opened) -> Sketch:
    """Construction, sizes and findings of the job; no layouts."""
    constructions = construct(opened.job, opened.catalogue, KINDS, opened.made)
    parts = parts_of(constructions)
    findings = [finding for construction in constructions for finding in construction.findings]
    findings += ask_all(opened.job, constructions, parts)
    return Sketch(opened.job, opened.made, constructions, parts, gravest_first(findings))
