"""An unsymmetric run of cupboards reckoned by hand: opening, strips at the wall, three joints, uneven bays, a plinth.

Every figure beside its check was written down before the program was asked.
"""

import pytest
from construction.test_carcase_sizes import made, sizes

from evenface.drawings.scene import texts_of
from evenface.drawings.whole import whole_scenes
from evenface.parts import boards_of

RUN = """
[[piece]]
kind = "carcase"
name = "Run"
count = 2
opening = [2003, 1211, 433]
sides = "shell"
left = "thick"
dividers = "thick"
top_at = "between"
bottom_at = "over"
joint = { kind = "dowel" }
shelf_joint = { kind = "housing", depth = 4 }
scribe = { left = 13, right = 27, top = 19, over = 8, wood = "birch" }
plinth = { wood = "ash", thickness = 22, height = 83, setback = 37 }
fronts = { buildup = "door", lie = "inset", gap = 3, left = 2.5, right = 4, top = 3.5, bottom = 1.5 }
back = { buildup = "thin", how = "groove", depth = 7, inset = 11, play = 1.5 }
drawer = { wood = "ash", thickness = 13, bottom = "thin", clearance = 12.7, cut = "quarter" }
[[piece.bay]]
width = 411
row = [
  { what = "open", height = 203, shelf_below = true },
  { what = "drawers", count = 3, heights = [101, 155], shelf_below = true },
  { what = "door", hinge = "right", shelves = 1 },
]
[[piece.bay]]
row = [{ what = "open", height = 203, shelf_below = true }, { what = "doors", shelves = 2 }]
[[piece.bay]]
width = 517
row = [{ what = "open", height = 333, shelf_below = true, shelves = 1 }, { what = "door", hinge = "left" }]
"""


def test_a_run_of_three_bays_by_hand() -> None:
    found = sizes(made(RUN))
    # outside of the carcase: 2003 − 13 − 27 = 1963 wide, 1211 − 83 − 19 = 1109 high
    assert found["bottom"] == pytest.approx((1963.0, 433.0, 2))
    # top between the sides: 1963 − 24.4 − 19.4 = 1919.2; a side stands on the bottom: 1109 − 19.4 = 1089.6
    assert found["top"] == pytest.approx((1919.2, 433.0, 2))
    assert found["left side"] == found["right side"] == pytest.approx((1089.6, 433.0, 2))
    # dividers: 1109 − 2 × 19.4 = 1070.2 clear and twice 4 in the housings; deep 433 − 11 − 6.5 = 415.5
    assert found["divider 1"] == pytest.approx((1078.2, 415.5, 2))
    # middle bay: 1919.2 − 411 − 517 − 2 × 24.4 = 942.4; its shelf twice 4 longer
    assert found["fixed shelf 2"] == pytest.approx((950.4, 415.5, 2))
    # back: 1919.2 + 2 × (7 − 1.5), 1070.2 + 11
    assert found["back"] == pytest.approx((1930.2, 1081.2, 2))
    # rows of the first bay: 1070.2 − 203 − 2 × 19.4 = 828.4, halves of 414.2; the bank lies between two shelves, so
    # 3 above and 3 below: 414.2 − 6 − 2 × 3 − 101 − 155 = 146.2; wide 411 − 2.5 − 3 = 405.5
    assert found["drawer front 3"] == pytest.approx((405.5, 146.2, 2))
    # its door has 3 above and 1.5 below: 414.2 − 4.5
    assert found["right door 1"] == pytest.approx((409.7, 405.5, 2))
    # the pair: (942.4 − 3 × 3)/2 = 466.7 wide, 1070.2 − 203 − 19.4 − 4.5 = 843.3 high
    assert found["left door 1"] == pytest.approx((843.3, 466.7, 2))
    # the last: 517 − 3 − 4 = 510 wide, 1070.2 − 333 − 19.4 − 4.5 = 713.3 high
    assert found["left door 2"] == pytest.approx((713.3, 510.0, 2))
    # plinth ends: 433 − 37 − 2 × 22 = 352, two of each of two pieces
    assert found["plinth end"] == pytest.approx((352.0, 83.0, 4))


def test_strips_at_the_wall_are_cut_as_much_wider_as_they_say() -> None:
    run = made(RUN)
    parts = {one.name: one for one in boards_of([run])}
    # left 13 wide where it stands, cut 13 + 8; each end 1.6 long
    assert parts["scribe left"].finished_mm[1] == 13.0
    assert parts["scribe left"].layers[0].blank_mm[1] == 21.0
    assert parts["scribe right"].layers[0].blank_mm[1] == 35.0
    assert parts["scribe above"].layers[0].blank_mm == pytest.approx((2003.0 + 2 * 1.6, 27.0, 20.0))
    # everything else is planed to its width
    assert parts["plinth end"].layers[0].blank_mm[1] == 83.0


THREE = """
[[piece]]
kind = "carcase"
name = "Three"
count = 2
size = [1701, 653, 391]
sides = "shell"
left = "thick"
dividers = "door"
top_at = "mitred"
bottom_at = "mitred"
fronts = { buildup = "door", lie = "half overlay", gap = 4, left = 9, top = 2.5 }
back = { buildup = "thin", how = "groove", depth = 6, inset = 13 }
legs = 90
grip = { wood = "ash", size = [120, 36], radius = 18, depth = 12, hollow = 8, from_edge = 40 }
[[piece.bay]]
width = 403
row = [{ what = "door", hinge = "left", run = "all" }]
[[piece.bay]]
row = [{ what = "door", hinge = "right", run = "all" }]
[[piece.bay]]
width = 611
row = [{ what = "doors", run = "all" }]
"""


