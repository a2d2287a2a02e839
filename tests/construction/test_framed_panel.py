"""Framed loose panels: sizes by hand, rows that close, the gap through the year, what is refused."""

from math import atan2, degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.drawings.placed_parts import placed_parts
from evenface.finding import Severity
from evenface.materials import load_catalogue
from evenface.parts import boards_of, parts_of
from evenface.piece import read_job
from evenface.piece.editing import apply_changes
from evenface.words import say

CATALOGUE = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Glaze room"
humidity = {humidity}
[buildup.notice]
face = "linoleum-2"
back = "linoleum-2"
carrier = {{ material = "mdf-12", thickness = 11.8 }}
glue = "pva-d3"
[[piece]]
kind = "framed panel"
name = "Notice panel"
size = [1200, 800]
buildup = "notice"
[piece.frame]
wood = "ash"
"""
STILL = [0.5] * 12
MOVING = [0.32, 0.33, 0.36, 0.42, 0.5, 0.58, 0.62, 0.62, 0.57, 0.5, 0.42, 0.35]


def text(frame: str, humidity: list[float] = STILL) -> str:
    return HEAD.format(humidity=humidity) + frame


def built(frame: str, humidity: list[float] = STILL):
    job = read_job(text(frame, humidity), "job.toml", CATALOGUE, KINDS)
    (construction,) = construct(job, CATALOGUE, KINDS)
    return construction


BRIDLE = 'width = 50\nrail_width = 64\nthickness = 28\njoint = "bridle"\ngap = 1.5\n'


def test_a_bridled_frame_by_hand() -> None:
    """Ledge 10: stile 50 + 10 = 60, rail 64 + 10 = 74; panel 1200 − 2·(50 + 1.5) by 800 − 2·(64 + 1.5)."""
    one = built(BRIDLE)
    (panel,), (stile, rail) = parts_of([one]), boards_of([one])
    # 2.0 linoleum, 0.1 glue, 11.8, 0.1, 2.0
    assert panel.finished_mm == pytest.approx((1097.0, 669.0, 16.0))
    assert stile.finished_mm == pytest.approx((800.0, 60.0, 28.0))
    assert rail.finished_mm == pytest.approx((1200.0, 74.0, 28.0))
    assert (stile.count, rail.count) == (2, 2)
    rebate = next(w for w in one.arranged.worked if w.kind == "rebate" and w.part == "stile")
    assert (rebate.depth_mm, rebate.y1_mm - rebate.y0_mm) == pytest.approx((16.3, 10.0))  # 16.0 and 0.3 shy


def test_a_butted_rail_stands_between_the_stiles() -> None:
    """1200 − 2·(50 + 10) = 1080; the rebate of a stile stops 64 from each end, where the rail's ledge begins."""
    one = built(BRIDLE.replace("bridle", "butt"))
    rail = next(board for board in one.boards if board.name == "rail")
    assert rail.board.length_mm == pytest.approx(1080.0)
    stopped = next(w for w in one.arranged.worked if w.kind == "rebate" and w.part == "stile")
    assert (stopped.x0_mm, stopped.x1_mm) == pytest.approx((64.0, 736.0))


def test_unequal_members_are_mitred_by_their_widths() -> None:
    """Boards of 60 and 74: the rail is cut at atan(74/60) = 50.96°, the stile at what is left of 90°."""
    one = built(BRIDLE.replace("bridle", "mitre"))
    ends = {board.name: board.board.ends_deg[0] for board in one.boards}
    assert ends["rail"] == pytest.approx(degrees(atan2(74.0, 60.0)))
    assert ends["rail"] + ends["stile"] == pytest.approx(90.0)


def test_behind_a_lip_the_panel_reaches_under_the_frame() -> None:
    """1200 − 2·(50 − 10 + 1.5) = 1117; its face lies the lip of 6 behind the frame's."""
    one = built(BRIDLE + 'seat = "rebate behind"\n')
    assert one.panels[0].length_mm == pytest.approx(1117.0)
    panel = next(p for p in one.arranged.placements if p.part == "panel")
    assert panel.point(0.0, 0.0, 16.0)[1] == pytest.approx(6.0)


