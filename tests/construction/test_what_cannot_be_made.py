"""Slips of the pen: what cannot be made is told with what to do instead, and never stops the reckoning."""

import pytest
from construction.test_carcase_sizes import PEDESTAL, UNEQUAL, made

from evenface.errors import FileError
from evenface.finding import Finding, Severity

SIDES = 'sides = "shell"'


def told(text: str, code: str) -> list[Finding]:
    return [one for one in made(text).findings if one.code == code]


@pytest.mark.parametrize(
    ("change", "code", "severity", "value"),
    [
        # 661.2 clear, 20 shelves of 19.4: (661.2 − 388)/21 = 13.01; in 261.2 they would lie in each other
        (("shelves = 1", "shelves = 20"), "carcase.shelves_close", Severity.STOP, 13.0095),
        # a groove 7 deep less 9 of play; 7 less 5 holds by 2
        (("play = 1", "play = 9"), "carcase.back_loose", Severity.STOP, -2.0),
        (("play = 1", "play = 5"), "carcase.back_loose", Severity.WEIGH, 2.0),
        # laid on the rear and 600 smaller on each side: 19.4 − 600
        (('how = "groove"', 'how = "rear", shy = 600'), "carcase.back_loose", Severity.STOP, -580.6),
        (("depth = 7", "depth = 30"), "carcase.groove_deep", Severity.STOP, 30.0),
        ((SIDES, f'{SIDES}\njoint = {{ kind = "housing", depth = 19 }}'), "carcase.housing_deep", Severity.STOP, 19.0),
        # the rear of the sides at 400, fronts 22.4: 377.6 − 390 − 2 × 20
        ((SIDES, f'{SIDES}\nplinth = {{ height = 90, setback = 390, wood = "ash" }}'), "carcase.plinth_shallow",
         Severity.STOP, -52.4),
        ((SIDES, f'{SIDES}\nhanging_rail = {{ wood = "ash", height = 900 }}'), "carcase.rail_high", Severity.STOP,
         900.0),
        # 383.5 − 1 − 22.4 − 390
        ((SIDES, f"{SIDES}\nshelf_setback = 390"), "carcase.shelf_shallow", Severity.STOP, -29.9),
        # the side is 19.4 thick, 40 of air beside the front
        (('lie = "overlay"', 'lie = "overlay", left = 40'), "front.no_lap", Severity.STOP, -20.6),
        (('lie = "overlay"', 'lie = "overlay", top = 16'), "front.no_lap", Severity.WEIGH, 3.4),
        # opening instead of size, and no strip at the wall
        (("size = [", "opening = ["), "carcase.no_air", Severity.WEIGH, 0.0),
    ],
)  # fmt: skip
def test_a_slip_in_a_carcase_is_told(change, code: str, severity: Severity, value: float) -> None:
    (found, *_) = told(UNEQUAL.replace(*change), code)
    assert found.severity is severity
    assert found.value is not None
    assert found.value.nominal == pytest.approx(value, abs=1e-3)
    assert found.remedies
    assert not told(UNEQUAL, code)


@pytest.mark.parametrize(
    ("change", "code", "value"),
    [
        # the upper box is 120 − 20 = 100 high: 100 − 150 − 6.5
        (("clearance = 12.7", "clearance = 12.7, up = 150"), "drawer.bottom_high", -56.5),
        (("clearance = 12.7", "clearance = 12.7, groove = 14"), "drawer.side_deep", 14.0),
        (
            ("clearance = 12.7", 'clearance = 12.7, joint = { kind = "housing", depth = 12.5 }'),
            "drawer.side_deep",
            12.5,
        ),
    ],
)
def test_a_slip_in_a_drawer_is_told(change, code: str, value: float) -> None:
    (found, *_) = told(PEDESTAL.replace(*change), code)
    assert found.severity is Severity.STOP
    assert found.value is not None
    assert found.value.nominal == pytest.approx(value)
    assert found.remedies
    assert not told(PEDESTAL, code)


def test_a_remedy_in_the_file_mends_what_it_was_given_for() -> None:
    (close, *_) = told(UNEQUAL.replace("shelves = 1", "shelves = 20"), "carcase.shelves_close")
    # at least 30 over and under each: (661.2 − 30)/(19.4 + 30) = 12.8
    assert close.remedies[0].changes[0].new == "12"
    assert not told(UNEQUAL.replace("shelves = 1", "shelves = 12"), "carcase.shelves_close")
    (loose, *_) = told(UNEQUAL.replace("play = 1", "play = 9"), "carcase.back_loose")
    assert loose.remedies[0].changes[0].path == "piece[0].back.play"
    assert loose.remedies[0].changes[0].new == "1"


def test_dowels_closer_than_they_are_thick_are_refused_in_the_file() -> None:
    with pytest.raises(FileError, match="at least 16"):
        made(UNEQUAL.replace(SIDES, f'{SIDES}\njoint = {{ kind = "dowel", every = 5 }}'))


