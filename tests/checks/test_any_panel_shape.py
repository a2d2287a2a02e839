"""Whatever is asked for, the answer is findings; and a mirrored panel has the mirrored panel's findings."""

from collections import Counter
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import built, edge, job, layers, panel

from evenface.checks import ask_all
from evenface.construction import Construction
from evenface.finding import Finding
from evenface.parts import part_of
from evenface.piece.records import (
    Corner,
    CornerAt,
    Cutout,
    Grip,
    Hold,
    Insert,
    Meeting,
    Notch,
    Order,
    Panel,
    Profile,
    Shop,
    Side,
)
from evenface.shape.build import circle, rounded_rectangle
from evenface.templates import templates_of

LENGTH, WIDTH = 1000.0, 500.0
OTHER_SIDE = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT, Side.FRONT: Side.FRONT, Side.REAR: Side.REAR}
OTHER_CORNER = {
    CornerAt.FRONT_LEFT: CornerAt.FRONT_RIGHT,
    CornerAt.FRONT_RIGHT: CornerAt.FRONT_LEFT,
    CornerAt.REAR_LEFT: CornerAt.REAR_RIGHT,
    CornerAt.REAR_RIGHT: CornerAt.REAR_LEFT,
}
SMALL = st.sampled_from([0.5, 1.0, 2.0, 4.0, 7.5, 13.0, 21.0])
WHERE = st.tuples(st.integers(-40, 1040), st.integers(-40, 540))


@st.composite
def corners(draw: st.DrawFn) -> tuple[Corner, ...]:
    return tuple(
        Corner(
            at,
            draw(st.sampled_from(["square", "radius", "radius", "chamfer", "notch"])),
            draw(st.sampled_from([0.0, 5.0, 14.0, 30.0, 60.0, 200.0, 400.0])),
            draw(st.sampled_from(["rounded", "clipped", "block", "ring", "strips"])),
            draw(st.integers(0, 6)),
            draw(st.sampled_from([None, 0.8, 4.0])),
            notch_mm=draw(st.sampled_from([(8.0, 30.0), (60.0, 45.0)])),
            inner_radius_mm=draw(st.sampled_from([0.0, 6.0])),
            returned=draw(st.booleans()),
            origin=at.value,
        )
        for at in CornerAt
    )


@st.composite
def profiles(draw: st.DrawFn) -> tuple[Profile, ...]:
    shapes = ["round-over", "chamfer", "bevel under", "cove", "thumbnail", "stepped", "free"]
    return tuple(
        Profile(
            tuple(draw(st.sets(st.sampled_from(list(Side)), min_size=1))),
            draw(st.sampled_from(shapes)),
            draw(st.sampled_from(["top", "bottom"])),
            draw(st.none() | SMALL),
            draw(st.none() | SMALL),
            draw(st.none() | SMALL),
            curve=((0.0, draw(SMALL), 0.0), (draw(SMALL), draw(SMALL), 0.3), (20.0, 0.0, 0.0)),
            origin=f"profile[{number}]",
        )
        for number in range(draw(st.integers(0, 2)))
    )


@st.composite
def let_in(draw: st.DrawFn) -> tuple[tuple[Insert, ...], tuple[Grip, ...], tuple[Cutout, ...]]:
    inserts, grips, cutouts = [], [], []
    for number in range(draw(st.integers(0, 2))):
        x, y = draw(WHERE)
        length, width = draw(st.sampled_from([(150.0, 44.0), (30.0, 9.0), (0.3, 0.2)]))
        inserts.append(
            Insert(
                f"wood {number}",
                rounded_rectangle(length, width, width / 3).moved(x, y),
                "beech",
                draw(st.sampled_from(["top", "bottom"])),
                draw(st.sampled_from([None, 5.0, 12.0, 30.0])),
                grain_deg=draw(st.sampled_from([0.0, 90.0])),
                when=draw(st.sampled_from(["before facing", "after facing"])),
                origin=f"insert[{number}]",
            )
        )
        way = draw(st.integers(0, 3))
        grips.append(
            Grip(
                f"grip {number}",
                draw(st.sampled_from([f"wood {number}", ""])),
                draw(st.sampled_from(["ball", "core-box", "cove", "straight"])),
                draw(st.sampled_from([6.0, 25.0, 44.0])),
                draw(st.sampled_from([4.0, 10.0, 25.0])),
                tuple((x + 40.0 + 30.0 * step, y + 22.0 + 3.0 * step * (way == 2)) for step in range(way)),
                draw(st.sampled_from(["face", "edge", "under"])),
                draw(st.booleans()),
                side=draw(st.none() | st.sampled_from(list(Side))),
                origin=f"grip[{number}]",
            )
        )
    for number in range(draw(st.integers(0, 2))):
        x, y = draw(WHERE)
        outline = draw(st.sampled_from([circle(60.0), rounded_rectangle(200.0, 80.0, 4.0)]))
        cutouts.append(
            Cutout(f"hole {number}", outline.moved(x, y), wet=draw(st.booleans()), origin="cutout")
        )
    return tuple(inserts), tuple(grips), tuple(cutouts)


