"""The chart of a year: heights measured in the SVG against the record by two known levels of the axis."""

import pytest
from drawings.measured import letterings, ways_of
from drawings.test_drawings_clear import check_clear

from evenface.behaviour.records import Behaviour, Bend, Direction
from evenface.drawings import flat_chart_of, to_svg
from evenface.drawings.flat_chart import HIGH_MM, WIDE_MM
from evenface.drawings.scene import Circle
from evenface.evidence import Band, Status
from evenface.words import Manner

NOMINAL = (0.2, 0.3, 0.1, -0.2, -0.5, -0.9, -1.1, -1.0, -0.7, -0.4, -0.1, 0.1)
BOW = tuple(Band(value - 0.3, value, value + 0.5) for value in NOMINAL)
CUP = tuple(Band(value / 5 - 0.1, value / 5, value / 5 + 0.1) for value in NOMINAL)


def behaviour(bow=BOW, cup=CUP, name="top"):
    bends = (
        Bend(Direction.BOW, 1000.0, bow[6], 7, bow, {}),
        Bend(Direction.CUP, 606.0, cup[6], 7, cup, {}),
        Bend(Direction.TWIST, 1200.0, Band(-1.0, None, 1.0), 7, (), {}),
    )
    return Behaviour("bench", name, 22.2, bends, {}, None, 15.0, Status.MEMORY, ())


LIMITS = {Direction.BOW: 2.0, Direction.CUP: 1.2}
# axis of bow: -2 to 2 in 42 mm of paper, so 10.5 mm a mm


def height(rise):
    return (rise + 2.0) * HIGH_MM / 4.0


def test_nominal_line_and_band_month_by_month():
    scene = flat_chart_of(behaviour(), limits_mm=LIMITS)
    svg = to_svg(scene)
    line = ways_of(svg, scene, "nominal")[0]
    assert len(line.points) == 14
    for number, value in enumerate(NOMINAL):
        x, y = line.points[number + 1]
        assert x == pytest.approx((number + 0.5) * WIDE_MM / 12, abs=0.001)
        assert y == pytest.approx(height(value), abs=0.001)
    band = ways_of(svg, scene, "band")[0]
    assert [y for _, y in band.points[1:13]] == pytest.approx([height(v - 0.3) for v in NOMINAL], abs=0.001)
    assert [y for _, y in band.points[15:27]] == pytest.approx(
        [height(v + 0.5) for v in reversed(NOMINAL)], abs=0.001
    )
    assert band.closed


def test_the_year_closes_on_itself():
    scene = flat_chart_of(behaviour(), limits_mm=LIMITS)
    line = ways_of(to_svg(scene), scene, "nominal")[0]
    assert line.points[0][1] == pytest.approx(line.points[-1][1], abs=1e-9)
    assert line.points[0][1] == pytest.approx(height((0.2 + 0.1) / 2), abs=0.001)


def test_limits_lie_both_ways_and_only_when_given():
    scene = flat_chart_of(behaviour(), limits_mm={Direction.CUP: 1.2, Direction.BOW: 2.0})
    levels = [way.points[0][1] for way in ways_of(to_svg(scene), scene, "limits")]
    # cup has an axis of its own, -1.5 to 1.5 in steps of 0.5: 14 mm of paper a mm
    cup = [(one + 1.5) * HIGH_MM / 3.0 for one in (-1.2, 1.2)]
    assert levels == pytest.approx([height(-2.0), height(2.0), *cup], abs=0.001)
    assert not [one for one in flat_chart_of(behaviour()).primitives if one.layer == "limits"]


def test_worst_edge_is_ringed_and_written():
    scene = flat_chart_of(behaviour(), limits_mm=LIMITS)
    ring = next(one for one in scene.primitives if isinstance(one, Circle))
    assert (ring.x, ring.y) == pytest.approx((6.5 * WIDE_MM / 12, height(-1.4)), abs=1e-9)
    assert "bow over 1000 mm, worst −1.4" in letterings(to_svg(scene))


def test_months_axis_and_both_charts():
    words = letterings(to_svg(flat_chart_of(behaviour(), limits_mm=LIMITS)))
    assert words.count("J") == 6  # January, June, July, twice
    for level, charts in (("−2", 1), ("−1", 2), ("0", 2), ("0.5", 1), ("1", 2), ("1.5", 1), ("2", 1)):
        assert words.count(level) == charts


@pytest.mark.parametrize("factor", [0.001, 0.03, 1.0, 7.0, 90.0])
@pytest.mark.parametrize("system", ["mm", "inch"])
def test_any_size_of_rise_stays_in_the_chart_and_clear(factor, system):
    bow = tuple(Band(one.low * factor, one.nominal * factor, one.high * factor) for one in BOW)
    scene = flat_chart_of(behaviour(bow, bow), Manner(system))
    check_clear(scene)
    for way in ways_of(to_svg(scene), scene, "band"):
        assert -0.001 <= way.box[1] <= way.box[3] <= HIGH_MM + 0.001


def test_a_part_that_never_moves():
    still = tuple(Band(0.0, 0.0, 0.0) for _ in range(12))
    check_clear(flat_chart_of(behaviour(still, still)))


def test_names_are_text():
    assert "<b>: flatness" in " ".join(letterings(to_svg(flat_chart_of(behaviour(name="<b>")))))


def test_no_year_no_chart():
    lone = Behaviour("a", "b", 20.0, (behaviour().bends[2],), {}, None, 15.0, Status.MEMORY, ())
    with pytest.raises(ValueError, match="twelve months"):
        flat_chart_of(lone)
