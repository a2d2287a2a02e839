"""Widths set by plain movement: edging in a mitre or under a facing, an insert, a member of a frame."""

from dataclasses import replace
from typing import Final

import numpy as np

from evenface.behaviour.widths import Ground, Reason, WidthLimit, strain_across
from evenface.evidence import weakest
from evenface.materials import Carrier, values_of
from evenface.materials.rules import rule
from evenface.mechanics.wood import mismatch, mitre_opening, ridge
from evenface.words import Said, said

MITRE_MM: Final = 0.5
INSERT_MM: Final = 0.2
FRAME_MM: Final = 0.5
"""What a careful maker lets pass: an open mitre, an insert over its recess, a frame member."""


def _by_strain(
    ground: Ground, use: str, title: Said, reason: str, limit: float, per_width: list[float], practice: Said
) -> WidthLimit:
    """A width from an effect that grows straight with it. per_width : effect per mm, low to high movement."""
    widths = [float("inf") if one == 0.0 else limit / abs(one) for one in per_width]
    level = abs(per_width[1]) * 200.0
    found = None if np.isinf(widths[1]) else (min(widths), widths[1], max(widths))
    statuses = [value.status for value in values_of(ground.wood).values()]
    return WidthLimit(
        use,
        title,
        found,
        reason,
        (Reason(reason, found[1] if found else None, level, limit, "mm", True),),
        practice,
        "linear movement equation of the wood handbook; the limit is own practice",
        weakest((*statuses, ground.status)),
    )


def mitre_limit(ground: Ground) -> WidthLimit:
    """Width of edging in a mitre before the corner opens."""
    gaps = [
        float(mitre_opening(1.0, 1.0, strain_across(ground, end), strain_across(ground, end)).inside_mm)
        for end in (0, 1, 2)
    ]
    practice = said("Common practice: 20 to 25 mm, wider only butted or loose-tongued.")
    title = said("{wood}, {cut:word}-sawn: edging in a mitre", wood=ground.wood.title, cut=ground.cut)
    return _by_strain(ground, "mitre", title, "open mitre", MITRE_MM, gaps, practice)


def insert_limit(ground: Ground, board: Carrier) -> WidthLimit:
    """Width of an insert across its grain before it outgrows, or lies loose in, its recess."""
    own = board.expansion_across.nominal * ground.humidity_change
    gaps = [float(mismatch(1.0, strain_across(ground, end), own)) for end in (0, 1, 2)]
    title = said(
        "{wood}, {cut:word}-sawn: insert in {board}",
        wood=ground.wood.title,
        cut=ground.cut,
        board=board.title,
    )
    practice = said("Common practice: narrow inserts, grain along the longer side, 0.1 mm of play.")
    return _by_strain(ground, "insert", title, "mismatch with the board", INSERT_MM, gaps, practice)


def frame_limit(ground: Ground) -> WidthLimit:
    """Width of a frame member before its own movement eats the play of a loose panel."""
    gaps = [strain_across(ground, end) for end in (0, 1, 2)]
    title = said("{wood}, {cut:word}-sawn: member of a frame", wood=ground.wood.title, cut=ground.cut)
    practice = said("Common practice: 50 to 90 mm, the panel loose with play for it.")
    return _by_strain(ground, "frame", title, "change of width", FRAME_MM, gaps, practice)


def ridge_limit(ground: Ground, board: Carrier) -> WidthLimit:
    """Edging under a facing: its ridge on each face does not grow with its width, so practice sets the width."""
    step = rule("core-step")
    # across the thickness the rings stand the other way
    turned = replace(ground, cut={"flat": "quarter", "quarter": "flat", "rift": "rift"}[ground.cut])
    own = 0.0
    if board.thickness_movement is not None:
        own = board.thickness_movement.nominal * board.storage.nominal * ground.humidity_change
    height = float(ridge(board.thickness.nominal, strain_across(turned), own))
    under = rule("edging-width-under")
    title = said(
        "{wood}, {cut:word}-sawn: edging under a facing on {board}",
        wood=ground.wood.title,
        cut=ground.cut,
        board=board.title,
    )
    too_high = abs(height) > step.low
    return WidthLimit(
        "ridge",
        title,
        (0.0, 0.0, 0.0) if too_high else None,
        "ridge" if too_high else "",
        (Reason("ridge on each face", None, abs(height), step.low, "mm", False),),
        said(
            "Common practice: {width:mm} and narrower; the wider, the plainer it shows.", width=under.nominal
        ),
        step.source,
        weakest((*(value.status for value in values_of(ground.wood).values()), ground.status)),
    )
