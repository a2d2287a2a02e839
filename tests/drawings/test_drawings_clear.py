"""No lettering lies on lettering, and everything drawn lies on its paper: random panels, by box against box."""

from itertools import combinations

from drawings.sample_panels import bench, box, built, edges
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.drawings import build_up_of, plan_of, sections_of
from evenface.drawings.scene import Dimension, Scene, text_box, texts_of
from evenface.piece.records import Corner, CornerAt, Cutout, Meeting, Panel, Profile, Side
from evenface.words import Manner

TOUCH_MM = 0.05
"""Boxes may touch by this much of the paper."""


def check_clear(scene: Scene) -> None:
    boxes = [(one.text, text_box(one, scene.scale)) for one in texts_of(scene.primitives)]
    slack = TOUCH_MM / scene.scale
    for (name, a), (other, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] + slack or b[2] <= a[0] + slack or a[3] <= b[1] + slack or b[3] <= a[1] + slack
        assert apart, f"{scene.title} {scene.scale_text}: {name!r} lies on {other!r}"
    x0, y0, x1, y1 = scene.bounds
    for name, b in boxes:
        assert x0 <= b[0] and y0 <= b[1] and b[2] <= x1 and b[3] <= y1, f"{name!r} leaves the paper"  # noqa: PT018
    for one in scene.primitives:
        if isinstance(one, Dimension):
            for line in one.extensions:
                assert not any(_runs_through(line, b, slack) for _, b in boxes), f"a line runs through {one}"


def _runs_through(line, b, slack) -> bool:
    (xa, ya), (xb, yb) = line
    return (
        min(xa, xb) < b[2] - slack
        and b[0] + slack < max(xa, xb) + 2e-9
        and min(ya, yb) < b[3] - slack
        and b[1] + slack < max(ya, yb) + 2e-9
    )


widths = st.sampled_from([0.0, 0.0, 3.0, 6.0, 9.5, 14.0, 22.0, 40.0])


@st.composite
def panels(draw) -> Panel:
    length, width = draw(st.integers(90, 3600)), draw(st.integers(90, 1200))
    meetings = [draw(st.sampled_from(list(Meeting))) for _ in range(2)]
    corners = tuple(
        Corner(at, draw(st.sampled_from(["radius", "chamfer"])), draw(st.sampled_from([5.0, 12.0, 40.0])))
        for at in CornerAt
        if draw(st.booleans())
    )
    cutouts = ()
    if min(length, width) > 200:
        cutouts = tuple(
            Cutout(
                name,
                box(
                    draw(st.integers(45, int(length * 0.5))),
                    draw(st.integers(45, int(width * 0.5))),
                    draw(st.integers(20, int(length * 0.3))),
                    draw(st.integers(20, int(width * 0.3))),
                ),
            )
            for name in ("basin", "a long name of a hole", "")[: draw(st.integers(0, 3))]
        )
    return Panel(
        "shelf", 1, length, width, "b", corners=corners, cutouts=cutouts,
        edges=edges([draw(widths) for _ in Side], *meetings),
    )  # fmt: skip


@settings(max_examples=40)
@given(panels(), st.sampled_from(["mm", "inch"]))
def test_plans_are_clear(panel, system):
    check_clear(plan_of(built(panel), Manner(system)))


profiles = st.sampled_from(
    [
        (),
        (Profile((Side.FRONT,), "round-over", "top", radius_mm=3.0),),
        (Profile((Side.FRONT,), "chamfer", "bottom", height_mm=2.0, depth_mm=4.0),),
        (
            Profile((Side.FRONT,), "round-over", "top", radius_mm=1.5),
            Profile((Side.FRONT,), "bevel under", "bottom", height_mm=9.0, depth_mm=5.0),
        ),
    ]
)
cores = st.sampled_from(["birch-ply-18", "mdf-16", "blockboard-22", "compact-12", "solid-20"])
sheets = st.sampled_from(["", "hpl-0.8", "linoleum-2", "veneer-0.6", "paper-0.3"])


@settings(max_examples=25)
@given(panels(), profiles, sheets, cores, sheets, st.sampled_from([1.0, 2.0]))
def test_sections_and_build_ups_are_clear(panel, worked, face, core, back, scale):
    from dataclasses import replace

    whole = built(replace(panel, profiles=worked), face, core, back)
    for scene in (*sections_of(whole, scale=scale), build_up_of(whole)):
        check_clear(scene)


def test_the_bench_is_clear():
    check_clear(plan_of(bench()))
