"""How a sheet comes apart: a tree of cuts, with pieces for leaves.

A node's children lie one after another, `across` the sheet's length side by side in x, or `along` it
stacked in y, one kerf between neighbours. Positions follow from the tree alone, so a plan is kept as a
tree and placed only when it is laid out.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from evenface.layouts.stock_records import Axis

OTHER: dict[Axis, Axis] = {"along": "across", "across": "along"}


WASTE = -1
"""Index of a leaf that is no piece: wood round a fault of a board, left where it lies."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """A piece as it lies: index of its blank, and its size along x and y."""

    blank: int
    length: int
    width: int
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Node:
    """Children separated by cuts of one axis; `length` and `width` enclose them all."""

    axis: Axis
    children: "tuple[Tree, ...]"
    length: int = field(compare=False)
    width: int = field(compare=False)


type Tree = Leaf | Node
type Spot = tuple[int, int, Leaf]
"""x, y and the piece lying there."""


def join(axis: Axis, children: Iterable[Tree], kerf: int) -> Node:
    """A node round its children; ValueError when there are none."""
    parts = tuple(children)
    gaps = kerf * (len(parts) - 1)
    if axis == "across":
        return Node(axis, parts, sum(p.length for p in parts) + gaps, max(p.width for p in parts))
    return Node(axis, parts, max(p.length for p in parts), sum(p.width for p in parts) + gaps)


def swapped(tree: Tree) -> Tree:
    """The same tree with x and y exchanged."""
    if isinstance(tree, Leaf):
        return Leaf(tree.blank, tree.width, tree.length, tree.turned)
    return Node(OTHER[tree.axis], tuple(map(swapped, tree.children)), tree.width, tree.length)


def leaves(tree: Tree) -> Iterator[Leaf]:
    """All pieces of the tree, waste left out."""
    waiting = [tree]
    while waiting:
        here = waiting.pop()
        if isinstance(here, Leaf):
            if here.blank != WASTE:
                yield here
        else:
            waiting.extend(reversed(here.children))


def recover(spots: list[Spot], kerf: int, first: Axis | None) -> Tree:
    """A tree of cuts that gives these places, with as few changes of direction as there can be.

    first : which way the first cuts must run, None when either may.
    Raises ValueError when no sequence of straight cuts through and through parts the pieces.
    """
    if first is not None:
        tree = _parted(spots, kerf, first)
        return tree if isinstance(tree, Node) and tree.axis == first else join(first, [tree], kerf)
    trees = []
    for axis in OTHER:
        tree = _parted(spots, kerf, axis)
        trees.append((depth(tree), tree))
    return min(trees, key=lambda pair: pair[0])[1]


def depth(tree: Tree) -> int:
    """Greatest number of nodes from the root to a piece."""
    return 0 if isinstance(tree, Leaf) else 1 + max(map(depth, tree.children))


def _parted(spots: list[Spot], kerf: int, axis: Axis) -> Tree:
    if len(spots) == 1:
        return spots[0][2]
    for way in (axis, OTHER[axis]):
        groups = _groups(spots, kerf, way)
        if len(groups) > 1:
            return join(way, (_parted(group, kerf, OTHER[way]) for group in groups), kerf)
    raise ValueError(f"no straight cut parts the {len(spots)} pieces round ({spots[0][0]}, {spots[0][1]})")


def _groups(spots: list[Spot], kerf: int, axis: Axis) -> list[list[Spot]]:
    """Pieces between which a cut of the axis passes, in the order in which they lie."""
    across = axis == "across"
    groups: list[list[Spot]] = []
    reached = 0
    for spot in sorted(spots, key=lambda s: s[0] if across else s[1]):
        low, size = (spot[0], spot[2].length) if across else (spot[1], spot[2].width)
        if groups and low < reached + kerf:
            groups[-1].append(spot)
            reached = max(reached, low + size)
        else:
            groups.append([spot])
            reached = low + size
    return groups
