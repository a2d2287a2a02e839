"""Framed loose panels: sizes by hand, rows that close, the gap through the year, what is refused."""

from math import atan2, degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.finding import Severity
from evenface.materials import load_catalogue
from evenface.parts import boards_of, parts_of
from evenface.piece import read_job
from evenface.piece.editing import apply_changes

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
