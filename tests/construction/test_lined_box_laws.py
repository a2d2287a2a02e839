"""Random lined boxes: rows close, nothing overlaps, wood meets wood over the whole joint, mirrored is mirrored."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import Construction, construct
from evenface.construction.ground import Ground
from evenface.construction.kinds import KINDS
from evenface.construction.kinds.lined_box import records as r
from evenface.construction.kinds.lined_box.build import build
from evenface.construction.kinds.lined_box.sizes import box_sizes, divided, divider_thickness
from evenface.construction.placed import Arranged, Assembly, BuiltBoard
from evenface.construction.records import Construction as Built
from evenface.drawings.placed_parts import PlacedPart, placed_parts
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.records import NOTHING_MADE

CATALOGUE = load_catalogue()
JOB = """\
format = 1
[job]
name = "Glaze room"
place = "copenhagen"
[buildup.thin]         # 6.5 bare
carrier = { material = "birch-ply-6.5", thickness = 6.5 }
glue = "pva-d3"
[buildup.faced]        # 2.0 + 0.1 + 3.8 + 0.1 + 2.0 = 8.0
face = "linoleum-2"
back = "linoleum-2"
carrier = { material = "birch-ply-4", thickness = 3.8 }
glue = "pva-d3"
[[piece]]
kind = "lined box"
name = "Tray"
size = [400, 260, 90]
walls = { wood = "ash", thickness = 12 }
lining = { facing = "linoleum-2", glue = "pva-d3" }
bottom = { buildup = "thin" }
divider = [{ way = "front to rear", buildup = "faced" }]
"""
READ = read_job(JOB, "job.toml", CATALOGUE, KINDS)
BASE: r.LinedBox = READ.pieces[0].description
GROUND = Ground(READ, READ.pieces[0], CATALOGUE)
PLY = BASE.bottom.panel
FACED = BASE.dividers[0].panel


@st.composite
def boxes(draw) -> r.LinedBox:
    def between(low: float, high: float) -> float:
        return round(draw(st.floats(low, high)), 3)

    def rows():
        for way in (r.TO_REAR, r.TO_RIGHT):
            count = draw(st.integers(0, 3))
            if count:
                yield r.DividersAsked(
                    way,
                    count,
                    tuple(between(15, 40) for _ in range(draw(st.integers(0, count)))),
                    draw(st.sampled_from((None, FACED))),
                    "ash",
                    between(3, 8),
                    held=(held := draw(st.sampled_from(("housed", "loose")))),
                    depth=between(3, 5) if held == "housed" else 0.0,
                    play=between(0.1, 0.6),
                    below=draw(st.sampled_from((0.0, between(1, 12)))),
                    origin="piece[0].divider",
                )

    return replace(
        BASE,
        size_mm=(between(250, 700), between(250, 500), between(60, 160)),
        given_inside=draw(st.booleans()),
        walls=r.Walls("ash", between(10, 20), between(10, 20), draw(st.sampled_from(("flat", "quarter")))),
        lining=replace(
            BASE.lining,
            facing=draw(st.sampled_from(("linoleum-2", "hpl-0.8"))),
            corner=draw(st.sampled_from(("front runs through", "sides run through", "shy"))),
            gap=draw(st.sampled_from((0.0, between(0.1, 1)))),
        ),
        fingers=r.FingersAsked(
            draw(st.sampled_from((None, 3, 4, 5, 7, 9))),
            draw(st.sampled_from((None, 8.0, 12.5))),
            between(4, 8),
            draw(st.booleans()),
            draw(st.sampled_from(r.PAIRS)),
            draw(st.sampled_from((0.0, 0.1, 0.2))),
        ),
        bottom=r.BottomAsked(
            draw(st.sampled_from((None, PLY))), "ash", between(5, 9), "flat", between(3, 6), between(3, 20)
        ),
        dividers=tuple(rows()),
    )


def made_of(assembly: Assembly) -> tuple[PlacedPart, ...]:
    """The parts as boxes less what is worked into them, panels as plain boards of their thickness."""
    from evenface.construction.placed import Board

    boards = [*assembly.boards]
    boards += [
        Board(p.name, p.count, "ash", p.length_mm, p.width_mm, GROUND.thickness_mm(p.buildup))
        for p in assembly.panels
    ]
    wood = CATALOGUE.wood("ash")
    built = Built(
        READ.pieces[0],
        (),
        boards=tuple(BuiltBoard("Tray", board, wood, board.count) for board in boards),
        arranged=Arranged(assembly.placements, worked=assembly.worked, size_mm=assembly.size_mm),
    )
    return placed_parts(built)


def volume(low, high) -> float:
    size = [b - a for a, b in zip(low, high, strict=True)]
    return size[0] * size[1] * size[2] if min(size) > 0.0 else 0.0


def common(solid, other) -> float:
    low = [max(a, b) for a, b in zip(solid[0], other[0], strict=True)]
    high = [min(a, b) for a, b in zip(solid[1], other[1], strict=True)]
    return volume(low, high)


@settings(max_examples=300, deadline=None)
@given(boxes())
def test_rows_close_parts_do_not_overlap_and_wood_fills_the_joint(box: r.LinedBox) -> None:
    assembly, sizes = build(box, GROUND), box_sizes(box, GROUND)
    if any(one.code in ("box.no_room", "box.compartment") for one in assembly.findings):
        return
    whole = {(chain.axis.value, round(chain.total_mm, 4)) for chain in assembly.chains}
    assert {(axis, round(sizes.outside[n], 4)) for n, axis in enumerate(("+x", "+y", "+z"))} <= whole
    for chain in assembly.chains:
        assert sum(size for _, size in chain.members) == pytest.approx(chain.total_mm, abs=0.01)
    parts = made_of(assembly)
    # the boxes alone give the outside, and what they leave between the linings is the inside of the sums
    for n in range(3):
        assert min(part.whole[0][n] for part in parts) == pytest.approx(0.0, abs=0.01)
        assert max(part.whole[1][n] for part in parts) == pytest.approx(sizes.outside[n], abs=0.01)
    walls = {part.placement.label: part for part in parts if part.name.startswith("side")}
    assert walls["right"].whole[0][0] - walls["left"].whole[1][0] == pytest.approx(sizes.inside[0], abs=0.01)
    assert walls["rear"].whole[0][1] - walls["front"].whole[1][1] == pytest.approx(sizes.inside[1], abs=0.01)
    for one, other in itertools.combinations(parts, 2):
        shared = sum(common(a, b) for a in one.solids for b in other.solids)
        assert shared == pytest.approx(0.0, abs=0.5), f"{one.name} and {other.name}"
    wood_meets_wood(box, sizes, walls)


def wood_meets_wood(box: r.LinedBox, sizes, walls) -> None:
    """The corner's block of wood is full but for the fit at each line and what the groove takes from one finger."""
    front, side, height = sizes.front_mm, sizes.side_mm, sizes.outside[2]
    corner = ((0.0, 0.0, 0.0), (side, front, height))
    filled = sum(common(solid, corner) for name in ("front", "left") for solid in walls[name].solids)
    fit = (sizes.joint.number - 1) * sizes.joint.fit_mm * front * side
    groove = box.bottom.groove**2 * (sizes.bottom_mm + 0.2)
    full = front * side * height
    assert full - fit - 1.1 * groove - 0.5 <= filled <= full - fit + sizes.joint.fit_mm * groove + 0.5
    # and no lining lies within it: both are cleared at least as far as the other's wood reaches
    for pair in r.PAIRS:
        assert sizes.cleared[pair].width_mm >= sizes.wood_mm(sizes.other(pair)) - 1e-9


