"""Does the part stay flat enough through the year? Judged by the worst edge of the band, never the middle."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from evenface.behaviour import (
    Behaviour,
    Bend,
    Direction,
    Variant,
    behaviour_of,
    bonding_gate,
    finish_of,
    variants,
)
from evenface.behaviour.causes import cause_said
from evenface.checks.changes import held_flat
from evenface.checks.flat_limits import Limit, held_against, limit_for, over_the_part
from evenface.climate.outdoors import MONTHS
from evenface.construction import BuiltPanel
from evenface.evidence import Band
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Catalogue
from evenface.mechanics.large_bow import NO_CLAIM_BOW_PER_THICKNESS, WARN_BOW_PER_THICKNESS
from evenface.piece.records import NOTHING_MADE, Job, Made
from evenface.words import Said, said

BOW_ROUGH = WARN_BOW_PER_THICKNESS
BOW_UNKNOWN = NO_CLAIM_BOW_PER_THICKNESS
"""Share of the thickness from which a bow is only rough, and from which no figure is claimed."""


def check_flatness(
    job: Job,
    panels: Sequence[BuiltPanel],
    behaviours: Sequence[Behaviour],
    catalogue: Catalogue,
    made: Made = NOTHING_MADE,
) -> Iterator[Finding]:
    """Findings `flat.bow`, `cup`, `twist`, `rough`, `held`, `drying` and `gate` of each part."""
    for panel, behaviour in zip(panels, behaviours, strict=True):
        judged = _Judged(job, panel, behaviour, catalogue, made)
        for bend in behaviour.bends:
            yield from _judge(judged, bend)
        yield from _gate(judged)
        if behaviour.holding_n is not None:
            yield from _held(judged)
        else:
            yield from _drying(judged)


@dataclass(frozen=True)
class _Judged:
    """A part under judgement, and what it would become if it were built otherwise (worked out once, if asked)."""

    job: Job
    panel: BuiltPanel
    behaviour: Behaviour
    catalogue: Catalogue
    made: Made = field(default=NOTHING_MADE)

    @cached_property
    def others(self) -> tuple[tuple[Variant, Behaviour], ...]:
        finish = finish_of(self.job, self.panel, self.catalogue)
        return tuple(
            (one, behaviour_of(one.job, one.panel, one.made(self.made), finish))
            for one in variants(self.job, self.panel, self.catalogue)
        )


def _judge(judged: _Judged, bend: Bend) -> Iterator[Finding]:
    panel, behaviour = judged.panel, judged.behaviour
    limit = limit_for(panel, bend.direction)
    rise, allowed = held_against(bend, limit)
    if behaviour.holding_n is not None:
        return
    rough = abs(bend.deciding_mm) > BOW_ROUGH * behaviour.thickness_mm
    unknown = abs(bend.deciding_mm) > BOW_UNKNOWN * behaviour.thickness_mm
    over = rise > allowed
    if not over and (not rough or bend.direction is Direction.TWIST):
        return
    gauge = min(bend.gauge_mm, limit.gauge_mm) if limit.gauge_mm else bend.gauge_mm
    yield Finding(
        code=f"flat.{bend.direction.value}" if over else "flat.rough",
        severity=Severity.WEIGH if over else Severity.NOTE,
        origin=behaviour.origin,
        piece=behaviour.piece,
        part=behaviour.part,
        at=bend.direction.value,
        value=_over_gauge(bend, limit),
        limit=allowed,
        unit="mm",
        gauge_mm=gauge,
        message=_message(bend, rise, allowed, gauge),
        why=_why(bend, rough, unknown),
        source=limit.source,
        weakest=behaviour.weakest,
        remedies=_remedies(judged, bend, rise),
    )


def _over_gauge(bend: Bend, limit: Limit) -> Band:
    """The band as a straightedge of the gauge's length would read it."""
    if bend.direction is Direction.TWIST or not 0.0 < limit.gauge_mm < bend.gauge_mm:
        return bend.worst
    share = (limit.gauge_mm / bend.gauge_mm) ** 2
    nominal = None if bend.worst.nominal is None else bend.worst.nominal * share
    return Band(bend.worst.low * share, nominal, bend.worst.high * share)


