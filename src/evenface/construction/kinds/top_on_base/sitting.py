"""Room for people: width and knee room of seats, height, depth and reach of the top."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.kinds.top_on_base.records import TopOnBase
from evenface.construction.kinds.top_on_base.sizes import BaseSizes
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Side
from evenface.words import Said, said

SEAT_MM: Final = (584.0, 610.0, 760.0)
"""A maker's guide, read: least width of a seat, usual, with arms or in comfort."""
KNEES_MM: Final = (585.0, 635.0)
"""A contract design guide, read: clear under an apron; the guide gives the range, not who needs which end."""
HEIGHT_MM: Final = (720.0, 760.0)
"""A magazine, read: 735 to 760; northern Europe 720 to 750 from memory."""
REACH_MM: Final = 710.0
PLACE_MM: Final = 305.0
END_PLACE_MM: Final = 355.0
FACING_MM: Final = 915.0
"""A maker's guide, read: reach, depth of a place, at an end 305 to 355, of a table with seats facing each other."""
GUIDE: Final = "a maker's guide, read"
CONTRACT: Final = "a contract design guide, read"


def sitting(piece: TopOnBase, sizes: BaseSizes) -> Iterator[Finding]:
    """Findings `seat.narrow`, `knee.low`, `knee.end`, `table.height`, `table.reach`, `table.shallow`."""
    if not piece.seats.any:
        return
    for side in Side:
        if piece.seats.at(side):
            yield from _width(piece, sizes, side)
            yield from _knees(piece, sizes, side)
            yield from _end(piece, side)
    yield from _height(piece)
    yield from _depth(piece)


def clear_between_legs_mm(piece: TopOnBase, sizes: BaseSizes, side: Side) -> float:
    """What sitters at that side have between two legs or two supports. [mm]"""
    if piece.legs is not None:
        return sizes.clear[0 if side.runs_along_length else 1]
    supports = piece.supports
    assert supports is not None
    if not side.runs_along_length:
        return sizes.y[1] - sizes.y[0]
    return (sizes.x[1] - sizes.x[0] - supports.count * supports.width) / (supports.count - 1)


def _width(piece: TopOnBase, sizes: BaseSizes, side: Side) -> Iterator[Finding]:
    seats = piece.seats.at(side)
    bays = 1
    if piece.supports is not None and side.runs_along_length:
        bays = piece.supports.count - 1
    clear = clear_between_legs_mm(piece, sizes, side)
    each = clear / -(-seats // bays)
    least, usual, arms = SEAT_MM
    wanted = arms if piece.seats.arms else usual
    if each >= wanted:
        return
    severity = Severity.WEIGH if each < (arms if piece.seats.arms else least) else Severity.NOTE
    fits = bays * int(clear // wanted)
    yield _finding(
        "seat.narrow", severity, f"{piece.origin}.seats.{side.value}", side.value, each, wanted,
        said(
            "{seats:count} seats at the {side:word} have {each:mm} each between the legs; {least:mm} is the least, "
            "{usual:mm} usual, {arms:mm} with arms.",
            seats=seats, side=side.value, each=each, least=least, usual=usual, arms=arms,
        ), GUIDE, Remedy("seat.fewer", said("Seat {fits:count} there, or make the piece wider.", fits=fits)),
    )  # fmt: skip


def _knees(piece: TopOnBase, sizes: BaseSizes, side: Side) -> Iterator[Finding]:
    high = piece.apron.height_at(side) if piece.apron else 0.0
    clear, (least, ample) = sizes.legs_mm - high, KNEES_MM
    if clear >= ample:
        return
    lower = high - (ample - clear)
    mend = (
        said("Make the apron there {high:mm} high, or the piece higher.", high=lower)
        if lower >= 40.0
        else said("Make the piece higher, or its top thinner.")
    )
    yield _finding(
        "knee.low", Severity.WEIGH if clear < least else Severity.NOTE, f"{piece.origin}.apron", side.value, clear,
        ample, said(
            "{clear:mm} is clear for knees at the {side:word}; sources ask for {least:mm} to {ample:mm}.",
            clear=clear, side=side.value, least=least, ample=ample,
        ), CONTRACT, Remedy("knee.lower_apron", mend),
    )  # fmt: skip


def _end(piece: TopOnBase, side: Side) -> Iterator[Finding]:
    """At an end the apron stands before the knees: they have the overhang."""
    if side.runs_along_length:
        return
    over = piece.overhang[side]
    if over >= END_PLACE_MM:
        return
    yield _finding(
        "knee.end", Severity.NOTE, f"{piece.origin}.overhang", side.value, over, END_PLACE_MM,
        said(
            "Who sits at the {side:word} end has {over:mm} of overhang before the apron, and knees under it only as "
            "far as it is high enough; a place there is {least:mm} to {most:mm} deep.",
            side=side.value, over=over, least=PLACE_MM, most=END_PLACE_MM,
        ), GUIDE, Remedy("knee.overhang", said("Let the top hang over further there, if it does not tip.")),
    )  # fmt: skip


def _height(piece: TopOnBase) -> Iterator[Finding]:
    height, (low, high) = piece.size_mm[1], HEIGHT_MM
    if low <= height <= high:
        return
    yield _finding(
        "table.height", Severity.NOTE, f"{piece.origin}.size", "height", height, low if height < low else high,
        said(
            "{height:mm} is not a usual height to sit at; sources give {low:mm} to {high:mm}.",
            height=height, low=low, high=high,
        ), "a magazine, read, 735 to 760; 720 to 750 in northern Europe from memory",
        Remedy("table.chair", said("Try it with the chair that will be used.")), Status.MEMORY,
    )  # fmt: skip


def _depth(piece: TopOnBase) -> Iterator[Finding]:
    depth = piece.size_mm[2]
    both = piece.seats.front > 0 and piece.seats.rear > 0
    if both and depth < FACING_MM:
        yield _finding(
            "table.shallow", Severity.NOTE, f"{piece.origin}.size", "depth", depth, FACING_MM,
            said(
                "Seats facing each other over {depth:mm}; {least:mm} is the least given for it.",
                depth=depth, least=FACING_MM,
            ), GUIDE, Remedy("table.deeper", said("Make it deeper, or seat one side.")),
        )  # fmt: skip
    elif not both and (piece.seats.front or piece.seats.rear) and depth > REACH_MM:
        yield _finding(
            "table.reach", Severity.NOTE, f"{piece.origin}.size", "depth", depth, REACH_MM,
            said(
                "The rear edge is {depth:mm} away; sitting, one reaches about {reach:mm}.",
                depth=depth, reach=REACH_MM,
            ), GUIDE, Remedy("table.shallower", said("Keep the rear for what is seldom used.")),
        )  # fmt: skip


def _finding(
    code: str,
    severity: Severity,
    origin: str,
    at: str,
    value: float,
    limit: float,
    message: Said,
    source: str,
    remedy: Remedy,
    weakest: Status = Status.READ,
) -> Finding:
    return Finding(
        code=code, severity=severity, origin=origin, at=at, value=certain(value), limit=limit, unit="mm",
        message=message, source=source, weakest=weakest, remedies=(remedy,),
    )  # fmt: skip
