"""Kinds of room a piece may stand in, each with how dry and how damp it may turn out.

The kinds stand in `data/kinds.toml`, every figure as low, usual, high with status and source. A room is
reckoned at its usual figures, or at the dry or damp edge of them: `edge="dry"` takes the low moisture load
and the warm end of the temperatures.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

import numpy as np

from evenface.climate.indoor import (
    MonthlyRoom,
    balanced_humidity,
    damp_notes,
    heated_temperature,
)
from evenface.climate.outdoors import Outdoors
from evenface.climate.vapour import Floats, humidity_when_warmed
from evenface.errors import MissingWord
from evenface.evidence import Status, Value, weakest
from evenface.words import said

type Edge = Literal["usual", "dry", "damp"]

_FIGURES = {
    "offset_c": "K",
    "warm_rise_c": "K",
    "excess_cold_pa": "Pa",
    "excess_warm_pa": "Pa",
    "damping_days": "d",
}


@dataclass(frozen=True, slots=True)
class RoomKind:
    """How the air about a piece follows the weather; every figure with its range.

    heated : indoor temperature by EN 15026 annex C, else that outside.
    offset_c : added to it all year. warm_rise_c : how much warmer the piece stands than the room, in full
    heating weather. excess_cold_pa, excess_warm_pa : vapour over that outside, at 0 °C and at 20 °C outside.
    damping_days : time constant with which its air follows the room's.
    """

    name: str
    meaning: str
    heated: bool
    offset_c: Value
    warm_rise_c: Value
    excess_cold_pa: Value
    excess_warm_pa: Value
    damping_days: Value
    status: Status
    source: str


@cache
def _kinds() -> Mapping[str, RoomKind]:
    text = files("evenface.climate").joinpath("data/kinds.toml").read_text(encoding="utf-8")
    return {name: _read_kind(name, entry) for name, entry in tomllib.loads(text).items()}


def _read_kind(name: str, entry: Mapping[str, object]) -> RoomKind:
    status, source = Status(str(entry["status"])), str(entry["source"])
    if entry["temperature"] not in ("heated", "outdoors"):
        raise ValueError(
            f"{name}: expected temperature heated or outdoors, was given {entry['temperature']!r}"
        )
    figures = {}
    for figure, unit in _FIGURES.items():
        low, usual, high = np.asarray(entry[figure], dtype=np.float64).tolist()
        figures[figure] = Value(usual, low, high, unit, status, source)
    return RoomKind(
        name, str(entry["meaning"]), entry["temperature"] == "heated", **figures, status=status, source=source
    )


def room_kind(name: str) -> RoomKind:
    """The kind of room called `name`. Raises MissingWord naming the nearest."""
    if name not in _kinds():
        raise MissingWord("kind of room", name, room_kind_names())
    return _kinds()[name]


def room_kind_names() -> tuple[str, ...]:
    """Every kind of room the house knows."""
    return tuple(_kinds())


def monthly_room(weather: Outdoors, kind: RoomKind, edge: Edge = "usual") -> MonthlyRoom:
    """Monthly air about a piece in this kind of room at this place.

    The damping of a closed case is not in it: it needs days, see `year.room_year`.
    """
    outside = np.array(weather.temperature_c)
    warm, cold = _edges(kind, edge)
    base = heated_temperature(outside) if kind.heated else outside
    room = base + warm["offset_c"]
    humidity, held = balanced_humidity(weather, cold["excess_cold_pa"], cold["excess_warm_pa"], room)
    rise = warm["warm_rise_c"] * heating_share(outside)
    notes = list(damp_notes(held))
    if np.any(rise > 0.0):
        notes.append(
            said(
                "Stands up to {rise} K warmer than the room in the heating season: the air there is drier.",
                rise=round(float(np.max(rise)), 1),
            )
        )
    if kind.name == "bathroom":
        notes.append(said("Single showers and splashes are not in the monthly means."))
    return MonthlyRoom(
        tuple(float(value) for value in room + rise),
        tuple(float(value) for value in humidity_when_warmed(humidity, room, room + rise)),
        weakest((weather.status, weather.pressure_status, kind.status)),
        f"{kind.source}; {weather.name}: {weather.source}",
        tuple(notes),
    )


def heating_share(outdoor_c: Floats) -> Floats:
    """Share of full heating: nothing from 15 °C outside upwards, all from −10 °C downwards [-]."""
    return np.asarray(np.clip((15.0 - outdoor_c) / 25.0, 0.0, 1.0))


def damping_time(kind: RoomKind, edge: Edge = "usual") -> float:
    """Time constant of the air about the piece [days]; the least of its range at either edge."""
    return kind.damping_days.nominal if edge == "usual" else kind.damping_days.low


def _edges(kind: RoomKind, edge: Edge) -> tuple[dict[str, float], dict[str, float]]:
    """Temperatures and moisture loads at the edge asked for: dry is warm with little vapour."""

    def pick(value: Value, dry_end: str) -> float:
        ends = {"low": value.low, "high": value.high}
        if edge == "usual":
            return value.nominal
        return ends[dry_end] if edge == "dry" else ends["high" if dry_end == "low" else "low"]

    warm = {"offset_c": pick(kind.offset_c, "high"), "warm_rise_c": pick(kind.warm_rise_c, "high")}
    load = {
        "excess_cold_pa": pick(kind.excess_cold_pa, "low"),
        "excess_warm_pa": pick(kind.excess_warm_pa, "low"),
    }
    return warm, load
