"""A built panel as a stack of numbers, and which of them are uncertain by how much."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from evenface.construction import BuiltPanel, CarrierLayer, FaceLayer
from evenface.evidence import Status, Value, weakest
from evenface.materials import Carrier, Facing, values_of
from evenface.mechanics import Stack, Varied
from evenface.piece.records import Job, Role

AIR_FILM_M = 0.01
"""Still air at a face, as a thickness of air that resists vapour as much (about 1 / 25 m/h of exchange)."""
UNMEASURED_HUMIDITY = 0.05
"""What a sheet may differ in humidity from its neighbours when it was conditioned but not measured (90 %)."""
MEASURED_HUMIDITY = 0.02


@dataclass(frozen=True, slots=True)
class Stacked:
    """Numbers of a panel: the stack bottom to top, humidity at bonding of each layer, what is uncertain."""

    stack: Stack
    humidity_at_bonding: tuple[float, ...]
    varied: tuple[Varied, ...]
    weakest: Status
    key: bytes


def stacked(job: Job, panel: BuiltPanel, film_top_m: float = 0.0, film_bottom_m: float = 0.0) -> Stacked:
    """The panel as the mechanics take it; finishes on bare faces come as films. [m]"""
    layers: list[FaceLayer | CarrierLayer] = [
        layer for layer in (panel.face(Role.BACK), panel.carrier, panel.face(Role.FACE)) if layer is not None
    ]
    rows = [_row(layer) for layer in layers]
    stack = Stack(
        thickness_mm=np.array([row[0] for row in rows]),
        E1_MPa=np.array([row[1] for row in rows]),
        E2_MPa=np.array([row[2] for row in rows]),
        nu12=np.array([row[3] for row in rows]),
        G12_MPa=np.array([row[4] for row in rows]),
        angle_deg=np.array([layer.direction_deg for layer in layers]),
        expansion_1=np.array([row[5] for row in rows]),
        expansion_2=np.array([row[6] for row in rows]),
        vapour_resistance=np.array([row[7] for row in rows]),
        storage_kg_m3=np.array([row[8] for row in rows]),
        film_bottom_m=np.asarray(AIR_FILM_M + film_bottom_m),
        film_top_m=np.asarray(AIR_FILM_M + film_top_m),
    )
    bonding = tuple(
        job.shop_humidity if layer.humidity_at_bonding is None else layer.humidity_at_bonding
        for layer in layers
    )
    varied = (*_varied_properties(layers, rows), *_varied_humidity(layers, bonding))
    statuses = [value.status for layer in layers for value in values_of(layer.material).values()]
    key = (
        b"".join(np.ascontiguousarray(array).tobytes() for array in _arrays(stack, bonding))
        + repr(varied).encode()
    )
    return Stacked(stack, bonding, varied, weakest(statuses), key)


def _arrays(
    stack: Stack, bonding: tuple[float, ...]
) -> Iterator[np.ndarray[tuple[int, ...], np.dtype[np.float64]]]:
    for name in Stack.__dataclass_fields__:
        yield np.asarray(getattr(stack, name), dtype=np.float64)
    yield np.asarray(bonding)


def resistance_factor(material: Carrier | Facing, thickness_mm: float) -> float:
    """Vapour resistance factor µ between dry and wet cup, or from the sheet's own s_d. [-]"""
    if isinstance(material, Carrier):
        return float(np.sqrt(material.resistance_dry.nominal * material.resistance_wet.nominal))
    return material.vapour_sd.nominal * 1000.0 / thickness_mm


def _row(layer: FaceLayer | CarrierLayer) -> tuple[float, ...]:
    material, thickness = layer.material, layer.thickness.nominal
    return (
        thickness,
        material.modulus_along.nominal,
        material.modulus_across.nominal,
        material.poisson.nominal,
        material.shear_modulus.nominal,
        material.expansion_along.nominal,
        material.expansion_across.nominal,
        resistance_factor(material, thickness),
        material.storage.nominal * material.density.nominal,
    )


def _varied_properties(
    layers: list[FaceLayer | CarrierLayer], rows: list[tuple[float, ...]]
) -> Iterator[Varied]:
    """Sheets of one material share one draw: they come from one batch."""
    names = [layer.material.name for layer in layers]
    for name in dict.fromkeys(names):
        places = tuple(number for number, other in enumerate(names) if other == name)
        first = places[0]
        material, row = layers[first].material, rows[first]
        for field, value in (
            ("E1_MPa", material.modulus_along),
            ("E2_MPa", material.modulus_across),
            ("expansion_1", material.expansion_along),
            ("expansion_2", material.expansion_across),
        ):
            yield from _spread(f"{material.title}: {_FIELD_WORDS[field]}", field, places, value)
        low, high = _resistance_spread(material)
        yield Varied(
            f"{material.title}: vapour resistance",
            "vapour_resistance",
            places,
            row[7],
            row[7] * low,
            row[7] * high,
        )


_FIELD_WORDS = {
    "E1_MPa": "stiffness along",
    "E2_MPa": "stiffness across",
    "expansion_1": "movement along",
    "expansion_2": "movement across",
}


def _spread(name: str, field: str, places: tuple[int, ...], value: Value) -> Iterator[Varied]:
    if value.high > value.low:
        spread: Literal["lognormal", "normal"] = "lognormal" if value.low > 0 else "normal"
        yield Varied(name, field, places, value.nominal, value.low, value.high, spread)


def _resistance_spread(material: Carrier | Facing) -> tuple[float, float]:
    """Factors below and above the nominal resistance: for a board, from wet to dry cup."""
    if isinstance(material, Carrier):
        middle = float(np.sqrt(material.resistance_dry.nominal * material.resistance_wet.nominal))
        return min(1.0, material.resistance_wet.nominal / middle), max(
            1.0, material.resistance_dry.nominal / middle
        )
    sd = material.vapour_sd
    return sd.low / sd.nominal, sd.high / sd.nominal


def _varied_humidity(layers: list[FaceLayer | CarrierLayer], bonding: tuple[float, ...]) -> Iterator[Varied]:
    for number, layer in enumerate(layers):
        measured = layer.humidity_at_bonding is not None
        spread = MEASURED_HUMIDITY if measured else UNMEASURED_HUMIDITY
        middle = bonding[number]
        yield Varied(
            f"{layer.material.title}: humidity when glued",
            "humidity_at_bonding",
            (number,),
            middle,
            max(0.0, middle - spread),
            min(1.0, middle + spread),
            "normal",
        )