def test_the_seat_of_a_back_is_larger_than_the_back_by_its_play_all_round() -> None:
    built = made(UNEQUAL.replace("play = 1", "play = 2").replace(SIDES, f'{SIDES}\ntop_at = "over"'))
    grooves = {one.part: one for one in built.arranged.worked if one.kind == "groove"}
    # back: 956.2 + 2 × (7 − 2) by 661.2 + 10; sides from 0 to 680.6: its seat from 19.4 − 7 right up into the top
    assert (grooves["left side"].x0_mm, grooves["left side"].x1_mm) == pytest.approx((12.4, 680.6))
    # the right side lies the other way round
    assert (grooves["right side"].x0_mm, grooves["right side"].x1_mm) == pytest.approx((0.0, 668.2))
    # the top lies over both: from 19.4 − 7 to 1000 − 24.4 + 7; the bottom between them is grooved right through
    assert (grooves["top"].x0_mm, grooves["top"].x1_mm) == pytest.approx((12.4, 982.6))
    assert (grooves["bottom"].x0_mm, grooves["bottom"].x1_mm) == pytest.approx((0.0, 956.2))


BOX = """
[[piece]]
kind = "lined box"
name = "Tray"
size = [431, 317, 97]
walls = { wood = "ash", thickness = 13, side_thickness = 10 }
lining = { facing = "hpl-0.8", glue = "pva-d3" }
fingers = { number = 7, cutter = 6 }
bottom = { buildup = "thin", groove = 5, up = 7 }
divider = [{ way = "front to rear", count = 3, depth = 4, wood = "ash" }]
"""
FRAME = """
[[piece]]
kind = "framed panel"
name = "Notice"
size = [911, 613]
buildup = "shell"
frame = { wood = "ash", width = 37, rail_width = 61, thickness = 32, joint = "bridle", seat = "rebate behind" }
"""


@pytest.mark.parametrize(
    ("piece", "change", "code", "severity", "value"),
    [
        # the thinner wall is 10
        (BOX, ('"hpl-0.8",', '"hpl-0.8", thickness = 12,'), "box.lining_thick", Severity.STOP, 12.0),
        (BOX, ('"hpl-0.8",', '"hpl-0.8", thickness = 6,'), "box.lining_thick", Severity.WEIGH, 6.0),
        (BOX, ('"pva-d3"', '"pva-d3", gap = 5'), "box.lining_gap", Severity.WEIGH, 5.0),
        # fingers 97/7 = 13.86 wide
        (BOX, ("cutter = 6", "cutter = 6, fit = 7"), "box.finger_loose", Severity.STOP, 7.0),
        (BOX, ("cutter = 6", "cutter = 6, fit = 0.6"), "box.finger_loose", Severity.WEIGH, 0.6),
        (BOX, ("groove = 5", "groove = 11"), "box.groove_deep", Severity.STOP, -1.0),
        (BOX, ("depth = 4", "depth = 4, play = 7"), "box.divider_loose", Severity.STOP, -3.0),
        # 20 less 0.9 of lining and glue in a wall of 13
        (BOX, ("depth = 4", "depth = 20"), "box.housing_deep", Severity.STOP, -6.1),
        # 409.2 inside less 3 × 6, in four; with 150 + 171 + 90 given: 391.2 − 411
        (BOX, ("count = 3", "count = 3, clear = [150, 171, 90]"), "box.compartment", Severity.STOP, -19.8),
        # seen 8, its rebate 10
        (FRAME, ("width = 37", "width = 8"), "framed.frame_narrow", Severity.STOP, -2.0),
        (FRAME, ('"rebate behind"', '"groove", ledge = 35'), "framed.frame_narrow", Severity.STOP, 2.0),
        (FRAME, ("width = 37", "width = 37, arris = 12"), "framed.arris", Severity.STOP, 12.0),
        # 911 − 2 × 470 + 2 × 10 of ledge less the gaps
        (FRAME, ("width = 37", "width = 470"), "framed.no_panel", Severity.STOP, None),
    ],
)
def test_a_slip_in_a_box_or_a_frame_is_told(piece, change, code, severity, value) -> None:
    (found, *_) = told(piece.replace(*change), code)
    assert found.severity is severity
    assert found.value is not None
    assert value is None or found.value.nominal == pytest.approx(value, abs=1e-6)
    assert found.remedies
    assert not told(piece, code)


TABLE = """
[[piece]]
kind = "top on a base"
name = "Bench"
size = [1811, 903, 713]
buildup = "thick"
overhang = { left = 31, right = 7, front = 23, rear = 11 }
legs = { wood = "ash", size = [62, 71] }
apron = { wood = "ash", thickness = 24, height = 95, back = 6, bearers = 2 }
"""


