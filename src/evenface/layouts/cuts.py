"""From a tree of cuts to a sheet: places, numbered cuts with fence settings, and whole offcuts.

Strips of equal width come one after another, so that the fence stays where it is; all strips are cut
before any is cut up; what is left over lies together at the far end of each region.
"""

from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from evenface.layouts.handling import handled
from evenface.layouts.records import Blank, Cut, Offcut, Placed, Saw, Sheet
from evenface.layouts.stock_records import Axis, Box, StockSize
from evenface.layouts.tree import OTHER, WASTE, Leaf, Node, Tree, join, leaves


@dataclass(frozen=True, slots=True)
class _Region:
    """A rectangle still to be cut up, what it holds, and the stage and way of the cut that made it."""

    x: int
    y: int
    length: int
    width: int
    holds: Tree | None
    stage: int
    axis: Axis | None

    def size(self, axis: Axis) -> int:
        return self.length if axis == "across" else self.width


@dataclass(slots=True)
class _Bench:
    """The cuts made so far, what has come off, and the deepest stage that is more than trimming."""

    blanks: Sequence[Blank]
    saw: Saw
    cuts: list[Cut] = field(default_factory=list)
    placed: list[Placed] = field(default_factory=list)
    offcuts: list[Offcut] = field(default_factory=list)
    waiting: deque[_Region] = field(default_factory=deque)
    stages: int = 0


def lay_out(
    tree: Tree,
    stock: StockSize,
    saw: Saw,
    blanks: Sequence[Blank],
    prefer: Callable[[Sheet], tuple[int, ...]] | None = None,
) -> Sheet:
    """The sheet a tree gives, of two orders of cutting the better one.

    One in which nothing above the saw's `most_turned` is turned goes before what is preferred.
    prefer : what makes a sheet better, the smaller the figures; None for the larger useful offcut.
    blanks : what the leaves' indices mean. A roll is cut off as long as the tree needs it.
    Raises ValueError when the tree is larger than the stock.
    """
    if stock.form != "board":  # where a piece lies in a board is not free
        tree = arranged(tree, saw.kerf)
    length = tree.length + 2 * stock.trim if stock.form == "roll" else (stock.length or 0)
    if tree.length > length - 2 * stock.trim or tree.width > stock.usable_width:
        raise ValueError(f"a plan of {tree.length} × {tree.width} does not go into stock {stock.id}")
    plain, stages = _cut_up(tree, stock, length, saw, blanks)
    other = OTHER[tree.axis] if isinstance(tree, Node) and stock.form != "board" else None
    if other is None or len(tree.children) < 2:  # type: ignore[union-attr]
        return plain
    ahead, stages = _cut_up(join(other, [tree], saw.kerf), stock, length, saw, blanks)
    if saw.stages is not None and stages > saw.stages:
        return plain
    light = [sheet for sheet in (plain, ahead) if not turns_too_much(sheet, saw)]
    choice = light or [plain, ahead]
    if prefer is not None:
        return min(choice, key=lambda sheet: (prefer(sheet), sheet is not plain))
    return max(choice, key=lambda sheet: (best_offcut(sheet, saw), sheet is plain))


def turns_too_much(sheet: Sheet, saw: Saw) -> bool:
    """Whether a piece above the limit is turned on the saw; nothing is where there is no limit."""
    if saw.most_turned is None or sheet.area <= saw.most_turned:
        return False
    turned = (one.length * one.width for one in handled(sheet, 0.0, 0.0) if one.turned)
    return max(turned, default=0) > saw.most_turned


def best_offcut(sheet: Sheet, saw: Saw) -> int:
    """Area of the largest useful offcut, 0 when none is useful."""
    return max((o.area for o in sheet.offcuts if o.useful(saw.least_offcut)), default=0)


def arranged(tree: Tree, kerf: int) -> Tree:
    """The same pieces by the same cuts, wide strips first and equal ones together."""
    if isinstance(tree, Leaf):
        return tree
    children: list[Tree] = []
    for child in tree.children:
        child = arranged(child, kerf)  # noqa: PLW2901
        if isinstance(child, Node) and child.axis == tree.axis:
            children.extend(child.children)
        else:
            children.append(child)
    across = tree.axis == "across"

    def rank(child: Tree) -> tuple[int, int, int]:
        along, other = (child.length, child.width) if across else (child.width, child.length)
        return -along, -other, min(leaf.blank for leaf in leaves(child))

    return join(tree.axis, sorted(children, key=rank), kerf)


def _cut_up(
    tree: Tree, stock: StockSize, length: int, saw: Saw, blanks: Sequence[Blank]
) -> tuple[Sheet, int]:
    bench = _Bench(blanks, saw)
    width = 1 if stock.form == "stick" else stock.width
    first = None if saw.first_cut == "any" else saw.first_cut
    if stock.damaged:
        x, y, long, wide = _without_damage(stock, length, bench)
    else:
        x, y, long, wide = stock.trim, stock.side_trim, length - 2 * stock.trim, stock.usable_width
    bench.waiting.append(_Region(x, y, long, wide, tree, 1 if first else 0, first))
    while bench.waiting:
        region = bench.waiting.popleft()
        if isinstance(region.holds, Leaf):
            _trim_piece(region, region.holds, bench)
        elif region.holds is not None:
            _cut_children(region, region.holds, bench)
    cuts = sorted(bench.cuts, key=lambda cut: cut.stage)
    ordered = _with_trims(cuts, length, width, stock, saw)
    numbered = tuple(replace(cut, number=number) for number, cut in enumerate(ordered, 1))
    sheet = Sheet(
        stock.id,
        stock.form,
        length,
        width,
        stock.trim,
        tuple(bench.placed),
        numbered,
        tuple(bench.offcuts),
        stock.timber,
    )
    return sheet, bench.stages


