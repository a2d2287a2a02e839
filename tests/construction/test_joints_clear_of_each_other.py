"""Holes, slots and grooves of both parts of a joint lie over each other where the piece stands, and meet nothing else.

Reckoned from the placements alone: every mouth of a hole as a point of the piece with the way it is bored.
"""

import itertools
from math import dist

import pytest
from construction.test_carcase_sizes import CATALOGUE, PEDESTAL_JOB, carcases, codes, made
from hypothesis import given, settings

from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.build import build
from evenface.construction.placed import Assembly, Board, Worked

HOLES = ("dowel holes", "biscuit slots", "screw holes", "pilot holes")
HOLLOW = ("groove", "rebate", "housing")
BISCUIT_HALF = 28.0
type Box = tuple[tuple[float, float, float], tuple[float, float, float]]


def sizes_of(assembly: Assembly, ground: Ground) -> dict[str, tuple[float, float, float]]:
    return {
        one.name: (
            one.length_mm,
            one.width_mm,
            one.thickness_mm if isinstance(one, Board) else ground.thickness_mm(one.buildup),
        )
        for one in (*assembly.panels, *assembly.boards)
    }


def into(face: str, a: float, b: float, size: tuple[float, float, float]) -> tuple[float, float, float]:
    """A place on a face in the part's own coordinates; on an edge a runs along it and b across the thickness."""
    length, width, thick = size
    return {
        "top": (a, b, thick),
        "bottom": (a, b, 0.0),
        "front": (a, 0.0, b),
        "rear": (a, width, b),
        "left": (0.0, a, b),
        "right": (length, a, b),
    }[face]


def mouths(assembly: Assembly, ground: Ground):
    """(joint kind, which placed part, mouth in the piece, way it is bored)."""
    size = sizes_of(assembly, ground)
    for number, placement in enumerate(assembly.placements):
        for one in assembly.worked:
            if one.part != placement.part or one.kind not in HOLES or "on its box" in one.joint:
                continue
            for a, b in one.centres:
                low = into(one.face, a, b, size[one.part])
                middle = tuple(half / 2 for half in size[one.part])
                point = placement.point(*low)
                axis = {"left": 0, "right": 0, "front": 1, "rear": 1}.get(one.face, 2)
                way = [0.0, 0.0, 0.0]
                way[axis] = 1.0 if middle[axis] > low[axis] else -1.0
                end = placement.point(*(x + w for x, w in zip(low, way, strict=True)))
                yield one.kind, number, point, tuple(e - p for e, p in zip(end, point, strict=True))


def check_mates(assembly: Assembly, ground: Ground) -> int:
    found = list(mouths(assembly, ground))
    for kind, number, point, way in found:
        partners = {"screw holes": ("pilot holes",), "pilot holes": ("screw holes",)}.get(kind, (kind,))
        mates = [
            other
            for what, other, there, back in found
            if what in partners
            and other != number
            and dist(there, point) < 0.01
            and all(abs(a + b) < 1e-9 for a, b in zip(way, back, strict=True))
        ]
        assert len(mates) == 1, f"{kind} of placed part {number} at {point}: {len(mates)} opposite"
    return len(found)


def corners(assembly: Assembly, ground: Ground):
    """(whether in an end, two corners of the mouth in the piece) of every groove."""
    size = sizes_of(assembly, ground)
    for placement in assembly.placements:
        for one in assembly.worked:
            if one.part == placement.part and one.kind == "groove":
                two = [
                    placement.point(*into(one.face, a, b, size[one.part]))
                    for a, b in ((one.x0_mm, one.y0_mm), (one.x1_mm, one.y1_mm))
                ]
                yield one.face in ("left", "right"), [tuple(map(side, *two)) for side in (min, max)]


def check_tongues(assembly: Assembly, ground: Ground) -> int:
    """A groove in an end lies over a groove of the same size in a face."""
    found = list(corners(assembly, ground))
    ends, faces = ([two for end, two in found if end is wanted] for wanted in (True, False))
    for low, high in ends:
        assert any(dist(low, a) < 0.01 and dist(high, b) < 0.01 for a, b in faces), (low, high)
    return len(ends)