@st.composite
def notches(draw: st.DrawFn) -> tuple[Notch, ...]:
    return tuple(
        Notch(
            f"notch {number}",
            draw(st.sampled_from(list(Side))),
            float(draw(st.integers(-20, 700))),
            draw(st.sampled_from([30.0, 90.0])),
            draw(st.sampled_from([5.0, 13.0, 60.0])),
            draw(st.sampled_from([0.0, 4.0])),
            draw(st.booleans()),
            draw(st.booleans()),
            origin=f"notch[{number}]",
        )
        for number in range(draw(st.integers(0, 2)))
    )


@st.composite
def panels(draw: st.DrawFn) -> Panel:
    sides = draw(st.sets(st.sampled_from(list(Side))))
    meeting = st.sampled_from(list(Meeting))
    edges = tuple(
        edge(
            side,
            draw(st.sampled_from([6.0, 14.0, 20.0])),
            top=draw(meeting),
            bottom=draw(meeting),
            order=draw(st.sampled_from(list(Order))),
        )
        for side in Side
        if side in sides
    )
    inserts, grips, cutouts = draw(let_in())
    return panel(
        *edges,
        length_mm=LENGTH,
        width_mm=WIDTH,
        corners=draw(corners()),
        profiles=draw(profiles()),
        inserts=inserts,
        grips=grips,
        cutouts=cutouts,
        notches=draw(notches()),
        outline=draw(st.sampled_from([None, None, None, circle(500.0, (500.0, 250.0))])),
        hold=Hold(
            draw(st.sampled_from(["free", "hinged", "screwed", "groove"])),
            4,
            "hold",
            draw(st.dictionaries(st.sampled_from(list(Side)), st.sampled_from([0.0, 6.0, 40.0]))),
            draw(st.none() | st.sampled_from(list(Side))),
        ),
    )


def told(one: Panel) -> tuple[Finding, ...]:
    made = job(one, buildup=layers(), shop=Shop(reach_mm=30.0, small_bush_mm=6.0))
    built_panels, found = built(made)
    whole = [Construction(made.pieces[0], built_panels)]
    asked = ask_all(made, whole, [part_of(built_panels[0], "1.1")])
    return (*found, *asked, *templates_of(made, whole)[1])


def mirrored_grip(one: Grip) -> Grip:
    """From a left or right edge the way along it stays as it is, only the edge is the other one."""
    side = OTHER_SIDE[one.side] if one.side else None
    if one.from_ == "edge" and side in (Side.LEFT, Side.RIGHT):
        return replace(one, side=side)
    return replace(one, side=side, path=tuple((LENGTH - x, y) for x, y in one.path))


def mirrored(one: Panel) -> Panel:
    return replace(
        one,
        edges=tuple(replace(each, side=OTHER_SIDE[each.side]) for each in one.edges),
        corners=tuple(replace(each, at=OTHER_CORNER[each.at]) for each in one.corners),
        profiles=tuple(
            replace(each, sides=tuple(OTHER_SIDE[side] for side in each.sides)) for each in one.profiles
        ),
        inserts=tuple(replace(each, outline=each.outline.mirrored(LENGTH / 2)) for each in one.inserts),
        grips=tuple(mirrored_grip(each) for each in one.grips),
        hold=replace(
            one.hold,
            from_edge_mm={OTHER_SIDE[side]: given for side, given in one.hold.from_edge_mm.items()},
            hinges=OTHER_SIDE[one.hold.hinges] if one.hold.hinges else None,
        ),
        cutouts=tuple(replace(each, outline=each.outline.mirrored(LENGTH / 2)) for each in one.cutouts),
        notches=tuple(
            replace(each, side=OTHER_SIDE[each.side], along_mm=LENGTH - each.along_mm)
            if each.side.runs_along_length
            else replace(each, side=OTHER_SIDE[each.side])
            for each in one.notches
        ),
    )


def gist(findings: tuple[Finding, ...]) -> Counter[tuple[str, str, float | None]]:
    return Counter(
        (
            one.code,
            one.severity.value,
            None if one.value is None or one.value.nominal is None else round(one.value.nominal, 4) + 0.0,
        )
        for one in findings
    )


@given(panels())
@settings(max_examples=80)
def test_any_panel_gets_findings_and_never_an_error(one: Panel) -> None:
    for finding in told(one):
        assert finding.code
        assert finding.origin or finding.at


@given(panels().filter(lambda one: all(grip.from_ != "edge" or grip.side for grip in one.grips)))
@settings(max_examples=60)
def test_a_mirrored_panel_has_the_same_findings(one: Panel) -> None:
    assert gist(told(one)) == gist(told(mirrored(one)))
