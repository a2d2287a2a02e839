"""Laws of sorption, years, spells, kinds of room, places and the gate."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.climate import (
    NO_SPELLS,
    RoomYear,
    Spell,
    damped,
    dew_point,
    even_year,
    gluing_gate,
    isotherm,
    isotherm_names,
    monthly_room,
    outdoors,
    own_outdoors,
    own_room,
    place_names,
    read_places,
    room_by_temperature,
    room_by_vapour_balance,
    room_kind,
    room_kind_names,
    room_year,
    saturation_pressure,
    smooth_year,
    with_spells,
    wood_humidity,
    wood_moisture,
    wood_slope,
)
from evenface.errors import FileError, MissingWord
from evenface.evidence import Status


@settings(max_examples=60)
@given(st.sampled_from(isotherm_names()), st.floats(0.03, 0.94), st.floats(-5.0, 40.0))
def test_isotherms_rise_turn_back_and_know_their_slope(
    kind: str, humidity: float, temperature: float
) -> None:
    layer = isotherm(kind)
    moisture = float(layer.moisture(humidity, temperature))
    assert float(layer.humidity(moisture, temperature)) == pytest.approx(humidity, abs=2e-6)
    step = 1e-5
    numeric = float(layer.moisture(humidity + step, 20) - layer.moisture(humidity - step, 20)) / (2 * step)
    assert float(layer.slope(humidity, 20)) == pytest.approx(numeric, rel=1e-5)
    low, high = layer.spread(humidity)
    assert float(low) <= float(layer.moisture(humidity)) <= float(high)


def test_wood_slope_over_the_room_range_and_refusals() -> None:
    assert float(wood_moisture(0.60) - wood_moisture(0.30)) / 0.30 == pytest.approx(0.160, abs=5e-4)
    assert float(wood_slope(0.5)) == pytest.approx(0.165, abs=0.01)
    with pytest.raises(ValueError, match="percent are not meant"):
        wood_moisture(55)
    with pytest.raises(ValueError, match="green"):
        wood_humidity(0.6)
    with pytest.raises(MissingWord, match="plywood"):
        isotherm("plywod")


@settings(max_examples=40)
@given(
    st.lists(st.floats(0.25, 0.75), min_size=12, max_size=12),
    st.lists(st.floats(5, 28), min_size=12, max_size=12),
)
def test_days_keep_the_months(humidity: list[float], temperature: list[float]) -> None:
    year = smooth_year(own_room(temperature, humidity))
    warm, damp = year.month_means()
    assert warm == pytest.approx(temperature, abs=1e-9)
    if not year.notes:  # nothing had to be held
        assert damp == pytest.approx(humidity, abs=1e-10)


def test_days_are_periodic_and_turn_with_the_months() -> None:
    months = np.array([0.35, 0.36, 0.4, 0.45, 0.5, 0.56, 0.6, 0.58, 0.52, 0.47, 0.41, 0.37])
    year = smooth_year(own_room(np.full(12, 20.0), months))
    jump = abs(year.humidity[0] - year.humidity[-1])
    assert jump < 2 * np.max(np.abs(np.diff(year.humidity)))
    assert year.humidity.min() > 0.33
    assert year.humidity.max() < 0.62
    assert year.temperature_c == pytest.approx(np.full(365, 20.0), abs=1e-9)
    with pytest.raises(ValueError, match="read-only"):
        year.humidity[0] = 0.5


def test_spells_add_what_they_say() -> None:
    flat = even_year(0.5)
    struck = with_spells(flat, (Spell(360, 14, -0.10), Spell(200, 7, 0.08)))
    difference = struck.humidity - flat.humidity
    assert difference.sum() == pytest.approx(-1.4 + 0.56)
    assert difference[[360, 364, 0, 8]] == pytest.approx([-0.1] * 4)
    assert difference[9] == 0
    assert len(struck.notes) == 2
    assert struck.fingerprint != flat.fingerprint
    home = room_kind("heated-home")
    weather = outdoors("copenhagen")
    plain, usual = room_year(weather, home, NO_SPELLS), room_year(weather, home)
    assert usual.humidity.min() == pytest.approx(plain.humidity.min() - 0.10, abs=1e-9)
    assert usual.humidity.max() == pytest.approx(plain.humidity.max() + 0.10, abs=1e-9)
    kiruna, stove = outdoors("kiruna"), room_kind("near-a-stove")
    bare, struck = room_year(kiruna, stove, NO_SPELLS), room_year(kiruna, stove)
    assert struck.humidity.min() == pytest.approx(bare.humidity.min() * 2 / 3, abs=1e-9)
    warm, damp = usual.from_day(243, 730)
    assert damp[:365] == pytest.approx(damp[365:])
    assert damp[0] == usual.humidity[243]
    assert warm.shape == (730,)


def test_closed_case_is_calmer_with_the_same_mean() -> None:
    year = room_year(outdoors("chicago"), room_kind("heated-home"))
    inside = damped(year, 10.0)
    assert inside.humidity.mean() == pytest.approx(year.humidity.mean(), rel=1e-12)
    assert np.ptp(inside.humidity) < np.ptp(year.humidity)
    keep = np.exp(-0.1)
    stepped = keep * np.roll(inside.humidity, 1) + (1 - keep) * year.humidity
    assert stepped == pytest.approx(inside.humidity, abs=1e-12)
    assert damped(year, 0.0) is year


def test_each_kind_everywhere_has_edges_in_order() -> None:
    for name in room_kind_names():
        kind = room_kind(name)
        for place in place_names():
            dry, usual, damp = (
                np.array(monthly_room(outdoors(place), kind, edge).humidity)
                for edge in ("dry", "usual", "damp")
            )
            assert np.all((dry <= usual + 1e-12) & (usual <= damp + 1e-12)), (name, place)
    weather = outdoors("stockholm")
    home, stove, floor = (
        monthly_room(weather, room_kind(name)).humidity[0]
        for name in ("heated-home", "near-a-stove", "underfloor-heating")
    )
    assert stove < floor < home < monthly_room(weather, room_kind("bathroom")).humidity[0]
    with pytest.raises(MissingWord, match="bathroom"):
        room_kind("bathrom")


def test_floor_of_the_standard_is_told() -> None:
    kiruna = room_by_temperature(outdoors("kiruna"))
    assert kiruna.notes
    assert "floor" in kiruna.notes[0].template
    balance = room_by_vapour_balance(outdoors("kiruna"))
    assert min(balance.humidity) < 0.25 < min(kiruna.humidity)
    assert not room_by_temperature(outdoors("london-gatwick")).notes
    assert room_by_vapour_balance(
        outdoors("singapore"),
    ).notes  # damp heat is held


def test_places() -> None:
    assert len(place_names()) == 16
    assert outdoors("miami").pressure_status is Status.DERIVED
    assert outdoors("kiruna").status is Status.MEMORY
    for name in place_names():
        place = outdoors(name)
        product = saturation_pressure(place.temperature_c) * np.array(place.humidity)
        assert np.array(place.vapour_pressure_pa) == pytest.approx(product, rel=0.25), name
    with pytest.raises(MissingWord, match="copenhagen"):
        outdoors("copenhagn")
    with pytest.raises(ValueError, match="neither"):
        own_outdoors("here", [5.0] * 12)
    twin = own_outdoors("here", [5.0] * 12, vapour_pressure_pa=[600.0] * 12)
    assert twin.humidity[0] == pytest.approx(600 / float(saturation_pressure(5.0)))


def test_own_places_from_a_file(tmp_path: Path) -> None:
    file = tmp_path / "own.toml"
    months = ", ".join(["4.5"] * 12)
    moist = ", ".join(["0.8"] * 12)
    file.write_text(f"[kiln-yard]\ntemperature_c = [{months}]\nhumidity = [{moist}]\n", encoding="utf-8")
    assert read_places(file)["kiln-yard"].status is Status.MEASURED
    file.write_text(
        f"[kiln-yard]\ntemperature_c = [{months}]\nhumidity = [80, {moist}]\nhumidty = 3\n", encoding="utf-8"
    )
    with pytest.raises(FileError) as caught:
        read_places(file)
    text = str(caught.value)
    assert "own.toml, line 3" in text
    assert "13 values" in text
    assert "line 4" in text
    assert "'humidity'" in text
    file.write_text("[kiln-yard\n", encoding="utf-8")
    with pytest.raises(FileError, match="TOML"):
        read_places(file)
    with pytest.raises(FileError, match="can be read"):
        read_places(tmp_path / "none.toml")


def test_gate() -> None:
    layers = {"face": 0.60, "carrier": 0.48, "back": 0.45}
    answer = gluing_gate(layers, 0.45, {"face": 2.0, "carrier": 12.0, "back": 2.0}, 0.05)
    assert answer.verdict == "wait"
    assert answer.slowest == "face"
    assert answer.days == 3  # 2·ln(0.15/0.05) = 2.2
    assert answer.gap_now == pytest.approx(0.15)
    assert gluing_gate(layers, 0.50, 10.0, 0.10).verdict == "go"
    with pytest.raises(ValueError, match="fraction"):
        gluing_gate({"face": 60.0}, 0.45, 2.0)
    with pytest.raises(ValueError, match="time constant"):
        gluing_gate({"face": 0.60}, 0.45, 0.0)


@settings(max_examples=60)
@given(st.floats(0.1, 0.9), st.floats(0.1, 0.9), st.floats(0.2, 60.0), st.floats(0.01, 0.2))
def test_gate_waits_just_long_enough(
    humidity: float, target: float, constant: float, tolerance: float
) -> None:
    answer = gluing_gate({"board": humidity}, target, constant, tolerance)
    assert abs(humidity - target) * np.exp(-answer.days / constant) <= tolerance * (1 + 1e-6)
    if answer.days:
        assert abs(humidity - target) * np.exp(-(answer.days - 1) / constant) > tolerance * (1 - 1e-6)


def test_dew_point_turns_back_and_records_refuse_nonsense() -> None:
    for temperature in (-15.0, 0.0, 12.5):
        assert float(dew_point(saturation_pressure(temperature))) == pytest.approx(temperature, abs=1e-9)
    with pytest.raises(ValueError, match="365"):
        RoomYear(np.arange(12.0), np.zeros(12), np.full(12, 0.5), Status.READ, "x")
    with pytest.raises(ValueError, match="12 monthly"):
        own_room([20.0], [0.5])
    with pytest.raises(ValueError, match="fractions"):
        own_room([20.0] * 12, [50.0] * 12)
