"""At the saw: what lies on it at each cut and weighs how much, and the order in which finished blanks come off.

The numbered cuts of a panel or table saw are the plan's own; those for a sheet that lies still are made of them
(see `by_hand`).
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.records import Cut, Layout, Placed, Sheet
from evenface.layouts.stock_records import Axis
from evenface.units import from_grid
from evenface.words import said

type Box = tuple[int, int, int, int]
"""x0, y0, x1, y1."""


@dataclass(frozen=True, slots=True)
class Handled:
    """What lies on the saw at a cut: its size, its mass (0 where it is not known), and whether it is turned.

    turned : the cut runs the other way than the one that freed this piece. heavy : over the limit and turned.
    """

    cut: Cut
    length: int
    width: int
    mass_kg: float
    turned: bool
    heavy: bool


@dataclass(frozen=True, slots=True)
class Label:
    """A finished blank as it leaves the saw: its place in that order, and the cut that frees it.

    length, width : as it lies; turned : whether that is across the way it was asked for.
    """

    number: int
    after_cut: int
    blank: str
    part: str
    length: int
    width: int
    turned: bool = False


@dataclass(frozen=True, slots=True)
class ApartCut:
    """A cut that parts a matched run or a bundle, and the parts that are free after it."""

    cut: Cut
    blank: str
    off: tuple[str, ...]


def handled(sheet: Sheet, kg_per_m2: float, lift_kg: float) -> tuple[Handled, ...]:
    """What lies on the saw at each cut, in the plan's order. kg_per_m2 : 0 where it is not known.

    A trim made strip by strip comes once for each of them from which something is cut: a rest may wait.
    """
    found = []
    pieces = [box_of(piece) for piece in sheet.placed]
    for cut, box, before in played(sheet):
        if cut.stage == 0 and not any(_holds(box, piece) for piece in pieces):
            continue
        length, width = box[2] - box[0], box[3] - box[1]
        wide = width if sheet.form != "stick" else 0
        mass = from_grid(length) * from_grid(wide) * 1e-6 * kg_per_m2
        turned = before is not None and before != cut.axis
        found.append(Handled(cut, length, width, mass, turned, turned and mass > lift_kg))
    return tuple(found)


def largest_turned(sheet: Sheet, kg_per_m2: float, lift_kg: float) -> Handled | None:
    """The heaviest piece that has to be turned; None when nothing is turned."""
    turned = [one for one in handled(sheet, kg_per_m2, lift_kg) if one.turned]
    return max(turned, key=lambda one: (one.length * one.width, -one.cut.number), default=None)


def heavy_turns(layout: Layout, kg_per_m2: float, lift_kg: float) -> tuple[Finding, ...]:
    """Finding `layout.heavy_turn`, once a layout, for the heaviest piece turned above the limit."""
    worst: tuple[float, int, Handled] | None = None
    for number, sheet in enumerate(layout.sheets):
        one = largest_turned(sheet, kg_per_m2, lift_kg)
        if one is not None and one.heavy and (worst is None or one.mass_kg > worst[0]):
            worst = one.mass_kg, number + 1, one
    if worst is None:
        return ()
    mass, number, one = worst
    return (
        Finding(
            code="layout.heavy_turn",
            severity=Severity.NOTE,
            at=layout.material,
            value=certain(mass),
            limit=lift_kg,
            unit="kg",
            message=said(
                "Before cut {cut:count} of sheet {sheet:count} of {material} a piece of {length:mm} × {width:mm}, "
                "{mass:kg}, is turned on the saw.",
                cut=one.cut.number,
                sheet=number,
                material=layout.material,
                length=from_grid(one.length),
                width=from_grid(one.width),
                mass=mass,
            ),
            why=said("About 25 kg close to the body is a usual guide for one person."),
            source="limit of the job, [cutting] lift",
            weakest=Status.MEMORY,
            remedies=(
                Remedy(
                    "layout.rail", said("Cut it up with a guide rail where it lies, or call a second person.")
                ),
            ),
        ),
    )


def labels_of(sheet: Sheet) -> tuple[Label, ...]:
    """Blanks in the order in which they leave the saw, each as soon as its last cut is made."""
    return tuple(
        Label(number, cut, piece.blank, piece.part, piece.length, piece.width, piece.turned)
        for number, (piece, cut) in enumerate(_freed(sheet), start=1)
    )


def _freed(sheet: Sheet) -> list[tuple[Placed, int]]:
    """Each blank with the number of the cut after which it lies by itself; 0 where it is the whole sheet."""
    waiting = {box_of(piece): piece for piece in sheet.placed}
    found: list[tuple[Placed, int]] = []
    boxes = [((0, 0, sheet.length, sheet.width), 0)]
    boxes += [(part, cut.number) for cut, box, _ in played(sheet) for part in split_by(cut, box)]
    for box, number in boxes:
        piece = waiting.pop(box, None)
        if piece is not None:
            found.append((piece, number))
    return found


def cut_apart(sheet: Sheet) -> tuple[ApartCut, ...]:
    """The last cuts of runs and bundles, numbered on from the plan's: each time a part lies between fence and saw.

    What is longer than its parts, so that it can be held, is cut to length last.
    """
    found: list[ApartCut] = []
    kerf = max((cut.kerf for cut in sheet.cuts), default=0)
    for piece in (one for one in sheet.placed if one.inside):
        along = (piece.parted == "along") is not piece.turned
        near, end = (piece.y, piece.y + piece.width) if along else (piece.x, piece.x + piece.length)
        for at, one in enumerate(piece.inside):
            last = at + 1 == len(piece.inside)
            begin, rest = near + one.start + one.size, end
            if not last:
                rest = near + piece.inside[at + 1].start
            elif begin < end:
                rest = min(end, begin + kerf)
            else:  # the cut before it freed it too
                if found and found[-1].blank == piece.blank and at:
                    found[-1] = replace(found[-1], off=(*found[-1].off, one.part))
                continue
            number = len(sheet.cuts) + len(found) + 1
            low, high = (piece.x, piece.x + piece.length) if along else (piece.y, piece.y + piece.width)
            cut = Cut(number, 0, one.size, low, high, "along" if along else "across", begin, rest - begin)
            found.append(ApartCut(cut, piece.blank, (one.part,)))
    return tuple(found)


def part_labels(sheet: Sheet) -> tuple[Label, ...]:
    """The parts in the order in which they come off: those of runs and bundles when these are cut apart, last."""
    ends = {box_of(piece): number for piece, number in _freed(sheet)}
    cuts = list(cut_apart(sheet))
    found: list[Label] = []
    for piece, number in _freed(sheet):
        if not piece.inside:
            found.append(Label(0, number, piece.blank, piece.part, piece.length, piece.width, piece.turned))
    for piece in (one for one in sheet.placed if one.inside):
        free: list[int] = []
        while len(free) < len(piece.inside) and cuts and cuts[0].blank == piece.blank:
            if cuts[0].off[0] != piece.inside[len(free)].part:
                break
            last = cuts.pop(0)
            free += [last.cut.number] * len(last.off)
        free += [ends.get(box_of(piece), 0)] * (len(piece.inside) - len(free))
        found += [
            Label(0, after, piece.blank, one.part, one.length, one.width, one.turned)
            for one, after in zip(piece.apart, free, strict=True)
        ]
    found.sort(key=lambda one: one.after_cut)
    return tuple(replace(one, number=n) for n, one in enumerate(found, start=1))


def played(sheet: Sheet) -> Iterator[tuple[Cut, Box, Axis | None]]:
    """Each cut with the piece it goes through and the way of the cut that freed that piece.

    A trim comes once for each strip that it is made on.
    """
    bits: list[tuple[Box, Axis | None]] = [((0, 0, sheet.length, sheet.width), None)]
    for cut in sheet.cuts:
        met = [bit for bit in bits if _through(cut, bit[0], sheet)]
        for box, axis in met if cut.stage == 0 else met[:1]:
            yield cut, box, axis
            bits.remove((box, axis))
            bits += [(part, cut.axis) for part in split_by(cut, box)]


def _through(cut: Cut, box: Box, sheet: Sheet) -> bool:
    """Whether the cut parts the box; where its edges are still raw, the cut is told between the trims."""
    near, far, low, high = (1, 3, 0, 2) if cut.axis == "along" else (0, 2, 1, 3)
    if not (box[near] <= cut.position and cut.position + cut.kerf <= box[far]):
        return False
    if cut.stage == 0:
        return cut.from_ <= box[low] and box[high] <= cut.to_
    side = 0 if sheet.form in ("stick", "board") else sheet.trim
    trim, end = (sheet.trim, sheet.length) if cut.axis == "along" else (side, sheet.width)
    return (cut.from_, cut.to_) == (max(box[low], trim), min(box[high], end - trim))


def split_by(cut: Cut, box: Box) -> list[Box]:
    """What a cut leaves of the box on its two sides."""
    x0, y0, x1, y1 = box
    far = cut.position + cut.kerf
    if cut.axis == "along":
        parts = [(x0, y0, x1, cut.position), (x0, far, x1, y1)]
    else:
        parts = [(x0, y0, cut.position, y1), (far, y0, x1, y1)]
    return [part for part in parts if part[2] > part[0] and part[3] > part[1]]


def _holds(box: Box, piece: Box) -> bool:
    return box[0] <= piece[0] and box[1] <= piece[1] and piece[2] <= box[2] and piece[3] <= box[3]


def box_of(piece: Placed) -> Box:
    """Its lower and upper corner."""
    return piece.x, piece.y, piece.x + piece.length, piece.y + piece.width
