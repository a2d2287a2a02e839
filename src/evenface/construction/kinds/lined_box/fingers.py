"""The corner joint: fingers of the two walls in turn, from the lower edge of the box to the upper one.

Both walls run over the whole outside. In each layer of the height one of them has a finger, the other a slot; so
wood meets wood over the whole joint once the lining is cleared from it.
"""

from dataclasses import dataclass
from math import ceil

from evenface.construction.kinds.lined_box.records import FRONT, PAIRS, SIDES, FingersAsked

LEAST_END = 0.3
"""OWN ESTIMATE: where a width alone is given, the end fingers are no narrower than this share of it."""


@dataclass(frozen=True, slots=True)
class Finger:
    """One layer of the joint: its heights above the lower edge, and the pair whose finger it is. [mm]"""

    low_mm: float
    high_mm: float
    owner: str

    @property
    def width_mm(self) -> float:
        return self.high_mm - self.low_mm


@dataclass(frozen=True, slots=True)
class FingerJoint:
    """All layers, from below. width_mm : of an inner finger; end_mm : of the lowest and highest.

    fits : whether the asked number and width leave anything for the end fingers; where they do not, the height
    is shared equally instead. passes : of the cutter for one slot.
    """

    fingers: tuple[Finger, ...]
    width_mm: float
    end_mm: float
    fit_mm: float
    passes: int
    fits: bool = True

    @property
    def number(self) -> int:
        return len(self.fingers)

    @property
    def narrowest_mm(self) -> float:
        return min(self.width_mm, self.end_mm)

    def slots_of(self, pair: str) -> tuple[tuple[float, float], ...]:
        """Slots of a wall, lower and upper side above its lower edge, the fit taken in; open at the edges."""
        top, half = self.fingers[-1].high_mm, self.fit_mm / 2
        return tuple(
            (max(one.low_mm - half, 0.0), min(one.high_mm + half, top))
            for one in self.fingers
            if one.owner != pair
        )

    def owner_over(self, low_mm: float, high_mm: float) -> str:
        """The pair in one of whose fingers that whole stretch lies; "" where it crosses a line of the joint."""
        for one in self.fingers:
            if one.low_mm - 1e-9 <= low_mm and high_mm <= one.high_mm + 1e-9:
                return one.owner
        return ""


def finger_joint(asked: FingersAsked, height_mm: float) -> FingerJoint:
    """The joint over a height. ValueError when the height is not above 0."""
    if not height_mm > 0.0:
        raise ValueError(f"expected a height above 0, was given {height_mm:g}")
    number, width = _number_and_width(asked, height_mm)
    end = (height_mm - (number - 2) * width) / 2
    fits = end > 1e-9
    if not fits:
        width = end = height_mm / number
    lines = [0.0, *(end + n * width for n in range(number - 1)), height_mm]
    other = SIDES if asked.starts == FRONT else FRONT
    owners = (asked.starts, other)
    fingers = tuple(Finger(lines[n], lines[n + 1], owners[n % 2]) for n in range(number))
    assert set(owners) == set(PAIRS)
    passes = max(1, ceil((width + asked.fit) / asked.cutter - 1e-6))
    return FingerJoint(fingers, width, end, asked.fit, passes, fits)


def _number_and_width(asked: FingersAsked, height: float) -> tuple[int, float]:
    if asked.number is not None:
        equal = height / (asked.number - 1 if asked.half_pins and asked.number > 2 else asked.number)
        return asked.number, equal if asked.width is None else asked.width
    # one pass cuts a slot as wide as the cutter: its finger is narrower by the fit
    width = max(asked.cutter - asked.fit, asked.cutter / 2) if asked.width is None else asked.width
    wanted = width / 2 if asked.half_pins else width
    odd = range(3, max(5, int(height / width) + 4), 2)

    def off(number: int) -> tuple[bool, float]:
        end = (height - (number - 2) * width) / 2
        return end < LEAST_END * width, abs(end - wanted)

    return min(odd, key=off), width
