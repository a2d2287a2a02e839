"""Has one person time for it: spreading, laying and closing against the glue's own time.

Spreading by hand: 10 m² an hour (trade reference, from memory); laying and closing are own estimates. A first
coat left to dry does not count. Contact glue has to dry before it is closed, and that eats into its time too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from evenface.construction import BuiltPanel
from evenface.evidence import Band, Status, Value
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Glue
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_records import GlueLine

SPREAD_M2_PER_H: Final = Value(
    10.0, 6.0, 15.0, "m²/h", Status.MEMORY, "trade reference: 10 m² an hour rolled by hand; own range"
)
PLACING_MIN: Final = Value(
    1.0, 0.5, 2.0, "min", Status.PRACTICE, "own estimate: a strip laid against its edge"
)
CLAMP_MIN: Final = Value(0.25, 0.15, 0.5, "min", Status.PRACTICE, "own estimate: one clamp set and drawn up")
CLOSING_MIN: Final = Value(5.0, 3.0, 10.0, "min", Status.PRACTICE, "own estimate")
LAYING_MIN_PER_M2: Final = Value(
    6.0, 3.0, 12.0, "min/m²", Status.PRACTICE, "own estimate: laying and rolling a contact-glued sheet"
)


@dataclass(frozen=True, slots=True)
class Pace:
    """Minutes of one gluing. hands_min : spreading and laying, which a helper halves. closing_min : pressure on.
    drying_min : contact glue left to dry. groups : how many goes it can be split into (two faces, two boxes)."""

    hands_min: float
    closing_min: float
    drying_min: float = 0.0
    groups: int = 1

    @property
    def needs_min(self) -> float:
        return self.hands_min + self.drying_min + self.closing_min

    @property
    def with_helper_min(self) -> float:
        return self.hands_min / 2.0 + self.drying_min + self.closing_min

    @property
    def split_min(self) -> float:
        return self.hands_min / self.groups + self.drying_min + self.closing_min


def pace(glue: Glue, lines: Sequence[GlueLine], laid_m2: float, closing_min: float, groups: int = 1) -> Pace:
    """From the first spread to the closed joint. laid_m2 : of sheets laid and rolled with contact glue."""
    spreading = sum(line.area_m2 for line in lines) * 60.0 / SPREAD_M2_PER_H.nominal
    laying = laid_m2 * LAYING_MIN_PER_M2.nominal if times.is_contact(glue) else 0.0
    return Pace(spreading + laying, closing_min, drying_min(glue), groups)


def drying_min(glue: Glue) -> float:
    """Until a contact film is dry; nothing for glue that is closed wet."""
    return glue.open_time.nominal if times.is_contact(glue) else 0.0


def window(glue: Glue) -> Value:
    """Time for it: the open time, of contact glue the time from spreading in which the films still grab."""
    return glue.closed_time if times.is_contact(glue) and glue.closed_time is not None else glue.open_time


def most_area_m2(glue: Glue, faces: int = 1) -> float:
    """The largest panel one person can spread and close within the glue's time, on so many faces. [m²]"""
    spreading = glue.sides * glue.coats * 60.0 / SPREAD_M2_PER_H.nominal
    each = faces * (spreading + (LAYING_MIN_PER_M2.nominal if times.is_contact(glue) else 0.0))
    return max(0.0, (window(glue).nominal - CLOSING_MIN.nominal - drying_min(glue)) / each)


def too_slow(
    step: str, panel: BuiltPanel, glue: Glue, pace: Pace, others: Sequence[tuple[Glue, Pace]] = ()
) -> Iterator[Finding]:
    """Finding `glue.open_time`, with what would mend it. others : glues that do here, with their own pace."""
    given, needs = window(glue), pace.needs_min
    if needs <= given.low:
        return
    yield Finding(
        code="glue.open_time",
        severity=Severity.WEIGH if needs > given.nominal else Severity.NOTE,
        origin=panel.origin,
        piece=panel.piece,
        part=panel.name,
        at=step,
        message=said(
            "One person needs about {needs:count} min; {glue} gives {low:count} to {high:count} min.",
            needs=needs,
            glue=glue.title,
            low=given.low,
            high=given.high,
        ),
        value=Band(needs / 1.6, needs, needs * 1.6),
        limit=given.nominal,
        unit="min",
        why=said("Glue that has skinned over before the joint is closed does not hold."),
        source=given.source,
        weakest=Status.PRACTICE,
        remedies=tuple(_ways(glue, pace, others)),
    )


def _ways(glue: Glue, pace: Pace, others: Sequence[tuple[Glue, Pace]]) -> Iterator[Remedy]:
    def more_time(other: Glue) -> bool:
        return window(other).nominal > window(glue).nominal

    yield Remedy(
        "glue.helper",
        said("Spread with two pairs of hands: about {needs:count} min.", needs=pace.with_helper_min),
        predicted=Band(pace.with_helper_min / 1.6, pace.with_helper_min, pace.with_helper_min * 1.6),
    )
    if pace.groups > 1:
        yield Remedy(
            "glue.split",
            said(
                "Glue it in {groups:count} goes, one after the other on the same day: about {needs:count} min each.",
                groups=pace.groups,
                needs=pace.split_min,
            ),
            predicted=Band(pace.split_min / 1.6, pace.split_min, pace.split_min * 1.6),
        )
    fit = [one for one, own in others if own.needs_min <= window(one).nominal and more_time(one)]
    if fit:
        names: dict[str, Said | str] = {f"g{number}": one.title for number, one in enumerate(fit)}
        yield Remedy(
            "glue.slower",
            said("Take a glue that gives time for it: {names}.", names=Said(_row(names), names)),
        )
    elif not others:
        yield Remedy("glue.slower", said("Take a glue with a longer open time."))


def _row(names: dict[str, Said | str]) -> str:
    return ", ".join(f"{{{name}}}" for name in names)
