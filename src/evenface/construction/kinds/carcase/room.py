"""The room a carcase gives: where its outside, its uprights, its rows and their openings lie."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.records import Carcase, Row
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.words import said

LEAST_MM = 30.0
"""Own limit: a bay or row smaller than this is a slip of the pen."""
CLOSE_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Limit:
    """What bounds an opening on one side: "outer" and "partition" are solid, "line" is where two rows meet."""

    kind: str
    part: str
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class Cell:
    """The clear opening of one row of one bay, and what bounds it. [mm]"""

    bay: int
    number: int
    row: Row
    x: tuple[float, float]
    z: tuple[float, float]
    left: Limit
    right: Limit
    below: Limit
    above: Limit

    @property
    def width_mm(self) -> float:
        return self.x[1] - self.x[0]

    @property
    def height_mm(self) -> float:
        return self.z[1] - self.z[0]


@dataclass(frozen=True, slots=True)
class Thick:
    """Thickness of everything that enters a sum. [mm]"""

    left: float
    right: float
    top: float
    bottom: float
    divider: float
    shelf: float
    back: float
    door: float
    drawer_front: float


@dataclass(frozen=True, slots=True)
class Room:
    """Where things lie in the piece. [mm]

    x, z : outside of the carcase without scribe strips, plinth and legs. y : of its sides. inner_x, inner_z :
    between sides, between bottom and top. back_y : inner face of the back, or the rear edge without one.
    front_y : face of overlay fronts is at 0, of the carcase's edges here. troubles : why it does not work out.
    """

    x: tuple[float, float]
    y: tuple[float, float]
    z: tuple[float, float]
    inner_x: tuple[float, float]
    inner_z: tuple[float, float]
    back_y: float
    back_inset_mm: float
    bays: tuple[tuple[float, float], ...]
    cells: tuple[Cell, ...]
    thick: Thick
    troubles: tuple[Finding, ...] = ()

    @property
    def fits(self) -> bool:
        """Whether anything can be built in it."""
        return not any(one.severity is Severity.STOP for one in self.troubles)


def room_of(carcase: Carcase, ground: Ground) -> Room:
    """The room of a carcase; widths and heights that do not close are scaled so that they do, and told."""
    thick = _thick(carcase, ground)
    width, height, depth = carcase.size_mm
    scribe = carcase.scribe
    x = (scribe.left, width - scribe.right)
    z = (carcase.plinth.height if carcase.plinth else carcase.legs_mm, height - scribe.top)
    y = _depth(carcase, thick, depth)
    inset = _inset(carcase)
    back_y = y[1] - {"groove": inset + thick.back, "rebate": thick.back}.get(
        carcase.back.how if carcase.back else "", 0.0
    )
    inner_x = (x[0] + thick.left, x[1] - thick.right)
    inner_z = (z[0] + thick.bottom, z[1] - thick.top)
    clear = (inner_x[1] - inner_x[0]) - (len(carcase.bays) - 1) * thick.divider
    troubles: list[Finding] = []
    widths = _shared(
        [bay.width for bay in carcase.bays], clear, "width", [bay.origin for bay in carcase.bays], troubles
    )
    bays: list[tuple[float, float]] = []
    cells: list[Cell] = []
    at = inner_x[0]
    for number, wide in enumerate(widths):
        bays.append((at, at + wide))
        cells += _cells(carcase, number, bays[-1], inner_z, thick, troubles)
        at += wide + thick.divider
    troubles += _small(carcase, clear, inner_z, back_y - y[0])
    return Room(x, y, z, inner_x, inner_z, back_y, inset, tuple(bays), tuple(cells), thick, tuple(troubles))


def _thick(carcase: Carcase, ground: Ground) -> Thick:
    by_role = {role: ground.thickness_mm(pattern.buildup) for role, pattern in carcase.patterns.items()}
    return Thick(
        by_role["left side"],
        by_role["right side"],
        by_role["top"],
        by_role["bottom"],
        by_role["divider"],
        by_role["shelf"],
        by_role.get("back", 0.0),
        by_role.get("door", 0.0),
        by_role.get("drawer front", 0.0),
    )


def front_mm(carcase: Carcase, thick: Thick) -> float:
    """Thickness of the thickest front there is."""
    kinds = {row.what for bay in carcase.bays for row in bay.rows}
    doors = thick.door if kinds & {"door", "doors"} else 0.0
    return max(doors, thick.drawer_front if "drawers" in kinds else 0.0)


def _depth(carcase: Carcase, thick: Thick, depth: float) -> tuple[float, float]:
    """Front and rear of the sides: what overlay fronts and a back on the rear take is not theirs."""
    fronts = carcase.fronts
    front = 0.0
    if fronts is not None and not fronts.inset and carcase.closed:
        front = front_mm(carcase, thick) + fronts.stand_off
    rear = thick.back if carcase.back is not None and carcase.back.how == "rear" else 0.0
    return front, depth - rear


def _inset(carcase: Carcase) -> float:
    """From the rear edges to a back in a groove: room for the hanging rail, where there is one."""
    if carcase.back is None or carcase.back.how != "groove":
        return 0.0
    rail = carcase.hanging_rail
    return max(carcase.back.inset, rail.thickness if rail else 0.0)


def _cells(
    carcase: Carcase,
    number: int,
    x: tuple[float, float],
    z: tuple[float, float],
    thick: Thick,
    troubles: list[Finding],
) -> list[Cell]:
    """The rows of one bay from above."""
    bay = carcase.bays[number]
    rows = bay.rows
    shelves = sum(row.shelf_below for row in rows[:-1]) * thick.shelf
    heights = _shared(
        [row.height for row in rows], z[1] - z[0] - shelves, "height", [row.origin for row in rows], troubles
    )
    left = Limit("outer", "left side", thick.left)
    if number > 0:
        left = Limit("partition", f"divider {number}", thick.divider)
    right = Limit("outer", "right side", thick.right)
    if number < len(carcase.bays) - 1:
        right = Limit("partition", f"divider {number + 1}", thick.divider)
    above, top = Limit("outer", "top", thick.top), z[1]
    cells: list[Cell] = []
    for at, (row, high) in enumerate(zip(rows, heights, strict=True)):
        last = at == len(rows) - 1
        if last:
            below = Limit("outer", "bottom", thick.bottom)
        elif row.shelf_below:
            below = Limit("partition", f"fixed shelf {number + 1}.{at + 1}", thick.shelf)
        else:
            below = Limit("line", "", 0.0)
        cells.append(Cell(number, at, row, x, (top - high, top), left, right, below, above))
        top -= high + below.thickness_mm
        above = below
    return cells


def _shared(
    given: Sequence[float | None], whole: float, what: str, origins: Sequence[str], troubles: list[Finding]
) -> list[float]:
    """What is not given shares the rest equally; what does not add up is told and scaled."""
    known = sum(size for size in given if size is not None)
    missing = sum(size is None for size in given)
    rest = whole - known
    if missing and rest / missing >= LEAST_MM:
        return [size if size is not None else rest / missing for size in given]
    if not missing and abs(rest) <= CLOSE_MM:
        return [size for size in given if size is not None]
    if known > 0.0 or missing:
        troubles.append(_off(known, whole, what, missing, origins[-1] if origins else ""))
    equal = [size if size is not None else LEAST_MM for size in given]
    return [size * max(whole, LEAST_MM) / sum(equal) for size in equal] if equal else []


def _off(known: float, whole: float, what: str, missing: int, origin: str) -> Finding:
    message = said(
        "The {what:word}s given add up to {known:mm}, and there is room for {whole:mm}.",
        what=what,
        known=known,
        whole=whole,
    )
    return Finding(
        code=f"carcase.{what}s",
        severity=Severity.STOP,
        origin=f"{origin}.{what}",
        value=certain(known),
        limit=whole,
        unit="mm",
        message=message,
        why=said("Bays and what divides them must give the outside size, so must rows.")
        if missing == 0
        else said("Nothing is left for those whose size is left out."),
        source="sum of the sizes",
        remedies=(
            Remedy("carcase.leave_open", said("Leave one {what:word} out: it takes the rest.", what=what)),
        ),
    )


def _small(carcase: Carcase, clear: float, z: tuple[float, float], depth: float) -> list[Finding]:
    names = (("width", clear), ("height", z[1] - z[0]), ("depth", depth))
    return [
        Finding(
            code="carcase.no_room",
            severity=Severity.STOP,
            origin=f"{carcase.origin}.size",
            value=certain(size),
            limit=LEAST_MM,
            unit="mm",
            message=said(
                "Inside, {size:mm} of {what:word} is left; {least:mm} is the least there can be.",
                size=size,
                what=what,
                least=LEAST_MM,
            ),
            source="sum of the sizes",
            remedies=(Remedy("carcase.larger", said("Make it larger, or its panels thinner.")),),
        )
        for what, size in names
        if size < LEAST_MM
    ]
