"""Lined boxes against sums done by hand: walls, lining, fingers, groove, dividers; what is told of them."""

import pytest

from evenface.construction import Construction, construct
from evenface.construction.kinds import KINDS
from evenface.construction.kinds.lined_box.fingers import finger_joint
from evenface.construction.kinds.lined_box.records import FingersAsked
from evenface.errors import FileError
from evenface.finding import Severity
from evenface.materials import load_catalogue
from evenface.parts import boards_of
from evenface.piece import read_job
from evenface.piece.editing import apply_changes
from evenface.piece.records import Made, Role
from evenface.words import say

CATALOGUE = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Glaze room"
humidity = [0.32, 0.33, 0.36, 0.42, 0.5, 0.58, 0.62, 0.62, 0.57, 0.5, 0.42, 0.35]
shop_humidity = "50 %"
[buildup.thin]         # 6.5 bare
carrier = { material = "birch-ply-6.5", thickness = 6.5 }
glue = "pva-d3"
[[piece]]
kind = "lined box"
name = "Tray"
"""
# walls 12 (front, rear) and 15 (left, right); linoleum 2.0 on glue 0.1: lining 2.1
BODY = """\
size = [400, 260, 90]
[piece.walls]
wood = "ash"
thickness = 12
side_thickness = 15
[piece.lining]
facing = "linoleum-2"
glue = "pva-d3"
[piece.fingers]
number = 5
cutter = 6
[piece.bottom]
buildup = "thin"
groove = 5
up = 7
"""


def text(body: str = BODY) -> str:
    return HEAD + body


def made(body: str = BODY, measured: Made | None = None) -> Construction:
    job = read_job(text(body), "job.toml", CATALOGUE, KINDS)
    return construct(job, CATALOGUE, KINDS, *([measured] if measured else []))[0]


def told(one: Construction, code: str):
    return next((finding for finding in one.findings if finding.code == code), None)


def work(one: Construction, part: str, kind: str):
    found = [w for w in one.arranged.worked if w.part == part and w.kind == kind]
    return sorted(found, key=lambda w: (w.x0_mm, w.y0_mm))


def chain(one: Construction, name: str):
    return [(n, pytest.approx(s)) for n, s in next(c for c in one.arranged.chains if c.name == name).members]


FRONT, SIDE = "side front & rear", "side left & right"


def test_walls_run_over_the_whole_outside_and_carry_their_lining() -> None:
    one = made()
    front, side = (next(b for b in boards_of([one]) if b.name == name) for name in (FRONT, SIDE))
    assert (front.count, front.finished_mm) == (2, pytest.approx((400.0, 90.0, 14.1)))
    assert (side.count, side.finished_mm) == (2, pytest.approx((260.0, 90.0, 17.1)))
    lining = front.layer(Role.FACE)
    assert lining is not None
    # board cut 2 × 1.6 long; sheet 5 over it on every edge: 400 + 3.2 + 10 by 90 + 10
    assert lining.blank_mm == pytest.approx((413.2, 100.0, 2.0))
    ash, lino = CATALOGUE.wood("ash").density.nominal, CATALOGUE.facing("linoleum-2").density.nominal
    assert front.mass_kg == pytest.approx(0.4 * 0.09 * (0.012 * ash + 0.002 * lino))


def test_inside_is_what_wood_and_lining_leave() -> None:
    one = made()
    # 400 − 2 (15 + 2.1) = 365.8; 260 − 2 (12 + 2.1) = 231.8; 90 − 7 − 6.5 = 76.5
    assert chain(one, "width, through the walls") == [
        ("wood", 15.0), ("lining", 2.1), ("inside", 365.8), ("lining", 2.1), ("wood", 15.0)
    ]  # fmt: skip
    assert ("inside", 231.8) in chain(one, "depth, through the walls")
    assert chain(one, "height, inside") == [("below the bottom", 7.0), ("bottom", 6.5), ("clear", 76.5)]
    turned = made(BODY.replace("size = [400, 260, 90]", "inside = [365.8, 231.8, 76.5]"))
    assert turned.arranged.size_mm == pytest.approx((400.0, 260.0, 90.0))


def test_a_measured_sheet_moves_what_is_cleared_and_the_inside() -> None:
    one = made(measured=Made(thicknesses={"linoleum-2": 2.3}))
    assert ("inside", pytest.approx(365.2)) in chain(one, "width, through the walls")
    assert [w.depth_mm for w in work(one, FRONT, "lining cleared")] == pytest.approx([2.4, 2.4])


def test_the_sheet_written_in_the_job_counts_until_it_is_measured() -> None:
    """1.8 and 0.1 of glue: 400 − 2 (15 + 1.9) = 366.2."""
    body = BODY.replace('facing = "linoleum-2"', 'facing = "linoleum-2"\nthickness = 1.8')
    assert ("inside", pytest.approx(366.2)) in chain(made(body), "width, through the walls")
    measured = Made(thicknesses={"linoleum-2": 2.3})
    assert ("inside", pytest.approx(365.2)) in chain(made(body, measured), "width, through the walls")


@pytest.mark.parametrize(
    ("corner", "gap", "front", "side"),
    [
        # front cleared to the side's wood (15), side to the front's wood and lining (12 + 2.1)
        ("front runs through", 0.0, 15.0, 14.1),
        ("front runs through", 0.3, 15.3, 14.4),
        ("sides run through", 0.0, 17.1, 12.0),
        ("shy", 0.5, 17.6, 14.6),
        ("mitred", 0.0, 15.0, 12.0),
    ],
)
def test_the_lining_is_cleared_by_what_meets_it(corner: str, gap: float, front: float, side: float) -> None:
    body = BODY.replace(
        'glue = "pva-d3"\n[piece.f', f'glue = "pva-d3"\ncorner = "{corner}"\ngap = {gap}\n[piece.f'
    )
    one = made(body)
    for part, length, wide in ((FRONT, 400.0, front), (SIDE, 260.0, side)):
        left, right = work(one, part, "lining cleared")
        assert (left.x0_mm, left.x1_mm) == pytest.approx((0.0, wide))
        assert (right.x0_mm, right.x1_mm) == pytest.approx((length - wide, length))
        assert (left.y0_mm, left.y1_mm, left.depth_mm) == pytest.approx((0.0, 90.0, 2.1))


def test_slots_of_one_wall_are_the_fingers_of_the_other() -> None:
    """90 in five: 18 each. Front has 0–18, 36–54, 72–90; its slots 18–36 and 54–72, each 0.05 wider at both sides."""
    one = made()
    front = [(w.x0_mm, w.x1_mm) for w in work(one, FRONT, "finger slot")]
    side = [(w.x0_mm, w.x1_mm) for w in work(one, SIDE, "finger slot")]
    assert front == [pytest.approx((17.95, 36.05)), pytest.approx((53.95, 72.05))]
    assert side == [pytest.approx((0.0, 18.05)), pytest.approx((35.95, 54.05)), pytest.approx((71.95, 90.0))]
    # as deep as the other wall's wood; right through one's own
    assert {(w.depth_mm, w.y1_mm, w.number) for w in work(one, FRONT, "finger slot")} == {(15.0, 12.0, 2)}
    assert {(w.depth_mm, w.y1_mm, w.number) for w in work(one, SIDE, "finger slot")} == {(12.0, 15.0, 2)}
    corners = [joint for joint in one.arranged.joints if joint.kind == "fingers"]
    assert len(corners) == 4
    # four faces between five fingers, 12 × 15 each
    assert {(joint.number, joint.area_mm2, joint.length_mm) for joint in corners} == {(5, 720.0, 90.0)}


@pytest.mark.parametrize(
    ("asked", "widths"),
    [
        (FingersAsked(number=5), [18.0] * 5),
        # half pins: four full widths in all, 90 / 4 = 22.5 and 11.25 at the ends
        (FingersAsked(number=5, half_pins=True), [11.25, 22.5, 22.5, 22.5, 11.25]),
        # seven with five inner ones of 14: (90 − 70) / 2 = 10 at the ends
        (FingersAsked(number=7, width=14.0), [10.0, 14.0, 14.0, 14.0, 14.0, 14.0, 10.0]),
        # a cutter of 10.1 alone: fingers of 10 in slots of 10.1, nine of them
        (FingersAsked(cutter=10.1), [10.0] * 9),
        # width 12: seven would leave (90 − 60) / 2 = 15, nine (90 − 84) / 2 = 3, under 0.3 × 12: seven
        (FingersAsked(width=12.0), [15.0, 12.0, 12.0, 12.0, 12.0, 12.0, 15.0]),
        # half pins of 12 / 2: seven leave 15, nine 3; both off by 9 and 3, but 3 is under 3.6
        (FingersAsked(width=12.0, half_pins=True), [15.0, 12.0, 12.0, 12.0, 12.0, 12.0, 15.0]),
        (FingersAsked(number=4), [22.5] * 4),
    ],
)
def test_numbers_and_widths_of_fingers(asked: FingersAsked, widths: list[float]) -> None:
    joint = finger_joint(asked, 90.0)
    assert [finger.width_mm for finger in joint.fingers] == pytest.approx(widths)
    assert joint.fits


def test_passes_and_who_starts() -> None:
    joint = finger_joint(FingersAsked(number=5, cutter=6.0, starts="sides"), 90.0)
    # 18.1 with a cutter of 6: four passes, the last takes a hair
    assert joint.passes == 4
    assert [finger.owner for finger in joint.fingers] == ["sides", "front", "sides", "front", "sides"]
    assert finger_joint(FingersAsked(number=9, cutter=10.1), 90.0).passes == 1
    with pytest.raises(ValueError, match="height above 0"):
        finger_joint(FingersAsked(), 0.0)


def test_the_groove_runs_out_under_a_finger_and_stops_in_the_other_wall() -> None:
    """Bottom 7 to 13.5, groove 6.7 wide: in the lowest finger (0–18), the front's. So left and right run out."""
    one = made()
    (front,), (side,) = work(one, FRONT, "groove"), work(one, SIDE, "groove")
    # front stops 15 − 5 = 10 from its ends, where the bottom's edge ends
    assert (front.x0_mm, front.x1_mm) == pytest.approx((10.0, 390.0))
    assert (side.x0_mm, side.x1_mm) == pytest.approx((0.0, 260.0))
    assert (front.y0_mm, front.y1_mm, front.depth_mm) == pytest.approx((7.0, 13.7, 7.1))
    assert told(one, "box.groove_stopped") is None
    crossing = made(BODY.replace("up = 7", "up = 14"))
    (front,), (side,) = work(crossing, FRONT, "groove"), work(crossing, SIDE, "groove")
    assert (front.x0_mm, side.x0_mm) == pytest.approx((10.0, 7.0))
    note = told(crossing, "box.groove_stopped")
    assert note is not None
    # down to where 18 − 6.7 = 11.3 leaves it in the lowest finger, which is nearer than 18
    assert [change.new for change in note.remedies[0].changes] == ["11.3"]


