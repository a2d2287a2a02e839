"""Rows of sizes and gaps that must give the outside, in width, height and depth; and the gaps by themselves."""

from collections.abc import Iterator, Sequence

from evenface.construction.gaps_through_year import panel_through_year
from evenface.construction.gathering import Heap
from evenface.construction.kinds.carcase.fronts import Front, lap_mm
from evenface.construction.kinds.carcase.records import Fronts
from evenface.construction.kinds.carcase.room import Cell, Limit
from evenface.construction.kinds.carcase.shell import Laying
from evenface.construction.placed import HAIR_MM, Axis, Chain, Gap
from evenface.construction.wood_through_year import ThroughYear
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Panel
from evenface.words import said

type Members = tuple[tuple[str, float], ...]
RUB_MM = 0.5
"""COMMON PRACTICE: air that must be left between two fronts at the damp end of the year."""


def rows_of(laying: Laying, fronts: Sequence[Front], heap: Heap) -> Iterator[Chain]:
    """Every row of the carcase; those of drawers stand with the drawers."""
    yield _width(laying)
    yield from _lengths(laying, heap)
    for bay in range(len(laying.room.bays)):
        yield _height(laying, bay)
    yield from _depths(laying, heap)
    yield from _fronts_across(laying, fronts)
    yield from _fronts_down(laying, fronts)


def _base(laying: Laying) -> Members:
    carcase = laying.carcase
    if carcase.plinth is not None:
        return (("plinth", carcase.plinth.height),)
    return (("legs", carcase.legs_mm),) if carcase.legs_mm else ()


def _beside(laying: Laying) -> tuple[Members, Members, Members]:
    """Scribe strips left, right and above, where there are any."""
    scribe = laying.carcase.scribe
    left, right, top = (
        ((name, size),) if size else ()
        for name, size in (
            ("scribe left", scribe.left), ("scribe right", scribe.right), ("scribe above", scribe.top),
        )
    )  # fmt: skip
    return left, right, top


def _width(laying: Laying) -> Chain:
    room, thick = laying.room, laying.room.thick
    left, right, _ = _beside(laying)
    middle: list[tuple[str, float]] = []
    for number, (x0, x1) in enumerate(room.bays, start=1):
        if number > 1:
            middle.append((f"divider {number - 1}", thick.divider))
        middle.append((f"bay {number}", x1 - x0))
    members = (*left, ("left side", thick.left), *middle, ("right side", thick.right), *right)
    return Chain("width through the bays", Axis.RIGHT, members, laying.carcase.size_mm[0])


def _lengths(laying: Laying, heap: Heap) -> Iterator[Chain]:
    """The lengths of sides, top and bottom as they were built, against the outside."""
    carcase, room = laying.carcase, laying.room
    left, right, above = _beside(laying)
    deep = carcase.joint.enters_mm
    for role, at in (("top", carcase.top_at), ("bottom", carcase.bottom_at)):
        length = heap.of(role).part.length_mm
        inner: Members = ((role, length),)
        if at == "between":
            inner = (
                ("left side", room.thick.left), (role, length - 2 * deep), ("right side", room.thick.right),
            )  # fmt: skip
        yield Chain(f"width at the {role}", Axis.RIGHT, (*left, *inner, *right), carcase.size_mm[0])
    for side in ("left side", "right side"):
        members: list[tuple[str, float]] = [*_base(laying)]
        over_low, over_high = carcase.bottom_at == "over", carcase.top_at == "over"
        if over_low:
            members.append(("bottom", room.thick.bottom))
        members.append((side, heap.of(side).part.length_mm - deep * (over_low + over_high)))
        if over_high:
            members.append(("top", room.thick.top))
        yield Chain(f"height at the {side}", Axis.UP, (*members, *above), carcase.size_mm[1])


def _height(laying: Laying, bay: int) -> Chain:
    room = laying.room
    members: list[tuple[str, float]] = [*_base(laying), ("bottom", room.thick.bottom)]
    for cell in reversed([cell for cell in room.cells if cell.bay == bay]):
        if cell.below.kind == "partition":
            members.append((cell.below.part, room.thick.shelf))
        members.append((f"row {cell.number + 1}", cell.height_mm))
    members += [("top", room.thick.top), *_beside(laying)[2]]
    return Chain(f"height of bay {bay + 1}", Axis.UP, tuple(members), laying.carcase.size_mm[1])