def test_where_the_air_never_changes_the_gap_is_only_what_lets_it_out() -> None:
    still, moving = built("width = 60\nthickness = 28\n"), built("width = 60\nthickness = 28\n", MOVING)
    assert still.arranged.gaps[0].mm == pytest.approx(0.5)
    assert moving.arranged.gaps[0].mm > 0.5
    for gap in moving.arranged.gaps:
        assert gap.least_mm is not None
        assert gap.least_mm >= 0.0


def test_a_mitred_frame_moves_more_than_a_butted_one() -> None:
    """A mitre may lean on its outer end: the whole width comes inwards, not half of it."""
    gaps = {
        joint: built(f'width = 90\nthickness = 28\njoint = "{joint}"\n', MOVING).arranged.gaps[2].mm
        for joint in ("mitre", "butt")
    }
    assert gaps["mitre"] > gaps["butt"]


def test_a_gap_that_closes_is_stopped_and_its_remedy_clears_it() -> None:
    frame = "width = 90\nthickness = 28\ngap = 0.2\n"
    (stop,) = [f for f in built(frame, MOVING).findings if f.code == "framed.gap_small"]
    assert stop.severity is Severity.STOP
    mended = apply_changes(text(frame, MOVING), stop.remedies[0].changes, "job.toml")
    job = read_job(mended, "job.toml", CATALOGUE, KINDS)
    (after,) = construct(job, CATALOGUE, KINDS)
    assert not [f for f in after.findings if f.code == "framed.gap_small"]


def test_a_frame_too_thin_for_its_panel_and_its_remedy() -> None:
    """28 − 16.3 = 11.7 stays; 20 − 16.3 = 3.7 is under the 4 that are kept."""
    assert not [f for f in built(BRIDLE).findings if f.code == "framed.ledge_thin"]
    thin = BRIDLE.replace("thickness = 28", "thickness = 20")
    (stop,) = [f for f in built(thin).findings if f.code == "framed.ledge_thin"]
    assert stop.value is not None
    assert stop.value.nominal == pytest.approx(3.7)
    job = read_job(
        apply_changes(text(thin), stop.remedies[0].changes, "job.toml"), "job.toml", CATALOGUE, KINDS
    )
    (after,) = construct(job, CATALOGUE, KINDS)
    assert not [f for f in after.findings if f.code == "framed.ledge_thin"]


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ('seat = "groove"\n', "framed.shut_in"),
        ("shy = 0\n", "framed.proud"),
        ("ledge = 4\n", "framed.cover_small"),
        ("", None),
    ],
)
def test_what_is_told_of_a_seat(more: str, code: str | None) -> None:
    codes = {f.code for f in built(BRIDLE + more).findings if f.code.startswith("framed.")}
    assert codes == ({code} if code else set())


def test_a_frame_that_leaves_no_panel_is_a_finding() -> None:
    codes = [f.code for f in built("width = 400\nthickness = 28\n").findings]
    assert "framed.no_panel" in codes


