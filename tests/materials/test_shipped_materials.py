"""The shipped catalogue: every figure whole and of a sane size, and laws between the figures."""

import pickle
import tomllib
from dataclasses import replace

import pytest

from evenface.errors import MissingWord, Place
from evenface.evidence import Status, Value
from evenface.materials import Carrier, Facing, Record, Supply, Wood, load_catalogue, values_of
from evenface.materials import quantities as q
from evenface.materials.entries import EntryReader
from evenface.materials.rules import hinge_count, rule, rules
from evenface.materials.shelf import Shelf
from evenface.materials.shipped import DATA, FILES, shipped

CATALOGUE = load_catalogue()
RECORDS = [record for records in CATALOGUE.everything().values() for record in records]
WOODS = CATALOGUE.everything()["wood"]
FACINGS = [record for record in RECORDS if isinstance(record, Facing)]
CARRIERS = [record for record in RECORDS if isinstance(record, Carrier)]

SANE = {
    q.MM: (0.05, 3000),
    q.METRE: (0.001, 100),
    q.DENSITY: (300, 1600),
    q.STRESS: (0.0, 22_000),
    q.RATIO: (0, 40_000),
    q.PER_HUMIDITY: (0.0002, 0.12),
    q.PER_MOISTURE: (0.002, 0.6),
    q.STORAGE: (0.01, 0.25),
    q.SPREAD: (20, 350),
    q.MINUTES: (0, 1500),
    q.CELSIUS: (0, 90),
}
SANE_FIELD = {
    "poisson": (0.01, 0.5),
    "poisson_lr": (0.2, 0.7),
    "poisson_lt": (0.3, 0.9),
    "modulus_along": (50, 22_000),
    "shear_modulus": (20, 5000),
    "fibre_saturation": (0.2, 0.35),
    "water_share": (0, 0.7),
    "shrinkage_radial": (0.01, 0.1),
    "shrinkage_tangential": (0.03, 0.15),
    "tension_across": (1, 10),
    "pressure": (0.01, 1),
    "pressure_wood": (0.1, 2),
}


def named(record: Record) -> str:
    return record.name


@pytest.mark.parametrize("record", RECORDS, ids=named)
def test_every_figure_is_whole_and_sane(record: Record) -> None:
    for key, value in values_of(record).items():
        low, high = SANE_FIELD.get(key, SANE[record.UNITS[key]])
        assert low <= value.low <= value.nominal <= value.high <= high, key
        assert value.unit == record.UNITS[key]
        assert len(value.source) > 15, f"{key}: a short name of a source was not written out: {value.source}"
        assert value.status in Status
        if value.source.startswith("From memory, not seen"):
            assert value.status is Status.MEMORY, key
        if value.source == "common practice, no source":
            assert value.status is Status.PRACTICE, key
    assert len(record.source) > 15


@pytest.mark.parametrize("kind", FILES)
def test_reading_entry_by_entry_misses_nothing_of_the_file(kind: str) -> None:
    """The whole file through the parser at once has the same sources and the same entries, whole."""
    whole = tomllib.loads((DATA / FILES[kind]).read_text(encoding="utf-8"))
    assert whole.keys() == {"sources", kind}
    assert tuple(whole[kind]) == CATALOGUE.names(kind)
    reader = EntryReader(whole["sources"], lambda path: Place(key=str(path)))
    assert Shelf(reader, kind, whole[kind], {}).records() == dict(shipped(kind))
    assert not reader.complaints


def test_there_is_enough_to_choose_from() -> None:
    assert len(WOODS) >= 25
    assert [wood.name for wood in WOODS][:8] == [
        *("oak", "ash", "birch", "beech", "maple", "walnut", "cherry", "alder"),
    ]
    assert {c.board for c in CARRIERS} == {
        *("plywood", "mdf", "particleboard", "blockboard", "compact", "solid"),
    }
    assert any(c.faced and c.board == "particleboard" for c in CARRIERS)
    assert {0.6, 0.7, 0.8, 1.0, 1.2} <= {f.thickness.nominal for f in FACINGS if f.family == "hpl"}
    assert {"hpl_backer", "continuous_laminate", "linoleum", "paper", "veneer"} <= {f.family for f in FACINGS}


@pytest.mark.parametrize("wood", WOODS, ids=named)
def test_wood_is_stiffest_along_and_moves_most_around_the_rings(wood: Wood) -> None:
    assert wood.modulus_tangential.nominal < wood.modulus_radial.nominal < wood.modulus_along.nominal / 4
    assert wood.movement_along.nominal < wood.movement_radial.nominal < wood.movement_tangential.nominal
    assert wood.shear_lt.nominal < wood.modulus_along.nominal / 5
    assert wood.resistance_wet.nominal < wood.resistance_dry.nominal
    if wood.shrinkage_radial and wood.shrinkage_tangential:
        assert wood.shrinkage_radial.nominal < wood.shrinkage_tangential.nominal


@pytest.mark.parametrize("wood", WOODS, ids=named)
def test_movement_follows_from_shrinkage_within_its_range(wood: Wood) -> None:
    """C = S / (30 (1 - 2S/3)): fibre saturation 30 %, size at 10 % moisture the base; times 100 per unit."""
    pairs = (
        (wood.shrinkage_radial, wood.movement_radial),
        (wood.shrinkage_tangential, wood.movement_tangential),
    )
    for shrinkage, movement in pairs:
        if shrinkage is None:
            continue
        total = shrinkage.nominal
        expected = total / (0.30 * (1 - total * 2 / 3))
        assert movement.low <= expected * 1.001
        assert expected * 0.999 <= movement.high


