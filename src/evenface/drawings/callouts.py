"""Labels in a column beside a drawing, each with a leader to its layer; leaders do not cross."""

from collections.abc import Sequence

from evenface.drawings.draft import Draft
from evenface.drawings.scene import SMALL_MM, Anchor, Leader, Text
from evenface.shape.segment import Point

PITCH_MM = 4.6


def column(draft: Draft, x: float, labels: Sequence[tuple[Point, str]]) -> None:
    """The labels to the right of x, highest first, as near as may be to the level of what they name."""
    ordered = sorted(labels, key=lambda one: -one[0][1])
    pitch = draft.paper(PITCH_MM)
    levels: list[float] = []
    for (_, y), _ in ordered:
        levels.append(min(y, levels[-1] - pitch) if levels else y)
    drop = sum(point[1] - level for (point, _), level in zip(ordered, levels, strict=True))
    lift = drop / len(levels) if levels else 0.0
    for (point, words), level in zip(ordered, levels, strict=True):
        y = level + lift
        elbow, tail = (x - draft.paper(3.0), y), (x - draft.paper(0.6), y)
        base = y - draft.paper(0.36 * SMALL_MM)
        text = Text(x, base, draft.manner.name(words), SMALL_MM, Anchor.START, 0.0, "labels")
        draft.add(Leader((point, elbow, tail), text))
