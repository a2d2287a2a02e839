"""The first answer from past jobs, and how far off such answers were."""

import pytest
from pricing.pricing_hands import D

from evenface.errors import FileError
from evenface.pricing.past import Extent, PastJob, estimate, past_jobs_text, read_past_jobs

EXTENTS = [
    Extent(*row)
    for row in (
        *((3.0, 12.0, 4, 2), (6.5, 20.0, 0, 6), (1.2, 9.0, 4, 0), (9.0, 31.0, 8, 3)),
        *((4.0, 30.0, 2, 9), (2.2, 7.0, 12, 1), (7.7, 26.0, 3, 4), (5.1, 18.0, 6, 0)),
    )
]


def priced(extents, area=400.0, edging=60.0, corner=80.0, grip=90.0, off=()):
    out = []
    for number, e in enumerate(extents):
        whole = area * e.area_m2 + edging * e.edging_m + corner * e.corners + grip * e.grips
        factor = off[number % len(off)] if off else 1.0
        out.append(PastJob(f"job {number}", e, D(str(round(whole * factor, 2))), "EUR"))
    return out


def test_jobs_that_follow_the_formula_give_it_back():
    found = estimate(Extent(5.0, 15.0, 4, 3), priced(EXTENTS), "EUR")
    assert found.per == pytest.approx((400.0, 60.0, 80.0, 90.0), rel=1e-3)
    assert float(found.middle.amount) == pytest.approx(400 * 5 + 60 * 15 + 80 * 4 + 90 * 3, rel=1e-3)
    assert float(found.high.amount - found.low.amount) < 10.0
    assert found.jobs == 8


def test_jobs_that_scatter_give_a_spread():
    found = estimate(Extent(5.0, 15.0, 4, 3), priced(EXTENTS, off=(0.8, 1.25, 1.0)), "EUR")
    assert found.low < found.middle < found.high
    assert float(found.high.amount / found.low.amount) > 1.2


def test_three_jobs_bear_a_price_a_square_metre_and_no_more():
    found = estimate(Extent(2.0, 100.0, 9, 9), priced(EXTENTS[:3], edging=0.0, corner=0.0, grip=0.0), "EUR")
    assert found.per == pytest.approx((400.0, 0.0, 0.0, 0.0))
    assert float(found.middle.amount) == pytest.approx(800.0)


def test_fewer_than_three_jobs_in_the_currency_say_nothing():
    assert estimate(EXTENTS[0], priced(EXTENTS[:2]), "EUR") is None
    assert estimate(EXTENTS[0], priced(EXTENTS), "SEK") is None


def test_twice_the_job_twice_the_price():
    past = priced(EXTENTS, off=(0.9, 1.2))
    one, two = estimate(Extent(2.0, 6.0, 2, 1), past, "EUR"), estimate(Extent(4.0, 12.0, 4, 2), past, "EUR")
    assert float(two.middle.amount) == pytest.approx(2 * float(one.middle.amount), abs=0.02)


def test_the_table_comes_back_equal_and_is_no_formula():
    past = [PastJob("=SUM(A1)", Extent(1.5, 2.25, 1, 0), D("99.5"), "EUR", D("12.5"), "2027-01-02")]
    text = past_jobs_text(past)
    assert "'=SUM(A1)" in text
    (back,) = read_past_jobs(text, "past-jobs.csv")
    assert back.extent == past[0].extent
    assert (back.price, back.hours, back.day) == (past[0].price, past[0].hours, past[0].day)


def test_semicolons_and_decimal_commas_are_read():
    (one,) = read_past_jobs("job;area_m2;edging_m;price\nBench;2,5;10;1800,50\n", "past-jobs.csv")
    assert (one.extent.area_m2, one.price) == (2.5, D("1800.5"))


def test_a_slip_is_named_with_its_line():
    with pytest.raises(FileError, match=r"line 3.*area_m2 = 'two'"):
        read_past_jobs("job,area_m2,edging_m,price\nA,1,1,10\nB,two,1,10\n", "past-jobs.csv")
    with pytest.raises(FileError, match="price above 0"):
        read_past_jobs("job,area_m2,edging_m,price\nA,1,1,-10\n", "past-jobs.csv")
    with pytest.raises(FileError, match="no price"):
        read_past_jobs("job,area_m2,edging_m\nA,1,1\n", "past-jobs.csv")
