"""The bench of the second look: a sheet cut up by its own list of cuts. Shares nothing with what made the list."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from evenface.layouts.records import Cut, Sheet


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong: the rule broken, the sheet (from 0; -1 for the whole layout), what, by how much."""

    rule: str
    sheet: int
    what: str
    amount: int = 0


type _Box = tuple[int, int, int, int]
"""x0, y0, x1, y1."""


@dataclass(slots=True)
class _Bit:
    """A bit of the sheet on the bench, the way of the cut that freed it and how often that changed."""

    box: _Box
    changes: int
    axis: str | None


class Bench:
    """Cuts up one sheet by its list of cuts and looks at what lies there in the end."""

    def __init__(self, number: int, sheet: Sheet, stages: int | None, first_cut: str, kerf: int) -> None:
        self.number, self.sheet, self.stages, self.kerf = number, sheet, stages, kerf
        start = (0, None) if first_cut == "any" else (1, first_cut)
        self.bits = [_Bit((0, 0, sheet.length, sheet.width), start[0], start[1])]
        self.pieces = [_box(piece.x, piece.y, piece.length, piece.width) for piece in sheet.placed]

    def faults(self) -> Iterator[Fault]:
        for place, cut in enumerate(self.sheet.cuts, start=1):
            if cut.number != place:
                yield Fault("cuts", self.number, f"cut {cut.number} stands at place {place}")
            yield from self._make(cut)
        yield from self._look()

    def _make(self, cut: Cut) -> Iterator[Fault]:
        """Make the cut; a trim on every bit in its line."""
        bits = [bit for bit in self.bits if self._passes_through(cut, bit.box)]
        if not bits or cut.kerf < 0 or (cut.stage == 0 and not self._told_whole(cut, bits)):
            yield Fault("cuts", self.number, f"cut {cut.number} runs through nothing whole")
            return
        for bit in bits if cut.stage == 0 else bits[:1]:
            yield from self._part(bit, cut)

    def _passes_through(self, cut: Cut, box: _Box) -> bool:
        """Whether the cut runs from one side of the box to the other, inside it; raw edges are not counted."""
        if not _beside(cut, box):
            return False
        low, high = _ends(cut, box)
        if cut.stage == 0:
            return cut.from_ <= low and high <= cut.to_
        first, last = _ends(cut, _inner(self.sheet))
        return (cut.from_, cut.to_) == (max(low, first), min(high, last))

    def _told_whole(self, cut: Cut, bits: list[_Bit]) -> bool:
        """Whether a trim is told from the first bit it meets to the last, or over the whole sheet inside its trims."""
        ends = [_ends(cut, bit.box) for bit in bits]
        met = min(low for low, _ in ends), max(high for _, high in ends)
        return (cut.from_, cut.to_) in (met, _ends(cut, _inner(self.sheet)))

    def _part(self, bit: _Bit, cut: Cut) -> Iterator[Fault]:
        self.bits.remove(bit)
        low, high = _split(cut, bit.box)
        if cut.kerf != self.kerf and (cut.kerf > self.kerf or (low is not None and high is not None)):
            # only a cut that runs off the edge takes less than the whole kerf
            yield Fault("cuts", self.number, f"cut {cut.number} takes {cut.kerf}", abs(cut.kerf - self.kerf))
        if cut.stage == 0 and not self._is_trim(low, high):
            yield Fault("cuts", self.number, f"cut {cut.number} is called a trim and is none")
        if cut.fence not in {_across(cut, part) for part in (low, high) if part is not None}:
            yield Fault("cuts", self.number, f"cut {cut.number}: the fence is set to {cut.fence}", cut.fence)
        free = cut.stage == 0 or self._takes_damage_off(bit, low, high)
        changes = bit.changes if free else bit.changes + (cut.axis != bit.axis)
        axis = bit.axis if free else cut.axis
        self.bits += [_Bit(part, changes, axis) for part in (low, high) if part is not None]
        if self.stages is not None and changes > self.stages and not self._only_trims(low, high, changes):
            yield Fault("stages", self.number, f"cut {cut.number}", changes - self.stages)

    def _is_trim(self, low: _Box | None, high: _Box | None) -> bool:
        """Whether one side of the cut lies outside what is left of the sheet inside its trims."""
        inner = _inner(self.sheet)
        return any(part is None or not _overlaps(part, inner) for part in (low, high))

    def _takes_damage_off(self, bit: _Bit, low: _Box | None, high: _Box | None) -> bool:
        """Whether the first cut inside the trims parts all damage of a sheet from all pieces: no turn is counted.

        Damage no wider than the saw is dust then, and either side may be the one without pieces.
        """
        flaws = self.sheet.timber.flaws if self.sheet.timber is not None else ()
        if self.sheet.form == "board" or not flaws or bit.box != _inner(self.sheet):
            return False
        damage = [_box(flaw.x, flaw.y, flaw.length, flaw.width) for flaw in flaws]
        for sound, other in ((low, high), (high, low)):
            if sound is None or any(_overlaps(sound, one) for one in damage):
                continue
            if other is None or not any(_overlaps(other, piece) for piece in self.pieces):
                return True
        return False

    def _only_trims(self, low: _Box | None, high: _Box | None, changes: int) -> bool:
        """One change more is allowed where it frees a piece from waste."""
        assert self.stages is not None
        held = [
            sum(_within(piece, part) for piece in self.pieces) for part in (low, high) if part is not None
        ]
        return changes == self.stages + 1 and sorted(held)[:-1] in ([], [0]) and max(held, default=0) <= 1

    def _look(self) -> Iterator[Fault]:
        left = Counter(bit.box for bit in self.bits)
        offcuts = [_box(offcut.x, offcut.y, offcut.length, offcut.width) for offcut in self.sheet.offcuts]
        for box in (*self.pieces, *offcuts):
            if left[box] < 1:
                yield Fault("cuts", self.number, f"nothing of the size and place {box} is cut free")
            left[box] -= 1
        inner = _inner(self.sheet)
        for box, count in left.items():
            if count > 0 and _overlaps(box, inner):
                yield Fault("cuts", self.number, f"{box} is left over and nobody says what it is", count)


