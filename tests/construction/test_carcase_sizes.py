"""Carcases against sums done by hand, and hundreds of random ones against their own boxes."""

import itertools
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import Construction, construct
from evenface.construction.ground import Ground
from evenface.construction.kinds import KINDS
from evenface.construction.kinds.carcase.build import build
from evenface.construction.placed import Assembly, Board
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.records import Panel

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
[buildup.thin]         # 6.5 bare
carrier = { material = "birch-ply-6.5", thickness = 6.5 }
glue = "pva-d3"
[buildup.door]         # 2.0 + 0.1 + 16.2 + 0.1 + 2.0 = 20.4, edging 18 wide and as high as the whole
face = { material = "linoleum-2", thickness = 2.0 }
back = { material = "linoleum-2", thickness = 2.0 }
carrier = { material = "mdf-16", thickness = 16.2 }
glue = "pva-d3"
edging = { wood = "ash", width = 18, section = "flush" }
"""


def made(piece: str) -> Construction:
    job = read_job(HEAD + piece, "job.toml", CATALOGUE, KINDS)
    (construction,) = construct(job, CATALOGUE, KINDS)
    return construction


def sizes(construction: Construction) -> dict[str, tuple[float, float, int]]:
    found = {one.name: (one.length_mm, one.width_mm, one.count) for one in construction.panels}
    return found | {
        one.name: (one.board.length_mm, one.board.width_mm, one.count) for one in construction.boards
    }


def codes(construction: Construction) -> set[str]:
    return {one.code for one in construction.findings}


UNEQUAL = """
[[piece]]
kind = "carcase"
name = "Cupboard"
size = [1000, 700, 400]
sides = "shell"
right = "thick"
dividers = "thick"
fronts = { buildup = "door", lie = "overlay" }
back = { buildup = "thin", how = "groove", depth = 7, inset = 10, play = 1 }
[[piece.bay]]
width = 380
row = [{ what = "door", shelves = 1 }]
[[piece.bay]]
row = [{ what = "doors" }]
"""


def test_unequal_sides_and_a_partition_by_hand() -> None:
    built = made(UNEQUAL)
    found = sizes(built)
    # depth of the sides: 400 − 20.4 door − 2 air = 377.6; the rear is at 400
    assert found["left side"] == pytest.approx((700.0, 377.6, 1))
    assert found["right side"] == pytest.approx((700.0, 377.6, 1))
    # between sides: 1000 − 19.4 − 24.4 = 956.2
    assert found["top"] == pytest.approx((956.2, 377.6, 1))
    # inside height 700 − 2 × 19.4 = 661.2; inside depth 377.6 − 10 − 6.5 = 361.1
    assert found["divider"] == pytest.approx((661.2, 361.1, 1))
    # back: 956.2 + 2 × (7 − 1) by 661.2 + 12
    assert found["back"] == pytest.approx((968.2, 673.2, 1))
    # first bay 380: door over 19.4 − 1.5 of the side and half of 24.4 − 3 of the divider: 380 + 17.9 + 10.7
    assert found["left door 1"] == pytest.approx((697.0, 408.6, 1))
    # second bay 956.2 − 380 − 24.4 = 551.8: fronts cover 551.8 + 10.7 + (24.4 − 1.5) = 585.4; a pair (585.4 − 3)/2
    assert found["left door 2"] == pytest.approx((697.0, 291.2, 1))
    assert found["right door"] == pytest.approx((697.0, 291.2, 1))
    # 1.5 + 408.6 + 3 + 291.2 + 3 + 291.2 + 1.5 = 1000
    # loose shelf: 380 − 2 × 1 long; from 22.4 + 2 to the back at 383.5, 1 behind: 383.5 − 1 − 24.4 = 358.1
    assert found["loose shelf"] == pytest.approx((378.0, 358.1, 1))
    chain = next(one for one in built.arranged.chains if one.name == "width through the fronts of row 1")
    assert [size for _, size in chain.members] == pytest.approx([1.5, 408.6, 3.0, 291.2, 3.0, 291.2, 1.5])


def test_the_carcase_under_the_facing_of_its_edges_is_smaller_by_them_and_not_where_it_is_bare() -> None:
    built = made(UNEQUAL)
    parts = {one.name: one for one in built.panels}
    # left side, edged 6 in front and at its upper end: carrier 700 − 6 by 377.6 − 6; the facing lies over the edging
    assert parts["left side"].carrier.rectangle.length_mm == pytest.approx(694.0)
    assert parts["left side"].carrier.rectangle.width_mm == pytest.approx(371.6)
    assert parts["left side"].faces[0].rectangle.length_mm == pytest.approx(700.0)
    # door edged flush 18 all round: board and linoleum alike 408.6 − 36 by 697 − 36, edging 20.4 high
    assert parts["left door 1"].faces[0].rectangle.width_mm == pytest.approx(372.6)
    assert parts["left door 1"].carrier.rectangle.length_mm == pytest.approx(661.0)
    assert parts["left door 1"].edgings[0].height_mm == pytest.approx(20.4)


def test_edging_that_a_cup_would_cut_is_told_flush_or_under_alike() -> None:
    assert "hinge.on_joint" in codes(made(UNEQUAL))
    narrow = UNEQUAL.replace('"door", lie', '"shell", lie')
    assert "hinge.on_joint" not in codes(made(narrow))


PEDESTAL = """
[[piece]]
kind = "carcase"
name = "Pedestal"
size = [460, 720, 600]
sides = "shell"
top_at = "over"
joint = { kind = "housing", depth = 5 }
fronts = { buildup = "door", lie = "inset", gap = 2.5 }
back = { buildup = "thin", how = "rear", shy = 2 }
plinth = { buildup = "shell", height = 70, setback = 40 }
drawer = { wood = "ash", thickness = 13, bottom = "thin", clearance = 12.7, cut = "quarter" }
[[piece.bay]]
row = [{ what = "drawers", count = 3, heights = [120, 180] }]
"""


def test_drawers_inset_on_a_plinth_by_hand() -> None:
    found = sizes(made(PEDESTAL))
    # sides: 720 − 70 plinth − 19.4 top, and 5 into the top; depth 600 − 6.5 back
    assert found["left side"] == pytest.approx((635.6, 593.5, 1))
    assert found["top"] == pytest.approx((460.0, 593.5, 1))
    # bottom between, 5 into both sides: 460 − 38.8 + 10
    assert found["bottom"] == pytest.approx((431.2, 593.5, 1))
    assert found["back"] == pytest.approx((456.0, 646.0, 1))
    # opening 421.2 wide, 720 − 70 − 38.8 = 611.2 high; fronts 421.2 − 5 wide
    assert found["drawer front 1"] == pytest.approx((416.2, 120.0, 1))
    # the lowest takes 611.2 − 2 × 2.5 − 2 × 2.5 − 120 − 180 = 301.2
    assert found["drawer front 3"] == pytest.approx((416.2, 301.2, 1))
    # box 421.2 − 25.4 = 395.8 wide, between the sides of 13: 369.8; runner: 593.5 − 5 − 20.4 = 568.1, so 550
    assert found["drawer box front 2"] == pytest.approx((369.8, 160.0, 1))
    # height of the second: 180 − 10 − 10
    assert found["drawer side left 2"] == pytest.approx((550.0, 160.0, 1))
    # back on the bottom: 160 − 10 − 6.5
    assert found["drawer box back 2"] == pytest.approx((369.8, 143.5, 1))
    # bottom: 369.8 + 2 × 5.5 wide; from 13 − 5.5 to the rear of 550
    assert found["drawer bottom"] == pytest.approx((380.8, 542.5, 3))
    assert found["plinth end"] == pytest.approx((593.5 - 40 - 2 * 19.4, 70.0, 2))
    assert found["plinth front"] == pytest.approx((460.0, 70.0, 1))


def test_an_opening_with_scribe_strips_by_hand() -> None:
    found = sizes(
        made(
            """
