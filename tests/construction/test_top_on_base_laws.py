"""Random tops on bases: rows close, boxes touch only where a joint says, mirrored is mirrored, dry air asks no slot."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction.ground import Ground
from evenface.construction.kinds import KINDS
from evenface.construction.kinds.top_on_base.build import build
from evenface.construction.kinds.top_on_base.records import Apron, ApronJoint, Fixing, Legs, Supports
from evenface.construction.placed import Assembly, Board
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.records import Side

CATALOGUE = load_catalogue()
JOB = read_job(
    """\
format = 1
[job]
name = "Glaze room"
place = "copenhagen"
[buildup.top]
face = "linoleum-2"
back = "hpl-0.8"
carrier = { material = "birch-ply-21", thickness = 20.5 }
glue = "pva-d3"
edging = { wood = "ash", width = 18 }
[[piece]]
kind = "top on a base"
name = "Desk"
buildup = "top"
size = [1500, 740, 700]
legs = { wood = "ash", size = 55 }
apron = { wood = "beech", thickness = 24, height = 90 }
""",
    "job.toml",
    CATALOGUE,
    KINDS,
)
GROUND = Ground(JOB, JOB.pieces[0], CATALOGUE)
DESK = JOB.pieces[0].description


@st.composite
def desks(draw: st.DrawFn, given_base: bool = True):
    """Any table, unlike on all four sides."""
    share = st.floats(0.0, 1.0)

    def between(low: float, high: float) -> float:
        return low + (high - low) * draw(share)

    size = (between(700, 2600), between(400, 1100), between(450, 1300))
    over = {side: between(0, 60) for side in Side}
    top = replace(DESK.top, length_mm=size[0], width_mm=size[2])
    common = {"top": top, "size_mm": size, "overhang": over}
    if given_base and draw(st.integers(0, 5)) == 0:
        supports = Supports(between(30, 200), "cabinet", draw(st.integers(2, 3)))
        return replace(DESK, **common, legs=None, apron=None, supports=supports)
    kind = draw(st.sampled_from(("mortise and tenon", "loose tenon", "dowel")))
    apron = Apron(
        "beech",
        between(20, 34),
        between(50, 130),
        front=between(40, 120) if draw(st.booleans()) else None,
        ends=between(40, 120) if draw(st.booleans()) else None,
        back=between(0, 9),
        joint=ApronJoint(kind),
        bearers=draw(st.integers(0, 3)),
    )
    legs = Legs("ash", (between(44, 90), between(44, 90)))
    fixing = Fixing(
        draw(st.sampled_from(("button", "slotted plate", "slotted screw"))),
        between(150, 500),
        fixed=draw(st.sampled_from(("middle", "front"))),
    )
    return replace(DESK, **common, legs=legs, apron=apron, fixing=fixing)


def boxes(assembly: Assembly):
    """(placement, low, high) of every part, from its own size and place alone."""
    parts = {one.name: one for one in (*assembly.panels, *assembly.boards)}
    for placement in assembly.placements:
        part = parts[placement.part]
        thick = part.thickness_mm if isinstance(part, Board) else GROUND.thickness_mm(part.buildup)
        yield placement, placement.box(part.length_mm, part.width_mm, thick)


@settings(max_examples=300, deadline=None)
@given(desks())
def test_rows_close_and_boxes_touch_only_where_a_joint_says(desk) -> None:
    assembly = build(desk, GROUND)
    width, height, depth = desk.size_mm
    if not assembly.panels:
        assert {one.code for one in assembly.findings} == {"base.no_room"}
        return
    totals = {(chain.axis.value, round(chain.total_mm, 4)) for chain in assembly.chains}
    assert {("+x", round(width, 4)), ("+y", round(depth, 4)), ("+z", round(height, 4))} <= totals
    for chain in assembly.chains:
        assert sum(size for _, size in chain.members) == pytest.approx(chain.total_mm, abs=0.01)
        assert min(size for _, size in chain.members) >= -1e-9
    placed = list(boxes(assembly))
    low = [min(box[0][axis] for _, box in placed) for axis in range(3)]
    high = [max(box[1][axis] for _, box in placed) for axis in range(3)]
    assert high == pytest.approx([width, depth, height], abs=0.01)
    assert low[:2] == pytest.approx([0.0, 0.0], abs=0.01)
    assert low[2] == pytest.approx(0.0 if desk.legs else height - GROUND.thickness_mm("top"), abs=0.01)
    entering = {frozenset(one.between): one.enters_mm for one in assembly.joints}
    for (one, box), (other, beside) in itertools.combinations(placed, 2):
        common = [min(box[1][n], beside[1][n]) - max(box[0][n], beside[0][n]) for n in range(3)]
        if min(common) <= 0.001 or (one.part.endswith(other.part) and "apron" in one.part):
            continue
        if "apron" in one.part and "apron" in other.part:
            # the whole heights of two aprons cross in a leg; their tenons pass or are mitred there
            assert desk.apron.joint.kind == "mortise and tenon"
            continue
        assert one.sunk or other.sunk, f"{one.part} and {other.part} overlap by {common}"
        assert min(common) <= entering.get(frozenset((one.part, other.part)), 0.0) + 0.001


@settings(max_examples=150, deadline=None)
@given(desks(given_base=False))
def test_a_mirrored_table_is_mirrored(desk) -> None:
    """Left and right overhang exchanged: every box comes back at width − x, mortises at the same heights."""
    one = build(desk, GROUND)
    over = {
        **desk.overhang,
        Side.LEFT: desk.overhang[Side.RIGHT],
        Side.RIGHT: desk.overhang[Side.LEFT],
    }
    other = build(replace(desk, overhang=over), GROUND)
    width = desk.size_mm[0]

    def seen(assembly: Assembly, mirror: bool):
        for _, (low, high) in boxes(assembly):
            x = (width - high[0], width - low[0]) if mirror else (low[0], high[0])
            yield (*x, *low[1:], *high[1:])

    rest = list(seen(other, False))
    for box in seen(one, True):
        found = [same for same in rest if max(abs(a - b) for a, b in zip(box, same, strict=True)) < 0.01]
        assert found, f"nothing stands at {box}"
        rest.remove(found[0])
    assert not rest
    heights = [sorted(w.x0_mm for w in each.worked if w.kind == "mortise") for each in (one, other)]
    assert heights[0] == pytest.approx(heights[1], abs=0.01)


@settings(max_examples=100, deadline=None)
@given(desks(given_base=False))
def test_every_mortise_lies_within_its_leg_and_leaves_wood(desk) -> None:
    assembly = build(desk, GROUND)
    sizes = {one.name: one for one in assembly.boards}
    for one in assembly.worked:
        if one.kind != "mortise" or not one.part.startswith("leg"):
            continue
        leg = sizes[one.part]
        reach = leg.thickness_mm if one.face == "rear" else leg.width_mm
        through = leg.width_mm if one.face == "rear" else leg.thickness_mm
        assert 0.0 <= one.y0_mm < one.y1_mm <= reach + 1e-6
        assert 0.0 <= one.x0_mm < one.x1_mm <= leg.length_mm + 1e-6
        assert one.depth_mm < through
        if desk.apron.joint.kind == "mortise and tenon" and through >= 60.0 and desk.apron.back < 5.0:
            assert one.depth_mm >= 20.0
