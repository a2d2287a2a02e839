"""How a joint is pressed with what is at hand: clamps and cauls on an edge; press, bag or roller on a face."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from evenface.construction import BuiltPanel
from evenface.evidence import Status, Value, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Glue, Wood
from evenface.materials.rules import rule
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.clamps import CAUL_MM, CLAMP_N, Clamping, caul_pairs, clamps_for, force_n

_LEAST_CROWN_MM: Final = 0.2
"""A bow below this cannot be planed; the caul may be straight."""
_CAUL_MPA: Final = 12_000.0
"""Modulus of the wood of cauls over a face: ash or beech, along the grain."""


@dataclass(frozen=True, slots=True)
class Means:
    """What there is to press with. clamps : None for not counted. press_mm : plate or bag, None for not told."""

    clamps: int | None = None
    press_mm: tuple[float, float] | None = None


UNCOUNTED: Final = Means()


def wood_pressure(glue: Glue, wood: Wood) -> Value | None:
    """Pressure on solid wood: the low end on soft woods, which dent, the usual one on hard woods.

    READ: white glue 0.7 to 1.0 N/mm² on softwood, 1.2 to 1.7 on hardwood.
    """
    given = glue.pressure_wood or glue.pressure
    if given is None or times.is_contact(glue) or wood.hardwood:
        return given
    return Value(given.low, given.low, given.nominal, given.unit, given.status, given.source)


def clamped(clamping: Clamping | None) -> Iterator[Said]:
    """Clamps and cauls for a strip of edging."""
    if clamping is None:
        yield said("Press on hard all along with a narrow roller, then tap home with a block.")
        return
    yield said(
        "{force} kN: {count:count} clamps, one every {spacing:mm} ({why:word} decides).",
        force=round(clamping.force_n / 1000.0, 1),
        count=clamping.count,
        spacing=float(round(clamping.spacing_mm)),
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
        verdict=said(
            ", more than a usual clamp gives: two of those press with {reached:mpa}",
            reached=clamping.caul_reaches_mpa,
        )
        if clamping.caul_end_n > CLAMP_N.nominal
        else said(""),
    )


def pressed(glue: Glue, area_m2: float, size_mm: tuple[float, float] | None = None) -> Iterator[Said]:
    """Clamps, vacuum or roller for a whole face; size_mm : length and width, for cauls across it."""
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
        "{pressure:mpa} on {area} m² is {force:count} kN: {count:count} clamps of {each} kN{verdict}.",
        pressure=glue.pressure.nominal,
        area=area_m2,
        force=force / 1000.0,
        count=math.ceil(force / CLAMP_N.nominal),
        each=CLAMP_N.nominal / 1000.0,
        verdict=_by_hand(size_mm, glue.pressure.nominal),
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


def _by_hand(size_mm: tuple[float, float] | None, pressure_mpa: float) -> Said:
    """Pairs of crowned cauls where they find room, else a press."""
    pairs = caul_pairs(*size_mm, pressure_mpa, _CAUL_MPA) if size_mm is not None else None
    if pairs is None:
        return said(", so a press or bag")
    return said(
        ", as {pairs:count} pairs of cauls {wide:mm} × {high:mm} across it, one every {every:mm}, "
        "{crown}; or a press or bag",
        pairs=pairs.pairs,
        wide=CAUL_MM[0],
        high=CAUL_MM[1],
        every=pairs.every_mm,
        crown=said("straight")
        if pairs.crown_mm < _LEAST_CROWN_MM
        else said("crown {crown:mm2}", crown=pairs.crown_mm),
    )


def too_few_clamps(
    step: str, panel: BuiltPanel, force: float, count: int, low: Value, means: Means
) -> Iterator[Finding]:
    """Finding `glue.clamps`: fewer clamps at hand than the pressure asks for, with what they do give."""
    if means.clamps is None or means.clamps >= count:
        return
    reached = low.nominal * means.clamps * CLAMP_N.nominal / max(force, 1e-9)
    enough = clamps_for(force * low.low / low.nominal)
    yield Finding(
        code="glue.clamps",
        severity=Severity.NOTE if reached >= low.low else Severity.WEIGH,
        origin=panel.origin,
        piece=panel.piece,
        part=panel.name,
        at=step,
        message=said(
            "{count:count} clamps are asked for, {have:count} are at hand: they press with {reached:mpa}, the glue "
            "wants {low:mpa} to {high:mpa}.",
            count=count,
            have=means.clamps,
            reached=reached,
            low=low.low,
            high=low.high,
        ),
        value=certain(float(means.clamps)),
        limit=float(count),
        unit="clamps",
        why=said("A joint that is not pressed to a thin line is weak and shows."),
        source=low.source,
        weakest=low.status,
        remedies=(
            Remedy(
                "glue.clamps",
                said("Borrow clamps: {count:count} give the least pressure of the range.", count=enough),
            ),
            Remedy("glue.polyurethane", said("Take a glue that asks for less pressure, and fit it closer.")),
        ),
    )


def too_few_at_once(step: str, piece: str, count: int, glue: Glue, means: Means) -> Iterator[Finding]:
    """Finding `glue.clamps`: fewer clamps at hand than the joints closed in one go ask for. count : of those."""
    if means.clamps is None or means.clamps >= count:
        return
    pressure = glue.pressure_wood or glue.pressure
    yield Finding(
        code="glue.clamps",
        severity=Severity.WEIGH,
        origin="",
        piece=piece,
        part="",
        at=step,
        message=said(
            "{count:count} clamps are asked for at once, {have:count} are at hand.",
            count=count,
            have=means.clamps,
        ),
        value=certain(float(means.clamps)),
        limit=float(count),
        unit="clamps",
        why=said("A joint that is not pressed to a thin line is weak and shows."),
        source=pressure.source if pressure is not None else "",
        weakest=pressure.status if pressure is not None else Status.PRACTICE,
        remedies=(
            Remedy(
                "glue.clamps", said("Borrow clamps: {count:count} are missing.", count=count - means.clamps)
            ),
            Remedy("glue.apart", said("Glue up fewer joints in one go, the others when these have set.")),
        ),
    )


def too_large(step: str, panel: BuiltPanel, glue: Glue, means: Means) -> Iterator[Finding]:
    """Finding `glue.press_size`: the panel does not lie on the plate or in the bag, either way round."""
    if means.press_mm is None or times.is_contact(glue):
        return
    long, short = sorted((panel.length_mm, panel.width_mm), reverse=True)
    plate, across = sorted(means.press_mm, reverse=True)
    if long <= plate and short <= across:
        return
    yield Finding(
        code="glue.press_size",
        severity=Severity.WEIGH,
        origin=panel.origin,
        piece=panel.piece,
        part=panel.name,
        at=step,
        message=said(
            "The panel, {long:mm} × {short:mm}, is larger than the press, {plate:mm} × {across:mm}.",
            long=long,
            short=short,
            plate=plate,
            across=across,
        ),
        value=certain(long if long > plate else short),
        limit=plate if long > plate else across,
        unit="mm",
        why=said("What stands out of the press is not bonded."),
        source="the maker's own press",
        remedies=(Remedy("glue.contact", said("Take contact glue and a roller, or cauls for the rest.")),),
    )
