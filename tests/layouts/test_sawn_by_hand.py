"""Every list of cuts sawn on a bench of our own: the fence holds, the dust is weighed, nothing is left over.

The bench below knows rectangles and records, and nothing of what plans or checks layouts.
"""

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Cut, Demand, Flaw, Layout, Saw, Sheet, StockSize, Timber, cuts, solve_all

type Box = tuple[int, int, int, int]
"""x0, y0, x1, y1."""


class SawnWrong(AssertionError):
    """What the list says cannot be done, or does not give what it says."""


def sawn(sheet: Sheet) -> dict[str, int]:
    """Areas of parts, rests, dust inside the trims, and trims, as they fall when the list is followed."""
    bits: list[Box] = [(0, 0, sheet.length, sheet.width)]
    side = 0 if sheet.form in ("stick", "board") else sheet.trim
    inner = (sheet.trim, side, sheet.length - sheet.trim, sheet.width - side)
    dust = 0
    for cut in sheet.cuts:
        along = cut.axis == "along"
        met = [bit for bit in bits if meets(cut, bit)]
        if not met or (cut.stage and len(met) > 1):
            raise SawnWrong(f"cut {cut.number} meets {len(met)} pieces")
        for bit in met:
            x0, y0, x1, y1 = bit
            at, end = cut.position, cut.position + cut.kerf
            parts = [(x0, y0, x1, at), (x0, end, x1, y1)] if along else [(x0, y0, at, y1), (end, y0, x1, y1)]
            widths = [part[3] - part[1] if along else part[2] - part[0] for part in parts]
            if cut.fence not in widths or min(widths) < 0:
                raise SawnWrong(f"cut {cut.number}: the fence at {cut.fence} leaves {widths}")
            if cut.kerf and not cut.stage and widths[0] and widths[1] and min(widths) > sheet.trim:
                raise SawnWrong(f"cut {cut.number} is no trim: it leaves {widths}")
            bits.remove(bit)
            bits += [part for part in parts if area(part)]
            lost = (x0, at, x1, end) if along else (at, y0, end, y1)
            dust += area(overlap(lost, inner))
    parts_area = rests_area = 0
    for piece in (*sheet.placed, *sheet.offcuts):
        box = (piece.x, piece.y, piece.x + piece.length, piece.y + piece.width)
        if box not in bits:
            raise SawnWrong(f"{box} is not on the bench")
        bits.remove(box)
    parts_area = sum(piece.length * piece.width for piece in sheet.placed)
    rests_area = sum(rest.length * rest.width for rest in sheet.offcuts)
    if any(area(overlap(bit, inner)) for bit in bits):
        raise SawnWrong("something lies on the bench that nobody named")
    whole = sheet.length * sheet.width
    return {"parts": parts_area, "rests": rests_area, "dust": dust, "trims": whole - area(inner)}


def meets(cut: Cut, bit: Box) -> bool:
    x0, y0, x1, y1 = bit
    low, high, begin, end = (y0, y1, x0, x1) if cut.axis == "along" else (x0, x1, y0, y1)
    beside = low <= cut.position and cut.position + cut.kerf <= high
    if cut.stage == 0:
        return beside and cut.from_ <= begin and end <= cut.to_
    return beside and begin < (cut.from_ + cut.to_) / 2 < end


def overlap(one: Box, other: Box) -> Box:
    return max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])


def area(box: Box) -> int:
    return max(0, box[2] - box[0]) * max(0, box[3] - box[1])


def adds_up(sheet: Sheet) -> None:
    found = sawn(sheet)
    assert sum(found.values()) == sheet.length * sheet.width
    told = (sheet.pieces_area, sheet.offcuts_area, sheet.kerf_area, sheet.trims_area, sheet.unaccounted)
    assert told == (found["parts"], found["rests"], found["dust"], found["trims"], 0)


@st.composite
def demands(draw: st.DrawFn) -> Demand:
    """Pieces to be cut from sheets, damaged ones too, from rolls, sticks or boards."""
    form = draw(st.sampled_from(["sheet", "sheet", "rolled_sheet", "roll", "stick", "board"]))
    kerf = draw(st.sampled_from([0, 17, 320, 400]))
    flaw = st.builds(
        Flaw,
        st.integers(0, 90_000),
        st.integers(0, 50_000),
        st.integers(1, 20_000),
        st.integers(1, 9_000),
    )
    stock = []
    for number in range(draw(st.integers(1, 2))):
        size = (draw(st.integers(100_000, 300_000)), draw(st.integers(60_000, 150_000)))
        trim = draw(st.sampled_from([0, 200, 1_000]))
        if form == "stick":
            stock.append(StockSize(f"s{number}", "m", "stick", size[0], trim=5 * trim))
        elif form == "board":
            timber = Timber(
                26_000,
                draw(st.sampled_from([None, 15_000])),
                (draw(st.integers(0, 2_000)), 0),
                tuple(draw(st.lists(flaw, max_size=3))),
            )
            stock.append(StockSize(f"s{number}", "m", "board", size[0], 26_000, 2, trim=5_000, timber=timber))
        elif form == "roll":
            length = draw(st.none() | st.just(400_000))
            stock.append(StockSize(f"s{number}", "m", "roll", length, size[1] + 50_000, trim=trim))
        else:
            spots = tuple(draw(st.lists(flaw, max_size=1))) if number else ()
            timber = Timber(flaws=spots) if spots else None
            stock.append(
                StockSize(f"s{number}", "m", form, *size, 2 if number else None, trim=trim, timber=timber)
            )
    widest = 9_000 if form == "board" else 110_000
    sizes = st.tuples(st.integers(1_000, 200_000), st.integers(1_000, widest), st.integers(1, 4))
    blanks = tuple(
        Blank(f"b{n}", f"{n}", "face", *one, draw(st.booleans()) and form not in ("stick", "board"))
        for n, one in enumerate(draw(st.lists(sizes, min_size=1, max_size=6)))
    )
    if form in ("stick", "board"):
        saw = Saw(kerf=kerf, stages=None, first_cut="across" if form == "stick" else "any")
    else:
        saw = Saw(
            kerf=kerf,
            stages=draw(st.sampled_from([2, 3, 4, None])) if form != "roll" else 3,
            first_cut=draw(st.sampled_from(["any", "along", "across"])) if form != "roll" else "any",
            most_turned=draw(st.sampled_from([None, 10**9, 10**10])),
        )
    return Demand("m", blanks, tuple(stock), saw)