def test_every_wood_but_the_two_unknown_ones_has_its_own_figures() -> None:
    own = ("density", "modulus_along", "modulus_radial", "modulus_tangential", "shear_lr", "shear_lt")
    unknown = {True: CATALOGUE.wood("hardwood"), False: CATALOGUE.wood("softwood")}
    for wood in WOODS:
        if wood.name not in ("hardwood", "softwood"):
            for key in (*own, "movement_radial", "movement_tangential"):
                assert getattr(wood, key) != getattr(unknown[wood.hardwood], key), (wood.name, key)


@pytest.mark.parametrize("facing", FACINGS, ids=named)
def test_facings_move_at_least_as_much_across_and_are_sold_in_their_thickness(facing: Facing) -> None:
    assert facing.expansion_across.nominal >= facing.expansion_along.nominal
    assert facing.modulus_across.nominal <= facing.modulus_along.nominal
    assert facing.thickness.nominal in facing.sold_thicknesses_mm
    assert all(s.thickness_mm == facing.thickness.nominal for s in facing.supplies)
    assert facing.supplies
    assert facing.decorative == (facing.family not in ("hpl_backer", "paper"))


@pytest.mark.parametrize("board", CARRIERS, ids=named)
def test_a_board_is_about_as_thick_as_it_is_named(board: Carrier) -> None:
    assert board.thickness.low <= board.nominal_mm * 1.01
    assert abs(board.thickness.nominal - board.nominal_mm) <= 0.65
    assert all(s.thickness_mm == board.nominal_mm for s in board.supplies)
    assert board.modulus_across.nominal <= board.modulus_along.nominal
    assert board.expansion_along.nominal <= board.expansion_across.nominal
    assert board.resistance_wet.nominal <= board.resistance_dry.nominal
    assert (board.plies > 0) == (board.board in ("plywood", "blockboard"))


def test_plywood_bends_stiffer_along_than_it_stretches_and_has_more_plies_when_thicker() -> None:
    birch = sorted(
        (c for c in CARRIERS if c.name.startswith("birch-ply")), key=lambda board: board.nominal_mm
    )
    for board in birch:
        assert board.stretch_along is not None
        assert board.stretch_across is not None
        assert board.stretch_along.nominal < board.modulus_along.nominal
        assert board.stretch_across.nominal > board.modulus_across.nominal
        bending = board.modulus_along.nominal + board.modulus_across.nominal
        assert bending == pytest.approx(17_500, abs=20)
        assert board.stretch_along.nominal + board.stretch_across.nominal == pytest.approx(17_500, abs=20)
    assert [b.plies for b in birch] == list(range(3, 23, 2))


def test_a_measured_thickness_replaces_the_named_one() -> None:
    board = CATALOGUE.carrier("birch-ply-18").with_thickness(17.62, 0.05)
    assert board.thickness == Value(17.62, 17.57, 17.67, "mm", Status.MEASURED, "measured by the maker")
    assert replace(board, thickness=CATALOGUE.carrier("birch-ply-18").thickness) == CATALOGUE.carrier(
        "birch-ply-18"
    )
    assert CATALOGUE.facing("hpl-0.8").with_thickness(0.83).thickness.nominal == 0.83


def test_records_travel_between_processes() -> None:
    for record in RECORDS:
        assert pickle.loads(pickle.dumps(record)) == record


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"length_mm": None}, "length and width"),
        ({"width_mm": 0.0}, "above 0"),
        ({"form": "roll", "width_mm": None}, "width of a roll"),
        ({"form": "heap"}, "expected form"),
        ({"sold_by": "gross"}, "expected sold_by"),
        ({"currency": "EUR"}, "price and currency"),
        ({"source": ""}, "source"),
    ],
)
def test_forms_of_supply_are_checked(changes: dict[str, object], words: str) -> None:
    sheet = Supply("sheet", 2440.0, 1220.0, 18.0, "piece", Status.MEASURED, "own bill")
    with pytest.raises(ValueError, match=words):
        replace(sheet, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"name": "Birch Ply"}, "small letters"),
        ({"title": ""}, "title"),
        ({"board": "paper"}, "expected board"),
        ({"nominal_mm": 0.0}, "nominal thickness"),
        ({"plies": -1}, "plies"),
        ({"density": Value(7, 6, 8, "MPa", Status.MEMORY, "slip")}, "density in kg/m³"),
        ({"density": Value(7, 0, 8, "kg/m³", Status.MEMORY, "slip")}, "density above 0"),
    ],
)
def test_boards_are_checked(changes: dict[str, object], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        replace(CATALOGUE.carrier("mdf-18"), **changes)  # type: ignore[arg-type]


def test_rules_are_whole() -> None:
    for rule_id, value in rules().items():
        assert len(value.source) > 10, rule_id
        assert value.low >= 0, rule_id
        assert rule(rule_id) is value
    with pytest.raises(MissingWord, match="facing-overhang"):
        rule("facing-overhng")


@pytest.mark.parametrize(
    ("height_mm", "mass_kg", "count"),
    [
        (700, 5, 2),
        (1000, 6.8, 2),
        (1000.5, 5, 3),
        (700, 6.9, 3),
        (700, 14, 4),
        (2500, 27, 5),
        (900, 27.1, None),
    ],
)
def test_hinges_by_height_and_mass(height_mm: float, mass_kg: float, count: int | None) -> None:
    assert hinge_count(height_mm, mass_kg) == count