def test_the_bottom_is_as_large_as_its_grooves_less_the_play() -> None:
    """Ply: 400 − 2 (15 − 4.5) = 379 by 260 − 2 (12 − 4.5) = 245."""
    one = made()
    (bottom,) = one.panels
    assert (bottom.length_mm, bottom.width_mm) == pytest.approx((379.0, 245.0))
    assert bottom.panel.hold.how == "groove"


def test_a_bottom_of_wood_has_room_to_grow_and_keeps_in_its_groove() -> None:
    wood = BODY.replace('buildup = "thin"', 'wood = "ash"\nthickness = 8\ncut = "flat"')
    one = made(wood)
    gaps = {gap.name: gap for gap in one.arranged.gaps}
    for gap in gaps.values():
        assert gap.least_mm is not None
        assert gap.least_mm >= -1e-9
    # across the grain it moves, along it hardly: only front and rear need more than the play of 0.5
    assert gaps["bottom, left"].mm == pytest.approx(0.5)
    assert gaps["bottom, front"].mm > 0.5
    assert next(j for j in one.arranged.joints if j.name == "bottom, front").moves
    shallow = made(wood.replace("groove = 5", "groove = 2"))
    assert told(shallow, "box.bottom_shallow") is not None


CRATE = """
[[piece.divider]]
way = "front to rear"
count = 2
clear = [100]
wood = "ash"
thickness = 6
held = "housed"
depth = 4
play = 0.2
[[piece.divider]]
way = "left to right"
buildup = "thin"
held = "loose"
play = 0.4
below = 10
"""


