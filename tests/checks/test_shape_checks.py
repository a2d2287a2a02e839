"""Corners of pieces, profiles, openings, inserts and grips: each finding with its number reckoned by hand."""

import math
from dataclasses import replace

import pytest
from jobs_by_hand import built, edge, flush, job, layers, panel

from evenface.checks import ask_all
from evenface.construction import Construction
from evenface.finding import Finding, Severity
from evenface.parts import part_of
from evenface.piece.records import (
    Corner,
    CornerAt,
    Cutout,
    Edge,
    Grip,
    Hold,
    Insert,
    Panel,
    Profile,
    Role,
    Shop,
    Side,
)
from evenface.shape.build import circle, rounded_rectangle
from evenface.shape.outline import Outline

SHEETS = tuple(
    replace(one, thickness_mm=0.8) if one.role is Role.BACK else one
    for one in layers(back="hpl-0.8", carrier="mdf-18")
)
ALIKE = tuple(edge(side, 14.0) for side in Side)
NARROW = tuple(edge(side, 6.0) for side in Side)


def asked(one: Panel, **other: object) -> tuple[Finding, ...]:
    made = job(one, buildup=SHEETS, **other)
    panels, _ = built(made)
    return ask_all(made, [Construction(made.pieces[0], panels)], [part_of(panels[0], "1.1")])


def codes(one: Panel, **other: object) -> list[str]:
    return [finding.code for finding in asked(one, **other)]


def the(code: str, one: Panel, **other: object) -> Finding:
    (found,) = [finding for finding in asked(one, **other) if finding.code == code]
    return found


def number(finding: Finding) -> float:
    assert finding.value is not None
    assert finding.value.nominal is not None
    return finding.value.nominal


def predicted(finding: Finding, remedy: int = 0) -> float:
    band = finding.remedies[remedy].predicted
    assert band is not None
    assert band.nominal is not None
    return band.nominal


# --- corners of pieces ----------------------------------------------------------------------------------


def cornered(kind: str, radius: float = 60.0, edges: tuple[Edge, ...] = ALIKE, **other: object) -> Panel:
    corner = Corner(CornerAt.FRONT_LEFT, "radius", radius, kind, origin="corner", **other)  # type: ignore[arg-type]
    return panel(*edges, corners=(corner,))


def test_a_block_ends_in_short_grain_and_moves_under_the_facing() -> None:
    short = the("corner.short_grain", cornered("block"))
    assert number(short) == pytest.approx(90)
    assert predicted(short) == pytest.approx(22.5)
    moves = the("corner.moves", cornered("block"))
    assert number(moves) == pytest.approx(60)
    assert moves.limit == pytest.approx(12)


def test_no_facing_over_it_no_movement_to_show() -> None:
    edges = tuple(flush(side, width_mm=14.0) for side in Side)
    edges = tuple(replace(one, width_mm=14.0) for one in edges)
    assert "corner.moves" not in codes(cornered("block", edges=edges))


def test_two_segments_keep_the_grain_and_one_does_not() -> None:
    assert "corner.short_grain" not in codes(cornered("ring"))
    assert number(the("corner.short_grain", cornered("ring", pieces=1))) == pytest.approx(45)


def test_thick_strips_are_told_their_strain_and_thin_ones_nothing() -> None:
    """3 strips of 14/3 on a mean radius of 53: 4.667/106."""
    found = the("corner.strain", cornered("strips", pieces=3))
    assert number(found) == pytest.approx(100 * (14 / 3) / 106)
    assert found.remedies[0].changes[0].new == "14"
    assert predicted(found) == pytest.approx(100 / 106)
    assert "corner.strain" not in codes(cornered("strips", pieces=14))


def test_a_corner_that_cannot_be_built_so_stops() -> None:
    found = the("corner.cannot_be_built", cornered("ring", radius=14.0))
    assert found.severity is Severity.STOP
    assert found.remedies[0].changes[0].new == "rounded"


