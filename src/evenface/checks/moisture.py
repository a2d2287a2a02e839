"""Is the wood glued at the moisture it will live at, and are the pieces glued together alike?"""

from collections.abc import Iterator

import numpy as np

from evenface.behaviour.stacks import humidities_at_bonding, layers_of
from evenface.checks.question import Asked
from evenface.climate.sorption import wood_moisture
from evenface.construction.room_air import year_of
from evenface.evidence import Band
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Job
from evenface.words import said

APART = rule("moisture-apart")
OUTSIDE = 0.005
"""So far outside the year's range of the room, as moisture content, the shop's air is worth a word."""


def check_job_moisture(job: Job) -> Iterator[Finding]:
    """Finding `moisture.room`, once a job: the shop's air against the year of the room."""
    year = year_of(job, job.room)
    low, high = (float(wood_moisture(edge, 20.0)) for edge in np.percentile(year.humidity, (5, 95)))
    shop = float(wood_moisture(job.shop_humidity, 20.0))
    if low - OUTSIDE <= shop <= high + OUTSIDE:
        return
    damp, mean = shop > high, float(np.mean(year.humidity))
    yield Finding(
        code="moisture.room",
        severity=Severity.WEIGH,
        origin="job.shop_humidity",
        at="shop",
        value=Band(100 * shop, 100 * shop, 100 * shop),
        limit=100 * (high if damp else low),
        unit="% moisture content",
        message=said(
            "Wood in the shop settles at {shop:percent}, in the room between {low:percent} and {high:percent}.",
            shop=shop,
            low=low,
            high=high,
        ),
        why=said("It will shrink once it stands there: joints and mitres open.")
        if damp
        else said("It will swell once it stands there: edges rise and panels dome."),
        source=rule("moisture-target").source,
        weakest=year.status,
        remedies=(
            Remedy(
                "moisture.condition",
                said(
                    "Condition wood and sheets at about {humidity:percent} before gluing.",
                    humidity=mean,
                ),
                (Change("job.shop_humidity", f"{job.shop_humidity:g}", f"{mean:.2f}"),),
            ),
        ),
    )


def check_moisture(asked: Asked) -> Iterator[Finding]:
    """Finding `moisture.apart`: layers glued together that differ by more than the trade allows."""
    layers = layers_of(asked.panel)
    humidity, _ = humidities_at_bonding(asked.job, asked.panel, asked.made)
    known = dict(zip((layer.origin for layer in layers), humidity, strict=True))
    if len(set(known.values())) < 2:
        return
    driest, dampest = min(known, key=known.__getitem__), max(known, key=known.__getitem__)
    apart = float(wood_moisture(known[dampest], 20.0)) - float(wood_moisture(known[driest], 20.0))
    if apart <= APART.nominal:
        return
    yield Finding(
        code="moisture.apart",
        severity=Severity.WEIGH,
        origin=dampest,
        at="layers",
        value=Band(100 * apart, 100 * apart, 100 * apart),
        limit=100 * APART.nominal,
        unit="% moisture content",
        message=said(
            "Layers from {low:percent} and from {high:percent} air are glued together: as wood they would differ by "
            "{apart:percent} moisture, {limit:percent} is the most.",
            low=known[driest],
            high=known[dampest],
            apart=apart,
            limit=APART.nominal,
        ),
        why=said("Each settles after gluing and pulls: even a panel alike on both faces then stays bowed."),
        source=APART.source,
        weakest=APART.status,
        remedies=(
            Remedy(
                "moisture.together", said("Let all layers lie together until they agree, days for sheets.")
            ),
        ),
    )