def test_dividers_share_what_is_left_and_cross_at_half_height() -> None:
    one = made(BODY + CRATE)
    # (365.8 − 2 × 6 − 100) / 2 = 126.9; (231.8 − 6.5) / 2 = 112.65
    assert [size for _, size in chain(one, "width, inside")] == [17.1, 100.0, 6.0, 126.9, 6.0, 126.9, 17.1]
    assert [size for _, size in chain(one, "depth, inside")] == [14.1, 112.65, 6.5, 112.65, 14.1]
    board = next(b.board for b in one.boards if b.name.startswith("divider"))
    # 231.8 + 2 × (4 − 0.2); height to the edge, 76.5
    assert (board.length_mm, board.width_mm) == pytest.approx((239.4, 76.5))
    panel = next(p for p in one.panels if p.name.startswith("divider"))
    assert (panel.length_mm, panel.width_mm) == pytest.approx((365.8 - 0.8, 66.5))
    # halved at 66.5 / 2 = 33.25 above the bottom: from above 76.5 − 33.25 + 0.2, from below 33.25 + 0.2
    from_above = work(one, "divider front to rear", "halving")
    assert [(w.face, w.depth_mm) for w in from_above] == [("rear", pytest.approx(43.45))]
    # 112.65 + 3.8 in the housing, 0.1 of air at each side of 6.5
    assert (from_above[0].x0_mm, from_above[0].x1_mm) == pytest.approx((116.35, 123.05))
    from_below = work(one, "divider left to right", "halving")
    assert [(w.face, pytest.approx(w.depth_mm)) for w in from_below] == [("front", 33.45)] * 2
    # its end stands 0.4 off the lining: 100 − 0.4 − 0.1
    assert from_below[0].x0_mm == pytest.approx(99.5)
    crossing = [joint for joint in one.arranged.joints if joint.kind == "halving"]
    assert [joint.enters_mm for joint in crossing] == pytest.approx([33.25, 33.25])
    assert all(joint.moves for joint in crossing)  # the divider from left to right is loose


