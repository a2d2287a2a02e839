"""Glue today, or wait: how far each layer lies off the room's air, how long it needs, and what gluing now costs."""

from dataclasses import dataclass

import numpy as np

from evenface.behaviour.curving import curved
from evenface.behaviour.records import Direction
from evenface.behaviour.stacks import AIR_FILM_M, humidities_at_bonding, layers_of, stacked
from evenface.climate import GateAnswer, gluing_gate
from evenface.construction import BuiltPanel, FaceLayer
from evenface.construction.room_air import air_of
from evenface.materials import Finish
from evenface.mechanics import Stack, bow_mm, saturation_pressure_pa
from evenface.mechanics.vapour import air_permeability
from evenface.piece.records import NOTHING_MADE, Job, Made

SHOP_C = 20.0


@dataclass(frozen=True, slots=True)
class Gate:
    """`answer` go or wait; target : mean humidity of the room. measured : somebody gave a layer's humidity.

    cost_mm : bow and cup that stay for good when it is glued now instead of at the target.
    """

    answer: GateAnswer
    target: float
    measured: bool
    cost_mm: dict[Direction, float]


def bonding_gate(
    job: Job, panel: BuiltPanel, made: Made = NOTHING_MADE, finish: Finish | None = None
) -> Gate:
    """The gate of one panel; layers are taken to lie free, with air on both faces, while they wait."""
    top, bottom = air_of(job, panel.panel)
    target = round(float(np.mean(top.humidity) + np.mean(bottom.humidity)) / 2.0, 2)
    bonding, known = humidities_at_bonding(job, panel, made)
    numbers = stacked(job, panel, made, finish)
    names = [layer.role.value if isinstance(layer, FaceLayer) else "carrier" for layer in layers_of(panel)]
    constants = time_constants_days(numbers.stack)
    answer = gluing_gate(
        dict(zip(names, bonding, strict=True)), target, dict(zip(names, constants, strict=True))
    )
    now = curved(numbers, top, bottom, job.bonding_month)
    weights = now.nominal_at(np.full(len(bonding), target), np.asarray(bonding))
    sizes = (panel.length_mm, panel.width_mm)
    long = 0 if sizes[0] >= sizes[1] else 1
    cost = {
        direction: float(bow_mm(weights[axis], sizes[axis]))
        for direction, axis in ((Direction.BOW, long), (Direction.CUP, 1 - long))
    }
    return Gate(answer, target, any(known), cost)


def time_constants_days(stack: Stack) -> tuple[float, ...]:
    """How fast each layer follows the air when it lies free: slowest mode of a slab, and the air film. [days]

    τ = ξ·h·(h·µ/π² + s_d)/(δ·p_sat), with the film on both faces.
    """
    height = np.asarray(stack.thickness_mm) / 1000.0
    passes = float(air_permeability(SHOP_C)) * float(saturation_pressure_pa(SHOP_C))
    inside = height * stack.vapour_resistance / np.pi**2
    days = stack.storage_kg_m3 * height * (inside + AIR_FILM_M / 2.0) / passes
    return tuple(float(one) for one in days)
