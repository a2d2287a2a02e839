"""Whatever is cut up adds up to the last unit; every fault is found: sheets, rolls, sticks, boards, runs, seams."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import (
    Blank,
    Demand,
    Flaw,
    Inside,
    Layout,
    Placed,
    Saw,
    Sheet,
    StockSize,
    Timber,
    solve_all,
    verify,
)
from evenface.layouts.stock_records import Axis

ROLL = StockSize("r", "linoleum", "roll", None, 183_000, trim=500)
RUN = StockSize("r", "linoleum", "roll", 400_000, 183_000)
STICK = StockSize("s", "ash", "stick", 250_000, trim=5_000)
SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)
FAULTS_EACH = 110


def solved(demand: Demand) -> Layout:
    (layout,) = solve_all((demand,), budget_s=0.0)
    assert layout.checked
    return layout


def adds_up(demand: Demand, layout: Layout) -> None:
    """Bought − rests − saw cuts − trims − parts = 0, reckoned here from the records alone."""
    for sheet in layout.sheets:
        side = 0 if sheet.form in ("stick", "board") else sheet.trim
        left = sheet.length * sheet.width
        left -= sum(rest.length * rest.width for rest in sheet.offcuts)
        left -= sum((cut.to_ - cut.from_) * cut.kerf for cut in sheet.cuts if cut.stage > 0)
        left -= sheet.length * sheet.width - (sheet.length - 2 * sheet.trim) * (sheet.width - 2 * side)
        left -= sum(piece.length * piece.width for piece in sheet.placed)
        assert left == 0
    placed = sum(len(sheet.placed) for sheet in layout.sheets) + sum(count for _, count in layout.unplaced)
    assert placed == demand.pieces
    assert verify(demand, layout) == ()


SIZES = st.lists(
    st.tuples(st.integers(1_000, 180_000), st.integers(1_000, 120_000), st.integers(1, 5)),
    min_size=1,
    max_size=7,
)


@settings(max_examples=25, deadline=None)
@given(SIZES, st.sampled_from([ROLL, RUN]), st.sampled_from([0, 17, 320]), st.booleans())
def test_rolls_add_up(sizes: list[tuple[int, int, int]], roll: StockSize, kerf: int, turn: bool) -> None:
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", *one, turn) for n, one in enumerate(sizes))
    demand = Demand("linoleum", blanks, (roll,), Saw(kerf=kerf))
    adds_up(demand, solved(demand))


@settings(max_examples=25, deadline=None)
@given(SIZES, st.sampled_from([0, 17, 320]))
def test_sticks_add_up(sizes: list[tuple[int, int, int]], kerf: int) -> None:
    blanks = tuple(Blank(f"b{n}", f"{n}", "edging", one[0], 2_000, one[2]) for n, one in enumerate(sizes))
    demand = Demand("ash", blanks, (STICK,), Saw(kerf=kerf, first_cut="across"))
    adds_up(demand, solved(demand))


@settings(max_examples=25, deadline=None)
@given(
    SIZES,
    st.lists(st.tuples(st.integers(20_000, 244_000), st.integers(20_000, 122_000)), max_size=2),
    st.integers(0, 400),
)
def test_sheets_of_several_sizes_add_up(
    sizes: list[tuple[int, int, int]], rests: list[tuple[int, int]], kerf: int
) -> None:
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", *one, n % 2 == 0) for n, one in enumerate(sizes))
    more = tuple(StockSize(f"o{n}", "board", "sheet", *one, 1, offcut=True) for n, one in enumerate(rests))
    demand = Demand("board", blanks, (SHEET, *more), Saw(kerf=kerf))
    adds_up(demand, solved(demand))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(3_000, 30_000), min_size=2, max_size=5),
    st.integers(8_000, 100_000),
    st.integers(1, 3),
    st.sampled_from([0, 17, 320]),
    st.sampled_from(["along", "across"]),
)
def test_runs_add_up_to_the_last_part(
    sizes: list[int], other: int, count: int, kerf: int, parted: Axis
) -> None:
    """Of a run the parts and the cuts between them give the blank; of the sheet everything gives the sheet."""
    starts = [sum(sizes[:n]) + n * kerf for n in range(len(sizes))]
    inside = tuple(
        Inside(f"{n}", "face", at, size) for n, (at, size) in enumerate(zip(starts, sizes, strict=True))
    )
    long = starts[-1] + sizes[-1]
    blank = Blank(
        "r", "0", "face", *((other, long) if parted == "along" else (long, other)), count,
        inside=inside, parted=parted, run="doors",
    )  # fmt: skip
    demand = Demand("board", (blank, Blank("b", "9", "face", 20_000, 15_000, 2)), (SHEET,), Saw(kerf=kerf))
    layout = solved(demand)
    adds_up(demand, layout)
    for piece in (one for sheet in layout.sheets for one in sheet.placed if one.inside):
        parts = sum(one.length * one.width for one in piece.apart)
        assert parts + kerf * (len(sizes) - 1) * other == piece.length * piece.width


# --- faults -------------------------------------------------------------------------------------------------


def _sheets() -> Demand:
    sizes = ((80_000, 24_000, 3, False), (60_000, 41_500, 4, False), (33_300, 21_000, 5, True))
    return Demand(
        "board", tuple(Blank(f"b{n}", f"{n}", "face", *one) for n, one in enumerate(sizes)), (SHEET,), Saw()
    )


def _heavy_sheets() -> Demand:
    """Trimmed strip by strip."""
    return replace(_sheets(), saw=Saw(most_turned=10**10))


def _roll() -> Demand:
    sizes = ((120_000, 70_000, 3), (60_000, 50_000, 4), (30_000, 90_000, 2))
    return Demand(
        "lino",
        tuple(Blank(f"b{n}", f"{n}", "face", *one) for n, one in enumerate(sizes)),
        (ROLL,),
        Saw(kerf=10),
    )


def _sticks() -> Demand:
    blanks = (Blank("a", "1", "edging", 70_000, 2_000, 5), Blank("b", "2", "edging", 41_000, 2_000, 7))
    return Demand("ash", blanks, (STICK,), Saw(first_cut="across"))


def _boards() -> Demand:
    timber = Timber(
        22_000, 17_000, (900, 1_400), (Flaw(60_000, 4_000, 5_000, 6_000), Flaw(170_000, 9_000, 4_000, 3_000))
    )
    stock = StockSize("b", "ash", "board", 260_000, 22_000, 3, trim=5_000, thickness=3_400, timber=timber)
    blanks = (
        Blank("a", "1", "edging", 70_000, 3_000, 6, thickness=2_500),
        Blank("b", "2", "edging", 30_000, 4_200, 7, thickness=2_600),
    )
    return Demand("ash", blanks, (stock,), Saw(stages=None))


def _runs_and_seams() -> Demand:
    row = tuple(Inside(f"d{n}", "face", n * 38_320, 38_000) for n in range(3))
    run = Blank(
        "run", "d0, d1, d2", "face", 72_000, 3 * 38_320 - 320, 1, inside=row, parted="along", run="doors"
    )
    halves = tuple(Blank(f"t {n}/2", "t", "face", 120_500, 40_000, seam="t") for n in (1, 2))
    pair = Blank("pair", "p", "face", 50_000, 35_000, 2, same="pair")
    return Demand("hpl", (run, *halves, pair), (SHEET,), Saw())


def _with(layout: Layout, at: int, sheet: Sheet) -> Layout:
    return replace(layout, sheets=(*layout.sheets[:at], sheet, *layout.sheets[at + 1 :]))


def _piece(layout: Layout, chance: Random, change: Callable[[Placed], Placed | None]) -> Layout:
    at = chance.randrange(len(layout.sheets))
    sheet = layout.sheets[at]
    which = chance.randrange(len(sheet.placed))
    changed = change(sheet.placed[which])
    placed = list(sheet.placed)
    placed[which : which + 1] = [] if changed is None else [changed]
    return _with(layout, at, replace(sheet, placed=tuple(placed)))


def seeded(demand: Demand, layout: Layout, chance: Random) -> Iterator[tuple[Demand, Layout]]:
    """One fault of each sort, each certain by its making, with numbers drawn."""
    by = chance.choice([1, 7, 320, 1_000])
    sign = chance.choice([-1, 1])
    yield demand, _piece(layout, chance, lambda piece: replace(piece, x=piece.x + sign * by))
    yield demand, _piece(layout, chance, lambda piece: replace(piece, length=piece.length + sign * by))
    yield demand, _piece(layout, chance, lambda piece: None)
    yield demand, _piece(layout, chance, lambda piece: replace(piece, blank="nobody's"))
    yield (
        demand,
        _piece(
            layout, chance, lambda piece: replace(piece, turned=True, length=piece.width, width=piece.length)
        ),
    )
    at = chance.randrange(len(layout.sheets))
    sheet = layout.sheets[at]
    cut = chance.randrange(len(sheet.cuts))
    for change in ("fence", "position", "kerf", "to_"):
        other = replace(sheet.cuts[cut], **{change: getattr(sheet.cuts[cut], change) + by})
        yield (
            demand,
            _with(layout, at, replace(sheet, cuts=(*sheet.cuts[:cut], other, *sheet.cuts[cut + 1 :]))),
        )
    yield demand, _with(layout, at, replace(sheet, cuts=(*sheet.cuts[:cut], *sheet.cuts[cut + 1 :])))
    if sheet.offcuts:
        rest = chance.randrange(len(sheet.offcuts))
        larger = replace(sheet.offcuts[rest], length=sheet.offcuts[rest].length + by)
        rests = (*sheet.offcuts[:rest], larger, *sheet.offcuts[rest + 1 :])
        yield demand, _with(layout, at, replace(sheet, offcuts=rests))
    yield demand, replace(layout, bought=replace(layout.bought, area=layout.bought.area + by))
    yield demand, replace(layout, bound=int(layout.measure) + by)
    blank = chance.randrange(len(demand.blanks))
    own = demand.blanks[blank]
    for changed in (
        replace(own, count=own.count + 1),
        replace(own, length=own.length + by),
        replace(own, inside=(*own.inside, Inside("more", "face", 0, 10))),
    ):
        blanks = (*demand.blanks[:blank], changed, *demand.blanks[blank + 1 :])
        yield replace(demand, blanks=blanks), layout
    piece = chance.choice(sheet.placed)
    first = demand.stock[0]
    if first.form == "board":
        assert first.timber is not None
        knot = Flaw(piece.x + chance.randrange(piece.length), piece.y + chance.randrange(piece.width), 50, 50)
        yield replace(demand, stock=(replace(first, timber=replace(first.timber, flaws=(knot,))),)), layout
        bark = replace(first.timber, wane=(min(one.y for one in sheet.placed) + by, 0))
        yield replace(demand, stock=(replace(first, timber=bark),)), layout
        yield replace(demand, stock=(replace(first, thickness=2_000 + chance.randrange(400)),)), layout
        narrow = replace(first.timber, far_width=max(1, piece.y + piece.width - 2_000))
        if piece.x > first.usable_length // 2:
            yield replace(demand, stock=(replace(first, timber=narrow),)), layout
    if piece.inside:
        inside = list(piece.inside)
        inside[0], inside[-1] = (
            replace(inside[-1], start=inside[0].start),
            replace(inside[0], start=inside[-1].start),
        )
        yield (
            demand,
            _with(
                layout,
                at,
                replace(
                    sheet,
                    placed=tuple(replace(p, inside=tuple(inside)) if p is piece else p for p in sheet.placed),
                ),
            ),
        )


@pytest.mark.parametrize("make", [_sheets, _heavy_sheets, _roll, _sticks, _boards, _runs_and_seams])
def test_every_seeded_fault_is_found(make: Callable[[], Demand]) -> None:
    demand = make()
    layout = solved(demand)
    assert verify(demand, layout) == ()
    assert layout.unplaced == ()
    chance = Random(make.__name__)
    count = 0
    while count < FAULTS_EACH:
        for asked, faulty in seeded(demand, layout, chance):
            assert verify(asked, faulty), f"fault {count} of {make.__name__} passed unseen"
            count += 1
    assert count >= FAULTS_EACH  # six forms: more than 500 in all
