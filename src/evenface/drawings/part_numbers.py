"""Part numbers beside a drawing: plain numerals, each with a leader to its part; no two leaders cross."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import combinations
from typing import Final

from evenface.drawings.draft import Draft
from evenface.drawings.scene import SMALL_MM, Anchor, Leader, Text, text_width_mm
from evenface.shape.segment import Box, Point

PITCH_MM: Final = 3.7
OFF_MM: Final = 6.0
"""How far from the drawing the numerals stand."""
_ELBOW_MM: Final = 2.0
_GAP_MM: Final = 0.6
_BETWEEN_MM: Final = 1.6
_CROSSING_MM: Final = 400.0
"""What a crossing counts for against length of leaders."""
_ROUNDS: Final = 4


class Edge(Enum):
    """A side of the drawing at which numerals stand: the coordinate along it, and which way is outwards."""

    RIGHT = (1, 1.0)
    ABOVE = (0, 1.0)
    LEFT = (1, -1.0)

    @property
    def along(self) -> int:
        return self.value[0]


@dataclass(frozen=True, slots=True)
class Numbered:
    """A part to be numbered. starts : where its leader begins, for each side it may be led to."""

    number: str
    starts: Mapping[Edge, Point]


@dataclass(frozen=True, slots=True)
class _Ledger:
    """What the numerals have to keep to. border : of the drawing, outside of which they stand."""

    draft: Draft
    border: Box

    def room(self, edge: Edge) -> float:
        """How long a row or column may become."""
        x0, y0, x1, y1 = self.border
        return x1 - x0 if edge is Edge.ABOVE else y1 - y0

    def pitch(self, edge: Edge, numbered: Sequence[Numbered]) -> float:
        longest = max((text_width_mm(one.number, SMALL_MM) for one in numbered), default=0.0)
        return self.draft.paper(longest + _BETWEEN_MM if edge is Edge.ABOVE else PITCH_MM)


def draw_numbers(draft: Draft, numbered: Sequence[Numbered], border: Box) -> None:
    """The numerals outside the border, at those of the allowed sides where leaders are short and do not cross."""
    if not numbered:
        return
    ledger = _Ledger(draft, border)
    sides = _shared_out(ledger, numbered)
    for edge, led in _leaders(ledger, numbered, sides).items():
        for one, points in led:
            draft.add(_leader(draft, edge, one.number, points))


def _shared_out(ledger: _Ledger, numbered: Sequence[Numbered]) -> list[Edge]:
    """A side for each: the nearest, then changed one by one as long as that makes it better."""
    sides = [min(one.starts, key=lambda edge: _off(ledger, edge, one.starts[edge])) for one in numbered]
    best = _cost(ledger, numbered, sides)
    for _ in range(_ROUNDS):
        before = best
        for n, one in enumerate(numbered):
            for edge in one.starts:
                if edge is sides[n]:
                    continue
                tried = [*sides[:n], edge, *sides[n + 1 :]]
                cost = _cost(ledger, numbered, tried)
                if cost < best - 1e-9:
                    sides, best = tried, cost
        if best == before:
            break
    return sides


def _off(ledger: _Ledger, edge: Edge, start: Point) -> float:
    x0, _, x1, y1 = ledger.border
    return {Edge.RIGHT: x1 - start[0], Edge.ABOVE: y1 - start[1], Edge.LEFT: start[0] - x0}[edge]


def _cost(ledger: _Ledger, numbered: Sequence[Numbered], sides: Sequence[Edge]) -> float:
    """Length of all leaders on the paper, and a fine for crossings and for rows that are too long."""
    led = _leaders(ledger, numbered, sides)
    lines = [points[:2] for group in led.values() for _, points in group]
    long = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in lines) * ledger.draft.scale
    crossings = sum(crosses(one, other) for one, other in combinations(lines, 2))
    over = sum(
        max(0.0, len(group) * ledger.pitch(edge, numbered) - ledger.room(edge)) for edge, group in led.items()
    )
    return long + _CROSSING_MM * crossings + 1000.0 * over * ledger.draft.scale


type _Led = dict[Edge, list[tuple[Numbered, tuple[Point, ...]]]]


def _leaders(ledger: _Ledger, numbered: Sequence[Numbered], sides: Sequence[Edge]) -> _Led:
    found: _Led = {}
    for edge in Edge:
        here = [one for one, side in zip(numbered, sides, strict=True) if side is edge]
        if not here:
            continue
        here.sort(key=lambda one: (one.starts[edge][edge.along], one.number))
        pitch = ledger.pitch(edge, numbered)
        wanted = [one.starts[edge][edge.along] for one in here]
        levels = _kept_in(spread(wanted, pitch), *_reach(ledger, edge))
        found[edge] = _uncrossed(ledger, edge, here, levels)
    return found


def _uncrossed(
    ledger: _Ledger, edge: Edge, here: list[Numbered], levels: Sequence[float]
) -> list[tuple[Numbered, tuple[Point, ...]]]:
    """Numerals at these places, two of them changed for each other wherever their leaders cross."""
    ways = [_way(ledger, edge, one.starts[edge], level) for one, level in zip(here, levels, strict=True)]
    for _ in range(len(here)):
        crossed = [(a, b) for a, b in combinations(range(len(here)), 2) if crosses(ways[a][:2], ways[b][:2])]
        if not crossed:
            break
        a, b = crossed[0]
        here[a], here[b] = here[b], here[a]
        for n in (a, b):
            ways[n] = _way(ledger, edge, here[n].starts[edge], levels[n])
    return list(zip(here, ways, strict=True))


def _way(ledger: _Ledger, edge: Edge, start: Point, level: float) -> tuple[Point, ...]:
    x0, _, x1, y1 = ledger.border
    paper = ledger.draft.paper
    if edge is Edge.ABOVE:
        return start, (level, y1 + paper(OFF_MM))
    outwards = edge.value[1]
    x = x1 if edge is Edge.RIGHT else x0
    tail = x + outwards * paper(OFF_MM)
    return start, (tail - outwards * paper(_ELBOW_MM), level), (tail, level)


def _leader(draft: Draft, edge: Edge, number: str, points: tuple[Point, ...]) -> Leader:
    x, y = points[-1]
    gap = draft.paper(_GAP_MM)
    if edge is Edge.ABOVE:
        text = Text(x, y + gap, number, SMALL_MM, Anchor.MIDDLE, 0.0, "numbers")
    else:
        anchor = Anchor.START if edge is Edge.RIGHT else Anchor.END
        base = y - draft.paper(0.36 * SMALL_MM)
        text = Text(x + edge.value[1] * gap, base, number, SMALL_MM, anchor, 0.0, "numbers")
    return Leader(points, text, "numbers")


def spread(wanted: Sequence[float], pitch: float) -> list[float]:
    """Places as near as may be (least squares) to those wanted, in their order, at least a pitch apart."""
    groups: list[tuple[float, int]] = []
    for number, place in enumerate(wanted):
        total, count = place - number * pitch, 1
        while groups and groups[-1][0] / groups[-1][1] > total / count:
            before = groups.pop()
            total, count = total + before[0], count + before[1]
        groups.append((total, count))
    means = [total / count for total, count in groups for _ in range(count)]
    return [mean + number * pitch for number, mean in enumerate(means)]


def _reach(ledger: _Ledger, edge: Edge) -> tuple[float, float]:
    """From where to where the numerals of a side may stand: clear of leading lines from the corners."""
    low, high = ledger.border[edge.along], ledger.border[edge.along + 2]
    clear = ledger.draft.paper(0.0 if edge is Edge.ABOVE else SMALL_MM / 2 + _GAP_MM)
    return low + clear, high - clear


def _kept_in(levels: list[float], low: float, high: float) -> list[float]:
    """The same places moved together so that they begin and end within, as far as they do."""
    pushed = min(0.0, high - levels[-1])
    pushed += max(0.0, low - (levels[0] + pushed))
    return [level + pushed for level in levels] if levels[0] < low or levels[-1] > high else levels


def crosses(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two lines cross or touch."""
    ((ax, ay), (bx, by)), ((cx, cy), (dx, dy)) = one, other
    x, y, u, v = bx - ax, by - ay, dx - cx, dy - cy
    if (x * (cy - ay) - y * (cx - ax)) * (x * (dy - ay) - y * (dx - ax)) > 0:
        return False
    return (u * (ay - cy) - v * (ax - cx)) * (u * (by - cy) - v * (bx - cx)) <= 0


def column_mm(numbers: Iterable[str]) -> float:
    """What a column of numerals takes up beside a drawing, on the paper."""
    return OFF_MM + 2 * _GAP_MM + max((text_width_mm(one, SMALL_MM) for one in numbers), default=0.0)