@settings(max_examples=80, deadline=None)
@given(
    width=st.floats(20, 120),
    rail=st.floats(20, 120),
    gap=st.floats(0.3, 4),
    ledge=st.floats(5, 18),
    joint=st.sampled_from(("mitre", "butt", "bridle")),
    seat=st.sampled_from(("rebate", "rebate behind", "groove")),
)
def test_rows_and_boxes_give_the_outside(width, rail, gap, ledge, joint, seat) -> None:
    frame = (
        f"width = {width!r}\nrail_width = {rail!r}\nthickness = 40\ngap = {gap!r}\nledge = {ledge!r}\n"
        f'joint = "{joint}"\nseat = "{seat}"\n'
    )
    one = built(frame)
    sizes = {panel.name: (panel.length_mm, panel.width_mm, panel.thickness_mm) for panel in one.panels}
    sizes |= {b.name: (b.board.length_mm, b.board.width_mm, b.board.thickness_mm) for b in one.boards}
    boxes = [placed.box(*sizes[placed.part]) for placed in one.arranged.placements]
    low = [min(box[0][n] for box in boxes) for n in range(3)]
    high = [max(box[1][n] for box in boxes) for n in range(3)]
    assert low == pytest.approx([0.0, 0.0, 0.0], abs=0.01)
    assert high == pytest.approx([1200.0, 40.0, 800.0], abs=0.01)
    panel = next(p for p in one.arranged.placements if p.part == "panel").box(*sizes["panel"])
    # the panel lies in the middle: what is left and right of it is the same, and so above and below
    assert panel[0][0] == pytest.approx(1200.0 - panel[1][0], abs=0.01)
    assert panel[0][2] == pytest.approx(800.0 - panel[1][2], abs=0.01)
    for chain in one.arranged.chains:
        assert sum(size for _, size in chain.members) == pytest.approx(chain.total_mm, abs=0.01)


def worked(one, part: str, kind: str):
    return [w for w in one.arranged.worked if w.part == part and w.kind == kind]


def test_a_bridle_joint_closes_round_its_rebate_by_hand() -> None:
    """Stile 60, rail 74, thirds of 28. The rebate of 16.3 leaves 11.7 of ledge, so it takes wood of the middle third
    (9.33 to 18.67): tenon and slot are 74 − 10 = 64, not 74. Shoulder 60 − 10 = 50 at the face, 60 behind."""
    one = built(BRIDLE)
    (slot,) = worked(one, "stile", "bridle slot")
    assert (slot.depth_mm, slot.number) == pytest.approx((64.0, 2))
    face, back, inner = worked(one, "rail", "tenon cheek")
    assert [w.depth_mm for w in (face, back, inner)] == pytest.approx([50.0, 60.0, 60.0])
    assert (face.y0_mm, face.y1_mm) == pytest.approx((56 / 3, 28.0))
    assert (back.y0_mm, back.y1_mm) == pytest.approx((0.0, 28 / 3))
    assert (inner.x0_mm, inner.x1_mm) == pytest.approx((64.0, 74.0))


@pytest.mark.parametrize(
    ("more", "slot", "face", "back", "stop"),
    [
        ('seat = "rebate behind"\n', 54.0, 50.0, 50.0, 54.0),  # boards of 50 and 64
        ('seat = "groove"\n', 54.0, 50.0, 50.0, 54.0),
        ("", 64.0, 50.0, 60.0, 0.0),
    ],
)
def test_a_seat_that_does_not_reach_the_face_stops_before_the_ends_of_a_bridled_stile(
    more: str, slot: float, face: float, back: float, stop: float
) -> None:
    one = built(BRIDLE + more)
    assert worked(one, "stile", "bridle slot")[0].depth_mm == pytest.approx(slot)
    assert [w.depth_mm for w in worked(one, "rail", "tenon cheek")[:2]] == pytest.approx([face, back])
    (seat,) = [w for w in one.arranged.worked if w.part == "stile" and w.kind in ("rebate", "groove")]
    assert (seat.x0_mm, seat.x1_mm) == pytest.approx((stop, 800.0 - stop))


def test_a_thin_panel_leaves_the_tenon_whole() -> None:
    """Of 60 the middle third lies between 20 and 40, 16.3 deep from the face ends above it: nothing of it is taken."""
    one = built(BRIDLE.replace("thickness = 28", "thickness = 60"))
    assert worked(one, "stile", "bridle slot")[0].depth_mm == pytest.approx(74.0)
    assert [w.depth_mm for w in worked(one, "rail", "tenon cheek")] == pytest.approx([60.0, 60.0])
    assert worked(one, "stile", "rebate")[0].x0_mm == pytest.approx(64.0)


