"""Own times: robust means, their spread, the file, and what an after-calculation adds to them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pricing.pricing_hands import D, job, step, table

from evenface.errors import FileError
from evenface.pricing import Group, Hours, Money, price_of
from evenface.pricing.after import Taken, after
from evenface.pricing.gather import hours_of
from evenface.pricing.own_times import (
    OwnTimes,
    Timed,
    own_times_text,
    read_own_times,
    robust_mean,
    with_own_times,
)
from evenface.workplan import Work

STEPS = (
    step("1.1-01", Work.BOND, 60.0, people=2),
    step("1.1-02", Work.FINISH, 30.0),
    step("1.2-01", Work.FINISH, 15.0),
    step("1.2-02", Work.TRIM, 20.0),
)


def timed(*shares, work=Work.BOND):
    return OwnTimes(tuple(Timed(f"job {n}", work, 100.0, 100.0 * share) for n, share in enumerate(shares)))


def test_one_spoiled_day_moves_the_mean_little():
    calm = timed(1.1, 1.2, 1.0, 1.15, 1.05).averages()[Work.BOND]
    spoiled = timed(1.1, 1.2, 1.0, 1.15, 1.05, 6.0).averages()[Work.BOND]
    plain = math.exp(sum(map(math.log, (1.1, 1.2, 1.0, 1.15, 1.05, 6.0))) / 6)
    assert calm.share == pytest.approx(1.098, abs=0.01)
    assert spoiled.share == pytest.approx(1.13, abs=0.03)
    assert plain > 1.4
    assert spoiled.low < spoiled.share < spoiled.high


def test_half_and_double_weigh_alike():
    assert timed(0.5, 2.0).averages()[Work.BOND].share == pytest.approx(1.0)


def test_nobody_tells_a_spread_from_two_jobs():
    two = timed(1.0, 1.4).averages()[Work.BOND]
    assert (two.jobs, two.low, two.high) == (2, None, None)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.floats(-3.0, 3.0), min_size=1, max_size=15), st.floats(-5.0, 5.0))
def test_the_mean_lies_among_the_values_and_moves_with_them(values, shift):
    centre, scale = robust_mean(values)
    assert min(values) - 1e-9 <= centre <= max(values) + 1e-9
    moved, same = robust_mean([value + shift for value in values])
    assert moved == pytest.approx(centre + shift, abs=1e-6)
    assert same == pytest.approx(scale, abs=1e-6)
    mirrored, _ = robust_mean([-value for value in values])
    assert mirrored == pytest.approx(-centre, abs=1e-6)


def test_no_values_have_no_mean():
    with pytest.raises(ValueError, match="at least one"):
        robust_mean([])


def test_the_next_estimate_uses_them_and_says_so():
    own = timed(1.5, 1.5, 1.5)
    hours = {one.work: one for one in hours_of(STEPS, own.shares())}
    assert hours[Work.BOND] == Hours(Work.BOND, 180.0, 120.0, 3)  # 60 min, two people, half as long again
    assert hours[Work.FINISH] == Hours(Work.FINISH, 45.0, 45.0, 0)
    on_the_calendar = with_own_times(STEPS, own)
    assert on_the_calendar[0].hand_minutes.total == pytest.approx(90.0)
    assert on_the_calendar[1] == STEPS[1]


def test_the_file_keeps_what_was_timed_and_comes_back_equal():
    own = timed(0.8, 1.25).with_job([Timed('a "named" job', Work.FINISH, 33.0, 40.0, "2027-02-01")])
    text = own_times_text(own)
    assert read_own_times(text, "own-times.toml") == own
    assert "# bond the facings: 1.00 of the estimate, jobs: 2" in text


def test_a_job_written_twice_counts_once():
    own = timed(0.8).with_job([Timed("job 0", Work.BOND, 100.0, 130.0)])
    assert [one.minutes for one in own.timed] == [130.0]


@pytest.mark.parametrize("line", ["minutes = -5", "minutes = 0", 'minutes = "an hour"'])
def test_a_slip_in_the_file_is_named_with_its_line(line):
    text = f'format = 1\n[[time]]\njob = "x"\nwork = "trim the facings"\nusual = 10\n{line}\n'
    with pytest.raises(FileError, match=r"own-times.toml, line 6.*time\[0\].minutes"):
        read_own_times(text, "own-times.toml")


# --- after-calculation --------------------------------------------------------------------------------


def done(minutes=None, by_work=None, taken=(), **terms):
    hours = hours_of(STEPS)
    asked = job(hours=hours, wood=(), glue=(), finish=())
    price = price_of(asked, table(margin=D("0.2"), **terms))
    return price, after("Bench", STEPS, hours, price, minutes or {}, by_work, taken)


def test_a_job_as_planned_earns_its_margin():
    price, found = done({"1.1-01": 60.0, "1.1-02": 30.0, "1.2-01": 15.0, "1.2-02": 20.0})
    assert found.cost == found.planned_cost == price.cost
    assert found.left == price.margin
    assert found.losing == ()
    assert found.hours == pytest.approx(found.planned_hours)


def test_an_operation_that_takes_longer_loses_the_money_of_its_hours():
    _, found = done({"1.1-01": 75.0, "1.2-02": 10.0})
    bond, trim = found.operations
    assert bond.difference == Money(D("-30.00"), "EUR")  # a quarter of an hour, two people, 60 an hour
    assert trim.difference == Money(D("10.00"), "EUR")
    assert [one.work for one in found.losing] == [Work.BOND]
    assert found.untimed == (Work.FINISH,)
    assert found.cost.amount - found.planned_cost.amount == D("20.00")


def test_the_risk_of_an_operation_is_there_to_be_used():
    _, found = done({"1.1-01": 65.0}, risk={"every": D("0.1")})
    assert found.operations[0].difference == Money(D("2.00"), "EUR")
    assert found.losing == ()


def test_an_operation_timed_in_part_is_compared_with_that_part_alone():
    _, found = done({"1.1-02": 40.0})
    (finish,) = found.operations
    assert (finish.steps_timed, finish.steps) == (1, 2)
    assert finish.planned_minutes == pytest.approx(30.0)
    assert finish.difference == Money(D("-10.00"), "EUR")
    assert found.hours == pytest.approx(found.planned_hours + D(10) / 60)


def test_a_time_for_the_whole_operation_goes_before_single_steps():
    _, found = done({"1.1-02": 40.0}, {Work.FINISH: 50.0})
    assert found.operations[0].minutes == 50.0
    assert found.operations[0].planned_minutes == pytest.approx(45.0)


def test_material_taken_is_paid_as_planned_or_as_noted():
    _, found = done(taken=(Taken("birch-ply-18", D(3)),))
    assert found.materials[0].difference == Money(D("-90.00"), "EUR")
    _, dearer = done(taken=(Taken("birch-ply-18", D(2), D(100)),))
    assert dearer.materials[0].difference == Money(D("-20.00"), "EUR")
    assert dearer.left.amount == found.left.amount + D("70.00")


def test_what_an_hour_earned():
    """Sold for 415/0.8: 518.75, material 180; 240 min of hands planned at 60, 300 taken."""
    price, found = done(by_work={Work.BOND: 180.0, Work.FINISH: 45.0, Work.TRIM: 20.0})
    assert price.of(Group.STOCK) == Money(D("180.00"), "EUR")
    hours = D(245) / 60
    assert found.hours == pytest.approx(hours)
    assert abs(found.an_hour.amount - (price.net.amount - 180) / hours) <= D("0.01")


def test_own_times_keep_the_estimate_they_were_measured_against():
    """Else a maker who is slower by a half would be slower by a half again at every job."""
    own = timed(1.5, 1.5, 1.5)
    hours = hours_of(STEPS, own.shares())
    price = price_of(job(hours=hours), table())
    found = after("Bench", STEPS, hours, price, {"1.1-01": 90.0})
    assert found.operations[0].planned_minutes == pytest.approx(180.0)
    assert found.operations[0].difference.amount == 0
    assert found.timed == (Timed("Bench", Work.BOND, 120.0, 180.0),)
    assert own.with_job(found.timed).averages()[Work.BOND].share == pytest.approx(1.5)


@pytest.mark.parametrize(
    ("minutes", "taken", "told"),
    [({"9.9-01": 5.0}, (), "9.9-01"), ({"1.1-01": -5.0}, (), "above 0"), ({}, (Taken("oak", D(1)),), "oak")],
)
def test_what_the_job_does_not_have_is_refused(minutes, taken, told):
    with pytest.raises(ValueError, match=told):
        done(minutes, taken=taken)


def test_an_operation_of_which_little_is_timed_says_nothing_of_the_next():
    _, found = done({"1.2-01": 60.0})  # a third of the finishing
    assert found.operations[0].loses
    assert found.timed == ()
