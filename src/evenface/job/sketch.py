"""Everything that can be known of a job without laying pieces out on stock."""

from evenface.behaviour import behaviours_of
from evenface.checks import ask_all
from evenface.checks.flatness import check_flatness
from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.finding import gravest_first
from evenface.job.opening import Opened
from evenface.parts import boards_of, parts_of
from evenface.result import Sketch
from evenface.templates import templates_of


def sketch(opened: Opened, with_band: bool = True) -> Sketch:
    """Construction, sizes, flatness and findings of the job; no layouts.

    with_band=False leaves the flatness through the year for later: no behaviours, no findings about it.
    """
    job, catalogue, made = opened.job, opened.catalogue, opened.made
    constructions = construct(job, catalogue, KINDS, made)
    parts = parts_of(constructions)
    findings = [finding for construction in constructions for finding in construction.findings]
    findings += ask_all(job, constructions, parts)
    behaviours = behaviours_of(job, constructions, catalogue, made) if with_band else ()
    if with_band:
        panels = [panel for construction in constructions for panel in construction.panels]
        findings += check_flatness(job, panels, behaviours, catalogue, made)
    templates, refused = templates_of(job, constructions)
    return Sketch(
        job,
        made,
        constructions,
        parts,
        gravest_first([*findings, *refused]),
        behaviours,
        templates,
        boards_of(constructions),
    )