def _depths(laying: Laying, heap: Heap) -> Iterator[Chain]:
    carcase, room = laying.carcase, laying.room
    front: Members = (("fronts and the air behind them", room.y[0]),) if room.y[0] > 0 else ()
    rear: Members = ()
    if carcase.back is not None and carcase.back.how == "rear":
        rear = (("back", room.thick.back),)
    side = heap.of("left side").part.width_mm
    yield Chain("depth at a side", Axis.REAR, (*front, ("left side", side), *rear), carcase.size_mm[2])
    if carcase.back is None or carcase.back.how == "rear":
        return
    behind: Members = (("air behind the back", room.back_inset_mm),) if room.back_inset_mm else ()
    inside = room.back_y - room.y[0]
    yield Chain(
        "depth at the back", Axis.REAR, (*front, ("inside", inside), ("back", room.thick.back), *behind),
        carcase.size_mm[2],
    )  # fmt: skip


def _start(fronts: Fronts, limit: Limit, side: str, solid: str) -> Members:
    """From the outside of an outer panel to the first front."""
    lap = lap_mm(fronts, limit, side)
    return ((solid, limit.thickness_mm), ("gap", -lap)) if lap < 0 else (("gap", limit.thickness_mm - lap),)


def _between(fronts: Fronts, limit: Limit) -> Members:
    """From one front to the next, over what stands between their openings."""
    if limit.kind == "partition" and fronts.inset:
        return ("gap", fronts.between), (limit.part, limit.thickness_mm), ("gap", fronts.between)
    return (("gap", fronts.between),)


def _fronts_across(laying: Laying, fronts: Sequence[Front]) -> Iterator[Chain]:
    """Through the fronts of the same row in every bay, where each bay has some there."""
    asked, room = laying.carcase.fronts, laying.room
    if asked is None:
        return
    left, right, _ = _beside(laying)
    for number in range(max(cell.number for cell in room.cells) + 1):
        row = [cell for cell in room.cells if cell.number == number]
        shown = [_first_in(fronts, cell) for cell in row]
        if len(row) < len(room.bays) or not all(shown):
            continue
        members: list[tuple[str, float]] = [*left, *_start(asked, row[0].left, "left", "left side")]
        for at, (cell, beside) in enumerate(zip(row, shown, strict=True)):
            if at:
                members += _between(asked, cell.left)
            for index, front in enumerate(beside):
                members += [("gap", asked.between)] * (index > 0)
                members.append((front.key, front.width_mm))
        members += [*reversed(_start(asked, row[-1].right, "right", "right side")), *right]
        name = f"width through the fronts of row {number + 1}"
        yield Chain(name, Axis.RIGHT, tuple(members), laying.carcase.size_mm[0])


def _first_in(fronts: Sequence[Front], cell: Cell) -> list[Front]:
    """The fronts of a row that stand beside each other: both doors of a pair, one of a bank."""
    inside = [front for front in fronts if front.cell is cell]
    expected = 2 if cell.row.what == "doors" else cell.row.count
    if len(inside) != expected or not cell.row.closed:
        return []
    return inside if cell.row.what == "doors" else inside[:1]


def _fronts_down(laying: Laying, fronts: Sequence[Front]) -> Iterator[Chain]:
    """Through the fronts of a bay from below, where all its rows are shut."""
    asked, room = laying.carcase.fronts, laying.room
    if asked is None:
        return
    for bay in range(len(room.bays)):
        cells = [cell for cell in room.cells if cell.bay == bay]
        if not all(_first_in(fronts, cell) for cell in cells):
            continue
        members: list[tuple[str, float]] = [*_base(laying)]
        members += _start(asked, cells[-1].below, "bottom", "bottom")
        for at, cell in enumerate(reversed(cells)):
            if at:
                members += _between(asked, cell.below)
            inside = [front for front in fronts if front.cell is cell]
            stacked = inside[:1] if cell.row.what == "doors" else list(reversed(inside))
            for index, front in enumerate(stacked):
                members += [("gap", asked.between)] * (index > 0)
                members.append((front.key, front.height_mm))
        members += [*reversed(_start(asked, cells[0].above, "top", "top")), *_beside(laying)[2]]
        yield Chain(
            f"height through the fronts of bay {bay + 1}", Axis.UP, tuple(members), laying.carcase.size_mm[1]
        )


def front_gaps(laying: Laying, fronts: Sequence[Front], heap: Heap) -> None:
    """The gaps round every front through the year; what closes in the damp weeks is told once for the piece."""
    asked = laying.carcase.fronts
    if asked is None:
        return
    worst: tuple[float, Gap] | None = None
    for front in fronts:
        for gap in _round(laying, asked, front, fronts, heap):
            heap.gaps.append(gap)
            if gap.least_mm is not None and (worst is None or gap.least_mm < worst[0]):
                worst = (gap.least_mm, gap)
    if worst is not None and worst[0] < RUB_MM:
        heap.findings.append(_too_tight(laying, asked, worst[1]))


