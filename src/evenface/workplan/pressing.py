"""How a joint is pressed with what is at hand: clamps and cauls on an edge; press, bag or roller on a face."""

import math
from collections.abc import Iterator
from typing import Final

from evenface.materials import Glue
from evenface.materials.rules import rule
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.clamps import CAUL_MM, CLAMP_N, Clamping, force_n

_LEAST_CROWN_MM: Final = 0.2
"""A bow below this cannot be planed; the caul may be straight."""


def clamped(clamping: Clamping | None) -> Iterator[Said]:
    """Clamps and cauls for a strip of edging."""
    if clamping is None:
        yield said("Press on hard all along with a narrow roller, then tap home with a block.")
        return
    yield said(
        "{force} kN: {count:count} clamps, one every {spacing:mm} ({why:word} decides).",
        force=round(clamping.force_n / 1000.0, 1),
        count=clamping.count,
        spacing=clamping.spacing_mm,
        why=clamping.decided_by,
    )
    if clamping.crown_mm < _LEAST_CROWN_MM:
        return
    yield said(
        "A caul {wide:mm} × {high:mm} over {span:mm}, clamped only at its ends, needs a crown of {crown:mm2} and "
        "{force} kN at each end{verdict}.",
        wide=CAUL_MM[0],
        high=CAUL_MM[1],
        span=clamping.caul_span_mm,
        crown=clamping.crown_mm,
        force=round(clamping.caul_end_n / 1000.0, 1),
        verdict=said(", more than a usual clamp gives")
        if clamping.caul_end_n > CLAMP_N.nominal
        else said(""),
    )


def pressed(glue: Glue, area_m2: float) -> Iterator[Said]:
    """Clamps, vacuum or roller for a whole face."""
    if times.is_contact(glue):
        yield said(
            "A narrow roller, 75 mm, with all your weight, from the middle outwards; then a block and mallet "
            "along the edges. Short and strong is what counts."
        )
        return
    if glue.pressure is None:
        yield said("No pressure is known for this glue: see its data sheet.")
        return
    force = force_n(glue.pressure.nominal, area_m2 * 1e6)
    yield said(
        "{pressure:mpa} on {area} m² is {force:count} kN: {count:count} clamps of {each} kN, so a press or bag.",
        pressure=glue.pressure.nominal,
        area=area_m2,
        force=force / 1000.0,
        count=math.ceil(force / CLAMP_N.nominal),
        each=CLAMP_N.nominal / 1000.0,
    )
    bag = rule("vacuum-pressure").nominal
    weak = bag < glue.pressure.low
    yield (
        said(
            "A vacuum bag gives {bag:mpa}, less than the {low:mpa} asked for: only for a flat, close joint, "
            "and try a test piece first.",
            bag=bag,
            low=glue.pressure.low,
        )
        if weak
        else said("A vacuum bag gives {bag:mpa}: enough.", bag=bag)
    )