def test_half_overlay_over_three_bays_and_a_side_with_its_own_air_by_hand() -> None:
    built = made(THREE)
    found = sizes(built)
    # mitred: both as long as the outside, 653 − 90 = 563 high; deep 391 − 20.4 door − 2
    assert found["top"] == pytest.approx((1701.0, 368.6, 2))
    assert found["left side"] == pytest.approx((563.0, 368.6, 2))
    # 1701 − 24.4 − 19.4 − 2 × 20.4 = 1616.4; the middle bay 1616.4 − 403 − 611 = 602.4
    # doors: 9 of air at the left, 24.4 − 9 = 15.4 over the side; half of 20.4 − 4 over a divider, 8.2; half of
    # 19.4 − 4 over the right side, 7.7. High: 563 − 2 × 19.4 = 524.2, 19.4 − 2.5 = 16.9 over the top, 7.7 below
    high = 524.2 + 16.9 + 7.7
    assert found["left door 1"] == pytest.approx((high, 403 + 15.4 + 8.2, 2))
    assert found["right door 1"] == pytest.approx((high, 602.4 + 2 * 8.2, 2))
    # a pair in 611 + 8.2 + 7.7 − 4 = 622.9
    assert found["left door 2"] == pytest.approx((high, 311.45, 2))
    assert found["right door 2"] == pytest.approx((high, 311.45, 2))
    row = next(one for one in built.arranged.chains if one.name == "width through the fronts of row 1")
    assert [size for _, size in row.members] == pytest.approx(
        [9.0, 426.6, 4.0, 618.8, 4.0, 311.45, 4.0, 311.45, 11.7]
    )


def test_grips_stand_in_line_near_the_closing_edge_of_each_door() -> None:
    found = {}
    for one in made(THREE).panels:
        if "door" in one.name:
            (insert,) = one.panel.inserts
            x0, y0, x1, y1 = insert.outline.bounds
            # length runs downwards, width to the right: from the upper edge, from the left edge
            found[one.name] = ((x0 + x1) / 2, (y0 + y1) / 2)
    # half of 548.8 down; 40 from the closing edge: right of a door hinged left
    assert found["left door 1"] == pytest.approx((274.4, 426.6 - 40))
    assert found["right door 1"] == pytest.approx((274.4, 40.0))
    assert found["left door 2"] == pytest.approx((274.4, 311.45 - 40))
    assert found["right door 2"] == pytest.approx((274.4, 40.0))


def test_legs_stand_on_the_floor_in_the_drawings_and_their_height_is_a_size() -> None:
    built = made(THREE)
    legs = built.arranged.given
    # 1701 wide, 60 in: (1701 − 120)/900 = 1.8, so three pairs; deep from 22.4 to 391, 60 in
    assert len(legs) == 6
    assert [one.count for one in built.arranged.fittings if one.name == "leg"] == [6]
    assert sorted({(one.low[0] + one.high[0]) / 2 for one in legs}) == pytest.approx([60.0, 850.5, 1641.0])
    assert sorted({(one.low[1] + one.high[1]) / 2 for one in legs}) == pytest.approx([82.4, 331.0])
    assert {(one.low[2], one.high[2]) for one in legs} == {(0.0, 90.0)}
    front = next(scene for kind, scene in whole_scenes(built) if kind == "front")
    told = {one.text for one in texts_of(front.primitives)}
    assert {"653", "90", "563"} <= told


def test_the_tongue_of_a_mitre_ends_before_the_groove_of_the_back() -> None:
    built = made(THREE)
    (tongue,) = [one for one in built.arranged.fittings if one.name == "loose tongue"]
    # 368.6 deep, 10 before the front; the groove from 13 to 13 + 6.5 + 0.2 before the rear, and 3 more: 22.7
    assert tongue.count == 4
    assert tongue.size.values["long"] == pytest.approx(368.6 - 10 - 22.7)


def test_every_edge_that_is_seen_is_edged() -> None:
    plinth = 'plinth = { buildup = "shell", height = 83, setback = 37 }'
    built = made(RUN.replace('plinth = { wood = "ash", thickness = 22, height = 83, setback = 37 }', plinth))
    edged = {one.name: "".join(sorted(edge.side.value[0] for edge in one.edgings)) for one in built.panels}
    # f front, r rear and right, l left: of a part as it lies. Sides and dividers here are bare board
    assert edged["top"] == "f"  # between the sides
    assert edged["bottom"] == "flr"  # under both: its ends are seen
    assert edged["right side"] == "fl"  # its length runs downwards: the upper end is seen beside the top
    assert edged["fixed shelf 1"] == edged["loose shelf 1"] == "f"
    assert edged["plinth front"] == edged["plinth rear"] == "lr"  # they run past the ends
    assert edged["plinth end"] == ""
    assert edged["drawer front 1"] == edged["left door 1"] == "flrr"
    assert edged["back"] == edged["drawer bottom"] == ""