[[piece]]
kind = "carcase"
name = "Alcove"
opening = [905, 2210, 350]
sides = "shell"
scribe = { left = 15, right = 25, top = 30, wood = "birch" }
legs = 100
fronts = { buildup = "shell", lie = "half overlay" }
[[piece.bay]]
row = [{ what = "open", shelves = 2, shelf_below = true, height = 800 }, { what = "door", hinge = "right" }]
"""
        )
    )
    # carcase 905 − 40 wide and 2210 − 30 − 100 high
    assert found["top"] == pytest.approx((865 - 38.8, 350 - 21.4, 1))
    assert found["left side"] == pytest.approx((2080.0, 328.6, 1))
    assert found["scribe above"] == pytest.approx((905.0, 30.0, 1))
    assert found["scribe right"] == pytest.approx((2080.0, 25.0, 1))
    # rows: 2080 − 38.8 − 19.4 shelf − 800 = 1221.8; half of 19.4 − 3 over each panel: 8.2 on all four sides
    assert found["right door"] == pytest.approx((1221.8 + 16.4, 826.2 + 16.4, 1))


def test_equal_parts_are_one_line_and_mirrored_ones_are_not() -> None:
    built = made(PEDESTAL.replace("count = 3, heights = [120, 180]", "count = 4"))
    counts = {one.name: one.count for one in built.boards}
    # four equal fronts, but the two in the middle run in a room that is higher by nothing: all boxes alike or nearly
    assert sum(count for name, count in counts.items() if name.startswith("drawer side left")) == 4
    assert sum(count for name, count in counts.items() if name.startswith("drawer side right")) == 4
    assert not any(
        name.startswith("drawer side") and "left" not in name and "right" not in name for name in counts
    )


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (("width = 380", "width = 20000"), "carcase.widths"),
        (("size = [1000, 700, 400]", "size = [1000, 700, 24]"), "carcase.no_room"),
        (('lie = "overlay"', 'lie = "inset", gap = 0.1'), "door.corner"),
        (("depth = 7, inset", "depth = 15, inset"), "carcase.groove_deep"),
        (
            ('sides = "shell"', 'sides = "shell"\nshelf_joint = { kind = "housing", depth = 14 }'),
            "carcase.housing_deep",
        ),
        (('lie = "overlay"', 'lie = "overlay", cup = 12'), "hinge.bore"),
        (('fronts = { buildup = "door"', 'fronts = { buildup = "thin"'), "hinge.cup_deep"),
        (("size = [1000, 700, 400]", "size = [1000, 2900, 400]"), "door.too_heavy"),
        (("size = [1000, 700, 400]", "size = [1000, 900, 400]"), "carcase.tips"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_and_the_piece_as_it_stands_is_free_of_it(change, code) -> None:
    assert code in codes(made(UNEQUAL.replace(*change)))
    assert code not in codes(made(UNEQUAL))


def test_a_drawer_too_high_or_too_long_is_told() -> None:
    assert "drawer.too_high" in codes(made(PEDESTAL.replace('cut = "quarter"', "height = 200")))
    assert "drawer.runner" in codes(made(PEDESTAL.replace('cut = "quarter"', "length = 600")))
    assert "drawer.swells" in codes(made(PEDESTAL.replace('cut = "quarter"', "above = 1.5")))
    assert not codes(made(PEDESTAL)) & {"drawer.too_high", "drawer.runner", "drawer.swells"}


JOB = read_job(HEAD + UNEQUAL, "job.toml", CATALOGUE, KINDS)
PEDESTAL_JOB = read_job(HEAD + PEDESTAL, "job.toml", CATALOGUE, KINDS)


@st.composite
def carcases(draw: st.DrawFn):
    """Any carcase: the description of a cupboard or pedestal with its figures drawn anew."""
    size = st.floats(0.0, 1.0)

    def between(low: float, high: float) -> float:
        return low + (high - low) * draw(size)

    base = PEDESTAL_JOB.pieces[0].description
    other = JOB.pieces[0].description
    patterns = {**other.patterns, **base.patterns}
    joint = replace(
        base.joint,
        kind=draw(st.sampled_from(("dowel", "housing", "screw", "biscuit", "loose tongue"))),
        depth=between(2, 8),
    )
    names = ["shell", "thick", "door"]
    for role in ("left side", "right side", "top", "bottom", "divider", "shelf", "door", "drawer front"):
        patterns[role] = replace(patterns[role], buildup=draw(st.sampled_from(names)))
    bays = []
    row = base.bays[0].rows[0]
    for _ in range(draw(st.integers(1, 3))):
        rows = tuple(
            replace(
                row,
                what=what,
                height=None,
                heights=(),
                count=draw(st.integers(1, 3)) if what == "drawers" else 1,
                growth=between(0.8, 1.4),
                hinge=draw(st.sampled_from(("left", "right"))),
                grain=draw(st.sampled_from(("", "upright", "across"))),
                shelves=draw(st.integers(0, 2)) if what != "drawers" else 0,
                shelf_below=draw(st.booleans()),
            )
            for what in draw(
                st.lists(st.sampled_from(("door", "doors", "drawers", "open")), min_size=1, max_size=3)
            )
        )
        bays.append(replace(base.bays[0], rows=rows, width=None))
    fronts = replace(
        base.fronts,
        lie=draw(st.sampled_from(("inset", "overlay", "half overlay"))),
        between=between(1, 5),
        left=between(0.5, 4),
        right=between(0.5, 4),
        top=between(0.5, 4),
        bottom=between(0.5, 4),
        stand_off=between(0, 4),
        told=draw(st.sampled_from(((), ("left",), ("top", "right")))),
    )
    back = replace(
        base.back,
        how=draw(st.sampled_from(("groove", "rebate", "rear"))),
        depth=between(3, 9),
        inset=between(0, 30),
    )
    scribe = replace(base.scribe, left=between(0, 30), right=between(0, 30), top=between(0, 30), wood="birch")
    drawer = replace(
        base.drawer,
        wood=draw(st.sampled_from(("", "ash"))),
        clearance=between(2, 14),
        joint=joint,
        thickness=between(9, 16),
    )
    patterns["drawer side"] = replace(patterns["drawer bottom"], buildup="shell")
    if drawer.wood:
        del patterns["drawer side"]
    return replace(
        base,
        size_mm=(between(700, 2400), between(500, 2300), between(320, 700)),
        bays=tuple(bays),
        patterns=patterns,
        top_at=draw(st.sampled_from(("between", "over", "mitred"))),
        bottom_at=draw(st.sampled_from(("between", "over", "mitred"))),
        joint=joint,
        shelf_joint=replace(joint, depth=between(2, 6)),
        back=back if draw(st.booleans()) else None,
        fronts=fronts,
        drawer=drawer,
        scribe=scribe,
        plinth=draw(st.sampled_from((None, base.plinth, replace(base.plinth, wood="ash", thickness=22.0)))),
    )  # fmt: skip


def boxes(assembly: Assembly, ground: Ground):
    """(part, sunk, box) of every part, from its own size and place alone."""
    parts: dict[str, Panel | Board] = {one.name: one for one in (*assembly.panels, *assembly.boards)}
    for placement in assembly.placements:
        part = parts[placement.part]
        thick = part.thickness_mm if isinstance(part, Board) else ground.thickness_mm(part.buildup)
        yield placement, placement.box(part.length_mm, part.width_mm, thick)


@settings(max_examples=500, deadline=None)
@given(carcases())
def test_rows_close_and_boxes_touch_only_where_a_joint_says(carcase) -> None:
    ground = Ground(PEDESTAL_JOB, PEDESTAL_JOB.pieces[0], CATALOGUE)
    assembly = build(carcase, ground)
    if any(one.code in ("carcase.no_room", "carcase.heights", "carcase.widths") for one in assembly.findings):
        return
    width, height, depth = carcase.size_mm
    # rows: they are refused when they do not close; here that the whole of each direction is among them
    totals = {(chain.axis.value, round(chain.total_mm, 4)) for chain in assembly.chains}
    assert {("+x", round(width, 4)), ("+y", round(depth, 4)), ("+z", round(height, 4))} <= totals
    for chain in assembly.chains:
        assert sum(size for _, size in chain.members) == pytest.approx(chain.total_mm, abs=0.01)
        assert min(size for _, size in chain.members) >= -1e-9
    placed = list(boxes(assembly, ground))
    # outside, from the boxes alone
    lows = [min(low[axis] for _, (low, _) in placed) for axis in range(3)]
    highs = [max(high[axis] for _, (_, high) in placed) for axis in range(3)]
    assert lows[0] == pytest.approx(0.0, abs=0.01)
    assert highs[0] == pytest.approx(width, abs=0.01)
    assert highs[2] == pytest.approx(height, abs=0.01)
    assert highs[1] == pytest.approx(depth, abs=0.01)
    assert min(lows) >= -0.01
    joined = {frozenset(joint.between): 0.0 for joint in assembly.joints}
    for joint in assembly.joints:
        joined[frozenset(joint.between)] = max(joined[frozenset(joint.between)], joint.enters_mm)
    for (one, box), (other, beside) in itertools.combinations(placed, 2):
        common = [min(box[1][n], beside[1][n]) - max(box[0][n], beside[0][n]) for n in range(3)]
        if min(common) <= 0.001:
            continue
        assert one.sunk or other.sunk, f"{one.part} and {other.part} overlap by {common}"
        allowed = joined.get(frozenset((one.part, other.part)), 0.0)
        assert min(common) <= allowed + 0.001, f"{one.part} and {other.part} by {common}, joint {allowed}"
    rays_meet_the_outside(carcase, placed)


def rays_meet_the_outside(carcase, placed) -> None:
    """Along each axis, what a ray meets and what it leaves out give the outside size."""
    width, height, depth = carcase.size_mm
    size = (width, depth, height)
    shelf = next(box for placement, box in placed if placement.part == "left side")
    for axis in range(3):
        others = [n for n in range(3) if n != axis]
        for share in (0.31, 0.57, 0.83):
            at = {n: shelf[0][n] + share * (shelf[1][n] - shelf[0][n]) for n in others}
            if axis != 0:
                at[0] = share * width
            if axis == 1:
                at[2] = share * height
            hit = sorted(
                (low[axis], high[axis])
                for _, (low, high) in placed
                if all(low[n] < at[n] < high[n] for n in others)
            )
            solid, air, reached = 0.0, 0.0, 0.0
            for low, high in hit:
                air += max(low - reached, 0.0)
                solid += max(high - max(low, reached), 0.0)
                reached = max(reached, high)
            air += size[axis] - reached
            assert air >= -0.01
            assert solid + air == pytest.approx(size[axis], abs=0.01)
            if axis == 0:
                assert hit, "a ray from left to right meets the sides"
                assert hit[0][0] == pytest.approx(carcase.scribe.left, abs=0.01) or hit[0][
                    0
                ] == pytest.approx(0.0)


def test_every_placed_part_is_counted() -> None:
    assembly = build(
        PEDESTAL_JOB.pieces[0].description, Ground(PEDESTAL_JOB, PEDESTAL_JOB.pieces[0], CATALOGUE)
    )
    placed = Counter(one.part for one in assembly.placements)
    assert placed == {one.name: one.count for one in (*assembly.panels, *assembly.boards)}


def test_hinges_dowels_and_runners_are_counted_by_hand() -> None:
    cupboard = Counter()
    for one in made(UNEQUAL).arranged.fittings:
        cupboard[one.name] += one.count
    # four corners and both ends of the divider, 377.6 and 361.1 deep: 40 from each edge, at most 128 apart, so 4 each
    # (297.6 / 128 = 2.3 and 281.1 / 128 = 2.2: three spaces); three doors of 697 and less than 6.8 kg: two hinges each
    assert cupboard == {"dowel": 24, "hinge with plate": 6, "shelf pin": 4}
    pedestal = Counter()
    for one in made(PEDESTAL).arranged.fittings:
        pedestal[one.name] += one.count
    assert pedestal["pair of side runners"] == 3
    assert pedestal["round-head screw with washer"] == 12


def test_a_door_weighs_what_its_layers_weigh() -> None:
    door = next(one for one in made(UNEQUAL).panels if one.name == "left door 1")
    from evenface.construction.panel_mass import mass_of

    mdf, lino, ash = (
        CATALOGUE.carrier("mdf-16").density.nominal,
        CATALOGUE.facing("linoleum-2").density.nominal,
        CATALOGUE.wood("ash").density.nominal,
    )
    # 697 × 408.6 with 18 of ash all round: 661 × 372.6 inside; board 16.2, twice 2.0 of linoleum; the edging is flush
    # with both sheets, so its ash is as high as the whole: 2.0 + 0.1 + 16.2 + 0.1 + 2.0 = 20.4
    inside, whole = 0.661 * 0.3726, 0.697 * 0.4086
    by_hand = inside * (0.0162 * mdf + 0.004 * lino) + (whole - inside) * 0.0204 * ash
    assert mass_of(door.panel, Ground(JOB, JOB.pieces[0], CATALOGUE)) == pytest.approx(by_hand, rel=1e-6)


def test_a_hinge_cup_lies_beside_the_joint_or_is_told() -> None:
    from evenface.construction.hinges import corner_needs_mm, hang

    assert hang(700, 4, 0.0).bore_mm == 5.0
    assert hang(700, 4, 6.0).bore_mm == 7.0  # 1 mm of board before the cup
    assert hang(700, 4, 6.0).cut_mm == 0.0
    assert hang(700, 4, 6.2).cut_mm > 0.0  # 7 − 1 < 6.2: no distance clears it
    assert hang(700, 4, 12.0).cut_mm == pytest.approx(8.0)  # cup from 5, with 1 before it: 12 − 4
    assert hang(700, 4, 45.0).cut_mm == 0.0  # 5 + 35 + 3 = 43
    assert [
        hang(height, mass, 0).count for height, mass in ((1000, 6.8), (1000, 6.9), (1400, 5), (2400, 21))
    ] == [2, 3, 3, 5]
    # √(400² + 22²) − 400 = 0.604
    assert corner_needs_mm(400.0, 22.0) == pytest.approx(0.6046, abs=1e-4)


def test_every_hinge_cup_stands_on_the_hinge_side_of_its_own_door() -> None:
    built = made(UNEQUAL)
    panels = {one.name: one for one in built.panels}
    # length downwards, width to the right: the cup of a left door is near y = 0, of a right one near y = width
    for one in built.arranged.worked:
        if one.kind == "hinge cups":
            width = panels[one.part].width_mm
            beside = [y if one.part.startswith("left") else width - y for _, y in one.centres]
            assert beside == pytest.approx([5.0 + 17.5] * 2)
            assert sorted(x for x, _ in one.centres) == pytest.approx([100.0, 597.0])