def test_a_chamfered_corner_is_measured_across_its_flat() -> None:
    """14 and 14 less a leg of 27 leaves 1/√2 = 0.707; a leg of 25.1 leaves the 2 that are wanted."""
    corner = Corner(CornerAt.REAR_LEFT, "chamfer", 27.0, origin="corner")
    found = the("corner.thin", panel(*ALIKE, corners=(corner,)))
    assert number(found) == pytest.approx(1 / math.sqrt(2))
    assert found.remedies[0].changes[0].new == "25.1"
    assert predicted(found) == pytest.approx(2.9 / math.sqrt(2))


def test_every_remedy_of_a_rounded_corner_foretells_enough() -> None:
    found = the("corner.through", cornered("rounded"))
    assert number(found) == pytest.approx(60 - 46 * math.sqrt(2))
    assert [predicted(found, remedy) >= 2 - 1e-9 for remedy in range(3)] == [True] * 3


# --- profiles -------------------------------------------------------------------------------------------


def profiled(*profiles: Profile, edges: tuple[Edge, ...] = ALIKE, **other: object) -> Panel:
    return panel(*edges, profiles=profiles, **other)


def profile(shape: str, *sides: Side, face: str = "top", **other: object) -> Profile:
    return Profile(sides or tuple(Side), shape, face, origin="profile", **other)  # type: ignore[arg-type]


def test_wood_left_is_taken_where_the_carrier_begins() -> None:
    """Round-over 9, 6 of edging: 0.9 down it is 9 − √(81 − 8.1²) = 5.077 deep, 0.923 left."""
    depth = 9 - math.sqrt(81 - 8.1**2)
    found = the("profile.thin", profiled(profile("round-over", radius_mm=9.0), edges=NARROW))
    assert found.severity is Severity.WEIGH
    assert number(found) == pytest.approx(6 - depth, abs=1e-6)
    assert predicted(found) >= 2.0
    smaller = float(found.remedies[1].changes[0].new)
    assert smaller - math.sqrt(smaller**2 - (smaller - 0.9) ** 2) <= 4.0
    more = smaller + 0.1
    assert more - math.sqrt(more**2 - (more - 0.9) ** 2) > 4.0


def test_a_profile_that_comes_out_of_the_edging_stops_with_its_level() -> None:
    """Chamfer 12: 11.1 deep at the carrier's top, 6 deep 6 mm down, so it comes out at 19.4 − 6 = 13.4."""
    found = the("profile.through", profiled(profile("chamfer", height_mm=12.0), edges=NARROW))
    assert found.severity is Severity.STOP
    assert number(found) == pytest.approx(6 - 11.1)
    assert found.message.values["level"] == pytest.approx(13.4, abs=1e-6)


def test_profiles_that_run_into_each_other_stop() -> None:
    told = asked(
        profiled(profile("chamfer", height_mm=12.0), profile("bevel under", face="bottom", height_mm=12.0,
                                                             depth_mm=3.0))
    )  # fmt: skip
    (found,) = [one for one in told if one.code == "profile.meet"]
    assert found.severity is Severity.STOP
    assert number(found) == pytest.approx(24 - 19.4)


def test_a_profile_nobody_can_cut_is_a_finding() -> None:
    bad = profile("free", curve=((0.0, 4.0, 0.0), (3.0, 2.0, 0.0), (2.0, 0.0, 0.0)))
    assert the("profile.cannot_be_cut", profiled(bad)).severity is Severity.STOP


def test_the_band_of_the_facing_and_how_far_its_line_wanders() -> None:
    """Round-over 6 through 0.8: 6·acos(1 − 0.8/6) = 3.135 wide; 0.1 in height moves the line √(2·6·0.1) = 1.095."""
    told = profiled(profile("round-over", radius_mm=6.0))
    assert number(the("profile.band", told)) == pytest.approx(6 * math.acos(1 - 0.8 / 6), abs=1e-6)
    wanders = the("profile.wander", told)
    assert number(wanders) == pytest.approx(math.sqrt(1.2), abs=1e-6)
    assert predicted(wanders) == pytest.approx(0.1)
    level = profiled(
        profile("round-over", radius_mm=6.0),
        edges=tuple(replace(flush(side), width_mm=14.0) for side in Side),
    )
    assert not {"profile.band", "profile.wander"} & set(codes(level))