def _box(x: int, y: int, length: int, width: int) -> _Box:
    return x, y, x + length, y + width


def _inner(sheet: Sheet) -> _Box:
    side = 0 if sheet.form in ("stick", "board") else sheet.trim
    return sheet.trim, side, sheet.length - sheet.trim, sheet.width - side


def _beside(cut: Cut, box: _Box) -> bool:
    """Whether the cut, as wide as it is, lies between the sides of the box that run its way."""
    low, high = (box[1], box[3]) if cut.axis == "along" else (box[0], box[2])
    return low <= cut.position and cut.position + cut.kerf <= high


def _ends(cut: Cut, box: _Box) -> tuple[int, int]:
    return (box[0], box[2]) if cut.axis == "along" else (box[1], box[3])


def _split(cut: Cut, box: _Box) -> tuple[_Box | None, _Box | None]:
    x0, y0, x1, y1 = box
    far = cut.position + cut.kerf
    if cut.axis == "along":
        low, high = (x0, y0, x1, cut.position), (x0, far, x1, y1)
    else:
        low, high = (x0, y0, cut.position, y1), (far, y0, x1, y1)
    return (low if _area(low) else None), (high if _area(high) else None)


def _across(cut: Cut, box: _Box) -> int:
    return box[3] - box[1] if cut.axis == "along" else box[2] - box[0]


def _area(box: _Box) -> int:
    return max(0, box[2] - box[0]) * max(0, box[3] - box[1])


def _within(inner: _Box, outer: _Box) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def _overlaps(one: _Box, other: _Box) -> bool:
    return (
        _area((max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])))
        > 0
    )