def _message(bend: Bend, rise: float, allowed: float, gauge: float) -> Said:
    month = MONTHS[bend.month - 1]
    if bend.direction is Direction.TWIST:
        return said(
            "Twist: in half of all such panels one corner stands up to {half:mm} off the plane of the other "
            "three, in one of twenty more than {rise:mm}; {allowed:mm} is the limit.",
            half=bend.half_mm or 0.0,
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
    cause = cause_said(next(iter(bend.shares), ""))
    if bend.direction is Direction.TWIST:
        return said(
            "There is no mean to print: it comes from veneers and sheets that do not lie quite square, and how "
            "far they stray is an estimate. Only a test panel decides."
        )
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


OTHER_FACE = ("flat.linoleum", "flat.bare_back")
"""Compared in the table of backers, but no remedies: they change what the client asked for."""
WORTH_SAYING_N = 20.0
"""A pull that any screw and any groove bears needs no word."""
MOST_REMEDIES = 5
WORTH_WHILE = 0.9
"""A change is offered when it leaves at most so much of the rise that was found."""


def _remedies(judged: _Judged, bend: Bend, rise: float) -> tuple[Remedy, ...]:
    """What would mend it, with the rise it would leave, best first; then what cannot be reckoned."""
    limit = limit_for(judged.panel, bend.direction)
    found = []
    for variant, behaviour in judged.others:
        other = behaviour.bend(bend.direction)
        left, _ = held_against(other, limit)
        if left <= WORTH_WHILE * rise and variant.code not in OTHER_FACE:
            found.append((left, variant, _over_gauge(other, limit)))
    found.sort(key=lambda row: row[0])
    computed = tuple(
        Remedy(
            variant.code,
            said("{what} Then at most {left:mm}.", what=variant.title, left=left),
            variant.changes,
            predicted,
        )
        for left, variant, predicted in found[:MOST_REMEDIES]
    )
    if bend.direction is Direction.TWIST:
        words = said("Make a test panel and keep it a heating season; hang pairs from one sheet.")
        return (*computed, Remedy("flat.test_panel", words))
    hold = said("Hold the part flat: screw it to a frame or an apron.")
    return (*computed, Remedy("flat.hold", hold, held_flat(judged.panel)))


def _drying(judged: _Judged) -> Iterator[Finding]:
    """A bow that the glue's water makes and that goes by itself."""
    behaviour = judged.behaviour
    for one in behaviour.drying:
        bend = behaviour.bend(one.direction)
        limit = limit_for(judged.panel, one.direction)
        share = min(1.0, limit.gauge_mm / bend.gauge_mm) ** 2 if limit.gauge_mm else 1.0
        if abs(one.most_mm) * share <= limit.mm:
            continue
        yield Finding(
            code="flat.drying",
            severity=Severity.NOTE,
            origin=behaviour.origin,
            piece=behaviour.piece,
            part=behaviour.part,
            at=one.direction.value,
            message=said(
                "The glue's water alone may {what:word} it by up to {rise:mm} just after gluing; most of it is "
                "gone after {days:days}.",
                what=one.direction.value,
                rise=abs(one.most_mm),
                days=one.gone_day,
            ),
            why=said("Keep it weighted or pressed while it dries, with air on both faces."),
            source="moisture transport; all of the water taken to swell the board after pressing",
            weakest=behaviour.weakest,
        )


def _gate(judged: _Judged) -> Iterator[Finding]:
    """Layers of known humidity that should wait, and the bow it costs to glue them now."""
    finish = finish_of(judged.job, judged.panel, judged.catalogue)
    gate = bonding_gate(judged.job, judged.panel, judged.made, finish)
    if not gate.measured or gate.answer.verdict == "go":
        return
    behaviour = judged.behaviour
    bend = behaviour.bend(Direction.BOW)
    cost = abs(gate.cost_mm[Direction.BOW])
    grave = cost > 0.5 * over_the_part(bend, limit_for(judged.panel, Direction.BOW))
    yield Finding(
        code="flat.gate",
        severity=Severity.WEIGH if grave else Severity.NOTE,
        origin=behaviour.origin,
        piece=behaviour.piece,
        part=behaviour.part,
        at="gluing",
        message=said(
            "Wait {days:days} before gluing, for the {layer:word} most of all; glued now, a bow of {bow:mm} and a "
            "cup of {cup:mm} stay for good.",
            days=gate.answer.days,
            layer=gate.answer.slowest,
            bow=cost,
            cup=abs(gate.cost_mm[Direction.CUP]),
        ),
        why=said(
            "The room settles at {target:percent}; layers of unlike humidity each move to it and pull. The days hold "
            "for sheets that lie free with air on both faces; a closed stack takes weeks.",
            target=gate.target,
        ),
        source="moisture transport through each layer",
        weakest=behaviour.weakest,
    )


def _held(judged: _Judged) -> Iterator[Finding]:
    behaviour = judged.behaviour
    bend = behaviour.bend(Direction.BOW)
    rise, allowed = held_against(bend, limit_for(judged.panel, Direction.BOW))
    if rise <= allowed and (behaviour.holding_n or 0.0) < WORTH_SAYING_N:
        return
    yield Finding(
        code="flat.held",
        severity=Severity.NOTE,
        origin=behaviour.origin,
        piece=behaviour.piece,
        part=behaviour.part,
        at=behaviour.held,
        message=said(
            "Held flat, it pulls at the fixing that bears most with up to {force:count} N instead of bowing "
            "{rise:mm}.",
            force=behaviour.holding_n or 0.0,
            rise=abs(bend.deciding_mm),
        ),
        source="beam on evenly spaced fixings, three-moment equation",
        weakest=behaviour.weakest,
    )
