"""Does the part stay flat enough through the year? Judged by the worst edge of the band, never the middle."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenface.behaviour import Behaviour, Bend, Direction
from evenface.climate.outdoors import MONTHS
from evenface.construction import BuiltPanel
from evenface.finding import Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.words import Said, said

BOW_ROUGH = 0.3
BOW_UNKNOWN = 1.0
"""Share of the thickness from which a bow is only rough, and from which no figure is claimed."""
METRE_MM = 1000.0


@dataclass(frozen=True, slots=True)
class Limit:
    """So many mm over a gauge, with its source."""

    mm: float
    gauge_mm: float
    source: str


def limit_for(panel: BuiltPanel, direction: Direction) -> Limit:
    """The limit promised in the job, else the usual one for the use of the part."""
    own = panel.panel.limit
    if own is not None:
        return Limit(own.mm, own.gauge_mm, own.source)
    use = "door" if panel.panel.use in ("door", "front") else "top"
    if direction is Direction.TWIST:
        found = rule(f"flatness-{use}-twist")
        return Limit(found.nominal, 0.0, found.source)
    found = rule(f"flatness-{use}")
    return Limit(found.nominal, METRE_MM, found.source)


def held_against(bend: Bend, limit: Limit) -> tuple[float, float]:
    """The deciding rise and the limit, both over the gauge that fits the part. [mm]

    A part longer than the gauge is read with a straightedge of the gauge's length; on a shorter one the limit
    shrinks with the length, since makers mean a rate when they say "per metre".
    """
    if bend.direction is Direction.TWIST or limit.gauge_mm <= 0:
        return abs(bend.deciding_mm), limit.mm
    if bend.gauge_mm >= limit.gauge_mm:
        return abs(bend.deciding_mm) * (limit.gauge_mm / bend.gauge_mm) ** 2, limit.mm
    return abs(bend.deciding_mm), limit.mm * bend.gauge_mm / limit.gauge_mm


def check_flatness(panels: Sequence[BuiltPanel], behaviours: Sequence[Behaviour]) -> Iterator[Finding]:
    """Findings `flat.bow`, `flat.cup`, `flat.twist`, `flat.held` and `flat.rough` of each part."""
    for panel, behaviour in zip(panels, behaviours, strict=True):
        for bend in behaviour.bends:
            yield from _judge(panel, behaviour, bend)
        if behaviour.holding_n is not None:
            yield from _held(panel, behaviour)


def _judge(panel: BuiltPanel, behaviour: Behaviour, bend: Bend) -> Iterator[Finding]:
    limit = limit_for(panel, bend.direction)
    rise, allowed = held_against(bend, limit)
    held = behaviour.holding_n is not None and bend.direction is not Direction.TWIST
    if rise <= allowed or held:
        return
    gauge = min(bend.gauge_mm, limit.gauge_mm) if limit.gauge_mm else bend.gauge_mm
    rough = abs(bend.deciding_mm) > BOW_ROUGH * behaviour.thickness_mm
    yield Finding(
        code=f"flat.{bend.direction.value}",
        severity=Severity.WEIGH,
        origin=behaviour.origin,
        piece=behaviour.piece,
        part=behaviour.part,
        at=bend.direction.value,
        value=bend.worst,
        limit=allowed,
        unit="mm",
        gauge_mm=gauge,
        message=_message(bend, rise, allowed, gauge),
        why=_why(bend, rough, abs(bend.deciding_mm) > BOW_UNKNOWN * behaviour.thickness_mm),
        source=limit.source,
        weakest=behaviour.weakest,
        remedies=_remedies(bend),
    )


def _message(bend: Bend, rise: float, allowed: float, gauge: float) -> Said:
    month = MONTHS[bend.month - 1]
    if bend.direction is Direction.TWIST:
        return said(
            "Twist: one corner in twenty panels may stand more than {rise:mm} off the plane of the other three; "
            "{allowed:mm} is the limit.",
            rise=rise,
            allowed=allowed,
        )
    if bend.worst.spans_zero:
        return said(
            "The {what:word} may reach {rise:mm} over {gauge:mm} in {month:word}, direction not known; "
            "{allowed:mm} is the limit.",
            what=bend.direction.value,
            rise=rise,
            gauge=gauge,
            month=month,
            allowed=allowed,
        )
    return said(
        "The {what:word} may reach {rise:mm} over {gauge:mm} in {month:word}, show face {way:word}; "
        "{allowed:mm} is the limit.",
        what=bend.direction.value,
        rise=rise,
        gauge=gauge,
        month=month,
        way="domed" if bend.deciding_mm > 0 else "hollow",
        allowed=allowed,
    )


def _why(bend: Bend, rough: bool, unknown: bool) -> Said:
    cause = next(iter(bend.shares), "")
    if unknown:
        return said(
            "More than the thickness of the part: it bends this way for certain, how far cannot be said. Most "
            "uncertain: {cause}.",
            cause=cause,
        )
    if rough:
        return said(
            "Above a third of the thickness the figure is rough. Most uncertain: {cause}.", cause=cause
        )
    return said("The worst edge of the band decides. Most uncertain: {cause}.", cause=cause)


def _remedies(bend: Bend) -> tuple[Remedy, ...]:
    if bend.direction is Direction.TWIST:
        return (
            Remedy("flat.homogeneous", said("Take a board without grain, such as MDF, as the carrier.")),
            Remedy(
                "flat.test_door",
                said("Make a test panel and keep it a heating season; hang pairs from one sheet."),
            ),
        )
    return (
        Remedy("flat.same_sheet", said("Face both sides with the same sheet, conditioned together.")),
        Remedy("flat.hold", said("Hold the part: screw it to a frame or apron.")),
    )


def _held(panel: BuiltPanel, behaviour: Behaviour) -> Iterator[Finding]:
    force = behaviour.holding_n or 0.0
    bend = behaviour.bend(Direction.BOW)
    yield Finding(
        code="flat.held",
        severity=Severity.NOTE,
        origin=behaviour.origin,
        piece=behaviour.piece,
        part=behaviour.part,
        at=panel.panel.hold.how,
        message=said(
            "Held flat, it pulls at its middle fixings with up to {force:count} N instead of bowing {rise:mm}.",
            force=force,
            rise=abs(bend.deciding_mm),
        ),
        source="beam theory",
        weakest=behaviour.weakest,
    )
