"""Sticks: every piece of wood is in a blank once, short ones are held together, the sections serve."""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Layout, solve_all, verify
from evenface.layouts.sticks import SAFE_LENGTH, SNIPE_MM, Wanted, bundled, sections, stick_demands
from evenface.layouts.verify import RULES, cut_apart_in_order
from evenface.parts import LayerSizes, Part
from evenface.piece.records import Allowances, Job, Role, Saw, StockItem
from evenface.units import grid_up

SAFE = grid_up(SAFE_LENGTH.nominal)


def job(*stock: StockItem) -> Job:
    return Job(
        1, "glaze room", {}, (), allowances=Allowances(), saw=Saw(3.2, 10.0, 3, "any", "saw"), stock=stock
    )


def wood(role: Role, blank: tuple[float, float, float], count: int = 1, name: str = "") -> LayerSizes:
    return LayerSizes(role, "ash", blank, blank, blank, count=count, name=name)


def part(number: str, *layers: LayerSizes, count: int = 1) -> Part:
    return Part(number, "bench", "top", count, (1000.0, 600.0, 20.0), layers, 1.0)


BENCH = (
    part("1.1", wood(Role.EDGING, (1810.0, 12.0, 21.3), 2), wood(Role.EDGING, (610.0, 12.0, 21.3), 2)),
    part("1.2", wood(Role.EDGING, (900.0, 11.5, 21.0), 2), wood(Role.CORNER, (70.0, 12.0, 21.3), 4), count=3),
    part("1.3", wood(Role.INSERT, (120.0, 40.0, 9.0), 5)),
)


def made_of(layout: Layout) -> Counter[str]:
    """How many pieces of wood each part gets, those inside bundles counted one by one."""
    found: Counter[str] = Counter()
    for sheet in layout.sheets:
        for piece in sheet.placed:
            found.update([one.part for one in piece.inside] or [piece.part])
    return found


def test_sections_that_serve_are_planed_together_and_every_piece_is_cut() -> None:
    demands = stick_demands(job(), BENCH)
    assert [demand.material for demand in demands] == ["ash 40 × 9", "ash 12 × 21.5"]
    layouts = solve_all(demands, budget_s=0.2)
    assert all(layout.checked and layout.section for layout in layouts)
    assert all(sheet.unaccounted == 0 for layout in layouts for sheet in layout.sheets)
    assert sum((made_of(layout) for layout in layouts), Counter()) == {"1.1": 4, "1.2": 18, "1.3": 5}


def test_short_pieces_come_in_blanks_long_enough_to_machine() -> None:
    for demand in stick_demands(job(), BENCH):
        assert all(blank.length >= SAFE for blank in demand.blanks)
    (insert,) = stick_demands(job(), BENCH[2:])[0].blanks[:1]
    # four of 120 and three cuts of 3.2 make 489.6; the fifth stands in a blank of 400 of its own
    assert [one.start for one in insert.inside] == [0, 12_320, 24_640, 36_960]


def test_a_stick_already_cut_is_not_cut_again() -> None:
    done = part("1.1", replace(BENCH[0].layers[0], locked=True))
    assert stick_demands(job(), (done,)) == ()


def test_the_stock_list_gives_the_lengths_and_how_many_there_are() -> None:
    rack = StockItem("ash", 2000.0, 30.0, 1, None, "stick", "", "stock[0]")
    boards = StockItem("ash", 3200.0, 180.0, 2, None, "board", "", "stock[1]")
    (demand,) = stick_demands(job(rack, boards), BENCH[:1])
    assert [(size.length, size.copies) for size in demand.stock] == [(200_000, 1), (320_000, None)]
    assert all(size.trim == grid_up(SNIPE_MM) for size in demand.stock)
    (thin,) = stick_demands(job(replace(rack, width_mm=8.0)), BENCH[:1])
    assert [size.length for size in thin.stock] == [250_000], "a stick too narrow serves nothing"


def test_an_edging_longer_than_the_usual_board_takes_the_next_length() -> None:
    (demand,) = stick_demands(job(), (part("1", wood(Role.EDGING, (2_600.0, 8.0, 20.0))),))
    assert demand.stock[0].length == 300_000


WANTED = st.builds(
    lambda n, length, width, height: Wanted(f"w{n}", f"p{n}", "edging", length, width * 50, height * 50),
    st.integers(0, 5),
    st.integers(1_500, 200_000),
    st.integers(10, 60),
    st.integers(30, 60),
)


@settings(max_examples=60)
@given(st.lists(WANTED, min_size=1, max_size=30))
def test_sections_hold_every_piece_once_and_none_that_is_larger(wanted: list[Wanted]) -> None:
    held = list(sections("ash", wanted))
    assert Counter(piece for _, pieces in held for piece in pieces) == Counter(wanted)
    for section, pieces in held:
        assert all(piece.width <= section.width and piece.height <= section.height for piece in pieces)


@settings(max_examples=60)
@given(st.lists(WANTED, min_size=1, max_size=30, unique_by=lambda w: (w.id, w.length)))
def test_bundles_lose_no_piece_and_keep_a_kerf_between(wanted: list[Wanted]) -> None:
    wanted = [w._replace(id=f"{w.id} {w.length}") for w in wanted]
    blanks = bundled(wanted, SAFE, 320)
    inside: Counter[tuple[str, int]] = Counter()
    for blank in blanks:
        assert blank.length >= SAFE
        for _ in range(blank.count):
            inside.update([(one.part, one.size) for one in blank.inside] or [(blank.part, blank.length)])
        for one, other in zip(blank.inside, blank.inside[1:], strict=False):
            assert other.start - one.start - one.size == 320
    assert inside == Counter((w.part, w.length) for w in wanted)


@pytest.mark.parametrize("fault", ["order", "overlap", "beyond", "missing"])
def test_the_second_look_sees_what_is_cut_apart_wrongly(fault: str) -> None:
    (demand,) = stick_demands(
        job(), (part("1", wood(Role.INSERT, (120.0, 40.0, 9.0), 2), wood(Role.INSERT, (90.0, 40.0, 9.0))),)
    )
    (layout,) = solve_all((demand,), budget_s=0.0)
    sheet = layout.sheets[0]
    piece = sheet.placed[0]
    one, *rest = piece.inside
    assert len(rest) == 2
    inside = {
        "order": (rest[-1], *rest[:-1], one),
        "overlap": (one, replace(rest[0], start=rest[0].start - 1), *rest[1:]),
        "beyond": (*piece.inside[:-1], replace(rest[-1], start=piece.length - rest[-1].size + 1)),
        "missing": tuple(rest),
    }[fault]
    wrong = replace(sheet, placed=(replace(piece, inside=inside), *sheet.placed[1:]))
    bad = replace(layout, sheets=(wrong, *layout.sheets[1:]))
    assert {found.rule for found in verify(demand, bad)} == {"apart"}
    without = tuple(rule for rule in RULES if rule is not cut_apart_in_order)
    assert verify(demand, bad, without) == (), "the rule is needed"
