"""Rough boards: wane, taper, knots; nothing lies in them, everything adds up, and what lacks is named."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Flaw, Layout, Saw, StockSize, Timber, solve_all, verify
from evenface.layouts.board_findings import board_wanted, net_area_mm2, yield_of
from evenface.layouts.records import Section
from evenface.layouts.verify import RULES
from evenface.parts import LayerSizes, Part
from evenface.piece.records import Role

SAW = Saw(kerf=320, stages=None, least_offcut=(2_000, 30_000))


def board(
    length: int = 250_000,
    width: int = 20_000,
    timber: Timber | None = None,
    copies: int = 1,
    name: str = "ash #1",
    price: Decimal | None = None,
) -> StockSize:
    return StockSize(
        name, "ash", "board", length, width, copies, price, trim=5_000, thickness=3_200, timber=timber
    )


def strips(*blanks: tuple[int, int, int], thickness: int = 2_500) -> tuple[Blank, ...]:
    return tuple(
        Blank(f"b{n}", f"p{n}", "edging", length, width, count, thickness=thickness)
        for n, (length, width, count) in enumerate(blanks)
    )


def test_a_clear_board_is_ripped_and_crosscut() -> None:
    # 240 inside the ends takes 2 × 119 with a cut between; 200 wide takes five strips of 37 with 3.2 between
    one = Demand("ash", strips((11_900 * 10, 3_700, 10)), (board(),), SAW)
    (layout,) = solve_all((one,), budget_s=0.0)
    assert (layout.bought.count, layout.unplaced, verify(one, layout)) == (1, (), ())
    assert layout.sheets[0].unaccounted == 0
    assert yield_of(one, layout).ripped == pytest.approx(10 * 119_000 * 3_700 / (250_000 * 20_000))


def test_nothing_lies_in_knots_wane_or_beyond_the_tapered_edge() -> None:
    faults = Timber(
        20_000, 14_000, (1_200, 800), (Flaw(60_000, 5_000, 3_000, 4_000), Flaw(150_000, 0, 9_000, 30_000))
    )
    one = Demand("ash", strips((50_000, 3_000, 6), (30_000, 2_500, 8)), (board(timber=faults),), SAW)
    (layout,) = solve_all((one,), budget_s=0.0)
    assert layout.checked
    assert not verify(one, layout)
    assert sum(len(sheet.placed) for sheet in layout.sheets) >= 8
    # the same places are faults once the knot is where a piece lies
    piece = layout.sheets[0].placed[0]
    knot = Flaw(piece.x + 100, piece.y + 100, 500, 500)
    other = replace(one, stock=(board(timber=replace(faults, flaws=(knot,))),))
    assert {fault.rule for fault in verify(other, layout)} == {"clear", "stock"}  # and it shows other wood


def test_a_split_through_the_end_is_crosscut_away_where_that_gives_more() -> None:
    split = Timber(flaws=(Flaw(120_000, 0, 2_000, 20_000),))
    one = Demand("ash", strips((114_000, 3_700, 10)), (board(timber=split),), SAW)
    (layout,) = solve_all((one,), budget_s=0.0)
    first = next(cut for cut in layout.sheets[0].cuts if cut.stage > 0)
    assert layout.unplaced == ()
    assert first.axis in ("across", "along")
    for way, axis in ((True, "along"), (False, "across")):
        forced = replace(one, stock=(board(timber=replace(split, rip_first=way)),))
        (layout,) = solve_all((forced,), budget_s=0.0)
        assert next(cut for cut in layout.sheets[0].cuts if cut.stage > 0).axis == axis
        assert layout.unplaced == ()


def test_too_little_wood_names_the_board_to_buy() -> None:
    one = Demand("ash", strips((119_000, 3_700, 13)), (board(),), SAW)
    (layout,) = solve_all((one,), budget_s=0.0)
    assert layout.unplaced == (("b0", 3),)
    assert [finding.code for finding in layout.findings] == ["layout.buy_board"]
    wanted = board_wanted(one, layout.unplaced)
    assert wanted is not None
    # three strips of 37 with two cuts of 3.2 and 10 for the edges; 1190 and 50 at each end
    assert (wanted.length_mm, wanted.width_mm, wanted.thickness_mm) == pytest.approx((1290.0, 127.4, 25.0))
    bought = board(129_000, 12_740, name="ash #2")
    (layout,) = solve_all((replace(one, stock=(board(), bought)),), budget_s=0.0)
    assert layout.unplaced == ()


def test_a_board_too_thin_is_left_in_the_rack() -> None:
    thin = replace(board(), id="thin", thickness=2_000)
    one = Demand("ash", strips((50_000, 3_000, 2)), (thin, board()), SAW)
    (layout,) = solve_all((one,), budget_s=0.0)
    assert dict(layout.bought.by_stock) == {"ash #1": 1}
    swapped = replace(one, stock=(replace(board(), thickness=2_000), thin))
    assert "thickness" in {fault.rule for fault in verify(swapped, layout)}


def test_strips_of_one_set_come_from_one_board() -> None:
    frame, rest = strips((110_000, 4_000, 4), (100_000, 4_000, 7))
    one = Demand("ash", (replace(frame, same="frame"), rest), (board(copies=2),), SAW)
    (layout,) = solve_all((one,), budget_s=0.0)
    assert verify(one, layout) == ()
    assert layout.unplaced == ()
    on = [n for n, sheet in enumerate(layout.sheets) for piece in sheet.placed if piece.blank == "b0"]
    assert on == [on[0]] * 4
    # nine of them fill no board: none is begun, and the board that is wanted is told
    many = replace(one, blanks=(replace(frame, count=9, same="frame"),))
    (layout,) = solve_all((many,), budget_s=0.0)
    assert layout.unplaced == (("b0", 9),)
    assert [finding.code for finding in layout.findings] == ["layout.buy_board"]


FLAWS = st.lists(
    st.builds(
        Flaw, st.integers(0, 240_000), st.integers(0, 19_000), st.integers(1, 20_000), st.integers(1, 9_000)
    ),
    max_size=5,
)


@settings(max_examples=40, deadline=None)
@given(
    FLAWS,
    st.integers(9_000, 26_000),
    st.tuples(st.integers(0, 2_000), st.integers(0, 2_000)),
    st.lists(
        st.tuples(st.integers(8_000, 240_000), st.integers(1_000, 9_000), st.integers(1, 6)),
        min_size=1,
        max_size=6,
    ),
    st.sampled_from([None, True, False]),
    st.integers(0, 500),
)
def test_every_board_adds_up_and_is_clear(
    flaws: list[Flaw],
    far: int,
    wane: tuple[int, int],
    blanks: list[tuple[int, int, int]],
    rip_first: bool | None,
    kerf: int,
) -> None:
    timber = Timber(20_000, far, wane, tuple(flaws), rip_first)
    stock = (board(width=max(20_000, far), timber=timber, copies=3), board(name="ash #2", copies=2))
    one = Demand("ash", strips(*blanks), stock, replace(SAW, kerf=kerf))
    (layout,) = solve_all((one,), budget_s=0.0)
    assert verify(one, layout, RULES) == ()
    assert all(sheet.unaccounted == 0 for sheet in layout.sheets)


def unclear(demand: Demand, layout: Layout) -> list[str]:
    """What lies where no sound wood is, reckoned from the boards alone; shares nothing with the second look."""
    boards, blanks = {size.id: size for size in demand.stock}, {blank.id: blank for blank in demand.blanks}
    found, sets = [], {}
    for number, sheet in enumerate(layout.sheets):
        size = boards[sheet.stock]
        timber = size.timber or Timber()
        near = timber.near_width or size.width
        fall = Fraction((timber.far_width or near) - near, size.length or 1)
        for piece in sheet.placed:
            x0, y0, x1, y1 = piece.x, piece.y, piece.x + piece.length, piece.y + piece.width
            blank = blanks[piece.blank]
            if (piece.length, piece.width) != (blank.length, blank.width) or piece.turned:
                found.append(f"{piece.blank} has another size or lies across the grain")
            if not size.trim <= x0 < x1 <= (size.length or 0) - size.trim:
                found.append(f"{piece.blank} reaches into the ends")
            if y0 < timber.wane[0] or any(y1 + timber.wane[1] > near + fall * x for x in (x0, x1)):
                found.append(f"{piece.blank} has a round edge")
            for flaw in timber.flaws:
                across = min(y1, flaw.y + flaw.width) - max(y0, flaw.y)
                if across > 0 and min(x1, flaw.x + flaw.length) > max(x0, flaw.x):
                    found.append(f"{piece.blank} holds a {flaw.kind}")
            if size.thickness and blank.thickness > size.thickness:
                found.append(f"{piece.blank} is thicker than its board")
            if blank.same:
                sets.setdefault(blank.same, set()).add(number)
    return found + [f"{name} comes from {len(on)} boards" for name, on in sets.items() if len(on) > 1]


@st.composite
def racks(draw: st.DrawFn) -> Demand:
    """One to four boards, tapered, with wane and faults, and strips of which some match."""
    sizes = st.integers(6_000, 35_000)
    stock = []
    for number in range(draw(st.integers(1, 4))):
        length, near, far = draw(st.integers(120_000, 400_000)), draw(sizes), draw(st.none() | sizes)
        flaws = draw(
            st.lists(
                st.builds(
                    Flaw,
                    st.integers(0, length),
                    st.integers(0, near),
                    st.integers(1, 20_000),
                    st.integers(1, 9_000),
                ),
                max_size=6,
            )
        )
        wane = draw(st.tuples(st.integers(0, 2_500), st.integers(0, 2_500)))
        timber = Timber(near, far, wane, tuple(flaws), draw(st.sampled_from([None, True, False])))
        made = board(length, max(near, far or 0), timber, draw(st.integers(1, 2)), f"ash #{number}")
        stock.append(replace(made, thickness=draw(st.sampled_from([2_500, 3_200]))))
    pieces = st.tuples(st.integers(5_000, 250_000), st.integers(900, 9_000), st.integers(1, 6))
    blanks = tuple(
        Blank(
            f"b{n}",
            f"p{n}",
            "edging",
            *size,
            thickness=draw(st.sampled_from([2_000, 2_400, 3_000])),
            same=draw(st.sampled_from(["", "", "frame"])),
        )
        for n, size in enumerate(draw(st.lists(pieces, min_size=1, max_size=6)))
    )
    return Demand("ash", blanks, tuple(stock), replace(SAW, kerf=draw(st.sampled_from([0, 200, 320]))))


@settings(max_examples=60, deadline=None)
@given(racks())
def test_no_piece_of_any_board_touches_a_fault_and_the_board_to_buy_is_large_enough(demand: Demand) -> None:
    (layout,) = solve_all((demand,), budget_s=0.0)
    assert layout.checked
    assert unclear(demand, layout) == []
    if not layout.unplaced:
        return
    wanted = board_wanted(demand, layout.unplaced)
    assert wanted is not None
    new = replace(
        board(round(wanted.length_mm * 100), round(wanted.width_mm * 100), name="new"),
        thickness=round(wanted.thickness_mm * 100),
    )
    more = replace(demand, stock=(*demand.stock, new))
    (layout,) = solve_all((more,), budget_s=0.0)
    assert (layout.checked, layout.unplaced, unclear(more, layout)) == (True, (), [])


def test_a_set_of_unlike_thickness_waits_for_a_board_that_is_thick_enough_for_all_of_it() -> None:
    thin, thick = replace(board(name="thin"), thickness=2_500), replace(board(name="thick"), thickness=3_200)
    stile, rail = strips((60_000, 4_000, 2), (50_000, 4_000, 2))
    pair = (replace(stile, same="frame"), replace(rail, same="frame", thickness=3_000))
    (layout,) = solve_all((Demand("ash", pair, (thin, thick), SAW),), budget_s=0.0)
    assert dict(layout.bought.by_stock) == {"thick": 1}
    assert layout.checked


@pytest.mark.parametrize("blind", ["knots", "wane", "taper", "ends"])
def test_a_planner_blind_to_a_fault_is_caught(blind: str) -> None:
    """The check above can fail: whatever the planner does not see ends up in a piece, and is found."""
    timber = Timber(20_000, 12_000, (1_500, 0), (Flaw(90_000, 6_000, 4_000, 3_000),))
    seen = {
        "knots": replace(timber, flaws=()),
        "wane": replace(timber, wane=(0, 0)),
        "taper": replace(timber, far_width=None),
        "ends": timber,
    }[blind]
    real = board(timber=timber)
    demand = Demand("ash", strips((119_000, 3_000, 12)), (real,), SAW)
    told = replace(demand, stock=(replace(real, timber=seen, trim=0 if blind == "ends" else real.trim),))
    (layout,) = solve_all((told,), budget_s=0.0)
    assert layout.checked
    assert unclear(told, layout) == []
    assert unclear(demand, layout) != []
    assert verify(demand, layout) != ()


def test_the_yield_of_wood_counts_what_is_left_in_the_piece() -> None:
    """Two edgings of 600 × 20 left of blanks of 620 × 23: 24 000 of the 250 000 mm² that a stick 100 wide has."""
    edging = LayerSizes(Role.EDGING, "ash", (600.0, 20.0, 22.0), (602.0, 20.0, 22.0), (620.0, 23.0, 25.0))
    face = replace(edging, role=Role.FACE, material="ash", net_mm=(600.0, 400.0, 0.7))
    part = Part("1.1", "Shelf", "top", 1, (600.0, 400.0, 20.0), (face, edging), 4.0)
    stick = StockSize("s", "ash", "stick", 250_000)
    one = Demand(
        "ash 100 × 25",
        (Blank("1.1 edging", "1.1", "edging", 62_000, 2_300, 2),),
        (stick,),
        Saw(kerf=0),
        Section("ash", 10_000, 2_500),
    )
    (layout,) = solve_all((one,), budget_s=0.0)
    net = net_area_mm2(layout, (part,))
    assert net == pytest.approx(2 * 600 * 20)
    assert yield_of(one, layout, net).net == pytest.approx(24_000 / 250_000)
    assert net_area_mm2(layout, ()) == 0.0
