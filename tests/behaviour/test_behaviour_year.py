"""A panel through the year: what a maker knows of it, and laws that hold whatever the figures are."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import built, job, panel

from evenface.behaviour import Behaviour, Direction, behaviour_of, bonding_gate
from evenface.behaviour.curving import curved, forget, remembered
from evenface.behaviour.holding import force_at_fixing
from evenface.behaviour.stacks import humidities_at_bonding, stacked
from evenface.behaviour.twist import twist_mm
from evenface.checks.flatness import check_flatness
from evenface.climate import even_year
from evenface.climate.indoor import own_room
from evenface.climate.year import smooth_year
from evenface.construction import BuiltPanel
from evenface.errors import FileError, MissingWord
from evenface.evidence import Status
from evenface.materials import load_catalogue
from evenface.piece.records import BuildUp, Hold, Job, Layer, Made, Panel, Role

SEASON = tuple(0.45 - 0.15 * np.cos(2 * np.pi * (month - 1) / 12) for month in range(12))
"""30 to 60 % over the year, driest in January: the season of the questions below."""
LACQUER = load_catalogue().finish("lacquer")


def sheets(
    face: str | None = "hpl-0.8", back: str | None = None, board: str = "birch-ply-18"
) -> tuple[Layer, ...]:
    rows = ((Role.BACK, back), (Role.CARRIER, board), (Role.FACE, face))
    return tuple(Layer(role, name, origin=role.value) for role, name in rows if name)


DAMP_FACE = (
    Layer(Role.BACK, "hpl-0.8", humidity_at_bonding=0.45, origin="b"),
    Layer(Role.CARRIER, "birch-ply-18", humidity_at_bonding=0.45, origin="c"),
    Layer(Role.FACE, "hpl-0.8", humidity_at_bonding=0.60, origin="f"),
)


def made(
    layers: tuple[Layer, ...], one: Panel | None = None, glue: str = "polyurethane", **other: object
) -> tuple[Job, BuiltPanel]:
    told = job(one or panel(length_mm=1800.0, width_mm=650.0), buildup=layers, **other)
    told = replace(told, buildups={"usual": BuildUp("usual", layers, glue)})
    panels, _ = built(told)
    return told, panels[0]


def through(*args: object, **other: object) -> Behaviour:
    finish = other.pop("finish", None)
    return behaviour_of(*made(*args, **other), finish=finish)  # type: ignore[arg-type]


def season(layers: tuple[Layer, ...], axis: int, finish: object = None) -> np.ndarray:
    """Nominal bow over 1 m of a year from 30 to 60 %, without spells."""
    told, one = made(layers)
    year = smooth_year(own_room((20.0,) * 12, SEASON))
    numbers = stacked(told, one, finish=finish)  # type: ignore[arg-type]
    return curved(numbers, year, year, 9).nominal[:, axis] * 1e6 / 8


# --- three questions a maker would ask first: sanity, with wide slack, never fixed answers ---------------


def test_a_bench_faced_on_top_only_domes_in_winter_and_is_hollow_in_summer() -> None:
    rise = season(sheets(), 0) * 1.8**2
    assert 4.0 < rise.max() < 11.0
    assert -11.0 < rise.min() < -4.0
    assert int(np.argmax(rise)) * 5 in (*range(300, 366), *range(60))
    assert 120 < int(np.argmin(rise)) * 5 < 245


def test_what_mends_it_does_so_by_as_much_as_it_should() -> None:
    bare = np.abs(season(sheets(), 0)).max()
    assert np.abs(season(sheets(back="hpl-0.8"), 0)).max() < 1e-9
    assert np.abs(season(sheets(back="hpl-backer-0.5"), 0)).max() < 0.25 * bare
    assert np.abs(season(sheets(), 0, LACQUER)).max() < 0.5 * bare


def test_linoleum_balances_by_its_vapour_resistance_not_by_pull() -> None:
    laminate = sheets("linoleum-2", "hpl-backer-0.8")
    assert np.abs(season(laminate, 0)).max() < 0.5
    on_mdf = sheets("linoleum-2", "hpl-backer-0.8", "mdf-18")
    assert np.abs(season(on_mdf, 0)).max() > 1.5 * np.abs(season(laminate, 0)).max()
    assert np.abs(season(sheets("linoleum-2", "linoleum-2", "mdf-18"), 0)).max() < 1e-9


def test_twist_of_a_plywood_door_has_no_mean_and_is_much_smaller_in_mdf() -> None:
    def door(board: str) -> tuple[float, float]:
        told, one = made(sheets(None, None, board), panel(length_mm=700.0, width_mm=400.0))
        return twist_mm(one, stacked(told, one), (0.03 / 0.17,))

    half, most = door("birch-ply-18")
    assert 1.6 < half < 4.0
    assert 5.0 < most < 11.0
    assert door("mdf-18")[1] < 0.1 * most
    assert through(sheets()).bend(Direction.TWIST).worst.nominal is None


def test_sheets_of_unlike_humidity_bow_even_alike_faces_for_good() -> None:
    told, one = made(DAMP_FACE)
    bow, cup = (behaviour_of(told, one).bend(way) for way in (Direction.BOW, Direction.CUP))
    per_metre = [
        np.mean([band.nominal for band in bend.year]) / (bend.gauge_mm / 1000) ** 2 for bend in (bow, cup)
    ]
    assert -2.0 < per_metre[0] < -0.7
    assert -3.0 < per_metre[1] < -1.2
    gate = bonding_gate(told, one)
    assert gate.answer.verdict == "wait"
    assert gate.answer.slowest == "face"
    assert gate.answer.gap_now == pytest.approx(0.15)
    assert gate.cost_mm[Direction.BOW] == pytest.approx(
        np.mean([band.nominal for band in bow.year]), rel=1e-6
    )


# --- laws --------------------------------------------------------------------------------------------


@settings(max_examples=12, deadline=None)
@given(
    face=st.sampled_from(["hpl-0.8", "hpl-1.2", "linoleum-2", "balancing-paper-0.2"]),
    board=st.sampled_from(["birch-ply-18", "mdf-19", "particleboard-16", "blockboard-19"]),
    humidity=st.floats(0.25, 0.75),
)
def test_alike_on_both_faces_in_even_air_stays_flat_whatever_the_properties(
    face: str, board: str, humidity: float
) -> None:
    told, one = made(sheets(face, face, board), shop_humidity=0.5)
    numbers = stacked(told, one)
    properties = tuple(each for each in numbers.varied if each.field != "humidity_at_bonding")
    year = even_year(humidity)
    shape = curved(replace(numbers, varied=properties, key=numbers.key + b"no spread"), year, year, 9)
    assert max(np.abs(rows[:, :2]).max() for rows in (shape.nominal, shape.low, shape.high)) < 1e-12


def test_turned_over_it_bends_the_other_way() -> None:
    up = season(sheets("hpl-1.2", "hpl-backer-0.5"), 0)
    down = season(sheets("hpl-backer-0.5", "hpl-1.2"), 0)
    assert np.abs(up).max() > 0.01
    assert up == pytest.approx(-down, abs=1e-9)


def test_bow_grows_with_the_square_of_the_length() -> None:
    short = through(sheets(), panel(length_mm=900.0, width_mm=500.0)).bend(Direction.BOW)
    long = through(sheets(), panel(length_mm=1800.0, width_mm=500.0)).bend(Direction.BOW)
    assert long.worst.high == pytest.approx(4 * short.worst.high)


def test_bow_follows_the_longer_edge_though_the_length_be_the_shorter() -> None:
    wide = through(sheets(), panel(length_mm=500.0, width_mm=900.0))
    assert wide.bend(Direction.BOW).gauge_mm == 900.0
    along = through(sheets(), panel(length_mm=900.0, width_mm=500.0))
    assert wide.bend(Direction.BOW).worst != along.bend(Direction.BOW).worst


def test_the_band_holds_the_nominal_and_says_what_it_comes_from() -> None:
    bend = through(sheets()).bend(Direction.BOW)
    assert all(band.low <= band.nominal <= band.high for band in bend.year)
    assert bend.worst in bend.year
    assert bend.worst == bend.year[bend.month - 1]
    assert abs(bend.deciding_mm) == max(max(abs(band.low), abs(band.high)) for band in bend.year)
    assert list(bend.shares.values()) == sorted(bend.shares.values(), reverse=True)
    assert 0.6 < sum(bend.shares.values()) < 1.3
    assert through(sheets()).weakest is Status.MEMORY


@settings(max_examples=20, deadline=None)
@given(
    face=st.sampled_from([None, *load_catalogue().names("facing")]),
    back=st.sampled_from([None, *load_catalogue().names("facing")]),
    board=st.sampled_from(load_catalogue().names("carrier")),
    glue=st.sampled_from(load_catalogue().names("glue")),
    how=st.sampled_from(["free", "hinged", "screwed", "groove"]),
    rooms=st.tuples(
        *[st.sampled_from(["heated-home", "bathroom", "unheated-workshop", "in-a-cupboard"])] * 2
    ),
    turned=st.booleans(),
    size=st.tuples(st.floats(60, 3000), st.floats(60, 1500)),
)
def test_whatever_the_catalogue_holds_can_be_reckoned(
    face: str | None,
    back: str | None,
    board: str,
    glue: str,
    how: str,
    rooms: tuple[str, str],
    turned: bool,
    size: tuple[float, float],
) -> None:
    layers = tuple(replace(one, direction_deg=90.0 * turned) for one in sheets(face, back, board))
    one = panel(
        length_mm=size[0],
        width_mm=size[1],
        hold=Hold(how, 5),
        climate_top=rooms[0],
        climate_bottom=rooms[1],
    )
    told, whole = made(layers, one, glue)
    seen = behaviour_of(told, whole, finish=LACQUER)
    numbers = [end for bend in seen.bends for end in (bend.worst.low, bend.worst.high)]
    assert np.isfinite([*numbers, seen.holding_n or 0.0, seen.mass_kg_m2]).all()
    assert (seen.holding_n is None) == (how in ("free", "hinged"))
    findings = list(check_flatness(told, [whole], [seen], load_catalogue()))
    assert all(finding.part == "top" for finding in findings)


def test_a_measured_modulus_that_no_poisson_fits_is_still_reckoned() -> None:
    told, one = made(sheets())
    board = one.carrier.material
    odd = replace(
        board, poisson=board.poisson.measured(0.49), modulus_along=board.modulus_along.measured(900.0)
    )
    changed = replace(one, carrier=replace(one.carrier, material=odd))
    assert np.isfinite(behaviour_of(told, changed).bend(Direction.BOW).deciding_mm)


# --- once for each distinct build-up ------------------------------------------------------------------


def test_six_equal_doors_are_worked_out_once() -> None:
    forget()
    doors = [panel(name=f"door {number}", length_mm=715.0, width_mm=396.0) for number in range(6)]
    told = job(*doors, buildup=sheets(back="hpl-0.8"))
    panels, _ = built(told)
    seen = [behaviour_of(told, one) for one in panels]
    assert remembered() == (5, 1)
    assert {one.bend(Direction.BOW).worst for one in seen} == {seen[0].bend(Direction.BOW).worst}
    behaviour_of(told, replace(panels[0], length_mm=300.0))
    assert remembered() == (6, 1)


# --- glue, finish, first years ------------------------------------------------------------------------


def test_glue_water_bows_it_at_first_and_is_gone_later() -> None:
    wet, dry = through(sheets(), glue="pva-d3"), through(sheets(), glue="epoxy")
    (bow, _) = wet.drying
    assert bow.most_mm > 0.5
    assert bow.day < 5 < bow.gone_day < 200
    assert dry.drying == ()
    first, last = (
        abs(wet.first_years[Direction.BOW][n] - dry.first_years[Direction.BOW][n]) for n in (0, 23)
    )
    assert last < 0.02 * first
    assert wet.bend(Direction.BOW).worst == dry.bend(Direction.BOW).worst
    assert through(sheets(back="hpl-0.8"), glue="pva-d3").drying == ()


def test_the_second_year_after_bonding_is_near_the_settled_one() -> None:
    told = through(sheets(), bonding_month=9)
    second = told.first_years[Direction.BOW][12:]
    bands = told.bend(Direction.BOW).year
    months = [(8 + number) % 12 for number in range(12)]
    assert all(
        bands[m].low - 2 <= rise <= bands[m].high + 2
        for m, rise in zip(months, second, strict=True)
        if m not in (2, 7)
    )


def test_a_contact_glue_lets_short_parts_off_more_than_long_ones() -> None:
    def share(length: float) -> float:
        soft, hard = (
            through(sheets(), panel(length_mm=length, width_mm=90.0), glue=glue)
            .bend(Direction.BOW)
            .worst.high
            for glue in ("contact-solvent", "polyurethane")
        )
        return soft / hard

    assert share(120.0) != pytest.approx(1.0, abs=0.01)
    assert abs(share(1800.0) - 1.0) < abs(share(120.0) - 1.0)


# --- how it is held ----------------------------------------------------------------------------------


def test_a_held_part_reports_a_force_and_a_free_one_does_not() -> None:
    assert through(sheets()).holding_n is None
    assert through(sheets(), panel(hold=Hold("hinged"))).holding_n is None
    top = panel(length_mm=1800.0, width_mm=650.0, hold=Hold("screwed", 6))
    told = through(sheets(), top)
    bow = told.bend(Direction.BOW)
    assert told.holding_n is not None
    per_mm = told.holding_n / abs(bow.deciding_mm)
    assert 95 / 4 / 2 * 0.7 < per_mm < 130 / 4 / 2 * 1.3  # two rows share what one middle force would be


def test_three_fixings_give_the_beam_with_a_force_in_the_middle() -> None:
    stiffness, curvature, length = 4.2e6, 2.1e-5, 1310.0
    bow = curvature * length**2 / 8
    force = force_at_fixing(stiffness, curvature, length, 400.0, "groove", 0)
    assert force == pytest.approx(48 * stiffness * 400 * bow / length**3)
    assert force_at_fixing(stiffness, curvature, length, 400.0, "screwed", 6) == pytest.approx(force / 2)
    assert force_at_fixing(stiffness, curvature, length, 400.0, "screwed", 12) > force / 2


# --- what is known of the humidities and the air ------------------------------------------------------


def test_what_was_measured_goes_before_what_is_written_and_what_is_usual() -> None:
    layers = (
        Layer(Role.BACK, "hpl-backer-0.8", humidity_at_bonding=0.41, origin="b"),
        Layer(Role.CARRIER, "mdf-18", humidity_at_bonding=0.42, origin="c"),
        Layer(Role.FACE, "hpl-0.8", origin="f"),
    )
    told, one = made(layers, shop_humidity=0.55)
    assert humidities_at_bonding(told, one) == ((0.41, 0.42, 0.55), (True, True, False))
    batch = Made(humidities={"mdf-18": 0.63})
    assert humidities_at_bonding(told, one, batch) == ((0.41, 0.63, 0.55), (True, True, False))
    usual = replace(told, buildups={"usual": replace(told.buildups["usual"], bonding_humidity=0.48)})
    assert humidities_at_bonding(usual, one)[0] == (0.41, 0.42, 0.48)
    assert behaviour_of(told, one).bends != behaviour_of(told, one, batch).bends


def test_two_rooms_bend_even_alike_faces() -> None:
    one = panel(
        length_mm=1800.0, width_mm=650.0, climate_top="heated-home", climate_bottom="unheated-workshop"
    )
    bend = through(sheets(back="hpl-0.8"), one).bend(Direction.BOW)
    assert max(abs(band.nominal or 0.0) for band in bend.year) > 0.5
    with pytest.raises(MissingWord, match="moon"):
        through(sheets(), panel(climate_top="moon"))


def test_own_monthly_means_come_before_the_model() -> None:
    flat = through(sheets(), humidity=(0.5,) * 12)
    wavy = through(sheets(), humidity=SEASON)
    assert wavy.bend(Direction.BOW).worst != flat.bend(Direction.BOW).worst
    assert abs(flat.first_years[Direction.BOW][3]) < abs(wavy.first_years[Direction.BOW][3])


def _log(path: Path, humidities: Sequence[float]) -> None:
    rows = [
        f"2025-{month:02d}-{day:02d} 12:00;21.5;{100 * humidity:.1f}"
        for month, humidity in enumerate(humidities, 1)
        for day in (2, 12, 22)
    ]
    path.write_text("time;temperature °C;humidity %\n" + "\n".join(rows) + "\n", encoding="utf-8")


def test_a_logger_beside_the_job_comes_before_everything(tmp_path: Path) -> None:
    _log(tmp_path / "room.csv", [0.3] * 6 + [0.62] * 6)
    file = str(tmp_path / "job.toml")
    logged = through(sheets(), logger="room.csv", file=file)
    assert any("room.csv" in str(note.values) or "reckoned" in note.template for note in logged.notes)
    assert logged.bends != through(sheets()).bends


def test_a_logger_outside_the_jobs_folder_is_refused(tmp_path: Path) -> None:
    inside = tmp_path / "job"
    inside.mkdir()
    _log(tmp_path / "room.csv", [0.4] * 12)
    (inside / "link.csv").symlink_to(tmp_path / "room.csv")
    for name in ("../room.csv", str(tmp_path / "room.csv"), "link.csv"):
        with pytest.raises(FileError, match=r"own folder|can be read"):
            through(sheets(), logger=name, file=str(inside / "job.toml"))
    with pytest.raises(FileError, match="saved in a folder"):
        through(sheets(), logger="room.csv")
