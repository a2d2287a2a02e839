"""How sure a number is: value, spread, status and source travel together.

Takes: numbers with unit, spread, status and source.
Gives: `Value` (an input), `Band` (a result), and which of several statuses is the weakest.
May import: nothing that stands after it.
Start reading at: `Value`.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum


class Status(StrEnum):
    """Where a number comes from, strongest first."""

    MEASURED = "measured"
    READ = "read"
    DERIVED = "derived"
    PRACTICE = "practice"
    MEMORY = "memory"


_STRENGTH = {status: rank for rank, status in enumerate(Status)}


def weakest(statuses: "list[Status] | tuple[Status, ...]") -> Status:
    """The weakest of some statuses; `measured` when there are none."""
    return max(statuses, key=_STRENGTH.__getitem__, default=Status.MEASURED)


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its 90 % range, unit, status and source.

    Raises ValueError when the three numbers are not in order or not finite, or the unit or source is
    missing.
    """

    nominal: float
    low: float
    high: float
    unit: str
    status: Status
    source: str

    def __post_init__(self) -> None:
        if not all(math.isfinite(number) for number in (self.low, self.nominal, self.high)):
            raise ValueError(f"expected finite numbers, was given {self.low}, {self.nominal}, {self.high}")
        if not self.low <= self.nominal <= self.high:
            raise ValueError(
                f"expected low ≤ value ≤ high, was given {self.low}, {self.nominal}, {self.high}"
            )
        if not self.unit:
            raise ValueError("expected a unit; write '1' for a plain ratio")
        if not self.source:
            raise ValueError("expected a source; write where the number comes from, even 'own reckoning'")

    def measured(self, nominal: float, spread: float = 0.0, source: str = "measured by the maker") -> "Value":
        """The same quantity as measured by the maker: nominal ± spread."""
        return replace(
            self,
            nominal=nominal,
            low=nominal - spread,
            high=nominal + spread,
            status=Status.MEASURED,
            source=source,
        )


def exactly(nominal: float, unit: str, status: Status, source: str) -> Value:
    """A value whose spread does not matter here (a size of supply, a wall thickness)."""
    return Value(nominal, nominal, nominal, unit, status, source)


@dataclass(frozen=True, slots=True)
class Band:
    """The range a result lies in; `nominal` is None where only a range can be honest (twist)."""

    low: float
    nominal: float | None
    high: float

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError(f"expected low ≤ high, was given {self.low} and {self.high}")

    @property
    def spans_zero(self) -> bool:
        """Whether even the direction is not known."""
        return self.low < 0.0 < self.high

    @property
    def worst(self) -> float:
        """The end of the band that lies furthest from zero, with its sign: the one that decides."""
        return self.low if abs(self.low) > abs(self.high) else self.high


def certain(number: float) -> Band:
    """A band of no width: a result of plain geometry."""
    return Band(number, number, number)
