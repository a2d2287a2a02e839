"""Is the shop warm and dry enough for this glue today?"""

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from evenface.evidence import Status, Value, certain
from evenface.finding import Finding, Severity
from evenface.materials import Glue
from evenface.piece.bench_records import Reading, latest
from evenface.words import said
from evenface.workplan import glue_times as times

MOST_HUMIDITY: Final = Value(
    0.8, 0.8, 0.8, "1", Status.READ, "a trade association on white glue: not above 80 % humidity"
)


def gate_findings(glues: Iterable[Glue], readings: tuple[Reading, ...]) -> tuple[Finding, ...]:
    """Each glue held against the last reading of the room; nothing where the room was not read.

    A reading without its warmth is held against humidity alone.
    """
    room = latest(readings, "room").get("")
    if room is None:
        return ()
    every = {glue.name: glue for glue in glues}.values()
    return tuple(
        replace(finding, origin=room.origin, at="shop")
        for glue in every
        for finding in may_glue(
            glue,
            glue.least_temperature.high if room.temperature_c is None else room.temperature_c,
            room.value,
        )
    )


def may_glue(glue: Glue, temperature_c: float, humidity: float) -> tuple[Finding, ...]:
    """Whether the shop is warm and dry enough for this glue today; empty when it is.

    temperature_c : of air, board and glue. humidity : relative, as a fraction.
    """
    found = []
    least = glue.least_temperature
    if temperature_c < least.high:
        found.append(
            Finding(
                "glue.cold",
                Severity.STOP if temperature_c < least.low else Severity.WEIGH,
                said(
                    "{glue} wants at least {least} °C; it is {now} °C.",
                    glue=glue.title,
                    least=least.high,
                    now=temperature_c,
                ),
                value=certain(temperature_c),
                limit=least.nominal,
                unit="°C",
                source=least.source,
                weakest=least.status,
            )
        )
    if times.is_wet(glue) and humidity > MOST_HUMIDITY.nominal:
        found.append(
            Finding(
                "glue.damp",
                Severity.WEIGH,
                said("At {humidity:percent} humidity the water does not leave the joint.", humidity=humidity),
                value=certain(humidity),
                limit=MOST_HUMIDITY.nominal,
                unit="1",
                source=MOST_HUMIDITY.source,
                weakest=MOST_HUMIDITY.status,
            )
        )
    return tuple(found)
