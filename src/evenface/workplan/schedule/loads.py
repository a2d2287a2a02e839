"""What is glued up at once: as many pieces as there are clamps for, or as fit side by side into the press.

Panels lie in rows in the press, one layer; panels of one pressing have one glue and one build-up, and are all
spread and closed within the glue's open time.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from evenface.workplan.records import Step, Work

type Pieces = tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Need:
    """What gluing one piece of a step asks for.

    clamps : for each piece. press_mm : length and width in the press, None where none is needed. alike : what
    has to be the same in one pressing. spread_min : to spread one piece, open_min : what the glue
    allows until the press is closed. held_min : under pressure.
    """

    clamps: int = 0
    press_mm: tuple[float, float] | None = None
    alike: tuple[str, ...] = ()
    spread_min: float = 0.0
    open_min: float = 0.0
    held_min: int = 0


@dataclass(frozen=True, slots=True)
class Load:
    """Pieces glued up in one go, and what they hold meanwhile."""

    pieces: Pieces
    clamps: int = 0
    presses: int = 0
    held_min: int = 0


def clamp_loads(step: Step, need: Need, clamps: int) -> list[Load]:
    """One step in as many goes as the clamps ask for; a piece that wants more than there are takes them all."""
    pieces = step.hand_minutes.pieces
    at_once = max(1, clamps // need.clamps)
    counts = [at_once] * (pieces // at_once) + ([pieces % at_once] if pieces % at_once else [])
    return [
        Load(((step.id, count),), clamps=min(clamps, count * need.clamps), held_min=need.held_min)
        for count in counts
    ]


def press_loads(
    steps: Sequence[Step], needs: Mapping[str, Need], press_mm: tuple[float, float]
) -> list[Load]:
    """Bonding steps piece by piece into pressings, each into the first that still has room and time for it."""
    levels = bond_levels(steps)
    open_loads: dict[tuple[object, ...], list[list[str]]] = {}
    bonds = [step for step in steps if step.id in needs and needs[step.id].press_mm is not None]
    for step in sorted(bonds, key=lambda s: -_area(needs[s.id])):
        need = needs[step.id]
        loads = open_loads.setdefault((levels[step.id], *need.alike), [])
        for _ in range(step.hand_minutes.pieces):
            room = (load for load in loads if _takes(load, step.id, needs, press_mm))
            load = next(room, None)
            if load is None:
                loads.append([step.id])
            else:
                load.append(step.id)
    return [
        Load(
            tuple((one, load.count(one)) for one in dict.fromkeys(load)),
            presses=1,
            held_min=max(needs[one].held_min for one in load),
        )
        for loads in open_loads.values()
        for load in loads
    ]


def bond_levels(steps: Sequence[Step]) -> Mapping[str, int]:
    """How many bondings one after another end with each step: only those of one level may share a pressing."""
    found: dict[str, int] = {}
    for step in steps:
        before = max((found.get(one.id, 0) for one in step.after), default=0)
        found[step.id] = before + (step.work is Work.BOND)
    return found


def fits_press(sizes: Iterable[tuple[float, float]], press_mm: tuple[float, float]) -> bool:
    """Whether these panels lie side by side in rows, all turned the same way; a no may be wrong, a yes is not."""
    length, width = max(press_mm), min(press_mm)
    lying = [(max(one), min(one)) for one in sizes]
    return _in_rows(lying, length, width) or _in_rows([(b, a) for a, b in lying], length, width)


def _in_rows(sizes: Sequence[tuple[float, float]], length: float, width: float) -> bool:
    """Rows along the length, the deepest panels first; each row as deep as its first panel."""
    used_width = row_left = 0.0
    for along, across in sorted(sizes, key=lambda one: (-one[1], -one[0])):
        if along > length or across > width:
            return False
        if along > row_left:
            used_width += across
            row_left = length
        row_left -= along
    return used_width <= width


def _takes(load: Sequence[str], step: str, needs: Mapping[str, Need], press_mm: tuple[float, float]) -> bool:
    together = [needs[one] for one in (*load, step)]
    in_time = sum(one.spread_min for one in together) <= min(one.open_min for one in together)
    return in_time and fits_press([one.press_mm for one in together if one.press_mm], press_mm)


def _area(need: Need) -> float:
    return need.press_mm[0] * need.press_mm[1] if need.press_mm else 0.0