def _with_trims(cuts: list[Cut], length: int, width: int, stock: StockSize, saw: Saw) -> list[Cut]:
    """The trims before all cuts; of a sheet too heavy to be turned those across its first cuts after these."""
    inner = (length - 2 * stock.trim) * (width - 2 * stock.side_trim)
    begun = next((cut for cut in cuts if cut.stage > 0), None)
    heavy = saw.most_turned is not None and inner > saw.most_turned
    if not heavy or begun is None or not stock.side_trim or stock.damaged:
        return [*_trims(length, width, stock, saw.kerf, "along"), *cuts]
    trims = _trims(length, width, stock, saw.kerf, begun.axis)
    strips = [cut for cut in cuts if cut.stage == begun.stage]
    return [*trims[:2], *strips, *trims[2:], *cuts[len(strips) :]]


def _trims(length: int, width: int, stock: StockSize, kerf: int, first: Axis) -> list[Cut]:
    """Two opposite edges, then the other two; each time the sound part lies between fence and saw."""
    trim, k = stock.trim, min(kerf, stock.trim)
    if not trim:
        return []
    side = stock.side_trim
    sizes: dict[Axis, tuple[int, int, int]] = {
        "along": (width, length, trim),
        "across": (length, width, side),
    }
    cuts: list[Cut] = []
    for axis in (first, OTHER[first]):
        size, run, ends = sizes[axis]
        if axis == "along" and not side:
            continue
        low, high = (0, run) if not cuts else (ends, run - ends)
        cuts.append(Cut(0, 0, size - trim, low, high, axis, trim - k, k))
        cuts.append(Cut(0, 0, size - 2 * trim, low, high, axis, size - trim, k))
    return cuts


def _without_damage(stock: StockSize, length: int, bench: _Bench) -> Box:
    """The sound part of a damaged sheet; one straight cut takes the rest of it off first."""
    sound = x, y, long, wide = stock.sound
    x0, y0, x1, y1 = stock.trim, stock.side_trim, length - stock.trim, stock.width - stock.side_trim
    if wide == y1 - y0 and long < x1 - x0:
        kerf = min(bench.saw.kerf, x1 - x0 - long)
        at = x + long if x == x0 else x - kerf
        bench.cuts.append(Cut(0, 1, long, y0, y1, "across", at, kerf))
        rest = Offcut(at + kerf, y, x1 - at - kerf, wide) if x == x0 else Offcut(x0, y, at - x0, wide)
    elif wide < y1 - y0:
        kerf = min(bench.saw.kerf, y1 - y0 - wide)
        at = y + wide if y == y0 else y - kerf
        bench.cuts.append(Cut(0, 1, wide, x0, x1, "along", at, kerf))
        rest = Offcut(x, at + kerf, long, y1 - at - kerf) if y == y0 else Offcut(x, y0, long, at - y0)
    else:
        return sound
    if min(rest.length, rest.width) > 0:
        bench.offcuts.append(rest)
    return sound


def _cut_children(region: _Region, node: Node, bench: _Bench) -> None:
    rest = region
    for number, child in enumerate(node.children, 1):
        size = child.length if node.axis == "across" else child.width
        last = number == len(node.children)
        rest = _take_off(rest, node.axis, size, child, last, bench)


def _take_off(
    region: _Region, axis: Axis, size: int, holds: Tree, last: bool, bench: _Bench, trims: bool = False
) -> _Region:
    """Cut a strip of `size` off the region; put it in the queue and give back the rest."""
    left = region.size(axis) - size
    if left == 0:
        bench.waiting.append(replace(region, holds=holds))
        return region
    stage = region.stage + (axis != region.axis)
    kerf = min(bench.saw.kerf, left)
    across = axis == "across"
    near, begin = (region.x, region.y) if across else (region.y, region.x)
    end = begin + region.size(OTHER[axis])
    bench.cuts.append(Cut(0, stage, size, begin, end, axis, near + size, kerf))
    bench.stages = max(bench.stages, stage - 1 if trims or last else stage)
    made = replace(region, stage=stage, axis=axis, holds=holds)
    rest = replace(made, holds=None)
    if across:
        made = replace(made, length=size)
        rest = replace(rest, x=region.x + size + kerf, length=left - kerf)
    else:
        made = replace(made, width=size)
        rest = replace(rest, y=region.y + size + kerf, width=left - kerf)
    bench.waiting.append(made)
    if last and left > kerf:
        bench.offcuts.append(Offcut(rest.x, rest.y, rest.length, rest.width))
    return rest


def _trim_piece(region: _Region, leaf: Leaf, bench: _Bench) -> None:
    """Cut the piece to size, first the way that leaves the larger offcut, and take it off the bench."""
    if leaf.blank == WASTE:
        bench.offcuts.append(Offcut(region.x, region.y, region.length, region.width))
        return
    sizes: dict[Axis, int] = {"across": leaf.length, "along": leaf.width}
    over = {axis: region.size(axis) - size for axis, size in sizes.items()}
    if any(over.values()):
        axis = max(OTHER, key=lambda a: (over[a] > 0, over[a] * region.size(OTHER[a]), a == region.axis))
        _take_off(region, axis, sizes[axis], leaf, last=True, bench=bench, trims=True)
        return
    blank = bench.blanks[leaf.blank]
    bench.placed.append(
        Placed(
            blank.id,
            blank.part,
            region.x,
            region.y,
            leaf.length,
            leaf.width,
            leaf.turned,
            blank.inside,
            blank.parted,
        )
    )
