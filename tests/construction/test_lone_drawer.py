"""A drawer of its own: sizes by hand, and random ones whose parts and gaps fill their opening every way."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import Construction, construct
from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece import read_job

CATALOGUE = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Drawers"
place = "copenhagen"
room = "heated-home"
[buildup.front]
face = "linoleum-2"
back = "linoleum-2"
carrier = { material = "mdf-16", thickness = 16.1 }
glue = "pva-d3"
edging = { wood = "ash", width = 8, section = "flush" }
[buildup.thin]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = { material = "birch-ply-6.5", thickness = 6.4 }
glue = "pva-d3"
[[piece]]
kind = "drawer"
name = "Tool drawer"
"""
BOX = 'drawer = { wood = "ash", thickness = 13, bottom = "thin", clearance = 12.7, cut = "quarter" }\n'
THICK = 16.1 + 2 * 2.0 + 2 * 0.1


def made(text: str) -> Construction:
    (built,) = construct(read_job(HEAD + text, "job.toml", CATALOGUE, KINDS), CATALOGUE, KINDS)
    return built


def sizes(built: Construction) -> dict[str, tuple[float, float]]:
    panels = {one.name: (one.length_mm, one.width_mm) for one in built.panels}
    return panels | {one.name: (one.board.length_mm, one.board.width_mm) for one in built.boards}


def box_of(built: Construction, name: str):
    place = next(one for one in built.arranged.placements if one.part == name)
    for one in built.panels:
        if one.name == name:
            return place.box(one.length_mm, one.width_mm, one.thickness_mm)
    board = next(one.board for one in built.boards if one.name == name)
    return place.box(board.length_mm, board.width_mm, board.over_mm)


def test_an_inset_drawer_by_hand() -> None:
    """480 × 120 × 520: front 2.5 smaller all round; box 480 − 2 × 12.7 = 454.6 over its sides, 428.6 between."""
    built = made(f'opening = [480, 120, 520]\nfront = {{ buildup = "front", gap = 2.5 }}\n{BOX}')
    found = sizes(built)
    assert found["drawer front"] == pytest.approx((475.0, 115.0))
    # 120 − 10 above − 10 below; the longest runner that leaves 5 mm behind 20.3 of front: 450 ≤ 520 − 20.3 − 5
    assert found["drawer side left"] == pytest.approx((450.0, 100.0))
    assert found["drawer box front"] == pytest.approx((428.6, 100.0))
    # bottom of 8.2 lies 10 above the lower edge; the back stands on it
    assert found["drawer box back"] == pytest.approx((428.6, 100.0 - 10.0 - (6.4 + 1.6 + 0.2)))
    # in grooves of 6 with 0.5 of play: 428.6 + 2 × 5.5, and 450 − 13 + 5.5
    assert found["drawer bottom"] == pytest.approx((439.6, 442.5))
    # the front begins 2.5 inside the opening, the box 12.7
    assert box_of(built, "drawer side left")[0] == pytest.approx((10.2, THICK, 7.5))
    assert built.arranged.size_mm == pytest.approx((475.0, THICK + 450.0, 115.0))


def test_an_overlay_drawer_by_hand() -> None:
    """The front reaches 18 over the opening and stands 2 off it: the box gains these 2 and loses no front."""
    front = 'front = { buildup = "front", lie = "overlay", over = 18, grain = "upright" }\n'
    built = made(f"opening = [480, 120, 455]\n{front}{BOX}")
    found = sizes(built)
    assert found["drawer front"] == pytest.approx((156.0, 516.0))  # grain upright: its length is the height
    # 455 + 2 − 5 = 452 clear behind the front
    assert found["drawer side left"][0] == pytest.approx(450.0)
    assert box_of(built, "drawer side left")[0] == pytest.approx((18.0 + 12.7, THICK, 18.0 + 10.0))
    assert box_of(built, "drawer front")[1] == pytest.approx((516.0, THICK, 156.0))


def test_a_box_alone_has_no_screws_for_a_front() -> None:
    built = made(f"opening = [480, 120, 520]\n{BOX}")
    assert "drawer front" not in sizes(built)
    assert sizes(built)["drawer side left"][0] == 500.0
    assert not [one for one in built.arranged.worked if one.kind == "screw holes"]
    assert not [one for one in built.arranged.fittings if "washer" in one.name]
    assert built.arranged.size_mm == pytest.approx((454.6, 500.0, 100.0))


def test_what_has_no_room_is_told() -> None:
    codes = {one.code for one in made(f"opening = [60, 120, 520]\n{BOX}").findings}
    assert "drawer.no_room" in codes
    small = made(f'opening = [400, 42, 520]\nfront = {{ buildup = "front", gap = 2 }}\n{BOX}')
    assert [one.code for one in small.findings] == ["drawer.front_small"]