def test_a_profile_that_ends_in_a_rounding_is_asked_about() -> None:
    corners = (Corner(CornerAt.FRONT_LEFT, "radius", 10.0, origin="corner"),)
    alone = profiled(profile("round-over", Side.FRONT, radius_mm=2.0), corners=corners)
    assert "profile.ends_in_rounding" in codes(alone)
    # it dies out √(2·10·2 − 2²) = 6 along the arc; stopped where the arc begins it has a place
    assert the("profile.ends_in_rounding", alone).message.values["run"] == pytest.approx(6)
    stopped = profiled(profile("round-over", Side.FRONT, radius_mm=2.0, stop_mm=10.0), corners=corners)
    assert "profile.ends_in_rounding" not in codes(stopped)
    both = profiled(profile("round-over", Side.FRONT, Side.LEFT, radius_mm=2.0), corners=corners)
    assert "profile.ends_in_rounding" not in codes(both)


def test_a_bevel_under_a_hinged_door_meets_the_hinge_cup() -> None:
    bevel = profile("bevel under", face="bottom", height_mm=10.0, depth_mm=5.0)
    found = the("profile.hinge_cup", profiled(bevel, hold=Hold("hinged", 2)))
    assert number(found) == pytest.approx(3 - 5)


def test_a_small_rounding_is_cut_away_with_the_profile() -> None:
    """R 2 under a round-over of 2 runs clean off the end; R 2.5 does not."""
    alone = profile("round-over", Side.FRONT, radius_mm=2.0)
    for radius, told in ((1.0, False), (2.0, False), (2.5, True)):
        corners = (Corner(CornerAt.FRONT_LEFT, "radius", radius, origin="corner"),)
        assert ("profile.ends_in_rounding" in codes(profiled(alone, corners=corners))) is told


def test_only_the_side_of_the_hinges_counts_where_it_is_known() -> None:
    """The bevel runs along all four edges, 5 deep; the cup begins 4 from the left edge."""
    bevel = profile("bevel under", face="bottom", height_mm=10.0, depth_mm=5.0)
    hold = Hold("hinged", 2, "hold", {Side.LEFT: 4.0}, Side.LEFT)
    found = the("profile.hinge_cup", profiled(bevel, hold=hold))
    assert (found.at, number(found)) == ("left", pytest.approx(-1))
    right = replace(bevel, sides=(Side.RIGHT,))
    assert "profile.hinge_cup" not in codes(profiled(right, hold=hold))


def test_a_bevel_under_is_held_against_the_frame_of_its_own_side() -> None:
    """12 deep below; the apron stands 40 in, in front 10: 2 over it, set in by 12 it is clear."""
    wide = tuple(edge(side, 30.0) for side in Side)
    bevel = profile("bevel under", face="bottom", height_mm=10.0, depth_mm=12.0)
    hold = Hold("screwed", 6, "hold", {Side.FRONT: 10.0, Side.REAR: 40.0, Side.LEFT: 40.0})
    found = the("profile.frame", profiled(bevel, edges=wide, hold=hold))
    assert (found.at, number(found)) == ("front", pytest.approx(-2))
    assert found.remedies[0].changes[0].path == "hold.from_edge.front"
    assert found.remedies[0].changes[0].new == "12"
    assert found.remedies[1].changes[0].new == "10"
    rounded = profile("round-over", radius_mm=12.0)  # from above it never comes down to the frame
    assert "profile.frame" not in codes(profiled(rounded, edges=wide, hold=hold))


def test_a_profile_keeps_its_distance_from_an_insert() -> None:
    """Insert 16 from the bare front edge, up at the face; a chamfer 14 deep and 10 high leaves 2 less at its depth."""
    wood = Insert("wood", rounded_rectangle(80, 40, 10).moved(300, 16), "beech", depth_mm=8.0, origin="wood")
    bare = panel(inserts=(wood,), profiles=(profile("stepped", Side.FRONT, height_mm=10.0, depth_mm=14.0),))
    assert number(the("profile.insert", bare)) == pytest.approx(2)
    deeper = replace(bare, profiles=(profile("stepped", Side.FRONT, height_mm=10.0, depth_mm=18.0),))
    assert the("profile.insert", deeper).severity is Severity.STOP


def test_an_edge_broken_too_little_is_sharp() -> None:
    edges = (edge(Side.FRONT, 10.0, broken_edge_mm=0.2),)
    assert number(the("edge.sharp", panel(*edges))) == pytest.approx(0.2)


