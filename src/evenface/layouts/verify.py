"""A second look at every layout, by code that shares nothing with what made it but the records.

Each rule is a question of its own, kept in `RULES`; leave one out and the faults it guards against pass
unseen (a test does exactly that). All in whole hundredths of a millimetre.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations

from evenface.finding import Severity
from evenface.layouts.records import Blank, Cut, Demand, Layout, Placed, Sheet


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong: the rule broken, the sheet (from 0; -1 for the whole layout), what, by how much."""

    rule: str
    sheet: int
    what: str
    amount: int = 0


type Rule = Callable[[Demand, Layout], Iterator[Fault]]


def verify(demand: Demand, layout: Layout, rules: "Sequence[Rule] | None" = None) -> tuple[Fault, ...]:
    """Every fault of a layout against what was demanded; empty when there is none."""
    return tuple(fault for rule in (RULES if rules is None else rules) for fault in rule(demand, layout))


def right_counts(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Each blank is cut as often as asked, less what the layout itself says it left out."""
    made = Counter(piece.blank for sheet in layout.sheets for piece in sheet.placed)
    left_out = Counter(dict(layout.unplaced))
    asked = {blank.id: blank.count for blank in demand.blanks}
    for blank_id in sorted(asked.keys() | made.keys()):
        missing = asked.get(blank_id, 0) - made[blank_id] - left_out[blank_id]
        if missing:
            yield Fault("counts", -1, blank_id, missing)


def right_sizes(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Each piece has the size of its blank, lying straight or, where it says so, turned."""
    blanks = {blank.id: blank for blank in demand.blanks}
    stick = demand.stock[0].form == "stick"
    for number, piece in _pieces(layout):
        blank = blanks.get(piece.blank)
        if blank is None:
            continue
        size = (blank.width, blank.length) if piece.turned else (blank.length, blank.width)
        if stick:
            size = (blank.length, 1)
        if (piece.length, piece.width) != size:
            yield Fault(
                "sizes", number, piece.blank, abs(piece.length - size[0]) + abs(piece.width - size[1])
            )


def right_direction(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Only a blank that may turn lies across; one that lies across in fact counts, whatever it says."""
    blanks = {blank.id: blank for blank in demand.blanks}
    for number, piece in _pieces(layout):
        blank = blanks.get(piece.blank)
        if blank is not None and not blank.may_turn and _lies_across(piece, blank):
            yield Fault("direction", number, piece.blank)


def _lies_across(piece: Placed, blank: Blank) -> bool:
    swapped = (piece.length, piece.width) == (blank.width, blank.length) and blank.length != blank.width
    return piece.turned or swapped


def inside_the_trims(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """No piece reaches into the trim or over the edge of its sheet."""
    for number, sheet in enumerate(layout.sheets):
        side = 0 if sheet.form in ("stick", "board") else sheet.trim
        for piece in sheet.placed:
            out = max(
                sheet.trim - piece.x,
                side - piece.y,
                piece.x + piece.length - (sheet.length - sheet.trim),
                piece.y + piece.width - (sheet.width - side),
            )
            if out > 0:
                yield Fault("trims", number, piece.blank, out)


def kerf_between(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Any two pieces of a sheet have at least a kerf between them along one direction."""
    kerf = demand.saw.kerf
    for number, sheet in enumerate(layout.sheets):
        for one, other in combinations(sheet.placed, 2):
            gap_x = max(other.x - one.x - one.length, one.x - other.x - other.length)
            gap_y = max(other.y - one.y - one.width, one.y - other.y - other.width)
            short = kerf - max(gap_x, gap_y)
            if short > 0:
                yield Fault("kerf", number, f"{one.blank} and {other.blank}", short)


def stock_that_exists(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Each sheet is one of the stock sizes, with its trim, and no more are taken than there are."""
    stock = {size.id: size for size in demand.stock}
    used = Counter(sheet.stock for sheet in layout.sheets)
    for number, sheet in enumerate(layout.sheets):
        size = stock.get(sheet.stock)
        if size is None:
            yield Fault("stock", number, sheet.stock)
            continue
        wide = 1 if size.form == "stick" else size.width
        too_long = size.form == "roll" and size.length is not None and sheet.length > size.length
        unlike = size.form != "roll" and sheet.length != size.length
        if too_long or unlike or sheet.width != wide or sheet.trim != size.trim or sheet.form != size.form:
            yield Fault("stock", number, sheet.stock, abs(sheet.length - (size.length or 0)))
    for stock_id, count in used.items():
        copies = stock[stock_id].copies if stock_id in stock else None
        if copies is not None and count > copies:
            yield Fault("stock", -1, stock_id, count - copies)


def cuts_give_the_pieces(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Made one after another, the numbered cuts leave exactly the pieces, the offcuts and the trims."""
    for number, sheet in enumerate(layout.sheets):
        yield from _Bench(number, sheet, demand.saw.stages, demand.saw.first_cut, demand.saw.kerf).faults()


def areas_close(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Pieces, offcuts, kerfs and trims add up to the sheet, to the last square hundredth."""
    for number, sheet in enumerate(layout.sheets):
        side = 0 if sheet.form in ("stick", "board") else sheet.trim
        whole = sheet.length * sheet.width
        inner = (sheet.length - 2 * sheet.trim) * (sheet.width - 2 * side)
        used = sum(piece.length * piece.width for piece in sheet.placed)
        used += sum(offcut.length * offcut.width for offcut in sheet.offcuts)
        used += sum((cut.to_ - cut.from_) * cut.kerf for cut in sheet.cuts if cut.stage > 0)
        if used + whole - inner != whole:
            yield Fault("areas", number, sheet.stock, abs(inner - used))


def bought_is_what_is_used(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """The number bought, by size, the running length and the area are those of the sheets shown."""
    used = Counter(sheet.stock for sheet in layout.sheets)
    running = sum(sheet.length for sheet in layout.sheets if sheet.form == "roll")
    area = sum(sheet.length * sheet.width for sheet in layout.sheets)
    bought = layout.bought
    told = (bought.count, dict(bought.by_stock), bought.running_length, bought.area)
    if told != (len(layout.sheets), dict(used), running, area):
        yield Fault("bought", -1, layout.material, abs(bought.count - len(layout.sheets)))
    if bought.price != _price(demand, layout):
        yield Fault("bought", -1, "price")


def _price(demand: Demand, layout: Layout) -> Decimal | None:
    """What the sheets cost: each by the piece, of a roll by the metre; None when a price is not known."""
    prices = {stock.id: stock.price for stock in demand.stock}
    total = Decimal(0)
    for sheet in layout.sheets:
        price = prices.get(sheet.stock)
        if price is None:
            return None
        total += price * sheet.length / 100_000 if sheet.form == "roll" else price
    return total


def claims_hold(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """The bound is not above what is bought, "proved" is said only when both agree, and what is left out is told."""
    if layout.measure < layout.bound and not layout.unplaced:
        yield Fault("claims", -1, "the bound is above the plan")
    if layout.proved and (layout.measure != layout.bound or layout.unplaced):
        yield Fault("claims", -1, "called proved, and is not")
    if layout.unplaced and not any(finding.severity is Severity.STOP for finding in layout.findings):
        yield Fault("claims", -1, "pieces are left out and no finding says so", len(layout.unplaced))


def cut_apart_in_order(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """What is cut from a blank last lies in it in the order asked, whole, a kerf between neighbours."""
    blanks = {blank.id: blank for blank in demand.blanks}
    for number, piece in _pieces(layout):
        blank = blanks.get(piece.blank)
        if blank is None:
            continue
        asked = [(one.part, one.layer, one.size) for one in blank.inside]
        told = [(one.part, one.layer, one.size) for one in piece.inside]
        if told != asked or (asked and piece.parted != blank.parted):
            yield Fault("apart", number, piece.blank)
            continue
        whole = piece.width if (blank.parted == "along") is not piece.turned else piece.length
        free = 0
        for one in piece.inside:
            short = max(free - one.start, one.start + one.size - whole)
            if short > 0:
                yield Fault("apart", number, f"{one.part} in {piece.blank}", short)
            free = one.start + one.size + demand.saw.kerf


def sets_on_one_sheet(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Blanks that are to come from one sheet do."""
    same = {blank.id: blank.same for blank in demand.blanks if blank.same}
    places: dict[str, set[int]] = {}
    for number, piece in _pieces(layout):
        if piece.blank in same:
            places.setdefault(same[piece.blank], set()).add(number)
    for name, numbers in places.items():
        if len(numbers) > 1:
            yield Fault("same", min(numbers), name, len(numbers))


def clear_wood(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """No piece of a board holds wane, a knot or a split, or reaches over its tapered edge."""
    stock = {size.id: size for size in demand.stock}
    for number, sheet in enumerate(layout.sheets):
        size = stock.get(sheet.stock)
        timber = size.timber if size is not None else None
        if size is None or timber is None or not size.length:
            continue
        near = size.width if timber.near_width is None else timber.near_width
        far = near if timber.far_width is None else timber.far_width
        for piece in sheet.placed:
            low, high = piece.y, piece.y + piece.width
            begin, end = piece.x, piece.x + piece.length
            for flaw in timber.flaws:
                clear = (
                    flaw.x >= end
                    or flaw.x + flaw.length <= begin
                    or flaw.y >= high
                    or flaw.y + flaw.width <= low
                )
                if not clear:
                    yield Fault("clear", number, piece.blank, flaw.length)
            # the upper edge is straight: where it is lowest above the piece is at one of the piece's ends
            over = max((high + timber.wane[1] - near) * size.length - (far - near) * x for x in (begin, end))
            if low < timber.wane[0] or over > 0:
                yield Fault("clear", number, piece.blank, max(timber.wane[0] - low, over // size.length))


def thick_enough(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """A board or stick is as thick as what is planed from it asks for."""
    asked = {blank.id: blank.thickness for blank in demand.blanks}
    thick = {size.id: size.thickness for size in demand.stock}
    for number, sheet in enumerate(layout.sheets):
        has = thick.get(sheet.stock, 0)
        for piece in sheet.placed:
            short = asked.get(piece.blank, 0) - has
            if has and short > 0:
                yield Fault("thickness", number, piece.blank, short)


RULES: tuple[Rule, ...] = (
    right_counts,
    right_sizes,
    right_direction,
    inside_the_trims,
    kerf_between,
    stock_that_exists,
    cuts_give_the_pieces,
    areas_close,
    bought_is_what_is_used,
    claims_hold,
    cut_apart_in_order,
    sets_on_one_sheet,
    clear_wood,
    thick_enough,
)


def _pieces(layout: Layout) -> Iterator[tuple[int, Placed]]:
    for number, sheet in enumerate(layout.sheets):
        for piece in sheet.placed:
            yield number, piece


type _Box = tuple[int, int, int, int]
"""x0, y0, x1, y1."""


@dataclass(slots=True)
class _Bit:
    """A bit of the sheet on the bench, the way of the cut that freed it and how often that changed."""

    box: _Box
    changes: int
    axis: str | None


class _Bench:
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
        bit = next((bit for bit in self.bits if _passes_through(cut, bit.box)), None)
        if bit is None or cut.kerf < 0:
            yield Fault("cuts", self.number, f"cut {cut.number} runs through nothing whole")
            return
        self.bits.remove(bit)
        low, high = _split(cut, bit.box)
        if cut.kerf != self.kerf and (cut.kerf > self.kerf or (low is not None and high is not None)):
            # only a cut that runs off the edge takes less than the whole kerf
            yield Fault("cuts", self.number, f"cut {cut.number} takes {cut.kerf}", abs(cut.kerf - self.kerf))
        if cut.stage == 0 and not self._is_trim(low, high):
            yield Fault("cuts", self.number, f"cut {cut.number} is called a trim and is none")
        if cut.fence not in {_across(cut, part) for part in (low, high) if part is not None}:
            yield Fault("cuts", self.number, f"cut {cut.number}: the fence is set to {cut.fence}", cut.fence)
        changes = bit.changes if cut.stage == 0 else bit.changes + (cut.axis != bit.axis)
        axis = bit.axis if cut.stage == 0 else cut.axis
        self.bits += [_Bit(part, changes, axis) for part in (low, high) if part is not None]
        if self.stages is not None and changes > self.stages and not self._only_trims(low, high, changes):
            yield Fault("stages", self.number, f"cut {cut.number}", changes - self.stages)

    def _is_trim(self, low: _Box | None, high: _Box | None) -> bool:
        """Whether one side of the cut lies outside what is left of the sheet inside its trims."""
        inner = _inner(self.sheet)
        return any(part is None or not _overlaps(part, inner) for part in (low, high))

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


def _passes_through(cut: Cut, box: _Box) -> bool:
    """Whether the cut runs from one side of the box to the other, inside it."""
    x0, y0, x1, y1 = box
    if cut.axis == "along":
        return (cut.from_, cut.to_) == (x0, x1) and y0 <= cut.position and cut.position + cut.kerf <= y1
    return (cut.from_, cut.to_) == (y0, y1) and x0 <= cut.position and cut.position + cut.kerf <= x1


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