def test_housings_lie_where_the_dividers_stand_in_both_walls() -> None:
    one = made(BODY + CRATE)
    # divider 117.1 to 123.1 and 250 to 256; the front is seen from inside, so its x runs from the right
    rear = [(w.x0_mm, w.x1_mm) for w in work(one, "side rear", "housing")]
    front = [(w.x0_mm, w.x1_mm) for w in work(one, "side front", "housing")]
    assert rear == [pytest.approx((117.0, 123.2)), pytest.approx((249.9, 256.1))]
    assert front == [pytest.approx((143.9, 150.1)), pytest.approx((276.8, 283.0))]
    assert {(w.depth_mm, w.y0_mm, w.y1_mm) for w in work(one, "side rear", "housing")} == {(4.0, 13.5, 90.0)}


# --- findings -------------------------------------------------------------------------------------------


def mended(body: str, code: str, number: int = 0) -> Construction:
    finding = told(made(body), code)
    assert finding is not None
    after = apply_changes(text(body), finding.remedies[number].changes, "job.toml")
    job = read_job(after, "job.toml", CATALOGUE, KINDS)
    return construct(job, CATALOGUE, KINDS)[0]


@pytest.mark.parametrize(
    ("old", "new", "code", "severity"),
    [
        ("number = 5", "number = 7\nwidth = 18", "box.finger_room", Severity.STOP),
        ("cutter = 6", "cutter = 20", "box.finger_cutter", Severity.STOP),
        ("number = 5", "number = 6", "box.fingers_even", Severity.NOTE),
        ("groove = 5", "groove = 8", "box.groove_deep", Severity.WEIGH),
        ("up = 7", "up = 2", "box.below_bottom", Severity.WEIGH),
        ("up = 7", "up = 14", "box.groove_stopped", Severity.NOTE),
    ],
)
def test_what_is_told_of_joint_and_groove_and_its_remedy(
    old: str, new: str, code: str, severity: Severity
) -> None:
    assert told(made(), code) is None
    body = BODY.replace(old, new)
    finding = told(made(body), code)
    assert finding is not None
    assert finding.severity is severity
    assert told(mended(body, code), code) is None


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [("depth = 4", "depth = 2.5", "box.housing_shallow"), ("depth = 4", "depth = 10", "box.housing_deep")],
)
def test_what_is_told_of_a_housing_and_its_remedy(old: str, new: str, code: str) -> None:
    assert told(made(BODY + CRATE), code) is None
    body = (BODY + CRATE).replace(old, new)
    assert told(made(body), code) is not None
    assert told(mended(body, code), code) is None


def test_thin_fingers_and_boxes_without_room() -> None:
    assert told(made(BODY.replace("number = 5", "number = 41")), "box.finger_thin") is not None
    assert told(made(BODY.replace("[400, 260, 90]", "[40, 260, 90]")), "box.no_room") is not None
    crowded = CRATE.replace("clear = [100]", "clear = [353]")
    assert told(made(BODY + crowded), "box.compartment") is not None


