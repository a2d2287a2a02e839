"""A second look at every layout, by code that shares nothing with what made it but the records.

Each rule is a question of its own, kept in `RULES`; leave one out and the faults it guards against pass
unseen (a test does exactly that). All in whole hundredths of a millimetre.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from itertools import combinations

from evenface.finding import Severity
from evenface.layouts.records import Blank, Demand, Layout, Placed
from evenface.layouts.verify_bench import Bench, Fault

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
    """Each sheet is one of the stock sizes, with its trim and faults, and no more are taken than there are."""
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
        told = (sheet.width, sheet.trim, sheet.form, sheet.timber)
        if too_long or unlike or told != (wide, size.trim, size.form, size.timber):
            yield Fault("stock", number, sheet.stock, abs(sheet.length - (size.length or 0)))
    for stock_id, count in used.items():
        copies = stock[stock_id].copies if stock_id in stock else None
        if copies is not None and count > copies:
            yield Fault("stock", -1, stock_id, count - copies)


def cuts_give_the_pieces(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """Made one after another, the numbered cuts leave exactly the pieces, the offcuts and the trims."""
    for number, sheet in enumerate(layout.sheets):
        yield from Bench(number, sheet, demand.saw.stages, demand.saw.first_cut, demand.saw.kerf).faults()


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


def batches_kept(demand: Demand, layout: Layout) -> Iterator[Fault]:
    """What has to come from a batch does, and no set comes from two, or from stock whose batch nobody told."""
    batch_of = {size.id: size.batch for size in demand.stock}
    asked = {blank.id: blank for blank in demand.blanks}
    found: dict[str, set[str]] = {}
    for number, piece in _pieces(layout):
        blank, batch = asked.get(piece.blank), batch_of.get(layout.sheets[number].stock)
        if blank is None or batch is None:
            continue
        if blank.batch is not None and batch != blank.batch:
            yield Fault("batch", number, piece.blank)
        if blank.same_batch:
            found.setdefault(blank.same_batch, set()).add(batch)
    for name, batches in found.items():
        if len(batches) > 1 or "?" in batches:
            yield Fault("batch", -1, name, len(batches))


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
    batches_kept,
    clear_wood,
    thick_enough,
)


def _pieces(layout: Layout) -> Iterator[tuple[int, Placed]]:
    for number, sheet in enumerate(layout.sheets):
        for piece in sheet.placed:
            yield number, piece
