"""Holes and hollows at the bench: what is bored from both faces must not meet, what is stopped must stop."""

from itertools import combinations
from math import dist

import pytest
from drawings.sample_wholes import example as built

from evenface.construction.hinges import Hanging, further_in
from evenface.words import say


@pytest.mark.parametrize("name", ["wall-cupboard", "drawer-pedestal", "lined-tray", "notice-panel"])
def test_holes_from_both_faces_of_a_part_never_meet(name: str) -> None:
    one = built(name)
    thick = {part.name: part.thickness_mm for part in one.panels}
    thick |= {board.name: board.board.over_mm for board in one.boards}
    faced = [hole for hole in one.arranged.worked if hole.centres and hole.face in ("top", "bottom")]
    for a, b in combinations(faced, 2):
        if a.part == b.part and a.face != b.face:
            near = min(dist(p, q) for p in a.centres for q in b.centres)
            left = thick[a.part] - a.depth_mm - b.depth_mm
            assert left > 0 or near > (a.diameter_mm + b.diameter_mm) / 2, (a, b)


def test_plates_on_both_faces_of_a_divider_stand_apart() -> None:
    one = built("wall-cupboard")
    plates = [hole for hole in one.arranged.worked if hole.part == "divider" and hole.kind == "plate holes"]
    first, second = (sorted(x for x, _ in hole.centres) for hole in plates)
    assert min(abs(a - b) for a in first for b in second) >= 16.0 - 1e-6
    cups = {
        hole.part: sorted(x for x, _ in hole.centres) for hole in one.arranged.worked if "cup" in hole.kind
    }
    assert cups["left door 1"] == pytest.approx([100, 617])
    assert cups["left door 2"] == pytest.approx(
        [148, 569]
    )  # 48 mm further in than its neighbour on the divider


def test_pins_from_both_faces_of_a_divider_are_shallower() -> None:
    one = built("wall-cupboard")
    deep = {hole.part: hole.depth_mm for hole in one.arranged.worked if hole.kind == "pin holes"}
    assert deep["left side"] == 10.0
    assert deep["divider"] == 8.0  # 17.9 mm: 1.9 mm are left between them


def test_hinges_between_the_outer_ones_move_too() -> None:
    three = Hanging(3, True, (100.0, 500.0, 900.0), 5.0, 0.0, 6.0)
    assert further_in(three, 64.0).at_mm == (164.0, 564.0, 836.0)
    low = Hanging(2, True, (40.0, 120.0), 5.0, 0.0, 1.0)
    assert further_in(low, 64.0) is low


def test_a_housing_begins_where_its_words_say() -> None:
    one = built("drawer-pedestal")
    (lower, upper) = [
        done for done in one.arranged.worked if done.part == "left side" and done.kind == "housing"
    ]
    assert {lower.y0_mm, upper.y0_mm} == {10.0}
    assert {lower.y1_mm, upper.y1_mm} == {600.0}
    notches = [done for done in one.arranged.worked if done.part == "top" and done.kind == "corner notch"]
    assert [(done.depth_mm, done.x1_mm) for done in notches] == [(6.0, 10.0), (6.0, 10.0)]
    assert {done.face for done in notches} == {"left", "right"}


def test_gaps_of_a_bank_lie_between_its_fronts() -> None:
    gaps = {gap.name: gap for gap in built("drawer-pedestal").arranged.gaps}
    assert gaps["drawer front 2, top"].between == ("drawer front 2", "drawer front 1")
    assert gaps["drawer front 1, top"].between == ("drawer front 1", "top")
    assert "drawer front 1, bottom" not in gaps  # told by the front below it
    assert gaps["drawer front 4, bottom"].between == ("drawer front 4", "bottom")
    alone, shared = gaps["drawer front 4, bottom"], gaps["drawer front 4, top"]
    grows = alone.mm - (alone.least_mm or 0.0)
    upper = gaps["drawer front 3, top"].mm - (gaps["drawer front 3, top"].least_mm or 0.0)
    assert grows < shared.mm - (shared.least_mm or 0.0) < 2 * grows  # front 3 is lower and grows less
    assert upper > 0
    assert gaps["above drawer 2"].between == ("drawer side left 2", "drawer front 2")


def test_doors_of_neighbouring_bays_name_each_other() -> None:
    gaps = {gap.name: gap for gap in built("wall-cupboard").arranged.gaps}
    (middle,) = [gap for name, gap in gaps.items() if gap.between == ("right door 1", "left door 2")]
    assert middle.mm == 3.0
    assert middle.least_mm == middle.most_mm == 3.0  # both hang on the divider and grow away from it


def test_runners_are_marked_on_both_sides_of_the_case() -> None:
    """Lowest drawer by hand: bottom 19.4 + gap 2.5 + 10 under the box + half of its side 172 = 117.9 mm."""
    one = built("drawer-pedestal")
    lines = {done.part: [] for done in one.arranged.worked if done.kind == "runner line"}
    for done in one.arranged.worked:
        if done.kind == "runner line":
            lines[done.part].append((done.x0_mm, done.y0_mm, done.y1_mm))
    assert set(lines) == {"left side", "right side"}
    assert len(lines["left side"]) == len(lines["right side"]) == 4
    lowest = min(lines["left side"])
    assert lowest == pytest.approx((117.9, 20.2, 570.2))
    assert max(lines["right side"])[0] == pytest.approx(
        650.0 - 117.9
    )  # that side hangs with its length downwards


def test_a_drawer_of_its_own_says_where_its_runners_go() -> None:
    """Box 10 mm above the lower edge of the opening; its sides 89 mm high."""
    one = built("desk-drawer")
    assert not any(done.kind == "runner line" for done in one.arranged.worked)
    (pair,) = [fitting for fitting in one.arranged.fittings if fitting.name == "pair of side runners"]
    side = next(board.board for board in one.boards if board.name.startswith("drawer side"))
    told = say(pair.why)
    half = side.width_mm / 2
    assert f"Their middle {half:g} mm above the lower edge of the sides, {half + 10:g} mm above" in told