def test_a_divider_of_board_stays_below_walls_that_sink() -> None:
    flat = BODY.replace("side_thickness = 15", 'side_thickness = 15\ncut = "flat"')
    even = CRATE.replace("below = 10", "below = 0")
    assert told(made(flat + even), "box.divider_proud") is not None
    assert told(made(flat + CRATE), "box.divider_proud") is None
    assert told(mended(flat + even, "box.divider_proud"), "box.divider_proud") is None


def laminate(height: float, length: float, cut: str = "flat", thickness: float = 12.0) -> Construction:
    body = BODY.replace("linoleum-2", "hpl-0.8").replace("[400, 260, 90]", f"[{length}, {length}, {height}]")
    body = body.replace("side_thickness = 15", f'cut = "{cut}"')
    return made(body.replace("thickness = 12", f"thickness = {thickness}"))


def test_a_wall_under_laminate_cups_where_the_joint_does_not_reach() -> None:
    long, short = laminate(110, 600), laminate(110, 200)
    free, held = told(long, "box.cups"), told(short, "box.cup_held")
    assert free is not None
    assert held is not None
    assert (free.severity, held.severity) == (Severity.WEIGH, Severity.NOTE)
    # 600 − 2 × 110 stays free; the cup itself does not know of the length
    assert free.message.values["free"] == pytest.approx(380.0)
    assert free.value == held.value
    assert told(short, "box.cups") is None
    assert told(laminate(30, 600), "box.cups") is None
    assert told(laminate(30, 600), "box.cup_within") is not None


def test_quarter_sawn_and_thicker_walls_cup_less_and_remedies_say_so() -> None:
    cup = {
        (cut, thick): told(laminate(110, 600, cut, thick), "box.cups").value.nominal
        for cut, thick in (("flat", 12.0), ("quarter", 12.0), ("flat", 14.0))
    }
    assert cup["quarter", 12.0] < cup["flat", 12.0]
    assert cup["flat", 14.0] < cup["flat", 12.0]
    finding = told(laminate(110, 600), "box.cups")
    quarter = next(one for one in finding.remedies if one.code == "box.quarter")
    assert quarter.predicted.nominal == pytest.approx(cup["quarter", 12.0])


def test_walls_alike_that_keep_flat_are_told_of_once() -> None:
    alike = [one for one in laminate(30, 600).findings if one.code == "box.cup_within"]
    unlike = [one for one in made(BODY).findings if one.code == "box.cup_within"]
    assert (len(alike), len(unlike)) == (1, 2)


def test_laminate_pulls_at_the_wood_and_linoleum_does_not() -> None:
    pulls = told(laminate(110, 600), "box.tension")
    assert pulls is not None
    lower = told(laminate(60, 600), "box.tension")
    assert lower is not None
    # a lower box does not help: within 5 % of the same pull
    assert lower.value.nominal == pytest.approx(pulls.value.nominal, rel=0.05)
    assert told(made(), "box.tension") is None


def test_laminate_on_solid_wood_is_told_and_linoleum_is_not() -> None:
    assert told(laminate(40, 300), "box.faced_wood") is not None
    assert told(made(), "box.faced_wood") is None


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (BODY.replace("size = [400, 260, 90]\n", ""), "size (outside) or inside"),
        (BODY.replace('buildup = "thin"', ""), "buildup or wood"),
        (BODY.replace('wood = "ash"', 'wood = "asch"'), "asch"),
        (BODY.replace("number = 5", "number = 1"), "number"),
        (BODY + CRATE.replace('"left to right"', '"front to rear"'), "one table for each way"),
        (BODY + CRATE.replace("clear = [100]", "clear = [10, 10, 10]"), "at most 2 clear widths"),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_place(body: str, said: str) -> None:
    with pytest.raises(FileError) as caught:
        read_job(text(body), "job.toml", CATALOGUE, KINDS)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    ("corner", "told"),
    [
        ("front runs through", "the lining of front and rear runs to the wood of the sides"),
        ("sides run through", "the lining of the sides runs to the wood of front and rear"),
        ("mitred", "the two linings meet in a mitre"),
        ("shy", "each lining stops before the face of the other"),
    ],
)
def test_the_joint_says_how_the_linings_meet_in_the_corner(corner: str, told: str) -> None:
    one = made(BODY.replace('glue = "pva-d3"\n[piece.f', f'glue = "pva-d3"\ncorner = "{corner}"\n[piece.f'))
    joints = [say(joint.deduction) for joint in one.arranged.joints if joint.kind == "fingers"]
    assert len(joints) == 4
    assert all(told in text for text in joints), joints
