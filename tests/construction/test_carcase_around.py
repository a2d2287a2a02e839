"""What stands round a carcase and beside its doors: plinths, legs, rails, strips, walls; fronts in line, two airs."""

import pytest

from evenface.construction import Construction, construct
from evenface.construction.hinges import overlay_needs_mm
from evenface.construction.kinds import KINDS
from evenface.construction.sagging import bars_of, stiffness_of
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.parts import parts_of
from evenface.piece import read_job
from evenface.piece.records import Role

CATALOGUE = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Glaze room"
place = "copenhagen"
[buildup.shell]        # 0.8 + 0.1 + 17.6 + 0.1 + 0.8 = 19.4
face = "hpl-0.8"
back = "hpl-0.8"
carrier = { material = "birch-ply-18", thickness = 17.6 }
glue = "pva-d3"
edging = { wood = "birch", width = 6 }
[buildup.thick]        # 24.4 bare
carrier = { material = "mdf-25", thickness = 24.4 }
glue = "pva-d3"
[buildup.thin]
carrier = { material = "birch-ply-6.5", thickness = 6.5 }
glue = "pva-d3"
[[piece]]
kind = "carcase"
name = "Cupboard"
sides = "shell"
"""
CUPBOARD = """\
size = [1000, 700, 400]
fronts = {{ buildup = "{door}", lie = "overlay"{more} }}
back = {{ buildup = "thin" }}
grip = {{ wood = "ash", size = [120, 40], from_edge = 50, up = 150 }}
[[piece.bay]]
width = 300
row = [{{ what = "door", hinge = "right", run = "all" }}]
[[piece.bay]]
row = [{{ what = "doors", run = "all" }}]
"""


def made(piece: str) -> Construction:
    job = read_job(HEAD + piece, "job.toml", CATALOGUE, KINDS)
    (construction,) = construct(job, CATALOGUE, KINDS)
    return construction


def cupboard(door: str = "shell", more: str = "") -> Construction:
    return made(CUPBOARD.format(door=door, more=more))


def found(construction: Construction, code: str):
    return [one for one in construction.findings if one.code == code]


PLINTHED = """\
size = [600, 800, 450]
plinth = { wood = "ash", thickness = 22, height = 90, setback = 45 }
[[piece.bay]]
row = [{ what = "open", shelves = 1 }]
"""


def test_a_plinth_of_solid_wood_by_hand() -> None:
    """No fronts, so the sides begin at 0: ends 450 − 45 − 2·22 = 361."""
    built = made(PLINTHED)
    boards = {one.name: one for one in built.boards}
    assert set(boards) == {"plinth front", "plinth rear", "plinth end"}
    assert (boards["plinth front"].board.length_mm, boards["plinth front"].board.width_mm) == (600.0, 90.0)
    assert boards["plinth end"].board.length_mm == pytest.approx(361.0)
    assert boards["plinth end"].count == 2
    corners = [one for one in built.arranged.joints if "plinth" in one.between[0] and one.kind == "dowel"]
    assert len(corners) == 4
    # 90 high, dowels at a quarter (22.5) from both edges, 45 between, at most 45 apart: two in each corner
    assert [one.number for one in corners] == [2, 2, 2, 2]
    row = next(one for one in built.arranged.chains if one.name == "height of bay 1")
    assert row.members[0] == ("plinth", 90.0)


@pytest.mark.parametrize("wrong", ['wood = "ash", buildup = "shell"', "thickness = 20", 'wood = "aspirin"'])
def test_a_plinth_is_of_one_thing(wrong: str) -> None:
    with pytest.raises(FileError):
        made(PLINTHED.replace('wood = "ash", thickness = 22', wrong))


def test_legs_are_counted_where_they_are_marked() -> None:
    """1900 wide: 60 from the ends, 1780 between, at most 900 apart: three pairs."""
    built = made("size = [1900, 800, 450]\nlegs = 100\n[[piece.bay]]\nrow = [{ what = 'open' }]\n")
    places = next(one for one in built.arranged.worked if one.kind == "places of legs")
    assert len(places.centres) == 6
    assert sum(one.count for one in built.arranged.fittings if one.name == "leg") == 6
    # the bottom lies with its length from right to left, between the sides: 1900 − 2 · 19.4 = 1861.2
    assert sorted({round(x, 1) for x, _ in places.centres}) == pytest.approx([40.6, 930.6, 1820.6])
    assert {y for _, y in places.centres} == {60.0, 390.0}


def test_rail_and_strips_are_joined_to_what_they_lie_against() -> None:
    built = made(
        'size = [900, 700, 320]\nback = { buildup = "thin" }\nhanging_rail = { wood = "ash" }\n'
        'scribe = { left = 20, top = 15, wood = "ash" }\n[[piece.bay]]\nrow = [{ what = "open" }]\n'
    )
    between = {one.between for one in built.arranged.joints}
    assert {("left side", "hanging rail"), ("right side", "hanging rail"), ("top", "hanging rail")} <= between
    assert {("left side", "scribe left"), ("top", "scribe above")} <= between
    assert ("right side", "scribe right") not in between


def test_the_inner_facing_of_a_mitred_carcase_by_hand() -> None:
    """Top mitred to sides of 19.4 and 24.4: 1000 − 43.8 inside; a side 700 − 19.4 at the top alone."""
    built = made(
        'size = [1000, 700, 400]\nright = "thick"\ntop_at = "mitred"\n[[piece.bay]]\nrow = [{ what = "open" }]\n'
    )
    inner = {one.part: one.said.values["inner"] for one in built.arranged.worked if one.kind == "mitre"}
    assert inner["top"] == pytest.approx(956.2)
    assert inner["left side"] == pytest.approx(680.6)
    assert inner["right side"] == pytest.approx(680.6)
    # the size ladder says the same: glued on whole, what is left of it inside once the ends are mitred
    for part in parts_of((built,)):
        sheets = {layer.role: layer for layer in part.layers}
        if Role.BACK in sheets and part.name in inner:
            whole = sheets[Role.FACE].net_mm[0]
            assert sheets[Role.BACK].net_mm[0] == pytest.approx(
                whole - (part.finished_mm[0] - inner[part.name])
            )
            assert sheets[Role.BACK].blank_mm[0] == pytest.approx(sheets[Role.FACE].blank_mm[0])
    top = next(part for part in parts_of((built,)) if part.name == "top")
    assert next(layer for layer in top.layers if layer.role is Role.BACK).net_mm[0] == pytest.approx(956.2)


def test_the_gap_between_two_doors_names_both() -> None:
    gaps = {one.name: one.between for one in cupboard().arranged.gaps}
    # told apart in the run, every door keeps a line of its own
    (pair,) = [between for name, between in gaps.items() if name.endswith("between the doors")]
    assert len(set(pair)) == 2
    assert pair[0].startswith("left door")
    assert pair[1].startswith("right door")


def test_air_beside_the_hinge_edge_of_an_overlay_door() -> None:
    assert overlay_needs_mm(16.0) == pytest.approx(0.5)
    assert overlay_needs_mm(19.0) == pytest.approx(1.1)
    assert overlay_needs_mm(23.0) == pytest.approx(3.15)
    assert overlay_needs_mm(26.0) == pytest.approx(5.4)
    assert overlay_needs_mm(12.0) == pytest.approx(0.0)
    ways = [overlay_needs_mm(10 + 0.25 * n) for n in range(80)]
    assert ways == sorted(ways)


def test_a_door_that_opens_against_a_wall_is_told() -> None:
    # 1.5 at the right; 24.4 thick asks for 3.9 + 0.4 · 0.75
    # the door at the left is hinged at its right, so a wall at the left is nothing to it
    assert {one.at for one in found(cupboard("thick", ', beside = ["left"]'), "door.beside")} == {"gap"}
    wall = [
        one for one in found(cupboard("thick", ', beside = ["right"]'), "door.beside") if one.at == "right"
    ]
    assert len(wall) == 1
    assert wall[0].limit == pytest.approx(4.2)
    assert wall[0].value.nominal == pytest.approx(1.5)
    # 19.4 thick asks for 0.8 + 0.6 · 0.7 = 1.22: 1.5 do
    assert not found(cupboard("shell", ', beside = ["right"]'), "door.beside")


def test_two_doors_hinged_on_one_partition_share_their_gap() -> None:
    # 2 · 1.22 = 2.44 is less than 3; with 24.4 it is 8.4
    assert not found(cupboard("shell"), "door.beside")
    (both,) = found(cupboard("thick"), "door.beside")
    assert (both.at, both.limit) == ("gap", pytest.approx(8.4))
    assert not found(cupboard("thick", ", gap = 9"), "door.beside")


def test_grips_stand_in_line_and_on_the_closing_side() -> None:
    built = cupboard()
    heights, hands = [], []
    for place in built.arranged.placements:
        panel = next(one for one in built.panels if one.name == place.part)
        if "door" not in place.part:
            continue
        (grip,), (wood,) = panel.panel.grips, panel.panel.inserts
        # cut along the wood, which stands upright as the door's grain does: its middle counts
        x, y = (sum(values) / len(values) for values in zip(*grip.path, strict=True))
        at = place.point(x, y, 0.0)
        heights.append(round(at[2], 6))
        hands.append(grip.hand)
        low, high = place.box(panel.length_mm, panel.width_mm, panel.thickness_mm)
        closing = high[0] - at[0] if grip.hand == "left" else at[0] - low[0]
        assert closing == pytest.approx(50.0)
        assert wood.wood == "ash"
    # 1.5 below the fronts, and 150 up
    assert heights == pytest.approx([151.5] * 3)
    assert sorted(hands) == ["left", "right", "right"]


def test_every_door_has_the_room_before_it_and_the_cupboard_behind() -> None:
    doors = [one for one in cupboard().panels if "door" in one.name]
    assert len(doors) == 3
    assert {(one.panel.climate_top, one.panel.climate_bottom) for one in doors} == {("", "in-a-cupboard")}
    assert {one.panel.run for one in doors} == {"all"}


SHELVES = """\
size = [900, 700, 400]
shelves = "{shelf}"
[[piece.bay]]
row = [{{ what = "open", shelves = 2, load = {load} }}]
"""


def test_a_loaded_shelf_of_bare_board_sags_by_the_formula() -> None:
    """Loose on its pins: 900 − 38.8 = 861.2 between the sides, 24.4 thick; creep of fibre 1.5."""
    built = made(SHELVES.format(shelf="thick", load=400))
    (told,) = found(built, "shelf.sags")
    shelf = next(one for one in built.panels if one.name == "loose shelf")
    board = CATALOGUE.carrier("mdf-25")
    stiffness = board.modulus_along.nominal / 2.5 * shelf.width_mm * 24.4**3 / 12
    own = board.density.nominal * 1e-9 * shelf.width_mm * 24.4 * 9.81
    by_hand = 5 * (0.4 + own) * 861.2**4 / (384 * stiffness)
    assert told.value.nominal == pytest.approx(by_hand, rel=1e-6)
    assert told.limit == pytest.approx(861.2 * 0.0017)
    assert not found(made(SHELVES.format(shelf="thick", load=1)), "shelf.sags")


def test_facings_and_edging_stiffen_a_shelf() -> None:
    built = made(SHELVES.format(shelf="shell", load=400))
    shelf = next(one for one in built.panels if one.name == "loose shelf")
    bars = bars_of(shelf)
    # carrier, two facings and the edging in front
    assert len(bars) == 4
    usual = [stiffness_of(bars[:count])[1] for count in (1, 3, 4)]
    assert usual == sorted(usual)
    # each sheet of 0.8 lies 17.6/2 + 0.1 + 0.4 = 9.3 from the middle and keeps 1/1.5 of its stiffness
    sheet, wide = CATALOGUE.facing("hpl-0.8").modulus_along.nominal, shelf.faces[0].rectangle.width_mm
    assert usual[1] - usual[0] == pytest.approx(
        2 * sheet / 1.5 * wide * (0.8**3 / 12 + 0.8 * 9.3**2), rel=1e-6
    )
    low, high = stiffness_of(bars)[2], stiffness_of(bars)[0]
    assert low < usual[2] < high


def test_a_loose_panel_with_span_and_load_is_held_against_sag_too() -> None:
    text = (
        HEAD[: HEAD.index("[[piece]]")]
        + '[[piece]]\nname = "Shelves"\n[[piece.panel]]\nname = "shelf"\nbuildup = "thick"\n'
        + "size = [1000, 300]\nedges = []\nspan = 960\nload = {load}\n"
    )
    for load, span, times in ((600, 960, 1), (60, 480, 0)):
        changed = text.replace("{load}", str(load)).replace("960", str(span))
        job = read_job(changed, "job.toml", CATALOGUE, KINDS)
        (built,) = construct(job, CATALOGUE, KINDS)
        told = found(built, "shelf.sags")
        assert len(told) == times
    # 24.4 bare, 300 wide, creep 1.5
    board = CATALOGUE.carrier("mdf-25")
    job = read_job(text.replace("{load}", "600"), "job.toml", CATALOGUE, KINDS)
    (built,) = construct(job, CATALOGUE, KINDS)
    (told,) = found(built, "shelf.sags")
    own = board.density.nominal * 1e-9 * 300 * 24.4 * 9.81
    stiffness = board.modulus_along.nominal / 2.5 * 300 * 24.4**3 / 12
    assert told.value.nominal == pytest.approx(5 * (0.6 + own) * 960**4 / (384 * stiffness), rel=1e-6)