def _round(laying: Laying, asked: Fronts, front: Front, fronts: Sequence[Front], heap: Heap) -> Iterator[Gap]:
    """Air on every side of a front; what it shares with the next front is told once, from the left or from below."""
    cell = front.cell
    for name, axis, limit in (
        ("left", Axis.LEFT, cell.left),
        ("right", Axis.RIGHT, cell.right),
        ("top", Axis.UP, cell.above),
        ("bottom", Axis.DOWN, cell.below),
    ):
        moves = _grows(laying, heap, front, axis)
        facing = _facing(front, axis, fronts, asked.between)
        if not facing:
            yield _gap(asked, front, name, axis, limit, moves)
        for beside in facing if axis in (Axis.RIGHT, Axis.UP) else ():
            pair = axis is Axis.RIGHT and cell.row.what == "doors" and beside.cell is cell
            other = _grows(laying, heap, beside, Axis.LEFT if axis is Axis.RIGHT else Axis.DOWN)
            told = "between the doors" if pair else name
            yield _at(asked.between, front, told, axis, beside.key, moves.beside(other))


def _grows(laying: Laying, heap: Heap, front: Front, axis: Axis) -> ThroughYear:
    """How far a front grows that way: a door away from its hinges, every other from its middle."""
    panel = heap.of(front.key).part
    assert isinstance(panel, Panel)
    along, across = panel_through_year(panel, laying.ground)
    wide, high = (across, along) if front.upright else (along, across)
    if axis in (Axis.UP, Axis.DOWN):
        return high.over(0.5)
    left, right = {"": (0.5, 0.5), "left": (0.0, 1.0), "right": (1.0, 0.0)}[front.hinge]
    return wide.over(left if axis is Axis.LEFT else right)


def _facing(front: Front, axis: Axis, fronts: Sequence[Front], gap: float) -> list[Front]:
    """The fronts that begin one gap further that way, beside it at least in part."""
    upright = axis in (Axis.UP, Axis.DOWN)
    ahead = axis in (Axis.RIGHT, Axis.UP)
    own, beside = (front.z, front.x) if upright else (front.x, front.z)
    found = []
    for other in fronts:
        far, shared = (other.z, other.x) if upright else (other.x, other.z)
        away = far[0] - own[1] if ahead else own[0] - far[1]
        if abs(away - gap) < HAIR_MM and min(beside[1], shared[1]) - max(beside[0], shared[0]) > HAIR_MM:
            found.append(other)
    return found


def _gap(asked: Fronts, front: Front, side: str, axis: Axis, limit: Limit, moves: ThroughYear) -> Gap:
    """Air beside a front: to what it lies in, to the next front, or to the outside."""
    lap = lap_mm(asked, limit, side)
    if limit.kind == "outer" and lap >= 0.0:
        return _at(limit.thickness_mm - lap, front, side, axis, "outside", moves)
    if limit.kind == "outer":
        return _at(-lap, front, side, axis, limit.part, moves)
    shared = moves if asked.inset and limit.kind == "partition" else moves.over(2.0)
    return _at(asked.between, front, side, axis, limit.part or "next front", shared)


def _at(mm: float, front: Front, side: str, axis: Axis, other: str, moves: ThroughYear) -> Gap:
    return Gap(
        f"{front.key}, {side}", axis, mm, (front.key, other), mm - moves.most_mm, mm - moves.least_mm,
        said("So that fronts pass each other and what they lie in all the year."), front.cell.row.origin,
    )  # fmt: skip


def _too_tight(laying: Laying, asked: Fronts, gap: Gap) -> Finding:
    path = f"{laying.carcase.origin}.fronts.gap"
    least = gap.least_mm if gap.least_mm is not None else gap.mm
    wanted = round(asked.between + RUB_MM - least + 0.05, 1)
    return Finding(
        code="front.gap_small", severity=Severity.STOP if least < 0 else Severity.WEIGH, origin=path,
        at=gap.name, value=certain(least), limit=RUB_MM, unit="mm",
        message=said(
            "The gap of {gap:mm2} at {name} comes down to {least:mm2} in the damp weeks of the year.",
            gap=gap.mm, name=gap.name, least=least,
        ), why=said("The board grows with the air of the room; reckoned free, without the help of its facings."),
        source="own reckoning from the year of the room and the movement of the board",
        remedies=(
            Remedy("front.gap", said("Make the gap {wanted:mm}.", wanted=wanted),
                   (Change(path, f"{asked.between:g}", f"{wanted:g}"),)),
        ),
    )  # fmt: skip
