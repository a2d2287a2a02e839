"""Boards of solid wood drawn with what is worked into them: true places, both ends, nothing drawn in the air."""

from dataclasses import replace

import pytest
from drawings.sample_wholes import NAMES, example

from evenface.drawings.scene import Dimension, Line, Path, Stroke
from evenface.drawings.worked_boards import worked_board_of


def of(name: str, part: str):
    construction = example(name)
    board = next(board for board in construction.boards if board.name == part)
    return construction, board, worked_board_of(construction, board, "1.2")


def figures(scene) -> set[str]:
    return {text.text for one in scene.primitives if isinstance(one, Dimension) for text in [one.text]}


def test_a_wall_of_the_tray_shows_housings_lining_and_its_end_large() -> None:
    _, _, (whole, end, _) = of("lined-tray", "side front & rear")
    # 140.6 to the housing of 6.2, 126.4 between the two; 396 of lining between 12 cleared at both ends
    assert {"420", "396", "12", "140.6", "126.4", "6.2", "84"} <= figures(whole)
    # five fingers of 16.8, slots wider by 0.05 at each side: 16.75, 16.9, 16.7, 16.9, 16.75
    assert {"16.8", "16.9", "16.7", "8.2"} <= figures(end)
    assert end.scale > whole.scale


def test_nothing_is_drawn_where_a_slot_leaves_air() -> None:
    """Left and right have their slots open at both edges: no line at their ends below the lowest finger."""
    _, _, (whole, _, _) = of("lined-tray", "side left & right")
    met = 0
    for one in whole.primitives:
        points = []
        if isinstance(one, Line):
            points = [(one.x0, one.y0), (one.x1, one.y1)]
        elif isinstance(one, Path):
            points = [(x, y) for x, y, *_ in one.vertices]
        for x, y in points:
            if 0.0 <= x < 11.9 and -0.1 <= y <= 84.1:
                assert 16.8 <= y <= 67.2
                met += 1
    assert met > 0


@pytest.mark.parametrize("name", NAMES)
def test_every_board_with_work_is_drawn_on_its_paper_and_no_other(name: str) -> None:
    construction = example(name)
    for board in construction.boards:
        scenes = worked_board_of(construction, board, "1.9")
        worked = [one for one in construction.arranged.worked if one.part == board.name]
        kinds, middle = {one.kind for one in worked}, board.board.length_mm / 2
        along = any(
            one.x1_mm - one.x0_mm > middle and one.x0_mm < middle < one.x1_mm
            for one in worked
            if one.face in ("top", "bottom", "front", "rear")
        )
        ends = 1 if "finger slot" in kinds else 2 if kinds & {"bridle slot", "tenon cheek", "tenon"} else 0
        assert len(scenes) in ({1 + ends + along} if ends or along else {0, 1})
        assert all(scene.width_mm <= 170.0 for scene in scenes)
        bare = replace(construction, arranged=replace(construction.arranged, worked=()))
        assert worked_board_of(bare, board, "1.9") == ()


def test_a_groove_in_the_lower_face_is_dashed_with_its_place() -> None:
    """The drawer's bottom lies 10 above the lower edge in a groove of 8.3, on the inside, which lies below."""
    construction, board, (scene, _) = of("drawer-pedestal", "drawer side left 1")
    (groove,) = (
        one for one in construction.arranged.worked if one.part == board.name and one.kind == "groove"
    )
    assert groove.face == "bottom"
    dashed = [one for one in scene.primitives if isinstance(one, Line) and one.stroke is Stroke.HIDDEN]
    assert sorted((round(one.y0, 3), round(one.y1, 3)) for one in dashed) == [
        (pytest.approx(y, abs=0.01), pytest.approx(y, abs=0.01)) for y in (groove.y0_mm, groove.y1_mm)
    ]
    assert {"10", "8.3"} <= figures(scene)


def test_a_tenon_with_its_haunch_is_drawn_large_from_two_sides_and_sawn_off_nowhere() -> None:
    """End apron of the desk: tenon 31 long from 4 to 60 of 80, haunch of 10 above it, 8 in the middle of 24."""
    _, _, (whole, above, edge) = of("glazing-desk", "end apron")
    assert {"637", "575", "31"} <= figures(whole)  # both tenons, so 575 between the shoulders
    assert {"31", "21", "4", "20", "80"} <= figures(above)  # the haunch cut back by 21
    assert {"31", "8", "24"} <= figures(edge)
    for end in (above, edge):
        assert not {"46", "606"} & figures(end)  # where it is sawn off for the drawing ends no size
        assert end.scale > whole.scale


def test_a_bridle_joint_shows_both_shoulders() -> None:
    _, _, (_, rail, edge, across) = of("notice-panel", "rail")
    assert {"50", "10"} <= figures(rail)  # 50 to the front shoulder, 10 more to the rear one
    assert {"50", "10", "9.3", "28"} <= figures(edge)
    assert {"50", "10", "60", "11.5", "16.5", "28"} <= figures(
        across
    )  # the rebate, as the rail is cut across
    _, _, (_, stile, slot, _) = of("notice-panel", "stile")
    assert {"50", "9.3", "28"} <= figures(stile) | figures(slot)
