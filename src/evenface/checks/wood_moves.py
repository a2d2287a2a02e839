"""How far a piece of wood under a facing moves over the year of its room."""

import numpy as np

from evenface.climate.sorption import wood_moisture
from evenface.construction.room_air import year_of
from evenface.evidence import Band
from evenface.materials import Wood
from evenface.piece.records import Job


def swing_of(job: Job) -> float:
    """Change of wood moisture between the dry and the damp end of the room's year, as a fraction."""
    humidity = year_of(job, job.room).humidity
    low, high = (float(wood_moisture(edge, 20.0)) for edge in np.percentile(humidity, (5, 95)))
    return high - low


def movement_across(job: Job, wood: Wood, size_mm: float) -> Band:
    """Movement of that size across the grain over the year: radial at least, tangential at most. [mm]"""
    swing = swing_of(job)
    ends = sorted(
        size_mm * coefficient.nominal * swing
        for coefficient in (wood.movement_radial, wood.movement_tangential)
    )
    return Band(ends[0], ends[1], ends[1])
