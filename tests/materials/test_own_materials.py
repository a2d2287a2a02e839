"""The maker's own file: changing figures, adding entries, and what is refused, with its line."""

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.errors import FileError, MissingWord
from evenface.evidence import Status
from evenface.materials import load_catalogue

HEAVY = """\
[carrier.birch-ply-18]
density = { value = 712, spread = "±3", unit = "kg/m³", status = "measured", source = "own scales" }

[carrier."kiln-board"]
like = "birch-ply-18"
title = "Kiln-room board"
nominal_mm = 16
thickness = { value = 15.8, low = 15.6, high = 16.1, unit = "mm", status = "measured", source = "own" }
modulus_along = { value = 9.1, unit = "GPa", status = "read", source = "its data sheet" }
supplies = [
  { form = "sheet", length = "8 ft", width = "4 ft", thickness = 16, price = "61.50", currency = "EUR", \
status = "measured", source = "bill" },
]
"""


def own(tmp_path: Path, text: str) -> Path:
    file = tmp_path / "mine.toml"
    file.write_text(text, encoding="utf-8")
    return file


def refusal(tmp_path: Path, text: str) -> FileError:
    with pytest.raises(FileError) as caught:
        load_catalogue(own(tmp_path, text))
    return caught.value


def test_one_figure_is_changed_and_all_others_stay(tmp_path: Path) -> None:
    shipped, mine = load_catalogue(), load_catalogue(own(tmp_path, HEAVY))
    board, before = mine.carrier("birch-ply-18"), shipped.carrier("birch-ply-18")
    assert (board.density.low, board.density.nominal, board.density.high) == (709, 712, 715)
    assert board.density.status is Status.MEASURED
    assert board.modulus_along == before.modulus_along
    assert board.supplies == before.supplies
    assert mine.carrier("birch-ply-21") == shipped.carrier("birch-ply-21")
    assert mine.is_own("carrier", "birch-ply-18")
    assert not mine.is_own("carrier", "birch-ply-21")
    assert shipped.carrier("birch-ply-18").density.nominal == 685


def test_an_added_entry_begins_from_the_one_it_is_like(tmp_path: Path) -> None:
    mine = load_catalogue(own(tmp_path, HEAVY))
    board = mine.carrier("kiln-board")
    assert (board.title, board.nominal_mm, board.plies) == ("Kiln-room board", 16.0, 13)
    assert board.density.nominal == 712, "like the maker's own birch plywood, not the shipped one"
    assert board.modulus_along.nominal == pytest.approx(9100)
    assert (board.modulus_along.low, board.modulus_along.high) == pytest.approx((9100 * 0.85, 9100 * 1.15))
    (sheet,) = board.supplies
    assert (sheet.length_mm, sheet.width_mm) == pytest.approx((2438.4, 1219.2))
    assert (sheet.price, sheet.currency) == (Decimal("61.50"), "EUR")
    assert mine.names("carrier")[-1] == "kiln-board"
    assert mine.everything()["carrier"][-1] is board


FIGURE = "density = {{ {} }}"
GOOD = {"value": "700", "spread": '"±5 %"', "unit": '"kg/m³"', "status": '"read"', "source": '"its sheet"'}


def entry(**changes: str | None) -> str:
    figure = {**GOOD, **changes}
    written = ", ".join(f"{key} = {text}" for key, text in figure.items() if text is not None)
    return f"# mine\n[carrier.mdf-18]\n{FIGURE.format(written)}\n"


