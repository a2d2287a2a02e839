"""Indoor air from the weather outside, by two published models.

EN 15026 annex C takes indoor temperature and humidity from the outdoor temperature alone. It was made to
judge mould, so its floor of 35 % hides what winter does to wood; where the floor (or the ceiling) is active
the result says so. The vapour balance of EN ISO 13788 adds a moisture load to the outdoor vapour and fits
dry-cold and dry-hot places as well.

The load Δp is counted positive when the room holds more vapour than the air outside, p_indoor = p_outdoor +
Δp; some papers count it the other way round, as what the outdoor air lacks. Monthly means in, monthly means
out; °C, Pa, humidity as a fraction. Both models are coded from secondary sources.
"""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from evenface.climate.outdoors import Months, Outdoors
from evenface.climate.vapour import Floats, relative_humidity
from evenface.evidence import Status, Value, weakest
from evenface.words import Said, said

type Occupancy = Literal["low", "normal", "high"]

OCCUPANCY_SHIFT: Final = {"low": -0.05, "normal": 0.0, "high": 0.05}
DAMPEST: Final = 0.95
"""A room's monthly mean is not let above this; beyond it walls would run."""


@dataclass(frozen=True, slots=True)
class MonthlyRoom:
    """Air of a room by monthly means, January to December, with what must be said about it.

    temperature_c, humidity : tuples of 12. Raises ValueError when they are not, or humidity is no fraction.
    """

    temperature_c: Months
    humidity: Months
    status: Status
    source: str
    notes: tuple[Said, ...] = ()

    def __post_init__(self) -> None:
        if len(self.temperature_c) != 12 or len(self.humidity) != 12:
            raise ValueError(
                f"expected 12 monthly values of each, was given {len(self.temperature_c)} temperatures and "
                f"{len(self.humidity)} humidities"
            )
        if not all(0.0 < value < 1.0 for value in self.humidity):
            raise ValueError(f"expected humidities between 0 and 1 (fractions), was given {self.humidity}")
        if not all(-60.0 <= value <= 60.0 for value in self.temperature_c):
            raise ValueError(f"expected temperatures in °C, was given {self.temperature_c}")


@dataclass(frozen=True, slots=True)
class MoistureLoad:
    """Vapour pressure of the room over that outside: at 0 °C outside and below, at 20 °C and above [Pa]."""

    cold: Value
    warm: Value


def own_room(
    temperature_c: ArrayLike, humidity: ArrayLike, source: str = "measured by the maker"
) -> MonthlyRoom:
    """A room from the maker's own monthly means. Raises ValueError when a row is not 12 values in reason."""
    return MonthlyRoom(_months(temperature_c), _months(humidity), Status.MEASURED, source)


# --- temperature alone ------------------------------------------------------------------------------


def heated_temperature(outdoor_c: ArrayLike) -> Floats:
    """Indoor temperature of EN 15026 annex C: 20 + (θe − 10)/2, held between 20 and 25 [°C]."""
    outside = np.asarray(outdoor_c, dtype=np.float64)
    return np.asarray(np.clip(20.0 + 0.5 * (outside - 10.0), 20.0, 25.0))


def humidity_by_temperature(outdoor_c: ArrayLike, occupancy: Occupancy = "normal") -> Floats:
    """Indoor humidity of EN 15026 annex C: 0.45 + 0.01·θe, held between 0.35 and 0.65, ± 0.05 [-]."""
    outside = np.asarray(outdoor_c, dtype=np.float64)
    return np.asarray(np.clip(0.45 + 0.01 * outside, 0.35, 0.65) + OCCUPANCY_SHIFT[occupancy])


def room_by_temperature(weather: Outdoors, occupancy: Occupancy = "normal") -> MonthlyRoom:
    """The heated room of EN 15026 annex C; a note tells in how many months its floor or ceiling is active."""
    outside = np.array(weather.temperature_c)
    notes = []
    if floor := int(np.sum(outside < -10.0)):
        notes.append(
            said(
                "The standard's floor for indoor humidity is active in {months:count} months: it was made to "
                "judge mould, a real room is drier then.",
                months=floor,
            )
        )
    if ceiling := int(np.sum(outside > 20.0)):
        notes.append(
            said(
                "The standard's ceiling for indoor humidity is active in {months:count} months: in damp heat "
                "a room without drying or cooling is damper.",
                months=ceiling,
            )
        )
    return MonthlyRoom(
        _months(heated_temperature(outside)),
        _months(humidity_by_temperature(outside, occupancy)),
        weakest((weather.status, Status.DERIVED)),
        f"EN 15026 annex C, {occupancy} occupancy; {weather.name}: {weather.source}",
        tuple(notes),
    )


