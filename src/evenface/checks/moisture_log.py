"""The moisture log: are what is glued together alike, fit for their room, and long enough in the shop?

Wood and boards are read as moisture content, the room as relative humidity. Gates: within 2 % of each other
(READ, a magazine expert); 10 days lying apart, sheets 3 more stacked (READ, a trade association); the room's
own year as the target, beside the 6 to 11 % the trade names.
"""

from collections.abc import Iterator, Sequence
from datetime import timedelta
from typing import Final

import numpy as np

from evenface.checks.moisture import APART, OUTSIDE
from evenface.climate.sorption import wood_moisture
from evenface.construction import BuiltPanel
from evenface.construction.room_air import year_of
from evenface.evidence import Band, Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.bench_records import Reading, latest
from evenface.piece.records import Job, Made
from evenface.words import Said, said

AIR_OFF: Final = 0.05
"""A room read so far from what the job says of the shop is worth a word: about 1 % moisture of wood."""
MINUTES_A_DAY: Final = 1440.0


def check_moisture_log(job: Job, panels: Sequence[BuiltPanel], made: Made) -> Iterator[Finding]:
    """Findings `moisture.read_apart`, `moisture.target`, `moisture.days`, `moisture.shop`; none without readings."""
    if not made.moisture:
        return
    read = {name: one for name, one in latest(made.moisture).items() if one.what != "room"}
    yield from _apart(panels, read)
    for one in read.values():
        if one.what == "wood":
            yield from _target(job, one)
        yield from _days(one)
    yield from _shop(job, latest(made.moisture, "room").get(""))


def _apart(panels: Sequence[BuiltPanel], read: dict[str, Reading]) -> Iterator[Finding]:
    """The two that differ most among what a panel is glued of; each pair is said once."""
    told: set[tuple[str, str]] = set()
    for panel in panels:
        met = [read[name] for name in _materials(panel) if name in read]
        if len(met) < 2:
            continue
        dry, damp = min(met, key=lambda one: one.value), max(met, key=lambda one: one.value)
        apart = damp.value - dry.value
        if apart <= APART.nominal + 1e-9 or (dry.material, damp.material) in told:
            continue
        told.add((dry.material, damp.material))
        yield Finding(
            code="moisture.read_apart",
            severity=Severity.STOP if apart > 2.0 * APART.nominal else Severity.WEIGH,
            origin=damp.origin,
            piece=panel.piece,
            part=panel.name,
            at=damp.material,
            value=Band(100 * apart, 100 * apart, 100 * apart),
            limit=100 * APART.nominal,
            unit="% moisture content",
            message=said(
                "{dry} reads {low:percent}, {damp} reads {high:percent}: {apart:percent} apart, {limit:percent} is the "
                "most for what is glued together.",
                dry=dry.material,
                low=dry.value,
                damp=damp.material,
                high=damp.value,
                apart=apart,
                limit=APART.nominal,
            ),
            why=said("After gluing each goes to the room's moisture on its own: joints shear, panels bow."),
            source=APART.source,
            weakest=Status.MEASURED,
            remedies=(_together(),),
        )


def _together() -> Remedy:
    return Remedy(
        "moisture.together", said("Let them lie together with air all round, and read again after a week.")
    )


def _materials(panel: BuiltPanel) -> Iterator[str]:
    yield panel.carrier.material.name
    yield from (face.material.name for face in panel.faces)
    yield from (edging.wood.name for edging in panel.edgings)
    yield from (insert.wood.name for insert in panel.inserts)


def _target(job: Job, one: Reading) -> Iterator[Finding]:
    year = year_of(job, job.room)
    low, high = (float(wood_moisture(edge, 20.0)) for edge in np.percentile(year.humidity, (5, 95)))
    if low - OUTSIDE <= one.value <= high + OUTSIDE:
        return
    damp, mean = one.value > high, float(np.mean(year.humidity))
    trade = rule("moisture-target")
    yield Finding(
        code="moisture.target",
        severity=Severity.WEIGH,
        origin=one.origin,
        at=one.material,
        value=certain(100 * one.value),
        limit=100 * (high if damp else low),
        unit="% moisture content",
        message=said(
            "{wood} reads {value:percent}; in its room it will live between {low:percent} and {high:percent} (the "
            "trade names {least:percent} to {most:percent}).",
            wood=one.material,
            value=one.value,
            low=low,
            high=high,
            least=trade.low,
            most=trade.high,
        ),
        why=said("It will shrink once it stands there: joints and mitres open.")
        if damp
        else said("It will swell once it stands there: edges rise and panels dome."),
        source=trade.source,
        weakest=year.status,
        remedies=(
            Remedy(
                "moisture.condition",
                said("Let it lie at about {humidity:percent} humidity and read again.", humidity=mean),
            ),
        ),
    )


def least_days(what: str) -> float:
    """Days in the shop before gluing: wood lying apart, boards and sheets stacked afterwards too."""
    apart = rule("conditioning-apart").nominal
    stacked = rule("conditioning-stacked").nominal if what == "board" else 0.0
    return (apart + stacked) / MINUTES_A_DAY


def _days(one: Reading) -> Iterator[Finding]:
    lain, least = one.days_lain, least_days(one.what)
    if lain is None or one.since is None or lain >= least:
        return
    ready = one.since + timedelta(days=least)
    yield Finding(
        code="moisture.days",
        severity=Severity.WEIGH,
        origin=one.origin,
        at=one.material,
        value=certain(float(lain)),
        limit=least,
        unit="days",
        message=said(
            "{material} has lain {lain:days} in the shop at its last reading, {least:days} are asked for.",
            material=one.material,
            lain=float(lain),
            least=least,
        ),
        why=said(
            "The surface follows the air in hours, the middle of a board in days; the meter sees the surface."
        ),
        source=rule("conditioning-apart").source,
        weakest=rule("conditioning-apart").status,
        remedies=(
            Remedy(
                "moisture.wait", said("Glue it from {day} on, and read it again then.", day=ready.isoformat())
            ),
        ),
    )


def _shop(job: Job, one: Reading | None) -> Iterator[Finding]:
    if one is None or abs(one.value - job.shop_humidity) <= AIR_OFF + 1e-9:
        return
    yield Finding(
        code="moisture.shop",
        severity=Severity.WEIGH,
        origin=one.origin,
        at="shop",
        value=certain(100 * one.value),
        limit=100 * job.shop_humidity,
        unit="% humidity",
        message=said(
            "The shop read {value:percent} on {day}; the job reckons with {told:percent}.",
            value=one.value,
            day=one.day.isoformat(),
            told=job.shop_humidity,
        ),
        why=_why_shop(),
        source="the moisture log",
        weakest=Status.MEASURED,
        remedies=(
            Remedy(
                "moisture.reckon",
                said("Reckon with the air as it was read."),
                (Change("job.shop_humidity", f"{job.shop_humidity:g}", f"{one.value:.2f}"),),
            ),
        ),
    )


def _why_shop() -> Said:
    return said("Every bow is reckoned from the air in which the layers were glued.")