@pytest.mark.parametrize(
    ("change", "code", "severity", "value"),
    [
        # 6 behind the face and 58 thick in a leg of 62
        (("thickness = 24", "thickness = 58"), "base.apron_thick", Severity.STOP, 64.0),
        # 95 less 4 below and 80 of haunch
        (("back = 6", "back = 6, joint = { haunch = 80 }"), "base.tenon_low", Severity.STOP, 11.0),
        (("back = 6", "back = 6, joint = { thickness = 13 }"), "base.tenon_thick", Severity.WEIGH, 13.0),
        (("back = 6", "back = 6, joint = { thickness = 25 }"), "base.tenon_thick", Severity.STOP, 25.0),
        (("back = 6", "back = 6, rear = 71, bearer_height = 72"), "base.bearer_high", Severity.STOP, 72.0),
        # 700 wide: between the legs 700 − 31 − 7 − 124 = 538; 8 bearers of 24
        # leave (538 − 192)/9 = 38.44
        (("bearers = 2", "bearers = 8"), "base.bearers_close", Severity.WEIGH, 38.4444),
    ],
)
def test_a_slip_in_a_base_is_told(change, code: str, severity: Severity, value: float) -> None:
    narrow = TABLE.replace("1811", "700") if "close" in code else TABLE
    (found, *_) = told(narrow.replace(*change), code)
    assert found.severity is severity
    assert found.value is not None
    assert found.value.nominal == pytest.approx(value, abs=1e-3)
    assert found.remedies
    assert not told(TABLE, code)


NARROW = """
[[piece]]
kind = "carcase"
name = "Narrow"
size = [100, 653, 391]
sides = "shell"
fronts = { buildup = "door", lie = "overlay" }
grip = { wood = "ash", size = [120, 44], radius = 20, depth = 9, hollow = 5, from_edge = 46 }
[[piece.bay]]
row = [{ what = "door", hinge = "left" }]
"""


def test_a_door_too_low_for_the_plates_of_its_hinges_is_told() -> None:
    # a front of 100 − 3 = 97, hinges a quarter in: 24.25, less the 17.9 it reaches over the bottom
    (found, *_) = told(NARROW.replace("[100, 653, 391]", "[500, 100, 391]"), "hinge.no_place")
    assert found.value is not None
    assert found.value.nominal == pytest.approx(24.25 - 17.9)
    assert not told(NARROW, "hinge.no_place")


def test_a_cup_behind_the_wood_of_a_grip_is_told_where_the_door_is_too_thin_for_both() -> None:
    # 97 wide: the grip from 97 − 46 − 22 = 29 on, the cup up to 5 + 35 = 40 from the same edge; at one height they
    # take 12.5 + 9 = 21.5 of 20.4
    low = NARROW.replace("from_edge = 46", "from_edge = 46, up = 110")
    (found, *_) = told(low, "hinge.at_grip")
    assert found.value is not None
    assert found.value.nominal == pytest.approx(-1.1)
    assert not told(NARROW, "hinge.at_grip")
    assert not told(low.replace("depth = 9", "depth = 6"), "hinge.at_grip")


def test_supports_may_stand_beside_each_other_but_not_in_each_other() -> None:
    base = TABLE[: TABLE.index("legs =")]
    # 1811 − 31 − 7 = 1773 for 3: 591 each; six of 400 stand (1773 − 400)/5 = 274.6 apart, 125.4 in each other
    (found, *_) = told(f'{base}supports = {{ what = "cabinet", count = 6, width = 400 }}\n', "base.no_room")
    assert found.value is not None
    assert found.value.nominal == pytest.approx(-125.4)
    beside = made(f'{base}supports = {{ what = "cabinet", count = 3, width = 591 }}\n')
    assert [one.high[0] - one.low[0] for one in beside.arranged.given] == pytest.approx([591.0] * 3)
    assert not [one for one in beside.findings if one.severity is Severity.STOP]


def test_boards_too_thin_for_pins_plates_and_dowels_are_told() -> None:
    thin = (
        UNEQUAL.replace(SIDES, 'sides = "thin"')
        .replace('"thick"', '"thin"')
        .replace("depth = 7", "depth = 3")
    )
    # sides of 6.5: pins 10 deep, plates 12 deep; 4 left under a dowel, so it goes in by 2.5
    assert {round(one.value.nominal, 6) for one in told(thin, "joint.through") if one.value} == {-3.5, -5.5}
    shallow = told(thin, "joint.shallow")
    assert {round(one.value.nominal, 6) for one in shallow if one.value} == {2.5}
    assert all(one.remedies for one in shallow)
    assert not told(UNEQUAL, "joint.through")
    assert not told(UNEQUAL, "joint.shallow")


def test_screws_never_come_through_a_drawer_front() -> None:
    # box of 13 and front of 20.4: 27 rounded to 25. A front of 6.5: 13 + 6.5 − 2 = 17.5, so 15, which enters by 2
    usual, thin = (
        made(PEDESTAL),
        made(PEDESTAL.replace('fronts = { buildup = "door"', 'fronts = { buildup = "thin"')),
    )
    assert [screw_of(one) for one in (usual, thin)] == [25.0, 15.0]
    (found, *_) = [one for one in thin.findings if one.code == "drawer.front_thin"]
    assert found.value is not None
    assert found.value.nominal == pytest.approx(2.0)
    assert not told(PEDESTAL, "drawer.front_thin")


def screw_of(built) -> float:
    (size,) = {
        one.size.values["long"] for one in built.arranged.fittings if one.name.startswith("round-head")
    }
    return float(str(size))