# --- outline and openings -------------------------------------------------------------------------------


def test_corners_that_overlap_stop_and_nothing_falls_over() -> None:
    corners = tuple(Corner(at, "radius", 300.0, origin="corner") for at in CornerAt)
    assert the("outline.impossible", panel(*ALIKE, corners=corners)).severity is Severity.STOP


def test_an_outline_that_is_not_the_size_says_by_how_much() -> None:
    outline = Outline.of([(0, 0), (900, 0), (900, 500), (0, 500)])
    assert number(the("outline.size", panel(outline=outline))) == pytest.approx(100)


BOX = rounded_rectangle(600, 400, 60)


def free(outline: Outline, *edges: Edge, **other: object) -> Panel:
    length, width = outline.size
    return panel(*(edges or ALIKE), outline=outline, length_mm=length, width_mm=width, **other)


def test_an_arc_straight_edging_cannot_carry_says_what_would() -> None:
    """R 60 behind 14 pokes out by 5.05; 2 left needs 60 − 58·cos 45° = 18.99, or R at most 42.97."""
    found = [one for one in asked(free(BOX)) if one.code == "outline.rounding"]
    assert len(found) == 4
    assert number(found[0]) == pytest.approx(-5.054, abs=5e-4)
    assert found[0].limit == 2.0
    wider, smaller = found[0].remedies
    assert {change.new for change in wider.changes} == {"19"}
    assert smaller.message.values["radius"] == 42.9  # (14 − 2·cos 45°)/(1 − cos 45°) = 42.97
    assert predicted(found[0], 1) >= 2.0
    assert "outline.rounding" not in codes(free(BOX, *(edge(side, 19.0) for side in Side)))


def test_strips_and_segments_asked_for_are_judged() -> None:
    ring = Corner(CornerAt.FRONT_LEFT, construction="ring", pieces=1, origin="corners")
    short = [one for one in asked(free(BOX, corners=(ring,))) if one.code == "edging.short_grain"]
    assert [number(one) for one in short] == pytest.approx([45.0] * 4)
    assert short[0].remedies[0].changes[0].new == "2"
    thick = Corner(CornerAt.FRONT_LEFT, construction="strips", pieces=4, origin="corners")
    strain = [one for one in asked(free(BOX, corners=(thick,))) if one.code == "edging.bend_strain"]
    # 14/4 = 3.5 on the mean radius of 53: 3.5/106
    assert number(strain[0]) == pytest.approx(100 * 3.5 / 106)
    assert strain[0].remedies[0].changes[0].new == "14"


def test_an_arc_tighter_than_its_width_is_sawn() -> None:
    """Segments asked for at R 10 behind 14; straight edging rounded afterwards would leave 10 and pass."""
    ring = Corner(CornerAt.FRONT_LEFT, construction="ring", origin="corners")
    tight = rounded_rectangle(600, 400, 10)
    found = [one for one in asked(free(tight, corners=(ring,))) if one.code == "edging.tight_arc"]
    assert [number(one) for one in found] == pytest.approx([10] * 4)
    assert found[0].remedies[0].changes[0].new == "9.9"
    assert "edging.tight_arc" not in codes(free(tight))


def hole(x: float, y: float, name: str = "hole", diameter: float = 60.0, **other: object) -> Cutout:
    return Cutout(name, circle(diameter, (x, y)), origin=name, **other)  # type: ignore[arg-type]


def test_webs_to_the_edge_and_to_one_another() -> None:
    """Centre 55 from the front, radius 30: 25 left. Two holes 100 apart: 40 left, which is enough."""
    told = panel(*NARROW, cutouts=(hole(500, 55), hole(600, 155)))
    assert number(the("cutout.web", told)) == pytest.approx(25)
    close = panel(*NARROW, cutouts=(hole(500, 200), hole(590, 200, "other")))
    assert number(the("cutout.web", close)) == pytest.approx(30)
    assert "cutout.web" not in codes(panel(*NARROW, cutouts=(hole(500, 200), hole(600, 200, "other"))))