@settings(max_examples=60, deadline=None)
@given(
    width=st.floats(30, 90),
    rail=st.floats(30, 90),
    thick=st.floats(24, 60),
    ledge=st.floats(6, 18),
    joint=st.sampled_from(("butt", "bridle")),
    seat=st.sampled_from(("rebate", "rebate behind", "groove")),
)
def test_a_frame_has_neither_holes_nor_wood_twice(width, rail, thick, ledge, joint, seat) -> None:
    """The corner of the frame on a grid of points: each belongs to one member, but where the panel has its seat."""
    one = built(
        f"width = {width!r}\nrail_width = {rail!r}\nthickness = {thick!r}\ngap = 1\nledge = {ledge!r}\n"
        f'joint = "{joint}"\nseat = "{seat}"\n'
    )
    if any(f.severity is Severity.STOP for f in one.findings):
        return
    parts = {part.placement.label or part.name: part for part in placed_parts(one)}
    members = [parts["left"], parts["bottom"]]
    x_in, z_in = one.panels[0].length_mm, one.panels[0].width_mm
    x_seat, z_seat = (1200.0 - x_in) / 2 - 1.0, (800.0 - z_in) / 2 - 1.0  # where the seat begins
    steps = [(n + 0.37) / 11 for n in range(11)]
    for x in (width * 1.3 * n for n in steps):
        for z in (rail * 1.3 * n for n in steps):
            for y in (thick * n for n in steps):
                held = sum(
                    all(a < p < b for a, p, b in zip(low, (x, y, z), high, strict=True))
                    for member in members
                    for low, high in member.solids
                )
                assert held <= 1, (x, y, z)
                if x < x_seat or z < z_seat:
                    assert held == 1, (x, y, z)


def test_screws_hold_in_the_board_and_do_not_come_through() -> None:
    """Ledge 28 − 16.3 = 11.7, sheet and glue 2.1, board 11.8 less 2 kept under the face: 23.6 at most, so 20."""
    one = built(BRIDLE)
    (screw,) = one.arranged.fittings
    assert say(screw.size) == "3.5 × 20 mm, in holes of 4.5 mm"
    stile, rail = worked(one, "stile", "screw holes")[0], worked(one, "rail", "screw holes")[0]
    # panel 1097 by 669: four and three on a side, half a spacing from its corners; 51.5 and 65.5 in from the frame
    assert screw.count == 2 * (len(stile.centres) + len(rail.centres)) == 14
    assert [x for x, _ in rail.centres] == pytest.approx([51.5 + 1097 / 4 * (n + 0.5) for n in range(4)])
    assert [x for x, _ in stile.centres] == pytest.approx([65.5 + 223 * (n + 0.5) for n in range(3)])
    # ledge 10 and gap 1.5: in the middle of the 8.5 they share
    assert {y for _, y in stile.centres} == {60.0 - 4.25}
    assert stile.depth_mm == pytest.approx(11.7)


def test_a_tenon_reaches_down_to_a_rebate_that_goes_deeper_than_its_third() -> None:
    # panel of 16, 0.3 shy: 16.3 of 24, so 7.7 are left, less than a third
    one = built('width = 30\nthickness = 24\ngap = 1\nledge = 6\njoint = "bridle"\nseat = "rebate"\n')
    (slot,) = [w for w in one.arranged.worked if w.kind == "bridle slot"]
    assert (slot.y0_mm, slot.y1_mm) == pytest.approx((7.7, 16.0))
    cheeks = sorted((w.y0_mm, w.y1_mm) for w in one.arranged.worked if w.kind == "tenon cheek")
    assert cheeks == [pytest.approx((0.0, 7.7)), pytest.approx((7.7, 16.0)), pytest.approx((16.0, 24.0))]
    # of a thicker frame 25.7 are left, more than a third: the tenon stays in the middle
    thick = built('width = 30\nthickness = 42\ngap = 1\nledge = 6\njoint = "bridle"\nseat = "rebate"\n')
    (slot,) = [w for w in thick.arranged.worked if w.kind == "bridle slot"]
    assert (slot.y0_mm, slot.y1_mm) == pytest.approx((14.0, 28.0))