def mirrored(box: r.LinedBox) -> r.LinedBox:
    """The box seen in a mirror: dividers that divide its width stand the other way round."""

    def turned(one: r.DividersAsked) -> r.DividersAsked:
        if one.way != r.TO_REAR:
            return one
        clear = divided(one, box_sizes(box, GROUND), divider_thickness(one, GROUND))
        return replace(one, clear=tuple(reversed(clear))[:-1])

    return replace(box, dividers=tuple(turned(one) for one in box.dividers))


@settings(max_examples=60, deadline=None)
@given(boxes())
def test_a_mirrored_box_is_the_box_mirrored(box: r.LinedBox) -> None:
    assembly = build(box, GROUND)
    if any(one.code in ("box.no_room", "box.compartment") for one in assembly.findings):
        return
    width = box_sizes(box, GROUND).outside[0]

    def solids(one: Assembly, turn: bool):
        for part in made_of(one):
            for low, high in part.solids:
                x = (width - high[0], width - low[0]) if turn else (low[0], high[0])
                yield (x[0], *low[1:]), (x[1], *high[1:])

    ours, other = list(solids(assembly, turn=True)), list(solids(build(mirrored(box), GROUND), turn=False))
    mass = [sum(volume(*one) for one in all_of) for all_of in (ours, other)]
    # the same volume in the same places, whatever boxes it is sawn up into; corners are kept to 0.0001 mm
    assert mass[0] == pytest.approx(mass[1], rel=1e-4)
    assert sum(common(a, b) for a in ours for b in other) == pytest.approx(mass[0], rel=1e-4)
    assert sorted(round(chain.total_mm, 4) for chain in assembly.chains) == sorted(
        round(chain.total_mm, 4) for chain in build(mirrored(box), GROUND).chains
    )


@pytest.mark.parametrize("corner", ["front runs through", "sides run through", "shy", "mitred"])
@pytest.mark.parametrize("facing", ["linoleum-2", "hpl-0.8"])
def test_linings_meet_in_the_corner_without_a_collision(corner: str, facing: str) -> None:
    """On the face, one of the two linings has ended where the other begins; mitred ones end on the diagonal."""
    box = replace(BASE, lining=replace(BASE.lining, corner=corner, facing=facing))
    sizes = box_sizes(box, GROUND)
    lining = sizes.lining_mm
    past = {pair: sizes.cleared[pair].width_mm - sizes.wood_mm(sizes.other(pair)) for pair in r.PAIRS}
    face = {pair: sizes.cleared[pair].face_mm - sizes.wood_mm(sizes.other(pair)) for pair in r.PAIRS}
    if corner == "mitred":
        # from the wood's corner to the corner of the two faces, at 45°
        assert past == pytest.approx({r.FRONT: 0.0, r.SIDES: 0.0})
        assert face == pytest.approx({r.FRONT: lining, r.SIDES: lining})
    else:
        assert max(past.values()) >= lining - 1e-9


def test_the_example_is_planned_without_a_stop() -> None:
    from pathlib import Path

    from evenface.piece import open_job

    example = Path(__file__).parents[2] / "examples" / "lined-tray.toml"
    built: Construction
    (built,) = construct(open_job(example, CATALOGUE, KINDS), CATALOGUE, KINDS, NOTHING_MADE)
    assert {finding.severity.value for finding in built.findings} <= {"note"}
    # front and rear are one part, left and right another; three trays in all
    assert {(board.name, board.count) for board in built.boards} >= {
        ("side front & rear", 6), ("side left & right", 6)
    }  # fmt: skip