@pytest.mark.parametrize(
    ("y", "code"),
    [(-100.0, "cutout.outside"), (20.0, "cutout.notch"), (40.0, "cutout.in_edging")],
)
def test_openings_out_of_their_place(y: float, code: str) -> None:
    assert code in codes(panel(*ALIKE, cutouts=(hole(500, y),)))


def test_openings_that_overlap_stop() -> None:
    found = the("cutout.overlap", panel(*NARROW, cutouts=(hole(500, 200), hole(540, 200, "other"))))
    assert found.severity is Severity.STOP


def test_a_wet_edge_is_sealed_or_lined() -> None:
    assert the("cutout.wet_edge", panel(cutouts=(hole(500, 200, wet=True),))).severity is Severity.WEIGH
    lined = hole(500, 200, wet=True, lining="ash", lining_width_mm=10.0)
    assert "cutout.wet_edge" not in codes(panel(cutouts=(lined,)))


def test_corners_are_drilled_first_with_their_own_diameter() -> None:
    basin = Cutout("basin", rounded_rectangle(400, 200, 20).moved(200, 150), origin="basin")
    found = the("cutout.drill_first", panel(cutouts=(basin,)))
    assert found.message.values["count"] == 4
    assert found.message.values["size"] == pytest.approx(40)


# --- inserts and grips ----------------------------------------------------------------------------------


def insert(x: float = 200.0, y: float = 100.0, **other: object) -> Insert:
    given = {"depth_mm": 12.0, "outline": rounded_rectangle(150, 44, 10).moved(x, y), "origin": "insert"}
    return Insert(wood="beech", **{"name": "wood", **given, **other})  # type: ignore[arg-type]


def grip(**other: object) -> Grip:
    given = {"depth_mm": 8.0, "path": ((235.0, 122.0), (315.0, 122.0)), "origin": "grip"}
    return Grip(**{"name": "grip", "insert": "wood", "cutter": "straight", "cutter_diameter_mm": 25.0, **given,
                   **other})  # type: ignore[arg-type]  # fmt: skip


def gripped(*grips: Grip, inserts: tuple[Insert, ...] | None = None, **other: object) -> Panel:
    let_in = (insert(when="after facing"),) if inserts is None else inserts
    return panel(*NARROW, inserts=let_in, grips=grips, **other)


def test_an_insert_in_its_place_says_nothing() -> None:
    assert not [code for code in codes(gripped(grip())) if code.startswith(("insert", "grip"))]


def test_a_recess_that_leaves_no_floor() -> None:
    """Before the facing the ground is the carrier's 17.6: 16 deep leaves 1.6."""
    thin = the("insert.thin_floor", gripped(inserts=(insert(depth_mm=16.0),)))
    assert number(thin) == pytest.approx(1.6)
    assert predicted(thin) == pytest.approx(3)
    assert thin.remedies[0].changes[0].new == "14.6"
    deep = the("insert.too_deep", gripped(inserts=(insert(depth_mm=18.0),)))
    assert deep.severity is Severity.STOP


def test_walls_to_the_edging_and_between_inserts() -> None:
    """6 of edging, recess from y = 9: 3 left. Next recess 4 above the first."""
    assert number(the("insert.wall", gripped(inserts=(insert(y=9.0),)))) == pytest.approx(3)
    assert the("insert.in_edging", gripped(inserts=(insert(y=3.0),))).severity is Severity.STOP
    near = gripped(inserts=(insert(), insert(y=148.0, name="other")))
    assert number(the("insert.near", near)) == pytest.approx(4)
    over = gripped(inserts=(insert(),), cutouts=(hole(200, 122),))
    assert the("insert.overlap", over).severity is Severity.STOP


def test_inserts_on_opposite_faces_may_lie_over_one_another() -> None:
    shallow = (insert(depth_mm=6.0), insert(depth_mm=6.0, face="bottom", name="other"))
    assert "insert.overlap" not in codes(gripped(inserts=shallow))
    deep = (insert(depth_mm=10.0), insert(depth_mm=10.0, face="bottom", name="other"))
    assert "insert.overlap" in codes(gripped(inserts=deep))


