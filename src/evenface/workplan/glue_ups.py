"""What is closed in one go: the joints of a piece in the order in which they can still be reached.

A part that enters others is joined to them before they are themselves taken up by a third: dividers before
sides. As much is closed at once as glue and hands allow: where one person needs longer than the glue stays
open a second one helps, and where that is not enough one receiving part goes on after the other.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from evenface.evidence import Status, Value
from evenface.materials import Glue
from evenface.workplan import glue_times as times
from evenface.workplan.records import PieceToMake
from evenface.workplan.seams import Meets, Node, Seam, nodes_of, placement_of, seams_of, sizes_of

_EACH: Final = "own estimate: glue from a bottle, brushed out, parts ready to hand after the dry fit"
JOINT_MIN: Final = Value(0.25, 0.15, 0.5, "min", Status.PRACTICE, _EACH)
HOLE_MIN: Final = Value(0.1, 0.05, 0.2, "min", Status.PRACTICE, _EACH)
"""Each dowel hole, biscuit slot, finger or screw."""
METRE_MIN: Final = Value(0.75, 0.4, 1.5, "min/m", Status.PRACTICE, _EACH)
PLACE_MIN: Final = Value(0.4, 0.2, 1.0, "min", Status.PRACTICE, _EACH)
CLAMP_MIN: Final = Value(0.25, 0.15, 0.5, "min", Status.PRACTICE, _EACH)
OPEN_MIN: Final = Value(
    7.0, 5.0, 10.0, "min", Status.PRACTICE, "white glue, where the job names no glue for joints"
)
PRESS_H: Final = Value(
    8.0, 1.0, 8.0, "h", Status.PRACTICE, "white glue, where the job names no glue for joints"
)
MOST_PEOPLE: Final = 2


@dataclass(frozen=True, slots=True)
class GlueUp:
    """Joints closed in one go. dry : closed at the same time without glue, round a part that stays free.

    minutes : from the first spread to the last clamp, for one person.
    """

    seams: tuple[Seam, ...]
    dry: tuple[Seam, ...]
    minutes: float
    people: int

    @property
    def glued(self) -> bool:
        return any(seam.joint.glued for seam in self.seams)


@dataclass(frozen=True, slots=True)
class Body:
    """Parts that are glued or screwed into one. volume_mm3 : of the box round them."""

    name: str
    nodes: frozenset[Node]
    glue_ups: tuple[GlueUp, ...]
    volume_mm3: float


def open_min(glue: Glue | None) -> float:
    """How long spread glue can still be closed. [min]"""
    return OPEN_MIN.nominal if glue is None else glue.open_time.nominal


def joint_press_h(glue: Glue | None) -> float:
    """How long a joint stays in clamps. [h]"""
    return PRESS_H.high if glue is None else times.press_h(glue)


def joint_firm_h(glue: Glue | None) -> float:
    """How long until a joint may be levelled. [h]"""
    return times.WET_JOINT_H.nominal if glue is None else times.flush_wait_h(glue)


def closing_min(seams: Sequence[Seam], dry: int = 0) -> float:
    """From the first spread to the last clamp, for one person; dry : parts put in without glue. [min]"""
    joints = [seam.joint for seam in seams]
    if not any(joint.glued for joint in joints):
        return 0.0
    parts = {node for seam in seams for node in seam.nodes}
    spread = sum(
        JOINT_MIN.nominal + HOLE_MIN.nominal * joint.number + METRE_MIN.nominal * joint.length_mm / 1000.0
        for joint in joints
        if joint.glued
    )
    clamps = CLAMP_MIN.nominal * sum(joint.kind != "groove" for joint in joints)
    return spread + clamps + PLACE_MIN.nominal * (len(parts) + dry)


def bodies_of(piece: PieceToMake) -> tuple[Body, ...]:
    """What the piece is glued or screwed together from, the largest first."""
    seams = seams_of(piece)
    rigid = [seam for seam in seams if seam.meets is Meets.RIGID]
    captive = [seam for seam in seams if seam.meets is Meets.CAPTIVE]
    groups = joined(rigid)
    bodies = []
    for nodes in groups:
        own = [seam for seam in rigid if seam.receiver in nodes]
        within = {seam.enters for seam in captive if seam.receiver in nodes}
        held = [seam for seam in captive if seam.enters in within]
        ups = tuple(_glue_ups(piece, own, held, open_min(piece.glue)))
        bodies.append(Body(_name(piece, nodes), nodes, ups, _volume(piece, nodes)))
    largest = max(bodies, key=lambda body: body.volume_mm3, default=None)
    return tuple(sorted(bodies, key=lambda body: body is not largest))


def joined(seams: Iterable[Seam]) -> list[frozenset[Node]]:
    """Parts that hang together through these joints, in the order of the joints."""
    groups: list[set[Node]] = []
    for seam in seams:
        met = [group for group in groups if group & set(seam.nodes)]
        rest = [group for group in groups if group not in met]
        groups = [*rest, set(seam.nodes).union(*met)]
    return [frozenset(group) for group in groups]


def _glue_ups(
    piece: PieceToMake, own: Sequence[Seam], held: Sequence[Seam], window: float
) -> Iterator[GlueUp]:
    """Rounds of joints from the inside outwards, joined while one person can close them, else divided."""
    stages: list[list[Seam]] = []
    free = len({seam.enters for seam in held})  # at most so many parts are put in besides, without glue
    for stage in _rounds(own):
        tied = {node for before in stages for seam in before for node in seam.nodes}
        for part in _frames(piece, stage, tied) if closing_min(stage) > window else [stage]:
            if stages and closing_min([*stages[-1], *part]) <= window:
                stages[-1] += part
            elif closing_min(part, free) / MOST_PEOPLE <= window:
                stages.append(list(part))
            else:
                stages += _divided(part)
    for number, stage in enumerate(stages):
        later = {node for after in stages[number + 1 :] for seam in after for node in seam.nodes}
        together = joined(seam for done in stages[: number + 1] for seam in done)
        dry = tuple(seam for seam in held if _closes(seam, held, together, later))
        minutes = closing_min(stage, len({seam.enters for seam in dry}))
        yield GlueUp(tuple(stage), dry, minutes, 1 if minutes <= window else MOST_PEOPLE)
        held = [seam for seam in held if seam not in dry]


def _frames(piece: PieceToMake, stage: Sequence[Seam], tied: set[Node]) -> list[list[Seam]]:
    """Flat frames first, then what joins them: the joints by the way the parts run that enter, shorter ones first.

    tied : parts that are held together already, as two aprons by their bearers; they join the frames at last.
    Only where every receiving part, as a leg, takes up parts from two sides; else all in one.
    """
    ways: dict[tuple[float, ...], list[Seam]] = {}
    sizes = sizes_of(piece)
    for seam in stage:
        run = placement_of(piece.arranged, seam.enters).x_axis.vector
        ways.setdefault(tuple(abs(one) for one in run), []).append(seam)
    receivers = {seam.receiver for seam in stage}
    if any({seam.receiver for seam in way} != receivers for way in ways.values()):
        return [list(stage)]

    def turn(way: list[Seam]) -> tuple[bool, float]:
        return any(seam.enters in tied for seam in way), max(sizes[seam.enters[0]][0] for seam in way)

    return sorted(ways.values(), key=turn)


def _closes(seam: Seam, held: Sequence[Seam], together: Sequence[frozenset[Node]], later: set[Node]) -> bool:
    """Whether the free part has to be in now, or may be, for none of what holds it is joined later.

    In grooves it slides in until all round it are one; in housings no two of what holds it may be fixed to each other.
    """
    round_it = {other.receiver for other in held if other.enters == seam.enters}
    shut = len(round_it) if seam.seat else 2
    return any(1 < shut <= len(round_it & group) for group in together) or not round_it & later


def _rounds(own: Sequence[Seam]) -> list[list[Seam]]:
    """By the height of what receives; a part in a groove goes in with the first joint of what holds it."""
    deciding = [seam for seam in own if not seam.seat] or list(own)
    heights = _heights(deciding)
    levels = sorted({heights[seam.receiver] for seam in deciding})
    rounds = [[s for s in deciding if heights[s.receiver] == level] for level in levels]
    return _with_seats(rounds, [seam for seam in own if seam not in deciding])


def _with_seats(stages: list[list[Seam]], seats: Sequence[Seam]) -> list[list[Seam]]:
    for seat in seats:
        first = next((stage for stage in stages if any(seat.receiver in s.nodes for s in stage)), stages[-1])
        first.append(seat)
    return stages


def _divided(stage: Sequence[Seam]) -> list[list[Seam]]:
    """One receiving part after the other."""
    deciding = [seam for seam in stage if not seam.seat]
    receivers = dict.fromkeys(seam.receiver for seam in deciding)
    parts = [[seam for seam in deciding if seam.receiver == node] for node in receivers]
    return _with_seats(parts, [seam for seam in stage if seam.seat]) if parts else [list(stage)]


def _heights(seams: Sequence[Seam]) -> Mapping[Node, int]:
    """0 for what nothing enters, else one more than the highest of what enters it; a ring is of one height."""
    entering: dict[Node, set[Node]] = {node: set() for seam in seams for node in seam.nodes}
    for seam in seams:
        entering[seam.receiver].add(seam.enters)
    heights: dict[Node, int] = {}
    while len(heights) < len(entering):
        ready = [n for n, before in entering.items() if n not in heights and before <= heights.keys()]
        for node in ready or [n for n in entering if n not in heights]:
            known = [heights[one] for one in entering[node] if one in heights]
            heights[node] = 1 + max(known, default=-1)
        if not ready:
            break
    return heights


def _name(piece: PieceToMake, nodes: frozenset[Node]) -> str:
    """The words all its parts have in common; those of a part there are several of say nothing."""
    several = {name for name, number in nodes_of(piece.arranged) if number > 0}
    names = sorted({name for name, _ in nodes if name not in several})
    if len(names) < 2:
        return piece.name
    common = [word for word in names[0].split() if all(word in one.split() for one in names)]
    return " ".join(common) or piece.name


def _volume(piece: PieceToMake, nodes: frozenset[Node]) -> float:
    sizes = sizes_of(piece)
    boxes = [placement_of(piece.arranged, node).box(*sizes[node[0]]) for node in nodes]
    volume = 1.0
    for axis in range(3):
        volume *= max(high[axis] for _, high in boxes) - min(low[axis] for low, _ in boxes)
    return volume
