"""Air about a piece through the year, and the water that wood and boards hold in it.

Takes: a place and a kind of room, own monthly values, or a logger's CSV; humidities and moisture contents.
Gives: `RoomYear` (365 days of temperature and humidity with notes), isotherms, the gluing gate.
May import: units, errors, toml_places, evidence, words, finding.
Start reading at: `year.room_year`.
"""

from evenface.climate.gate import GateAnswer, LayerWait, gluing_gate
from evenface.climate.indoor import (
    LOW_LOAD,
    MoistureLoad,
    MonthlyRoom,
    humidity_class,
    own_room,
    room_by_temperature,
    room_by_vapour_balance,
)
from evenface.climate.isotherms import Isotherm, isotherm, isotherm_names
from evenface.climate.kinds import RoomKind, monthly_room, room_kind, room_kind_names
from evenface.climate.logged_year import DailySeries, daily_means, logged_year
from evenface.climate.logger import Gap, LoggerSeries, read_logger, read_logger_text
from evenface.climate.outdoors import Outdoors, outdoors, own_outdoors, place_names, read_places
from evenface.climate.sorption import (
    HYSTERESIS,
    wood_humidity,
    wood_humidity_glass,
    wood_moisture,
    wood_moisture_glass,
    wood_slope,
)
from evenface.climate.vapour import (
    dew_point,
    humidity_when_warmed,
    relative_humidity,
    saturation_pressure,
    vapour_pressure,
)
from evenface.climate.year import (
    NO_SPELLS,
    USUAL_SPELLS,
    RoomYear,
    Spell,
    Spells,
    damped,
    even_year,
    room_year,
    smooth_year,
    usual_spells,
    with_spells,
)

__all__ = [
    "HYSTERESIS",
    "LOW_LOAD",
    "NO_SPELLS",
    "USUAL_SPELLS",
    "DailySeries",
    "Gap",
    "GateAnswer",
    "Isotherm",
    "LayerWait",
    "LoggerSeries",
    "MoistureLoad",
    "MonthlyRoom",
    "Outdoors",
    "RoomKind",
    "RoomYear",
    "Spell",
    "Spells",
    "daily_means",
    "damped",
    "dew_point",
    "even_year",
    "gluing_gate",
    "humidity_class",
    "humidity_when_warmed",
    "isotherm",
    "isotherm_names",
    "logged_year",
    "monthly_room",
    "outdoors",
    "own_outdoors",
    "own_room",
    "place_names",
    "read_logger",
    "read_logger_text",
    "read_places",
    "relative_humidity",
    "room_by_temperature",
    "room_by_vapour_balance",
    "room_kind",
    "room_kind_names",
    "room_year",
    "saturation_pressure",
    "smooth_year",
    "usual_spells",
    "vapour_pressure",
    "with_spells",
    "wood_humidity",
    "wood_humidity_glass",
    "wood_moisture",
    "wood_moisture_glass",
    "wood_slope",
]
