"""Go, or wait n days: are the layers of a bonding near enough to the humidity they shall live with?

A layer left in the shop nears its air as exp(−t/τ). τ comes from the layer's thickness and material
(`mechanics`), and from whether air reaches both faces; a closed stack takes weeks. What bonding now would
cost in bow is reckoned by others.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

USUAL_TOLERANCE: Final = 0.05
"""Humidity a layer may lie off its target; 0.15 between face and board already bows a panel for good."""


@dataclass(frozen=True, slots=True)
class LayerWait:
    """How far one layer lies off the target, and how many whole days it needs."""

    layer: str
    humidity: float
    off: float
    days: int


@dataclass(frozen=True, slots=True)
class GateAnswer:
    """`verdict` for the whole bonding, the days the slowest layer needs, and each layer by itself.

    gap_now : greatest difference between two layers, which bends even a symmetric panel.
    """

    verdict: Literal["go", "wait"]
    days: int
    slowest: str
    gap_now: float
    layers: tuple[LayerWait, ...]


def gluing_gate(
    humidities: Mapping[str, float],
    target: float,
    time_constant_days: float | Mapping[str, float],
    tolerance: float = USUAL_TOLERANCE,
) -> GateAnswer:
    """Whether layers at these humidities may be bonded for a room of humidity `target`.

    humidities : by layer, as fractions; a moisture content becomes one through the layer's isotherm.
    time_constant_days : of all layers or of each, in air kept at the target.

    Raises ValueError when there is no layer, a humidity is no fraction, or a time constant or the tolerance
    is not positive; KeyError when a layer has no time constant.
    """
    if not humidities:
        raise ValueError("expected at least one layer, was given none")
    for name, value in (*humidities.items(), ("target", target)):
        if not 0.0 <= value <= 1.0:
            raise ValueError(f"{name}: expected a humidity as a fraction, was given {value:g}")
    if not 0.0 < tolerance < 1.0:
        raise ValueError(f"expected a tolerance between 0 and 1, was given {tolerance:g}")
    waits = []
    for layer, humidity in humidities.items():
        constant = (
            time_constant_days if isinstance(time_constant_days, float | int) else time_constant_days[layer]
        )
        waits.append(
            LayerWait(layer, humidity, humidity - target, _days(humidity - target, tolerance, constant))
        )
    slowest = max(waits, key=lambda wait: (wait.days, abs(wait.off)))
    return GateAnswer(
        "go" if slowest.days == 0 else "wait",
        slowest.days,
        slowest.layer,
        max(humidities.values()) - min(humidities.values()),
        tuple(waits),
    )


def _days(off: float, tolerance: float, time_constant: float) -> int:
    if not (math.isfinite(time_constant) and time_constant > 0.0):
        raise ValueError(f"expected a time constant above 0 days, was given {time_constant}")
    # a hair of slack, so that a layer exactly at the tolerance may go
    if abs(off) <= tolerance * (1.0 + 1e-9):
        return 0
    return math.ceil(time_constant * math.log(abs(off) / tolerance) - 1e-9)