@pytest.mark.parametrize(
    ("wrong", "line"),
    [
        ('drawer = { bottom = "thin" }', "wood or buildup for the box"),
        ('drawer = { wood = "ash" }', "bottom or bottom_wood"),
        ('drawer = { wood = "ash", bottom = "thim" }', "thin"),
    ],
)
def test_what_is_left_out_or_unknown_is_said(wrong: str, line: str) -> None:
    with pytest.raises(FileError, match=line):
        made(f"opening = [480, 120, 520]\n{wrong}\n")


@st.composite
def drawers(draw):
    tenth = st.integers(0, 10_000).map(lambda n: n / 10)
    wide, high, deep = (
        draw(tenth) % span + low for low, span in ((150.0, 700.0), (90.0, 260.0), (320.0, 380.0))
    )
    lie = draw(st.sampled_from(["inset", "overlay", ""]))
    more = draw(st.integers(10, 40)) / 10
    key = "gap" if lie == "inset" else "over"
    grain = draw(st.sampled_from(["across", "upright"]))
    shy = draw(st.integers(0, 30)) / 10 if lie == "inset" else 0.0
    front = (
        f'front = {{ buildup = "front", lie = "{lie}", {key} = {more}, shy = {shy}, grain = "{grain}" }}\n'
        if lie
        else ""
    )
    side = draw(st.sampled_from(["dowel", "housing"]))
    clearance, below, above = (draw(st.integers(20, 140)) / 10 for _ in range(3))
    box = (
        f'drawer = {{ wood = "ash", thickness = 13, bottom = "thin", clearance = {clearance}, below = {below}, '
        f'above = {above}, joint = "{side}" }}\n'
    )
    given = (wide, high, deep), lie, more, (clearance, below, shy)
    return f"opening = [{wide:.1f}, {high:.1f}, {deep:.1f}]\n{front}{box}", given


@settings(max_examples=150, deadline=None)
@given(drawers())
def test_parts_and_air_fill_the_opening_every_way(drawn) -> None:
    text, ((wide, high, deep), lie, more, (clearance, below, shy)) = drawn
    built = made(text)
    left, right = box_of(built, "drawer side left"), box_of(built, "drawer side right")
    inner, back = box_of(built, "drawer box front"), box_of(built, "drawer box back")
    air = {one.name: one.mm for one in built.arranged.gaps}
    across = air["left of drawer 1"] + (right[1][0] - left[0][0]) + air["right of drawer 1"]
    assert across == pytest.approx(wide, abs=0.01)
    assert below + (left[1][2] - left[0][2]) + air["above drawer 1"] == pytest.approx(high, abs=0.01)
    # between the sides, less what is housed
    joints = {one.kind: one.enters_mm for one in built.arranged.joints if "box front" in one.between[1]}
    deep_in = joints.get("housing", 0.0)
    assert inner[1][0] - inner[0][0] - 2 * deep_in == pytest.approx(wide - 2 * clearance - 26.0, abs=0.01)
    assert left[0][1] == pytest.approx(inner[0][1]) == pytest.approx(THICK if lie else 0.0)
    assert back[1][1] == pytest.approx(left[1][1])
    depth = next(one for one in built.arranged.chains if one.name == "drawer 1, depth")
    behind = {"inset": deep - shy, "overlay": deep + THICK + 2.0, "": deep}[lie]
    assert sum(size for _, size in depth.members) == pytest.approx(behind, abs=0.01)
    assert behind - left[1][1] >= 5.0 - 1e-6
    if lie:
        front = box_of(built, "drawer front")
        by = -more if lie == "inset" else more
        assert front[1][0] - front[0][0] == pytest.approx(wide + 2 * by, abs=0.01)
        assert front[1][2] - front[0][2] == pytest.approx(high + 2 * by, abs=0.01)
        assert left[0][0] - front[0][0] == pytest.approx(clearance + by, abs=0.01)
    lows = [box_of(built, one.part)[0] for one in built.arranged.placements]
    highs = [box_of(built, one.part)[1] for one in built.arranged.placements]
    for n in range(3):
        assert min(low[n] for low in lows) == pytest.approx(0.0, abs=0.01)
        assert max(one[n] for one in highs) == pytest.approx(built.arranged.size_mm[n], abs=0.01)


@settings(max_examples=40, deadline=None)
@given(drawers())
def test_nothing_stands_in_anything_but_what_is_let_in(drawn) -> None:
    built = made(drawn[0])
    let_in = {frozenset(one.between) for one in built.arranged.joints if one.enters_mm}
    for one, other in combinations([place.part for place in built.arranged.placements], 2):
        (a, b), (c, d) = box_of(built, one), box_of(built, other)
        shared = [min(b[n], d[n]) - max(a[n], c[n]) for n in range(3)]
        assert min(shared) <= 0.01 or frozenset((one, other)) in let_in