def hollows(one: Worked, size: tuple[float, float, float]) -> list[Box]:
    """What is taken out, as boxes in the part's own coordinates."""
    length, width, thick = size
    rectangles = [(one.x0_mm, one.y0_mm, one.x1_mm, one.y1_mm)] if one.kind in HOLLOW else []
    edge = one.face not in ("top", "bottom")
    for a, b in one.centres:
        if one.kind == "biscuit slots":
            # 4 wide, and 56 long along the end of the part that is joined
            u, v = (BISCUIT_HALF, 2.0) if edge else (2.0, BISCUIT_HALF)
        else:
            u = v = one.diameter_mm / 2
        rectangles.append((a - u, b - v, a + u, b + v))
    deep = one.depth_mm
    return [
        {
            "top": ((a0, b0, thick - deep), (a1, b1, thick)),
            "bottom": ((a0, b0, 0.0), (a1, b1, deep)),
            "front": ((a0, 0.0, b0), (a1, deep, b1)),
            "rear": ((a0, width - deep, b0), (a1, width, b1)),
            "left": ((0.0, a0, b0), (deep, a1, b1)),
            "right": ((length - deep, a0, b0), (length, a1, b1)),
        }[one.face]
        for a0, b0, a1, b1 in rectangles
    ]


def meetings(assembly: Assembly, ground: Ground) -> set[tuple[str, str, str]]:
    """Holes and slots of one joint that run into a hole, groove or rebate of another in the same part."""
    size, found = sizes_of(assembly, ground), set()
    for one, other in itertools.combinations(assembly.worked, 2):
        if one.part != other.part or one.joint == other.joint:
            continue
        if not {one.kind, other.kind} & {"dowel holes", "biscuit slots"}:
            continue
        for box, beside in itertools.product(hollows(one, size[one.part]), hollows(other, size[one.part])):
            common = [min(box[1][n], beside[1][n]) - max(box[0][n], beside[0][n]) for n in range(3)]
            if min(common) > 0.01:
                found.add((one.part, one.kind, other.kind))
    return found


@settings(max_examples=100, deadline=None)
@given(carcases())
def test_both_halves_of_every_joint_lie_over_each_other(carcase) -> None:
    ground = Ground(PEDESTAL_JOB, PEDESTAL_JOB.pieces[0], CATALOGUE)
    assembly = build(carcase, ground)
    check_mates(assembly, ground)
    tongues = check_tongues(assembly, ground)
    assert (
        tongues >= 4
        or carcase.joint.kind != "loose tongue"
        or "mitred" in (carcase.top_at, carcase.bottom_at)
    )
    told = {one.code for one in assembly.findings}
    assert not meetings(assembly, ground) or told & {"joint.no_room", "joint.holes_meet"}


RUN = """
[[piece]]
kind = "carcase"
name = "Run"
size = [900, 620, 400]
sides = "shell"
joint = { kind = "JOINT" }
shelf_joint = { kind = "SHELF" }
back = { buildup = "shell", how = "groove", depth = 7, inset = 14 }
fronts = { buildup = "door", lie = "inset" }
drawer = { wood = "ash", thickness = 13, bottom = "thin", joint = "DRAWER", up = 10 }
[[piece.bay]]
width = 330
row = [{ what = "open", shelf_below = true, height = 250 }, { what = "drawers", count = 3, heights = [97, 101] }]
[[piece.bay]]
row = [{ what = "open", shelf_below = true, height = 255 }, { what = "open" }]
"""


def run(joint: str = "dowel", shelf: str = "dowel", drawer: str = "dowel"):
    return made(RUN.replace("JOINT", joint).replace("SHELF", shelf).replace("DRAWER", drawer))


def works(construction, part: str, kind: str, joint: str) -> list[Worked]:
    return [
        one
        for one in construction.arranged.worked
        if one.part == part and one.kind == kind and joint in one.joint
    ]


def test_dowels_of_a_drawer_begin_above_the_groove_for_its_bottom() -> None:
    # the first box: 97 − 10 − 10 = 77 high; bottom 6.5 in a groove of 6.7 from 10 to 16.7; a dowel of 6 with 3 of wood
    # beside it begins at 16.7 + 3 + 3 = 22.7; the upper one a quarter down, 77 × 3/4 = 57.75
    (end, *_) = works(run(), "drawer box front 1", "dowel holes", "box front left")
    assert [a for a, _ in end.centres] == pytest.approx([22.7, 57.75])
    (side,) = works(run(), "drawer side left 1", "dowel holes", "box front left")
    assert [b for _, b in side.centres] == pytest.approx([22.7, 57.75])


def test_screws_of_a_low_front_clear_the_bottom_of_its_box() -> None:
    # a box of 47: three tenths would be 14.1, within the groove from 10 to 16.7; a washer of 12 with 1 of air beside it
    # begins at 16.7 + 7 = 23.7; the upper ones 12 above that, not at 32.9
    low = made(
        RUN.replace("JOINT", "dowel").replace("SHELF", "dowel").replace("DRAWER", "dowel").replace("97", "67")
    )
    (screws,) = works(low, "drawer box front 1", "screw holes", "on its box")
    assert sorted({b for _, b in screws.centres}) == pytest.approx([23.7, 35.7])
    # a box of 81 has them where they always were
    (usual,) = works(run(), "drawer box front 2", "screw holes", "on its box")
    assert sorted({b for _, b in usual.centres}) == pytest.approx([0.3 * 81, 0.7 * 81])


