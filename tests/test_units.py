"""Lengths as makers write them, and back."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenface.units import from_grid, grid_down, grid_up, length_text, read_length


@pytest.mark.parametrize(
    ("given_", "mm"),
    [
        (18, 18.0),
        (18.5, 18.5),
        ("18", 18.0),
        ("18 mm", 18.0),
        ("18,5 mm", 18.5),
        ("1.8 cm", 18.0),
        ("2 m", 2000.0),
        ("3/4 in", 19.05),
        ('3/4"', 19.05),
        ("2 ft 6 1/2 in", 774.7),
        ("2' 6 1/2\"", 774.7),
        (".5 in", 12.7),
        ("-3 mm", -3.0),
    ],
)
def test_every_way_of_writing_a_length(given_: object, mm: float) -> None:
    assert read_length(given_) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "given_",
    ["", "abc", "3 mm 4 in", "4 in 2 ft", "1/0 in", True, None, math.nan, math.inf, [18], "18 kg", "1e3"],
)
def test_what_is_no_length_is_refused_with_what_was_expected(given_: object) -> None:
    with pytest.raises(ValueError, match="expected"):
        read_length(given_)


@given(st.integers(0, 64 * 700))
def test_inches_survive_the_round_trip_to_the_nearest_64th(sixty_fourths: int) -> None:
    mm = sixty_fourths * 25.4 / 64
    assert read_length(length_text(mm, "inch")) == pytest.approx(mm, abs=1e-6)


def test_the_grid_rounds_blanks_up_and_stock_down() -> None:
    assert grid_up(19.05) == grid_down(19.05) == 1905
    assert (grid_up(0.001), grid_down(0.009)) == (1, 0)
    assert from_grid(1905) == 19.05


def test_a_length_is_shown_without_idle_zeros() -> None:
    assert length_text(621.40) == "621.4 mm"
    assert length_text(18.0) == "18 mm"
    assert length_text(-0.01) == "0 mm"


def test_half_a_tenth_is_rounded_the_same_way_everywhere() -> None:
    assert [length_text(x) for x in (771.15, 8.95, 711.05, -0.25)] == [
        "771.2 mm",
        "9 mm",
        "711.1 mm",
        "-0.3 mm",
    ]
    assert length_text(2.345, decimals=2) == "2.35 mm"
    assert length_text(-0.04) == "0 mm"


def test_what_is_thinner_than_a_64th_is_told_in_thousandths() -> None:
    # 0.1/25.4 = 0.0039; 0.7/25.4 = 0.0276 (2/64 = 0.0313 is 13 % off); 0.8/25.4 = 0.0315, 1/32 but for 0.8 %
    shown = {mm: length_text(mm, "inch") for mm in (0.0, 0.001, 0.1, -0.1, 0.7, 0.8, 1.588, 18.0)}
    assert shown == {
        0.0: "0 in", 0.001: "0 in", 0.1: "0.004 in", -0.1: "-0.004 in", 0.7: "0.028 in", 0.8: "1/32 in",
        1.588: "1/16 in", 18.0: "45/64 in",
    }  # fmt: skip


def test_swedish_inches_are_read_too() -> None:
    assert read_length("1/2 tum") == read_length("1/2 in") == 12.7