def test_inserts_over_one_another_keep_a_floor_between_them() -> None:
    """Carrier 17.6, recesses of 9 and 7 from its faces: 1.6 between; 5.6 from the other face leaves 3."""
    near = (insert(depth_mm=9.0), insert(depth_mm=7.0, face="bottom", name="other"))
    found = the("insert.thin_between", gripped(inserts=near))
    assert number(found) == pytest.approx(1.6)
    assert found.remedies[0].changes[0].new == "5.6"
    beside = (insert(depth_mm=9.0), insert(depth_mm=7.0, x=400.0, face="bottom", name="other"))
    assert "insert.thin_between" not in codes(gripped(inserts=beside))


def test_a_hollow_in_the_board_that_leaves_the_panel() -> None:
    """Cutter 25 along y = 10: 2.5 over the front edge, open there; along y = −5 it is no hollow of this panel."""
    over = the("grip.past_edge", gripped(grip(insert="", path=((235.0, 10.0), (315.0, 10.0)))))
    assert (over.severity, number(over)) == (Severity.WEIGH, pytest.approx(-2.5))
    gone = the("grip.past_edge", gripped(grip(insert="", path=((235.0, -5.0), (315.0, -5.0)))))
    assert gone.severity is Severity.STOP
    assert "grip.past_edge" not in codes(gripped(grip(insert="", path=((235.0, 13.0), (315.0, 13.0)))))


def test_a_wide_insert_under_the_facing_moves() -> None:
    found = the("insert.wide_under", gripped(inserts=(insert(),)))
    assert number(found) == pytest.approx(43.8)


def test_wall_and_floor_of_a_hollow() -> None:
    """Piece 43.8 wide, cutter 40: 1.9 on each side. 10.5 of 12 deep: 1.5 below."""
    wide = the("grip.wall", gripped(grip(cutter_diameter_mm=40.0)))
    assert number(wide) == pytest.approx(1.9)
    assert wide.remedies[0].changes[0].new == "37.8"
    assert the("grip.wall", gripped(grip(cutter_diameter_mm=46.0))).severity is Severity.STOP
    deep = the("grip.floor", gripped(grip(depth_mm=10.5)))
    assert number(deep) == pytest.approx(1.5)
    assert predicted(deep) == pytest.approx(3)


def test_a_ball_is_narrower_where_its_wood_begins() -> None:
    """Under the facing the wood begins 0.9 down; a ball of 48, 8 deep, is there √(24² − 16.9²) = 17.04 wide."""
    told = gripped(grip(cutter="ball", cutter_diameter_mm=48.0), inserts=(insert(),))
    assert "grip.wall" not in codes(told)
    closer = gripped(
        grip(cutter="ball", cutter_diameter_mm=48.0, path=((235.0, 125.0), (315.0, 125.0))),
        inserts=(insert(),),
    )
    half = math.sqrt(24**2 - 16.9**2)
    assert number(the("grip.wall", closer)) == pytest.approx(143.9 - 125 - half, abs=1e-6)


def test_fingers_and_cutter_want_room() -> None:
    assert "grip.finger_room" in codes(gripped(grip(path=((270.0, 122.0), (280.0, 122.0)))))
    short = the("grip.reach", gripped(grip()), shop=Shop(reach_mm=15.0, template_mm=12.0))
    assert number(short) == pytest.approx(15 - 8 - 12)


def test_a_grip_from_the_edge_stays_within_its_strip() -> None:
    """Front edging 20 wide, from 0.9 to 18.5 high: a cutter of 8 along 9.7 leaves 4.8; 18 deep leaves 2."""
    front = (edge(Side.FRONT, 20.0),)
    worked = grip(
        insert="", from_="edge", cutter_diameter_mm=8.0, path=((400.0, 9.7), (500.0, 9.7)), depth_mm=18.0
    )
    told = panel(*front, grips=(worked,))
    assert number(the("grip.floor", told)) == pytest.approx(2)
    assert "grip.wall" not in codes(told)
    wide = replace(worked, cutter_diameter_mm=14.0)
    assert number(the("grip.wall", panel(*front, grips=(wide,)))) == pytest.approx(1.8)


def test_a_hollow_through_the_facing_shows_it_and_a_scoop_feathers_it() -> None:
    told = codes(gripped(grip(scooped=True), inserts=(insert(),)))
    assert {"grip.facing_edge", "grip.feathered"} <= set(told)
    assert "grip.feathered" not in codes(gripped(grip(scooped=True)))


