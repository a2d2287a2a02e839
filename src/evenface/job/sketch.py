"""Everything that can be known of a job without laying pieces out on stock."""

from evenface.checks import ask_all
from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.finding import gravest_first
from evenface.job.memory import Memory, Remembering
from evenface.job.opening import Opened
from evenface.parts import boards_of, parts_of
from evenface.result import Sketch
from evenface.templates import jigs_of, templates_of


def sketch(opened: Opened, with_band: bool = True, memory: Memory | None = None) -> Sketch:
    """Construction, sizes, flatness and findings of the job; no layouts.

    with_band=False leaves the flatness through the year for later: no behaviours, no findings about it.
    memory : of the last sketch of the same job: panels that have not changed since are not reckoned anew.
    One memory serves one thread at a time.
    """
    job, catalogue, made = opened.job, opened.catalogue, opened.made
    known = Remembering(memory if memory is not None else Memory(), opened)
    constructions = construct(job, catalogue, KINDS, made, known.built, known.constructed)
    parts = parts_of(constructions, known.part)
    findings = [finding for construction in constructions for finding in construction.findings]
    findings += ask_all(job, constructions, parts, (known.checked,), made)
    panels = [panel for construction in constructions for panel in construction.panels if with_band]
    behaviours = tuple(known.behaviour(panel) for panel in panels)
    for panel, behaviour in zip(panels, behaviours, strict=True):
        findings += known.flatness(panel, behaviour)
    templates, refused = templates_of(job, constructions)
    jigs, without = jigs_of(job, constructions)
    known.forget_the_rest()
    return Sketch(
        job,
        made,
        constructions,
        parts,
        gravest_first([*findings, *refused, *without]),
        behaviours,
        templates,
        boards_of(constructions),
        jigs,
    )
