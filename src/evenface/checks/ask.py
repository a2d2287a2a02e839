"""Every question put to every panel."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from evenface.checks.balance import check_balance
from evenface.checks.carrier import check_carrier
from evenface.checks.corner_pieces import check_corner_pieces
from evenface.checks.corners import check_corners
from evenface.checks.curved_edging import check_curved_edging
from evenface.checks.cutouts import check_cutouts
from evenface.checks.facing import check_facing
from evenface.checks.grip_places import check_grip_places
from evenface.checks.grips import check_grips
from evenface.checks.inserts import check_inserts
from evenface.checks.moisture import check_job_moisture, check_moisture
from evenface.checks.moisture_log import check_moisture_log
from evenface.checks.notches import check_notches
from evenface.checks.order import check_order
from evenface.checks.outline import check_outline
from evenface.checks.profiles import check_profiles
from evenface.checks.profiles_beside import check_profiles_beside
from evenface.checks.question import Asked, Check
from evenface.checks.shown_edges import check_shown_edges
from evenface.checks.stock import check_stock
from evenface.checks.webs import check_webs
from evenface.checks.widths import check_widths
from evenface.construction import Construction
from evenface.finding import Finding
from evenface.parts import Part
from evenface.piece.records import NOTHING_MADE, Job, Made
from evenface.words import Said

CHECKS: tuple[Check, ...] = (
    check_balance,
    check_moisture,
    check_carrier,
    check_facing,
    check_order,
    check_widths,
    check_outline,
    check_curved_edging,
    check_corners,
    check_corner_pieces,
    check_profiles,
    check_profiles_beside,
    check_shown_edges,
    check_cutouts,
    check_webs,
    check_notches,
    check_inserts,
    check_grips,
    check_grip_places,
    check_stock,
)

OF_MATERIALS = {"carrier.disagreement"}


def ask_all(
    job: Job,
    constructions: Sequence[Construction],
    parts: Sequence[Part],
    checks: Sequence[Check] = CHECKS,
    made: Made = NOTHING_MADE,
) -> tuple[Finding, ...]:
    """What every check has to say of every panel, with piece and part filled in."""
    panels = [panel for construction in constructions for panel in construction.panels]
    of_panels = (
        replace(finding, piece=panel.piece, part=panel.name)
        for panel, part in zip(panels, parts, strict=True)
        for check in checks
        for finding in check(Asked(job, panel, part, made))
    )
    return (
        *check_job_moisture(job),
        *check_moisture_log(job, panels, made),
        *_said_once(of_panels),
    )


def _said_once(findings: Iterable[Finding]) -> Iterator[Finding]:
    """What is true of a material is said of the first panel that uses it, not of every one."""
    said: set[Said] = set()
    for finding in findings:
        if finding.code in OF_MATERIALS:
            if finding.message in said:
                continue
            said.add(finding.message)
        yield finding
