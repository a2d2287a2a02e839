"""Bow, cup and twist of each panel over the settled year, from the curvature of its build-up."""

from collections.abc import Sequence

import numpy as np

from evenface.behaviour.curving import REALITY, Curved, Floats, curved
from evenface.behaviour.holding import FREE, force_at_fixing
from evenface.behaviour.records import Behaviour, Bend, Direction, Drying
from evenface.behaviour.stacks import layers_of, stacked
from evenface.behaviour.twist import twist_bend
from evenface.climate.year import MONTH_OF_DAY, RoomYear
from evenface.construction import BuiltPanel, Construction
from evenface.construction.room_air import air_of
from evenface.evidence import Band, Status, weakest
from evenface.materials import Catalogue, Finish
from evenface.mechanics import bow_mm
from evenface.piece.records import NOTHING_MADE, Job, Made
from evenface.words import Said, said

WORTH_SAYING_MM = 0.05
"""A bow from glue water below this is nothing a straightedge shows."""


def behaviours_of(
    job: Job, constructions: Sequence[Construction], catalogue: Catalogue, made: Made = NOTHING_MADE
) -> tuple[Behaviour, ...]:
    """Every panel of the job, in order."""
    return tuple(
        behaviour_of(job, panel, made, finish_of(job, panel, catalogue))
        for construction in constructions
        for panel in construction.panels
    )


def finish_of(job: Job, panel: BuiltPanel, catalogue: Catalogue) -> Finish | None:
    """What its build-up says lies on bare wood and bare board."""
    buildup = job.buildups.get(panel.panel.buildup)
    return catalogue.finish(buildup.finish) if buildup is not None and buildup.finish else None


def behaviour_of(
    job: Job, panel: BuiltPanel, made: Made = NOTHING_MADE, finish: Finish | None = None
) -> Behaviour:
    """One panel through the year; MissingWord for a place or room nobody knows, FileError for a bad log."""
    top, bottom = air_of(job, panel.panel)
    numbers = stacked(job, panel, made, finish)
    shape = curved(numbers, top, bottom, job.bonding_month)
    bends = (*_bends(panel, shape), twist_bend(panel, numbers, shape))
    status = weakest((numbers.weakest, top.status, bottom.status))
    return Behaviour(
        piece=panel.piece,
        part=panel.name,
        thickness_mm=panel.thickness_mm,
        bends=bends,
        first_years=_first_years(panel, shape),
        holding_n=_holding(panel, shape, bends[0]),
        mass_kg_m2=mass_per_area(panel),
        weakest=status,
        notes=_notes(job, panel, top, bottom, status),
        origin=panel.origin,
        held=panel.panel.hold.how,
        first_month=job.bonding_month,
        drying=tuple(_drying(panel, shape)),
    )


# --- from curvature to mm -----------------------------------------------------------------------------


def _axes(panel: BuiltPanel) -> tuple[tuple[Direction, int, float], tuple[Direction, int, float]]:
    """Bow along the longer edge, cup along the shorter: direction, axis, length."""
    sizes = (panel.length_mm, panel.width_mm)
    long = 0 if sizes[0] >= sizes[1] else 1
    return (Direction.BOW, long, sizes[long]), (Direction.CUP, 1 - long, sizes[1 - long])


def _bends(panel: BuiltPanel, shape: Curved) -> tuple[Bend, Bend]:
    bow, cup = (_bend(direction, shape, axis, size) for direction, axis, size in _axes(panel))
    return bow, cup


def _bend(direction: Direction, shape: Curved, axis: int, size_mm: float) -> Bend:
    nominal, low, high = (
        bow_mm(curvature[:, axis], size_mm) for curvature in (shape.nominal, shape.low, shape.high)
    )
    furthest = np.maximum(np.abs(low), np.abs(high))
    month = MONTH_OF_DAY[np.minimum(shape.days.astype(int), 364)]
    day = int(np.argmax(furthest))
    worst_days = [
        int(np.flatnonzero(month == number)[np.argmax(furthest[month == number])]) for number in range(12)
    ]
    return Bend(
        direction=direction,
        gauge_mm=size_mm,
        worst=_band_at(nominal, low, high, day),
        month=int(month[day]) + 1,
        year=tuple(_band_at(nominal, low, high, one) for one in worst_days),
        shares=shape.shares[axis],
    )


def _band_at(nominal: Floats, low: Floats, high: Floats, day: int) -> Band:
    return Band(float(low[day]), float(nominal[day]), float(high[day]))


def _first_years(panel: BuiltPanel, shape: Curved) -> dict[Direction, tuple[float, ...]]:
    """Nominal rise at 24 instants a month apart, from half a month after bonding on. [mm]"""
    days = (np.arange(24) * 365.0 / 12.0 + 15.0).astype(int)
    return {
        direction: tuple(float(rise) for rise in bow_mm(shape.first[days, axis], size))
        for direction, axis, size in _axes(panel)
    }


def _drying(panel: BuiltPanel, shape: Curved) -> list[Drying]:
    found = []
    for direction, axis, size in _axes(panel):
        rise = bow_mm(shape.water[:, axis], size)
        day = int(np.argmax(np.abs(rise)))
        most = float(rise[day])
        if abs(most) >= WORTH_SAYING_MM:
            later = np.flatnonzero(np.abs(rise[day:]) < 0.1 * abs(most))
            gone = day + int(later[0]) if later.size else rise.size
            found.append(Drying(direction, most, day, gone))
    return found


def _holding(panel: BuiltPanel, shape: Curved, bow: Bend) -> float | None:
    """Greatest force at a fixing that takes out the worst bow. [N]"""
    hold = panel.panel.hold
    if hold.how in FREE:
        return None
    (_, axis, long), (_, _, wide) = _axes(panel)
    curvature = 8.0 * abs(bow.deciding_mm) / long**2
    return force_at_fixing(shape.stiffness[axis], curvature, long, wide, hold.how, hold.fixings)


def mass_per_area(panel: BuiltPanel) -> float:
    """Mass of board and sheets over an area, edging left out. [kg/m²]"""
    return sum(
        layer.thickness.nominal * layer.material.density.nominal / 1000.0 for layer in layers_of(panel)
    )


# --- what it rests on ---------------------------------------------------------------------------------


def _notes(job: Job, panel: BuiltPanel, top: RoomYear, bottom: RoomYear, status: Status) -> tuple[Said, ...]:
    notes = [
        said(
            "Reckoned with linear laminate theory and moisture that moves through the thickness only; a real "
            "panel may differ by {share:percent} even where every property is measured. A test panel decides.",
            share=REALITY,
        )
    ]
    if not job.place and not job.humidity and not job.logger:
        notes.append(said("No place is given in the job: reckoned for a heated home in Copenhagen."))
    if status is Status.MEMORY:
        notes.append(
            said("Some properties are from memory; measure test strips before relying on the figures.")
        )
    if not panel.glue.rigid:
        notes.append(said("The contact glue gives: its stiffness under a lasting load is from memory."))
    if abs(top.temperature_c.mean() - bottom.temperature_c.mean()) > 1.0:
        notes.append(said("The two faces stand in different rooms: vapour pressure drives the moisture."))
    return (*notes, *top.notes, *(note for note in bottom.notes if note not in top.notes))