@settings(max_examples=120, deadline=None)
@given(demands())
def test_what_is_bought_is_parts_rests_dust_and_trims_to_the_last_unit(demand: Demand) -> None:
    (layout,) = solve_all((demand,), budget_s=0.0)
    assert layout.checked
    for sheet in layout.sheets:
        adds_up(sheet)
    placed = sum(len(sheet.placed) for sheet in layout.sheets) + sum(count for _, count in layout.unplaced)
    assert placed == demand.pieces


def test_a_piece_that_goes_on_one_of_two_sizes_is_not_moved_to_the_other() -> None:
    """The strip of 1100 has room by area on the small sheet and is longer than it both ways."""
    small = StockSize("small", "m", "sheet", 100_000, 61_001)
    large = StockSize("large", "m", "sheet", 203_553, 62_000, 2, trim=1_000)
    blanks = (
        Blank("a", "0", "face", 3_000, 2_997, 4),
        Blank("b", "1", "face", 1_400, 60_001, 3),
        Blank("c", "2", "face", 1_126, 44_161, 4),
        Blank("d", "3", "face", 1_000, 110_000, 4, may_turn=True),
    )
    (layout,) = solve_all((Demand("m", blanks, (small, large), Saw(kerf=0, stages=2)),), budget_s=0.0)
    assert (layout.checked, layout.unplaced) == (True, ())
    for sheet in layout.sheets:
        adds_up(sheet)
        assert sheet.stock == "large" or all(piece.blank != "d" for piece in sheet.placed)


# --- and it can fail ----------------------------------------------------------------------------------------

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)
PIECES = (
    Blank("a", "1", "face", 80_000, 24_000, 3),
    Blank("b", "2", "face", 60_000, 41_500, 4),
    Blank("c", "3", "face", 33_300, 21_000, 5, may_turn=True),
)


def planned(saw: Saw) -> Layout:
    (layout,) = solve_all((Demand("board", PIECES, (SHEET,), saw),), budget_s=0.0)
    return layout


SLIPS: dict[str, Callable[[Cut], Cut]] = {
    "a fence one hundredth off": lambda cut: replace(cut, fence=cut.fence + 1),
    "a cut one hundredth off": lambda cut: replace(cut, position=cut.position + 1),
    "a cut that takes too little": lambda cut: replace(cut, kerf=cut.kerf - 1),
    "a cut the other way": lambda cut: replace(cut, axis="across" if cut.axis == "along" else "along"),
}


@pytest.mark.parametrize("most_turned", [None, 10**10])
@pytest.mark.parametrize("slip", SLIPS)
def test_every_slip_in_a_list_of_cuts_is_found(slip: str, most_turned: int | None) -> None:
    sheet = planned(Saw(most_turned=most_turned)).sheets[0]
    adds_up(sheet)
    for number, cut in enumerate(sheet.cuts):
        if slip == "a cut that takes too little" and cut.stage == 0:
            continue  # of what is trimmed off nobody asks how wide the dust is
        wrong = replace(sheet, cuts=(*sheet.cuts[:number], SLIPS[slip](cut), *sheet.cuts[number + 1 :]))
        with pytest.raises(AssertionError):
            adds_up(wrong)


def test_a_cut_left_out_or_made_too_soon_is_found() -> None:
    sheet = planned(Saw()).sheets[0]
    for number in range(len(sheet.cuts)):
        with pytest.raises(AssertionError):
            adds_up(replace(sheet, cuts=(*sheet.cuts[:number], *sheet.cuts[number + 1 :])))
    with pytest.raises(AssertionError):
        adds_up(replace(sheet, cuts=tuple(reversed(sheet.cuts))))


def test_a_planner_that_forgets_the_dust_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its own second look finds it too: the layout says that it must not be cut from."""
    take_off = cuts._take_off

    def without_dust(region, axis, size, *rest, **named):  # type: ignore[no-untyped-def]
        left = take_off(region, axis, size, *rest, **named)
        grown = {"x": left.x - 320, "length": left.length + 320} if axis == "across" else {"y": left.y - 320}
        return left if left == region else replace(left, **grown)

    monkeypatch.setattr(cuts, "_take_off", without_dust)
    layout = planned(Saw())
    assert not layout.checked
    for sheet in layout.sheets:
        with pytest.raises(AssertionError):
            adds_up(sheet)


def test_damage_no_wider_than_the_saw_is_cut_off_without_counting_as_a_turn() -> None:
    """It is dust after the first cut: on neither side of it anything damaged is left."""
    small = StockSize("s", "m", "sheet", 100_000, 60_000, 2, timber=Timber(flaws=(Flaw(0, 1, 31, 17),)))
    blank = Blank("a", "0", "face", 1_000, 1_000, 1)
    (layout,) = solve_all(
        (Demand("m", (blank,), (small,), Saw(kerf=17, stages=2, first_cut="across")),), budget_s=0.0
    )
    assert (layout.checked, layout.unplaced) == (True, ())
    for sheet in layout.sheets:
        adds_up(sheet)
