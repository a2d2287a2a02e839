"""A top on a base: sizes, joints and slots by hand, and what is said of it."""

from collections import Counter
from math import sqrt

import pytest

from evenface.construction import Construction, construct
from evenface.construction.ground import Ground
from evenface.construction.kinds import KINDS
from evenface.construction.kinds.top_on_base.fixings import needed_slot_mm, travel_of
from evenface.construction.kinds.top_on_base.records import Legs
from evenface.construction.kinds.top_on_base.sagging import strip_of, top_span
from evenface.construction.kinds.top_on_base.sizes import base_sizes, tenon_of
from evenface.construction.kinds.top_on_base.standing import masses, tipping_load_kg
from evenface.construction.kinds.top_on_base.way import longest_round, passes_door, turns_corner
from evenface.drawings import whole_scenes
from evenface.drawings.scene import Dimension, Line, Stroke, texts_of
from evenface.errors import FileError
from evenface.finding import Severity
from evenface.materials import load_catalogue
from evenface.parts import boards_of, parts_of
from evenface.piece import read_job
from evenface.piece.editing import apply_changes
from evenface.piece.records import Side

CATALOGUE = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Glaze room"
humidity = {humidity}
[buildup.top]        # 2.0 + 0.1 + 20.5 + 0.1 + 0.8 = 23.5
face = {{ material = "linoleum-2", thickness = 2.0 }}
back = {{ material = "hpl-0.8", thickness = 0.8 }}
carrier = {{ material = "birch-ply-21", thickness = 20.5 }}
glue = "pva-d3"
edging = {{ wood = "ash", width = 18 }}
[[piece]]
kind = "top on a base"
name = "Desk"
buildup = "top"
"""
STILL = [0.5] * 12
MOVING = [0.32, 0.33, 0.36, 0.42, 0.5, 0.58, 0.62, 0.62, 0.57, 0.5, 0.42, 0.35]
LEGS = """\
size = [1500, 740, 700]
overhang = {{ front = 30, rear = 12, left = 40, right = 22 }}
{more}
[piece.legs]
wood = "ash"
size = [60, 50]
[piece.apron]
wood = "beech"
thickness = 24
height = 90
front = 70
back = 5
{apron}
"""


def job_of(piece: str, humidity: list[float] = STILL):
    return read_job(HEAD.format(humidity=humidity) + piece, "job.toml", CATALOGUE, KINDS)


def made(piece: str, humidity: list[float] = STILL) -> Construction:
    (construction,) = construct(job_of(piece, humidity), CATALOGUE, KINDS)
    return construction


def legs(more: str = "", apron: str = "", humidity: list[float] = STILL) -> Construction:
    return made(LEGS.format(more=more, apron=apron), humidity)


def sizes(construction: Construction) -> dict[str, tuple[float, float, float, int]]:
    return {
        one.name: (*one.finished_mm, one.count)
        for one in (*parts_of([construction]), *boards_of([construction]))
    }


def codes(construction: Construction) -> set[str]:
    return {one.code for one in construction.findings}


def told(construction: Construction, code: str):
    return next(one for one in construction.findings if one.code == code)


def test_legs_and_aprons_by_hand() -> None:
    """Top 23.5, so legs 716.5. Base 1500 − 62 = 1438 by 700 − 42 = 658.

    Tenon: a third of 24 is 8. Wall: 5 + 8 = 13. Passing each other in a leg of 60: 60 − 13 − 8 − 2 = 37; in one of
    50: 27. Both are 25 and more, so neither is mitred.
    Long aprons: 1438 − 120 = 1318 between shoulders, 1318 + 74. End aprons: 658 − 100 = 558, 558 + 54.
    """
    found = sizes(legs())
    assert found["top"] == pytest.approx((1500.0, 700.0, 23.5, 1))
    # each leg is the one before it turned by a quarter: 60 × 50 and 50 × 60 by turns
    posts = {name: size for name, size in found.items() if name.startswith("leg")}
    assert {size[0] for size in posts.values()} == {716.5}
    assert {size[1:3] for size in posts.values()} == {(50.0, 60.0), (60.0, 50.0)}
    assert sum(size[3] for size in posts.values()) == 4
    assert found["long apron front"] == pytest.approx((1392.0, 70.0, 24.0, 1))
    assert found["long apron rear"] == pytest.approx((1392.0, 90.0, 24.0, 1))
    assert found["end apron"] == pytest.approx((612.0, 90.0, 24.0, 2))


def test_a_mortise_lies_where_the_tenon_comes() -> None:
    """Front apron 70 high: its lower edge at 716.5 − 70 = 646.5, the tenon 4 above it; a quarter of 70, 18 (17.5),
    stays for the haunch. Rear and ends 90: 626.5 + 4, and 22 (22.5) for the haunch."""
    built = legs()
    for one in built.arranged.worked:
        if one.kind != "mortise":
            continue
        low, high = one.x0_mm, one.x1_mm
        assert (low, high) in (
            pytest.approx((650.5, 716.5 - 18)),
            pytest.approx((630.5, 716.5 - 22)),
        )
        assert (one.y0_mm, one.y1_mm) == pytest.approx((13.0, 21.0))
        assert one.depth_mm in (pytest.approx(38.0), pytest.approx(28.0))
        assert one.face in ("rear", "top")
    tenon = next(
        one for one in built.arranged.worked if one.kind == "tenon" and one.part == "long apron front"
    )
    # up to the upper edge, and above 52 cut back by 37 − 10 so that the haunch of 10 stays
    assert (tenon.x0_mm, tenon.x1_mm, tenon.y0_mm, tenon.y1_mm) == pytest.approx((4.0, 70.0, 8.0, 16.0))
    assert tenon.depth_mm == 37.0
    haunch = next(
        one for one in built.arranged.worked if one.kind == "haunch" and one.part == "long apron front"
    )
    assert (haunch.x0_mm, haunch.x1_mm, haunch.depth_mm) == pytest.approx((52.0, 70.0, 27.0))


def test_square_legs_with_equal_aprons_are_one_line() -> None:
    found = sizes(
        made(
            LEGS.format(more="", apron="")
            .replace("size = [60, 50]", "size = 55")
            .replace("front = 70\nback", "back")
        )
    )
    assert found["leg"] == pytest.approx((716.5, 55.0, 55.0, 4))
    # wall 13; 55 − 13 − 8 − 2 = 32: 1500 − 62 − 110 + 64 and 700 − 42 − 110 + 64
    assert found["long apron"] == pytest.approx((1392.0, 90.0, 24.0, 2))
    assert found["end apron"] == pytest.approx((612.0, 90.0, 24.0, 2))


def test_a_thin_leg_takes_mitred_tenons() -> None:
    """Leg 44: 44 − 13 − 8 − 2 = 21 is under 25; mitred 44 − 13 − 2 = 29."""
    built = made(LEGS.format(more="", apron="").replace("[60, 50]", "[44, 44]"))
    assert {one.enters_mm for one in built.arranged.joints if one.kind == "mortise and tenon"} == {29.0}
    assert sizes(built)["end apron"][0] == pytest.approx(658 - 88 + 58)
    legs_, apron = built.piece.description.legs, built.piece.description.apron
    assert all(tenon_of(legs_, apron, side).mitred for side in Side)
    # in a leg of 60 by 44 only one of the two is so long: the other one stays clear of it, and neither is mitred
    assert not any(tenon_of(Legs("ash", (60.0, 44.0)), apron, side).mitred for side in Side)


def test_loose_tenons_and_dowels_leave_the_aprons_butted() -> None:
    for kind in ("loose tenon", "dowel"):
        found = sizes(legs(apron=f'joint = "{kind}"'))
        assert found["long apron rear"][0] == pytest.approx(1318.0)
        assert found["end apron"][0] == pytest.approx(558.0)
    bought = Counter()
    for one in legs(apron='joint = "dowel"').arranged.fittings:
        bought[one.name] += one.count
    # at most 32 apart: 90 high, 20 from both edges, 50 between: 3; 70 high, a quarter from both edges, 35 between: 3
    assert bought["dowel"] == 24
    bought = Counter()
    for one in legs(apron='joint = "loose tenon"').arranged.fittings:
        bought[one.name] += one.count
    assert bought["loose tenon"] == 8


def test_bearers_stand_between_the_long_aprons() -> None:
    """Between inner faces: 658 − 2·(5 + 24) = 600, and 12 of stub at each end; free width (1318 − 48)/3 = 423.3."""
    built = legs(apron="bearers = 2")
    assert sizes(built)["bearer"] == pytest.approx((624.0, 70.0, 24.0, 2))
    row = next(one for one in built.arranged.chains if one.name == "width over the bearers")
    assert [size for name, size in row.members if name == "clear"] == pytest.approx([1270 / 3] * 3)


def test_slots_by_hand() -> None:
    """Still air asks for shank and play alone: 4 + 2. In air that moves, the larger of what top and legs do."""
    job = job_of(LEGS.format(more="", apron=""), MOVING)
    ground = Ground(job, job.pieces[0], CATALOGUE)
    piece = job.pieces[0].description
    still = job_of(LEGS.format(more="", apron=""))
    dry = Ground(still, still.pieces[0], CATALOGUE)
    lengths = base_sizes(piece, ground)
    for side in Side:
        assert needed_slot_mm(piece, side, travel_of(piece, dry, lengths)) == 6.0
    along, across = travel_of(piece, ground, lengths)
    # of the legs, 2 × (50 − 5 − 12) = 66 of ash sawn between flat and quarter lie between the middles of the aprons;
    # of the top 700 − 30 − 12 − 2 × 17 = 624 of plywood, and no edging: 18 is less than 30 + 17, and than 12 + 17
    from evenface.construction.wood_through_year import width_through_year

    wood = width_through_year(job, CATALOGUE.wood("ash"), 66.0, "rift")
    board = CATALOGUE.carrier("birch-ply-21").expansion_across.high
    from evenface.construction.room_air import year_of

    humidity = sorted(float(one) for one in year_of(job, job.room).humidity)
    assert across.most >= max(wood.most_mm, -wood.least_mm) - 1e-9
    swing = max(humidity[-1] - 0.5, 0.5 - humidity[0])
    assert across.most <= max(wood.most_mm, -wood.least_mm, 624.0 * board * swing)
    needed = needed_slot_mm(piece, Side.FRONT, (along, across))
    assert needed - 0.5 < 4.0 + across.most + 2.0 <= needed


def test_a_top_fixed_in_front_moves_wholly_at_the_rear() -> None:
    job = job_of(LEGS.format(more='fixing = { kind = "button", fixed = "front" }', apron=""), MOVING)
    ground = Ground(job, job.pieces[0], CATALOGUE)
    piece = job.pieces[0].description
    travel = travel_of(piece, ground, base_sizes(piece, ground))
    assert needed_slot_mm(piece, Side.FRONT, travel) == 6.0
    assert (
        needed_slot_mm(piece, Side.REAR, travel) - 0.5
        < 6.0 + 2 * travel[1].most
        <= needed_slot_mm(piece, Side.REAR, travel)
    )


@pytest.mark.parametrize("kind", ["button", "slotted plate", "slotted screw"])
def test_every_fixing_meets_its_hole_in_the_top_and_stays_in_the_board(kind: str) -> None:
    built = legs(f'fixing = {{ kind = "{kind}", every = 300 }}')
    pilot = next(one for one in built.arranged.worked if one.kind == "pilot holes")
    # 1318 and 558 clear, 60 from each leg: 1198/300 → 5 each; 438/300 → 3 each
    assert len(pilot.centres) == 16
    bought = Counter()
    for one in built.arranged.fittings:
        bought[one.name] += one.count
    assert bought["round-head screw"] == 16
    line = {"button": 5 + 24 + 16, "slotted plate": 5 + 24 + 14, "slotted screw": 5 + 12}[kind]
    assert min(y for _, y in pilot.centres) == pytest.approx(30 + line)
    assert max(y for _, y in pilot.centres) == pytest.approx(700 - 12 - line)
    # 0.8 + 0.1 + 20.5 less 4 is the deepest a screw may go
    assert 10.0 <= pilot.depth_mm <= 17.4


def test_the_top_tips_by_moments() -> None:
    job = job_of(LEGS.format(more="load = { edge = 120 }", apron="").replace("front = 30", "front = 200"))
    (built,) = construct(job, CATALOGUE, KINDS)
    ground = Ground(job, job.pieces[0], CATALOGUE)
    piece = job.pieces[0].description
    top, base = masses(built, ground)
    legs_kg = 4 * 716.5 * 60 * 50 * 1e-9 * CATALOGUE.wood("ash").density.nominal
    beech = CATALOGUE.wood("beech").density.nominal
    # base 700 − 212 = 488 deep, end aprons 488 − 100 + 54; long ones as before
    aprons = (1392 * (70 + 90) + 2 * 442 * 90) * 24 * 1e-9 * beech
    assert base == pytest.approx(legs_kg + aprons)
    load = tipping_load_kg(piece, (top, base), base_sizes(piece, ground), Side.FRONT)
    # the middle of the top is 350 − 200 behind the feet in front, that of the base 488/2
    assert load == pytest.approx((top * 150 + base * 244) / 200)
    assert told(built, "stand.tips").value.nominal == pytest.approx(load)
    assert "stand.tips" not in codes(legs())


def test_sag_of_a_bare_board_by_the_formula() -> None:
    """Without facings the strip is the board alone: E h³/12 over 1 + creep, and 5 q l⁴ / 384 EI."""
    text = LEGS.format(more="load = { even = 300 }", apron="").replace('buildup = "top"', "")
    head = HEAD.replace('buildup = "top"', 'buildup = "bare"').replace(
        "[[piece]]",
        '[buildup.bare]\ncarrier = {{ material = "mdf-16", thickness = 16 }}\nglue = "pva-d3"\n[[piece]]',
    )
    job = read_job(head.format(humidity=STILL) + text, "job.toml", CATALOGUE, KINDS)
    (built,) = construct(job, CATALOGUE, KINDS)
    piece = job.pieces[0].description
    ground = Ground(job, job.pieces[0], CATALOGUE)
    span, along = top_span(piece, base_sizes(piece, ground))
    assert (span, along) == (pytest.approx(600.0), False)
    from evenface.construction.ground import layered

    board = CATALOGUE.carrier("mdf-16")
    strip = strip_of(layered(job.buildups["bare"], CATALOGUE, ground.made), along)
    assert strip.stiffness[1] == pytest.approx(board.modulus_across.nominal * 16**3 / 12 / 2.5)
    mass = 1.5 * 0.7 * 0.016 * board.density.nominal
    pressure = (300 + mass) * 9.81 / (1500 * 700)
    by_hand = 5 * pressure * 600**4 / (384 * strip.stiffness[1])
    assert told(built, "sag.top").value.nominal == pytest.approx(by_hand, rel=1e-6)
    assert told(built, "sag.top").severity is Severity.WEIGH


def test_facings_stiffen_the_strip() -> None:
    from evenface.construction.ground import layered

    job = job_of(LEGS.format(more="", apron=""))
    ground = Ground(job, job.pieces[0], CATALOGUE)
    found = layered(job.buildups["top"], CATALOGUE, ground.made)
    bare = CATALOGUE.carrier("birch-ply-21").modulus_along.nominal * 20.5**3 / 12 / 1.5
    assert strip_of(found, True).stiffness[1] > bare
    low, high = strip_of(found, True).stiffness[2], strip_of(found, True).stiffness[0]
    assert low < strip_of(found, True).stiffness[1] < high


def test_carver_and_the_ladder_round_a_corner() -> None:
    # a rectangle 1000 × 10 in 800 × 620: 1012 is the diagonal; Carver: (1420/1010)² + (180/990)² = 2.0097 ≥ 2
    assert passes_door((1000.0, 10.0, 5000.0), 800.0, 620.0)
    # 1000 × 20: (1420/1020)² + (180/980)² = 1.9719 < 2
    assert not passes_door((1000.0, 20.0, 1000.0), 800.0, 620.0)
    assert passes_door((1600.0, 720.0, 745.0), 780.0, 2000.0)
    # a ladder without width: (a^⅔ + b^⅔)^1.5
    assert longest_round(0.0, 900.0, 1200.0) == pytest.approx(
        (900 ** (2 / 3) + 1200 ** (2 / 3)) ** 1.5, rel=1e-4
    )
    # equal passages, at 45°: 2√2·a − 2w
    assert longest_round(300.0, 1000.0, 1000.0) == pytest.approx(2 * sqrt(2) * 1000 - 600, rel=1e-4)
    assert longest_round(1000.0, 900.0, 2000.0) == 0.0
    # 3 m long and flat does not turn between passages of 1 m under a low ceiling; on end it does under a high one
    assert not turns_corner((3000.0, 700.0, 30.0), 1000.0, 1000.0, 700.0)
    assert turns_corner((3000.0, 700.0, 30.0), 1000.0, 1000.0, 3200.0)


@pytest.mark.parametrize(
    ("more", "apron", "code"),
    [
        ("seats = { front = 3 }", "", "seat.narrow"),
        ("seats = { front = 2 }", "ends = 200\nrear = 200", None),
        ("seats = { rear = 1 }", "rear = 130", "knee.low"),
        ("seats = { left = 1 }", "", "knee.end"),
        ("seats = { front = 1, rear = 1 }", "", "table.shallow"),
        ("fixing = { kind = 'slotted plate', slot = 5 }", "", "fixing.slot_small"),
        ("fixing = { kind = 'slotted screw', slot = 14 }", "", "fixing.no_wood"),
        ("way = { doors = [[600, 1900]] }", "", "way.door"),
        ("way = { corner = [620, 620], ceiling = 1400 }", "", "way.corner"),
        ("", "joint = { kind = 'mortise and tenon', length = 10 }", "base.tenon_short"),
        ("", "joint = { kind = 'mortise and tenon', length = 50 }", "base.tenon_long"),
        ("", "rear = 180", "base.tenon_wide"),
    ],
)  # fmt: skip
def test_what_is_told_and_what_is_not(more: str, apron: str, code: str | None) -> None:
    built = legs(more, apron)
    if code is None:
        assert not codes(built) & {"seat.narrow", "knee.low"}
        return
    assert code in codes(built)
    assert code not in codes(legs())


@pytest.mark.parametrize(
    ("more", "apron", "code"),
    [
        ("fixing = { kind = 'slotted plate', slot = 5 }", "", "fixing.slot_small"),
        ("", "joint = { kind = 'mortise and tenon', length = 50 }", "base.tenon_long"),
    ],
)
def test_a_remedy_clears_what_it_is_for(more: str, apron: str, code: str) -> None:
    text = HEAD.format(humidity=MOVING) + LEGS.format(more=more, apron=apron)
    job = read_job(text, "job.toml", CATALOGUE, KINDS)
    (built,) = construct(job, CATALOGUE, KINDS)
    remedy = told(built, code).remedies[0]
    mended = apply_changes(text, remedy.changes)
    (again,) = construct(read_job(mended, "job.toml", CATALOGUE, KINDS), CATALOGUE, KINDS)
    assert code not in codes(again)


def test_a_base_given_by_others_by_hand() -> None:
    """Two trestles 80 wide under 2000, 150 from the ends: 2000 − 300 − 160 = 1540 clear; 740 − 23.5 high."""
    built = made(
        "size = [2000, 740, 700]\noverhang = { left = 150, right = 150, front = 20, rear = 0 }\n"
        'load = { even = 150 }\nsupports = { what = "trestle", width = 80 }\n'
    )
    assert [one.name for one in built.panels] == ["top"]
    rows = {one.name: dict(one.members) for one in built.arranged.chains}
    assert rows["width over the supports"]["clear"] == pytest.approx(1540.0)
    assert rows["height at a support"]["trestle"] == pytest.approx(716.5)
    assert rows["depth over the supports"]["trestle"] == pytest.approx(680.0)
    assert told(built, "sag.top").limit == pytest.approx(1540 * 0.0017)


def test_a_piece_too_small_for_its_base_is_told_and_not_built() -> None:
    built = made(LEGS.format(more="", apron="").replace("[1500, 740, 700]", "[200, 740, 700]"))
    assert codes(built) == {"base.no_room"}
    assert built.panels == ()


@pytest.mark.parametrize(
    "piece",
    [
        "size = [1500, 740, 700]\n",
        "size = [1500, 740, 700]\n[piece.legs]\nwood = 'ash'\nsize = 50\n",
        LEGS.format(more="supports = { width = 80 }", apron=""),
        LEGS.format(more="", apron="").replace('wood = "beech"', 'wood = "beach"'),
    ],
)
def test_a_base_that_is_none_or_two_has_its_complaint(piece: str) -> None:
    with pytest.raises(FileError):
        job_of(piece)


def test_supports_given_by_others_are_drawn_dashed_under_the_top() -> None:
    """Trestles from 150 to 230 and from 1770 to 1850, under a top that begins at 716.5."""
    built = made(
        "size = [2000, 740, 700]\noverhang = { left = 150, right = 150, front = 20, rear = 0 }\n"
        'load = { even = 150 }\nsupports = { what = "trestle", width = 80 }\n'
    )
    boxes = [(one.low, one.high) for one in built.arranged.given]
    assert boxes == [
        ((150.0, 20.0, 0.0), (230.0, 700.0, pytest.approx(716.5))),
        ((1770.0, 20.0, 0.0), (1850.0, 700.0, pytest.approx(716.5))),
    ]
    front = dict(whole_scenes(built))["front"]
    dashed = [one for one in front.primitives if isinstance(one, Line) and one.stroke is Stroke.HIDDEN]
    upright = {round(one.x0, 3) for one in dashed if one.x0 == one.x1}
    assert upright == {150.0, 230.0, 1770.0, 1850.0}
    shown = {one.text.text for one in front.primitives if isinstance(one, Dimension)}
    assert {"1540", "716.5", "740"} <= shown
    assert any("trestle 1, trestle 2" in text.text for text in texts_of(front.primitives))
