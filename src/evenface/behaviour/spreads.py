"""Which figures of a panel are uncertain, and by how much: what the band is drawn from."""

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np

from evenface.construction import CarrierLayer, FaceLayer
from evenface.evidence import Value
from evenface.materials import Carrier, Facing
from evenface.mechanics import Varied

UNMEASURED_HUMIDITY = 0.05
"""What a sheet may differ in humidity from its neighbours when it was conditioned but not measured (90 %)."""
MEASURED_HUMIDITY = 0.02

type Layer = FaceLayer | CarrierLayer

_WAYS = (
    ("stiffness", "E1_MPa", "E2_MPa", "modulus_along", "modulus_across"),
    ("movement", "expansion_1", "expansion_2", "expansion_along", "expansion_across"),
)


def varied_properties(layers: Sequence[Layer], rows: Sequence[tuple[float, ...]]) -> Iterator[Varied]:
    """Sheets of one material share one draw: they come from one batch."""
    names = [layer.material.name for layer in layers]
    for name in dict.fromkeys(names):
        places = tuple(number for number, other in enumerate(names) if other == name)
        material, row = layers[places[0]].material, rows[places[0]]
        for what, one, two, along, across in _WAYS:
            yield from _two_ways(
                f"{material.title}: {what}",
                (one, two),
                places,
                (getattr(material, along), getattr(material, across)),
            )
        if isinstance(material, Facing):
            yield from _spread(f"{material.title}: thickness", "thickness_mm", places, material.thickness)
        low, high = _resistance_spread(material)
        title = f"{material.title}: vapour resistance"
        yield Varied(title, "vapour_resistance", places, row[7], row[7] * low, row[7] * high)
        share = [material.storage.low, material.storage.high]
        low, high = (row[8] * value / material.storage.nominal for value in share)
        yield Varied(f"{material.title}: moisture storage", "storage_kg_m3", places, row[8], low, high)


def _two_ways(
    name: str, fields: tuple[str, str], places: tuple[int, ...], values: tuple[Value, Value]
) -> Iterator[Varied]:
    """One draw for both directions of a sheet without grain, else one for each."""
    along, across = values
    if (along.nominal, along.low, along.high) == (across.nominal, across.low, across.high):
        yield from _spread(name, fields[0], places, along, (fields[1],))
        return
    yield from _spread(f"{name} along", fields[0], places, along)
    yield from _spread(f"{name} across", fields[1], places, across)


def _spread(
    name: str, field: str, places: tuple[int, ...], value: Value, also: tuple[str, ...] = ()
) -> Iterator[Varied]:
    if value.high > value.low:
        spread: Literal["lognormal", "normal"] = "lognormal" if value.low > 0 else "normal"
        yield Varied(name, field, places, value.nominal, value.low, value.high, spread, also)


def _resistance_spread(material: Carrier | Facing) -> tuple[float, float]:
    """Factors below and above the nominal resistance: for a board, from wet to dry cup."""
    if isinstance(material, Carrier):
        middle = float(np.sqrt(material.resistance_dry.nominal * material.resistance_wet.nominal))
        low, high = material.resistance_wet.nominal / middle, material.resistance_dry.nominal / middle
        return min(1.0, low), max(1.0, high)
    sd = material.vapour_sd
    return sd.low / sd.nominal, sd.high / sd.nominal


def varied_humidity(
    layers: Sequence[Layer], bonding: Sequence[float], known: Sequence[bool]
) -> Iterator[Varied]:
    """Humidity when glued, each layer for itself; one that was measured scatters less."""
    for number, (layer, middle) in enumerate(zip(layers, bonding, strict=True)):
        spread = MEASURED_HUMIDITY if known[number] else UNMEASURED_HUMIDITY
        role = layer.role.value if isinstance(layer, FaceLayer) else "board"
        yield Varied(
            f"{layer.material.title} ({role}): humidity when glued",
            "humidity_at_bonding",
            (number,),
            middle,
            max(0.0, middle - spread),
            min(1.0, middle + spread),
            "normal",
        )