def test_the_good_figure_is_read(tmp_path: Path) -> None:
    assert load_catalogue(own(tmp_path, entry())).carrier("mdf-18").density.nominal == 700


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"unit": None}, "one without unit"),
        ({"source": None}, "one without source"),
        ({"source": '""'}, "one without source"),
        ({"source": '"  "'}, "a source"),
        ({"status": None}, "one without status"),
        ({"value": None}, "one without value"),
        ({"unit": '"MPa"'}, "the unit kg/m³"),
        ({"unit": "3"}, "the unit kg/m³"),
        ({"status": '"guessed"'}, "measured, read, derived, practice, memory"),
        ({"value": "nan"}, "finite"),
        ({"value": "inf"}, "finite"),
        ({"value": "true"}, "a number"),
        ({"value": '"heavy"'}, "a number"),
        ({"value": "1" + "0" * 40}, "sensible"),
        ({"value": "-700", "spread": '"±1"'}, "density above 0"),
        ({"spread": '"about ten"'}, "a spread such as"),
        ({"low": "650"}, "either"),
        ({"spread": None, "low": "650"}, "both"),
        ({"spread": None, "low": "710", "high": "720"}, "low ≤ value ≤ high"),
        ({"untl": '"kg/m³"'}, "Did you mean 'unit'"),
    ],
)
def test_a_figure_is_refused_with_its_line(
    tmp_path: Path, changes: dict[str, str | None], words: str
) -> None:
    caught = refusal(tmp_path, entry(**changes))
    assert words in str(caught)
    assert "mine.toml, line " in str(caught)
    (complaint,) = caught.complaints
    assert complaint.place.line == (2 if "above 0" in words else 3)
    assert complaint.place.key.startswith("carrier.mdf-18")


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ('[carrier.a]\nlike = "b"\n[carrier.b]\nlike = "c"\n[carrier.c]\nlike = "a"\n', 6, "a → b → c → a"),
        ('[wood.oak]\nlike = "oak"\n', 2, "oak → oak"),
        ('[wood.bog-oak]\nlike = "oka"\n', 2, "Did you mean 'oak'"),
        ("[wood.bog-oak]\nlike = 3\n", 2, "the name of a wood"),
        ('[wood.bog-oak]\ntitle = "Bog oak"\n', 1, "without botanical, hardwood, density"),
        ('[woods.oak]\ntitle = "Oak"\n', 1, "Did you mean 'wood'"),
        ('[wood.oak]\ntitel = "Oak"\n', 2, "Did you mean 'title'"),
        ("[wood.oak]\ntitle = 5\n", 2, "a text"),
        ('[wood.oak]\nhardwood = "yes"\n', 2, "true or false"),
        ("[wood.oak]\ndensity = 700\n", 2, "a figure such as"),
        ("wood = 3\n", 1, "tables such as"),
        ('[wood."Bog Oak"]\nlike = "oak"\n', 1, "small letters"),
        ('[carrier.mdf-18]\nboard = "mfd"\n', 1, "'mdf'"),
        ("[wood.oak]\ntitle = = 5\n", 2, "TOML"),
        ('[facing.hpl-1]\nlike = "hpl-0.8"\nsupplies = 4\n', 3, "a list"),
        (
            '[facing.hpl-1]\nlike = "hpl-0.8"\nsupplies = [\n'
            '  { form = "sheet", length = 3050, width = -2, status = "read", source = "x" },\n]\n',
            4,
            "above 0",
        ),
        (
            '[facing.hpl-1]\nlike = "hpl-0.8"\nsupplies = [\n'
            '  { form = "sheet", length = 9, width = 9, price = "1", status = "read", source = "x" },\n]\n',
            4,
            "price and currency",
        ),
    ],
)
def test_an_entry_is_refused_with_its_line(tmp_path: Path, text: str, line: int, words: str) -> None:
    caught = refusal(tmp_path, text)
    assert words in str(caught)
    assert line in {complaint.place.line for complaint in caught.complaints}, str(caught)


def test_all_complaints_come_together_in_the_order_of_the_file(tmp_path: Path) -> None:
    text = entry(unit=None) + "[wood.oak]\ndensity = 3\n[glu.mine]\n"
    lines = [complaint.place.line for complaint in refusal(tmp_path, text).complaints]
    assert lines == [3, 5, 6]


def test_files_that_cannot_be_used(tmp_path: Path) -> None:
    with pytest.raises(FileError, match=r"absent\.toml: expected a file of materials"):
        load_catalogue(tmp_path / "absent.toml")
    (tmp_path / "latin.toml").write_bytes(b'[sources]\na = "B\xf6rje"\n')
    with pytest.raises(FileError, match="not UTF-8 at offset 16"):
        load_catalogue(tmp_path / "latin.toml")
    (tmp_path / "huge.toml").write_bytes(b"# " + b"x" * 2_000_001)
    with pytest.raises(FileError, match="at most 2 MB"):
        load_catalogue(tmp_path / "huge.toml")
    deep = "a = " + "[" * 40 + "]" * 40 + "\n"
    assert "deep" in str(refusal(tmp_path, deep))
    assert "TOML" in str(refusal(tmp_path, "a = " + "9" * 6000 + "\n"))


def test_missing_words_name_the_nearest() -> None:
    catalogue = load_catalogue()
    with pytest.raises(MissingWord, match=r"hpl-0\.8"):
        catalogue.facing("hpl-08")
    with pytest.raises(MissingWord, match="kind of material"):
        catalogue.names("timber")
    assert load_catalogue() is catalogue


@settings(max_examples=40, deadline=None)
@given(
    nominal=st.floats(0.01, 1e5),
    share=st.floats(0, 0.9),
    name=st.sampled_from(["ash", "oak", "red-oak", "spruce"]),
    key=st.sampled_from(["modulus_along", "modulus_tangential", "shear_lt"]),
)
def test_a_written_figure_comes_back(
    tmp_path_factory: pytest.TempPathFactory, nominal: float, share: float, name: str, key: str
) -> None:
    low, high = nominal * (1 - share), nominal * (1 + share)
    text = (
        f"[wood.{name}]\n{key} = {{ value = {nominal!r}, low = {low!r}, high = {high!r}, "
        'unit = "N/mm²", status = "derived", source = "trial" }\n'
    )
    read = load_catalogue(own(tmp_path_factory.mktemp("own"), text)).wood(name)
    value = getattr(read, key)
    assert (value.low, value.nominal, value.high) == (low, nominal, high)
    assert (value.unit, value.status, value.source) == ("MPa", Status.DERIVED, "trial")
    shipped = load_catalogue().wood(name)
    assert read.density == shipped.density
    assert read.movement_tangential == shipped.movement_tangential