def test_a_tongue_of_a_drawer_begins_above_the_groove_for_its_bottom() -> None:
    # 16.7 + 3 = 19.7 from below, 10 from above
    (end, *_) = works(run(drawer="loose tongue"), "drawer box front 1", "groove", "box front left")
    assert (end.x0_mm, end.x1_mm) == pytest.approx((19.7, 67.0))


def test_one_biscuit_where_there_is_room_for_one_and_a_word_where_there_is_for_none() -> None:
    # a front of 99, a box of 79: from 16.7 + 28 + 3 = 47.7 to 79 − 28 = 51 there is room for one, in the middle
    built = made(
        RUN.replace("DRAWER", "biscuit")
        .replace("JOINT", "dowel")
        .replace("SHELF", "dowel")
        .replace("97", "99")
    )
    (end, *_) = works(built, "drawer box front 1", "biscuit slots", "box front left")
    assert [a for a, _ in end.centres] == pytest.approx([49.35])
    assert "joint.no_room" not in codes(built)  # 79 − 16.7 = 62.3; a biscuit takes 56 + 2 × 3 = 62
    assert "joint.no_room" in codes(run(drawer="biscuit"))  # 77 − 16.7 = 60.3


@pytest.mark.parametrize(
    ("joint", "kind", "deep"),
    # 19.4 thick, 2 left in the middle: (19.4 − 2)/2 = 8.7 from each face; alone a dowel goes 35/3
    [("dowel", "dowel holes", 8.7), ("loose tongue", "groove", 8.0)],
)
def test_shelves_on_both_faces_of_a_divider_are_joined_less_deep(joint: str, kind: str, deep: float) -> None:
    built = run(shelf=joint)
    faces = works(built, "divider", kind, "fixed shelf")
    assert {one.face for one in faces} == {"top", "bottom"}
    assert [one.depth_mm for one in faces] == pytest.approx([deep, deep])
    # what is missing there goes into the shelf: a dowel of 35 with 2 of air
    (end, *_) = works(built, "fixed shelf 1", kind, "fixed shelf 1.1 right")
    assert end.depth_mm == pytest.approx({"dowel": 28.3, "loose tongue": 12.0}[joint])
    assert "joint.holes_meet" not in codes(built)


def test_biscuits_from_both_faces_of_a_divider_stand_between_each_other() -> None:
    built = run(shelf="biscuit")
    first, second = sorted(works(built, "divider", "biscuit slots", "fixed shelf"), key=lambda one: one.face)
    assert (first.face, second.face) == ("bottom", "top")
    # as deep as alone, half of 23 and half of 1
    assert [one.depth_mm for one in (first, second)] == pytest.approx([12.0, 12.0])
    near, far = ([y for _, y in one.centres] for one in (first, second))
    assert len(near) == len(far) + 1
    assert far == pytest.approx([(a + b) / 2 for a, b in itertools.pairwise(near)])
    # 56 long and 2 of board between two of them
    assert all(b - a >= 58.0 for a, b in itertools.pairwise(sorted((*near, *far))))
    assert "joint.holes_meet" not in codes(built)


def test_screws_from_both_faces_of_a_divider_are_told() -> None:
    # shelves of 19.4, one 5 lower than the other: each stands before the screws of the other
    assert "carcase.screws_behind_shelf" in codes(run(shelf="screw"))
    apart = RUN.replace("SHELF", "screw").replace("JOINT", "dowel").replace("DRAWER", "dowel")
    assert "carcase.screws_behind_shelf" not in codes(made(apart.replace("height = 255", "height = 270")))


def test_what_joins_a_corner_stays_clear_of_the_seat_of_the_back() -> None:
    # the groove lies from 14 to 14 + 19.4 + 0.2 = 33.6 before the rear; a dowel of 8 ends 3 before it: 33.6 + 7 = 40.6
    # from the rear of 400: 359.4
    (end, *_) = works(run(), "top", "dowel holes", "top left")
    assert max(a for a, _ in end.centres) == pytest.approx(400 - 40.6)
    (tongue, *_) = works(run(joint="loose tongue"), "top", "groove", "top left")
    assert (tongue.x0_mm, tongue.x1_mm) == pytest.approx((10.0, 400 - 33.6 - 3.0))
