"""What can only be said of a top on its base: people, load, balance, the way to its place, joints and fixings."""

from collections.abc import Iterator

from evenface.construction.ground import Ground
from evenface.construction.kinds.top_on_base.holding import holding
from evenface.construction.kinds.top_on_base.records import TopOnBase
from evenface.construction.kinds.top_on_base.sagging import sagging
from evenface.construction.kinds.top_on_base.sitting import sitting
from evenface.construction.kinds.top_on_base.sizes import base_sizes, troubles_of
from evenface.construction.kinds.top_on_base.slips import slips
from evenface.construction.kinds.top_on_base.standing import standing
from evenface.construction.kinds.top_on_base.way import way_in
from evenface.construction.records import Construction
from evenface.finding import Finding


def check(construction: Construction, ground: Ground) -> tuple[Finding, ...]:
    """Findings `seat.*`, `knee.*`, `table.*`, `sag.*`, `stand.*`, `lift.*`, `way.*`, `base.*`, `fixing.*`."""
    piece = construction.piece.description
    assert isinstance(piece, TopOnBase)
    sizes = base_sizes(piece, ground)
    if troubles_of(piece, sizes):
        return ()
    return tuple(_all(piece, construction, ground))


def _all(piece: TopOnBase, construction: Construction, ground: Ground) -> Iterator[Finding]:
    sizes = base_sizes(piece, ground)
    yield from slips(piece, sizes)
    yield from holding(piece, ground, sizes)
    yield from sitting(piece, sizes)
    yield from sagging(piece, construction, ground, sizes)
    yield from standing(piece, construction, ground, sizes)
    yield from way_in(piece, construction, sizes)
