"""Flatness as findings: the worst edge of the band decides, gauges fit the part, remedies are reckoned."""

from dataclasses import replace

import pytest
from jobs_by_hand import built, job, panel

from evenface.behaviour import Behaviour, Bend, Direction, behaviour_of
from evenface.checks.flat_limits import Limit, held_against, limit_for, over_the_part
from evenface.checks.flatness import check_flatness
from evenface.evidence import Band
from evenface.finding import Finding, Severity
from evenface.materials import load_catalogue
from evenface.piece.records import FlatnessLimit, Hold, Layer, Panel, Role
from evenface.words import say

SHELF = load_catalogue()


def judged(one: Panel, *sheets: str, glue_humidity: float | None = None) -> tuple[list[Finding], Behaviour]:
    """Findings of a panel of back (or "-"), carrier and face."""
    roles = (Role.BACK, Role.CARRIER, Role.FACE)
    layers = tuple(
        Layer(
            role,
            name,
            origin=role.value,
            humidity_at_bonding=glue_humidity if role is Role.FACE else None,
        )
        for role, name in zip(roles, sheets, strict=True)
        if name != "-"
    )
    told = job(one, buildup=layers)
    panels, _ = built(told)
    seen = [behaviour_of(told, each) for each in panels]
    return list(check_flatness(told, panels, seen, SHELF)), seen[0]


def top(**other: object) -> Panel:
    return panel(length_mm=1800.0, width_mm=650.0, use="top", **other)


ONE_SIDED = ("-", "birch-ply-18", "hpl-0.8")
ALIKE = ("hpl-0.8", "mdf-18", "hpl-0.8")


def bend(low: float, high: float, gauge: float, direction: Direction = Direction.BOW) -> Bend:
    nominal = None if direction is Direction.TWIST else (low + high) / 2
    return Bend(direction, gauge, Band(low, nominal, high), 1, (), {})


# --- gauges ---------------------------------------------------------------------------------------------


def test_a_longer_part_is_read_with_the_gauge_and_a_shorter_one_has_less_to_give() -> None:
    limit = Limit(2.0, 1000.0, "own")
    assert held_against(bend(-1.0, 8.0, 2000.0), limit) == pytest.approx((2.0, 2.0))
    assert held_against(bend(-3.0, 1.0, 500.0), limit) == pytest.approx((3.0, 1.0))
    assert held_against(bend(-5.0, 5.0, 800.0, Direction.TWIST), limit) == (5.0, 2.0)
    assert over_the_part(bend(-1.0, 8.0, 2000.0), limit) == pytest.approx(8.0)


def test_the_job_may_promise_its_own_limit() -> None:
    told = job(top(limit=FlatnessLimit(0.7, 800.0)))
    (one,), _ = built(told)
    found = limit_for(one, Direction.BOW)
    assert (found.mm, found.gauge_mm) == (0.7, 800.0)


# --- findings -------------------------------------------------------------------------------------------


def test_alike_on_both_faces_of_a_board_without_plies_raises_nothing() -> None:
    findings, _ = judged(top(), *ALIKE)
    assert findings == []


def test_one_sided_it_is_judged_by_the_worst_edge_and_mended_best_first() -> None:
    findings, behaviour = judged(top(), *ONE_SIDED)
    found = next(one for one in findings if one.code == "flat.bow")
    assert found.severity is Severity.WEIGH
    assert found.gauge_mm == 1000.0
    assert found.value is not None
    assert abs(found.value.worst) > (found.limit or 0.0) > abs(found.value.worst) * 0.2
    share = (1000.0 / 1800.0) ** 2
    assert found.value.worst == pytest.approx(behaviour.bend(Direction.BOW).deciding_mm * share)
    predicted = [abs(one.predicted.worst) for one in found.remedies if one.predicted]
    assert len(predicted) >= 3
    assert predicted == sorted(predicted)
    best = found.remedies[0]
    assert best.code == "flat.same_sheet"
    assert best.changes[0].path == "buildup.usual.back"
    assert best.changes[0].new == "hpl-0.8"
    assert "third of the thickness" in say(found.why)
    assert found.remedies[-1].code == "flat.hold"


def test_a_remedy_taken_does_what_it_foretold() -> None:
    findings, _ = judged(top(), *ONE_SIDED)
    best = next(one for one in findings if one.code == "flat.bow").remedies[0]
    _, mended = judged(top(), "hpl-0.8", "birch-ply-18", "hpl-0.8")
    assert best.predicted is not None
    left = mended.bend(Direction.BOW).worst.worst * (1000.0 / 1800.0) ** 2
    assert best.predicted.worst == pytest.approx(left)


def test_twist_of_plywood_offers_a_board_without_plies_and_prints_no_mean() -> None:
    findings, _ = judged(replace(top(), use="door"), *ONE_SIDED)
    found = next(one for one in findings if one.code == "flat.twist")
    assert found.value is not None
    assert found.value.nominal is None
    assert "half of all such panels" in say(found.message)
    assert found.remedies[0].code.startswith("flat.board.")
    assert "thickness of the part" not in say(found.why)


def test_where_the_band_spans_zero_the_direction_is_not_known() -> None:
    findings, behaviour = judged(
        replace(top(), limit=FlatnessLimit(0.1, 1000.0)), "hpl-backer-0.5", "birch-ply-18", "hpl-0.8"
    )
    assert behaviour.bend(Direction.BOW).worst.spans_zero
    found = next(one for one in findings if one.code == "flat.bow")
    assert "direction not known" in say(found.message)


def test_a_held_part_is_not_blamed_but_told_what_its_fixings_bear() -> None:
    findings, behaviour = judged(top(hold=Hold("screwed", 6)), *ONE_SIDED)
    assert [one.code for one in findings] == ["flat.held"]
    assert f"{behaviour.holding_n:.0f} N" in say(findings[0].message)


def test_a_damp_sheet_is_told_to_wait_and_what_gluing_it_now_costs() -> None:
    findings, _ = judged(top(), "hpl-0.8", "birch-ply-18", "hpl-0.8", glue_humidity=0.75)
    found = next(one for one in findings if one.code == "flat.gate")
    assert "face" in say(found.message)
    assert "stay for good" in say(found.message)


def test_beyond_the_thickness_no_figure_is_claimed() -> None:
    findings, _ = judged(panel(length_mm=2400.0, width_mm=600.0), "-", "birch-ply-4", "hpl-1.2")
    found = next(one for one in findings if one.code == "flat.bow")
    assert "how far cannot be said" in say(found.why)