# --- vapour balance -----------------------------------------------------------------------------------

_CLASS_COLD_PA: Final = {1: 270.0, 2: 540.0, 3: 810.0, 4: 1080.0, 5: 1360.0}
_CLASS_SOURCE: Final = "EN ISO 13788 annex A, upper bound of class {} ({} edition)"


def humidity_class(number: int, edition: Literal[2001, 2012] = 2012) -> MoistureLoad:
    """Moisture load of EN ISO 13788 class 1 (stores) to 5 (laundries, pools).

    The upper bound of each class: 270, 540, 810, 1080, 1360 Pa at 0 °C outside. At 20 °C the edition of 2001
    goes down to nothing, the later one to 100 Pa (200 in class 5). Class 2 is from memory: a code that was
    read prints 640, believed a slip.
    Raises ValueError for any other class.
    """
    if number not in _CLASS_COLD_PA:
        raise ValueError(f"expected a humidity class from 1 to 5, was given {number}")
    cold, below = _CLASS_COLD_PA[number], _CLASS_COLD_PA.get(number - 1, 0.0)
    warm = 0.0 if edition == 2001 else (200.0 if number == 5 else 100.0)
    status = Status.MEMORY if number == 2 else Status.READ
    source = _CLASS_SOURCE.format(number, edition)
    return MoistureLoad(
        Value(cold, below, cold, "Pa", status, source), Value(warm, 0.0, warm, "Pa", Status.READ, source)
    )


LOW_LOAD: Final = MoistureLoad(
    Value(335.0, 270.0, 400.0, "Pa", Status.DERIVED, "an aired, heated home: 20 to 25 % at −10 °C outside"),
    Value(50.0, 0.0, 100.0, "Pa", Status.PRACTICE, "between the two editions of EN ISO 13788"),
)
"""The load of an aired, heated home: the usual one for furniture, drier in winter than the classes."""


def moisture_excess(outdoor_c: ArrayLike, cold_pa: float, warm_pa: float) -> Floats:
    """Δp over the outdoor vapour: straight from 0 °C outside to 20 °C, level beyond [Pa]."""
    return np.asarray(np.interp(np.asarray(outdoor_c, dtype=np.float64), [0.0, 20.0], [cold_pa, warm_pa]))


def balanced_humidity(
    weather: Outdoors, cold_pa: float, warm_pa: float, indoor_c: ArrayLike
) -> tuple[Floats, int]:
    """Indoor humidity by vapour balance, and in how many months it had to be held at `DAMPEST`."""
    outside = np.array(weather.temperature_c)
    pressure = np.array(weather.vapour_pressure_pa) + moisture_excess(outside, cold_pa, warm_pa)
    humidity = relative_humidity(indoor_c, pressure)
    return np.asarray(np.clip(humidity, 0.02, DAMPEST)), int(np.sum(humidity > DAMPEST))


def room_by_vapour_balance(weather: Outdoors, load: MoistureLoad = LOW_LOAD) -> MonthlyRoom:
    """A heated room by the vapour balance of EN ISO 13788, its temperature by EN 15026 annex C."""
    indoor = heated_temperature(weather.temperature_c)
    humidity, held = balanced_humidity(weather, load.cold.nominal, load.warm.nominal, indoor)
    return MonthlyRoom(
        _months(indoor),
        _months(humidity),
        weakest((weather.status, weather.pressure_status, load.cold.status, load.warm.status)),
        f"vapour balance, {load.cold.source}; {weather.name}: {weather.source}",
        damp_notes(held),
    )


def damp_notes(months_held: int) -> tuple[Said, ...]:
    """What must be said when the reckoned air was wetter than a room can be."""
    if not months_held:
        return ()
    return (
        said(
            "Reckoned humidity passes {limit:percent} in {months:count} months and is held there: such a "
            "room needs drying, heating or cooling, or measured values.",
            limit=DAMPEST,
            months=months_held,
        ),
    )


def _months(values: ArrayLike) -> Months:
    return tuple(float(value) for value in np.asarray(values, dtype=np.float64).ravel())