def test_grips_too_near_each_other_and_an_opening() -> None:
    other = grip(name="other", path=((345.0, 122.0), (346.0, 122.0)))
    assert "grip.web" in codes(gripped(grip(), other))
    assert "grip.web" in codes(gripped(grip(), cutouts=(hole(275, 168),)))


def test_a_grip_that_is_no_hollow_is_a_finding() -> None:
    bent = grip(scooped=True, path=((235.0, 122.0), (275.0, 122.0), (315.0, 130.0)))
    assert the("grip.cannot_be_cut", gripped(bent)).severity is Severity.STOP


# --- where grips lie ------------------------------------------------------------------------------------


def from_edge(side: Side | None, *path: tuple[float, float], **other: object) -> Grip:
    given = {"from_": "edge", "side": side, "origin": "grip"} | other
    return Grip("grip", "", "ball", 12.0, 6.0, path, **given)  # type: ignore[arg-type]


def test_a_grip_from_an_edge_that_is_named_is_judged_by_that_edge() -> None:
    """Rear edging 20, front 6: six deep leaves 14 behind in the rear and nothing in the front."""
    edges = (edge(Side.FRONT, 6.0), edge(Side.REAR, 20.0))
    rear = panel(*edges, grips=(from_edge(Side.REAR, (400.0, 9.0), (500.0, 9.0)),))
    front = panel(*edges, grips=(from_edge(Side.FRONT, (400.0, 9.0), (500.0, 9.0)),))
    assert "grip.floor" not in codes(rear)
    assert number(the("grip.floor", front)) == pytest.approx(0)
    bare = panel(*edges, grips=(from_edge(Side.LEFT, (200.0, 9.0), (300.0, 9.0)),))
    assert "grip.in_carrier" in codes(bare)


def test_a_grip_that_runs_past_its_edge_or_out_of_a_face_stops() -> None:
    """The left edge is 500 long; a hollow 12 wide round its end at 497 reaches 503, and 3 from a face breaks out."""
    past = panel(*ALIKE, grips=(from_edge(Side.LEFT, (400.0, 9.0), (497.0, 9.0)),))
    assert number(the("grip.past_edge", past)) == pytest.approx(-3)
    inside = panel(*ALIKE, grips=(from_edge(Side.FRONT, (400.0, 9.0), (497.0, 9.0)),))
    assert "grip.past_edge" not in codes(inside)
    low = panel(*ALIKE, grips=(from_edge(Side.FRONT, (400.0, 3.0), (497.0, 3.0)),))
    assert number(the("grip.past_edge", low)) == pytest.approx(-3)


def test_what_lies_behind_a_grip_from_the_edge() -> None:
    """Six deep from the rear at y = 500: a hole whose far side is at 491 leaves 3."""
    grip = from_edge(Side.REAR, (400.0, 9.0), (500.0, 9.0))
    near = panel(*NARROW, grips=(grip,), cutouts=(hole(450.0, 461.0),))
    assert number(the("grip.web", near)) == pytest.approx(3)
    assert "grip.web" not in codes(panel(*NARROW, grips=(grip,), cutouts=(hole(450.0, 450.0),)))


def test_a_grip_on_the_side_of_the_hinges() -> None:
    """Hinges on the left, cups within 7 + 35 of it; a grip 200 in pulls with little leverage on 1000."""
    hold = Hold("hinged", 2, "hold", hinges=Side.LEFT)
    edged = panel(*ALIKE, grips=(from_edge(Side.LEFT, (200.0, 9.0), (300.0, 9.0)),), hold=hold)
    assert "grip.hinge_cup" in codes(edged)
    other = replace(edged, grips=(from_edge(Side.RIGHT, (200.0, 9.0), (300.0, 9.0)),))
    assert not {"grip.hinge_cup", "grip.on_hinge_side"} & set(codes(other))
    face = Grip("grip", "", "ball", 12.0, 6.0, ((200.0, 200.0), (200.0, 300.0)), origin="grip")
    found = the("grip.on_hinge_side", replace(edged, grips=(face,)))
    assert number(found) == pytest.approx(200)
