"""The rack as a table: out and in again the same, errors with their cell, and files that mean harm."""

import io
import zipfile
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.errors import FileError, in_words
from evenface.store import RackItem
from evenface.store import rack_files as files
from evenface.store.rack import Rack
from evenface.store.rack_codes import new_code
from evenface.store.rack_columns import READ, shielded, unshielded
from evenface.store.rack_files import csv_text, read_rows, xlsx_bytes
from evenface.store.rack_import import preview, summary
from evenface.store.rack_records import FACES, FORMS, GRAINS, Defect, Left

MATERIALS = ("birch-ply-18", "hpl-0.8", "ash")


def written(folder, name, content):
    place = folder / name
    place.write_bytes(content if isinstance(content, bytes) else content.encode())
    return place


def read(place, known=(), materials=MATERIALS):
    return preview(read_rows(place), place.name, {item.code: item for item in known}, materials)


def complaints(place, **rest):
    with pytest.raises(FileError) as caught:
        read(place, **rest)
    return caught.value.complaints


line = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp")), max_size=30).map(
    str.strip
)
wild_line = st.one_of(line, st.builds("{}{}".format, st.sampled_from("=+-@'＝\"';,"), line).map(str.strip))
money = st.none() | st.decimals(0, 99_999, places=2)
size = st.integers(1, 400_000)


@st.composite
def an_item(draw):
    state = draw(st.sampled_from(("free", "reserved", "spoiled")))
    length, width = draw(size), draw(size)
    return RackItem(
        draw(st.sampled_from(FORMS)),
        draw(st.sampled_from(MATERIALS)),
        length,
        width,
        draw(st.integers(1, 10_000)),
        new_code(),
        draw(wild_line),
        draw(st.sampled_from(GRAINS)),
        draw(st.sampled_from(FACES)),
        draw(st.none() | st.floats(0.0, 2.0)),
        draw(st.none() | st.dates(date(1990, 1, 1))),
        draw(wild_line),
        draw(money),
        draw(st.sampled_from(("EUR", "DKK"))),
        draw(money),
        draw(st.none() | st.tuples(size, size).map(lambda two: (min(two), max(two)))),
        draw(st.none() | st.dates(date(1990, 1, 1))),
        draw(wild_line),
        tuple(
            draw(
                st.lists(
                    st.builds(
                        Defect, st.integers(0, 500), size, size, size, st.sampled_from(("knot", "dark split"))
                    ),
                    max_size=2,
                )
            )
        ),
        state=state,
        reserved_for=draw(wild_line) or "Glaze room" if state == "reserved" else "",
        planned=(Left(length, draw(st.integers(1, width))),)
        if state == "reserved" and draw(st.booleans())
        else (),
    )


@given(st.lists(an_item(), max_size=5))
@settings(max_examples=30)
def test_what_is_written_reads_the_same(tmp_path_factory, items):
    folder = tmp_path_factory.mktemp("out")
    for place in (
        written(folder, "rack.csv", csv_text(items)),
        written(folder, "rack.xlsx", xlsx_bytes(items)),
    ):
        found = read(place)
        assert list(found.new) == items
        again = read(place, found.new)
        assert (again.new, again.changed, again.same) == ((), (), found.new)


@given(wild_line)
def test_no_cell_begins_like_a_formula(text):
    cell = shielded(text)
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    assert unshielded(cell) == text


def test_cells_that_begin_like_formulas_are_texts_in_both_kinds_of_file(tmp_path):
    item = RackItem(
        "sheet", "ash", 100, 100, 100, new_code(), batch="=1+1", place="+A1", notes="@x", reserved_for=""
    )
    told = csv_text([item])
    assert "'=1+1" in told
    assert "'+A1" in told
    assert "'@x" in told
    sheet = openpyxl.load_workbook(io.BytesIO(xlsx_bytes([item]))).active
    cells = [cell for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s"}
    assert "'=1+1" in [cell.value for cell in cells]


def test_a_rack_goes_through_a_file_into_an_empty_one(tmp_path, file_rack):
    sheet, held = file_rack.receive(
        [RackItem("sheet", "birch-ply-18", 250_000, 125_000, 1_790, price=Decimal("412.50"), currency="DKK")]
        * 2
    )
    first, _ = file_rack.cut(sheet, [Left(100_000, 125_000), Left(150_000, 30_000)])
    file_rack.cut(first, [Left(50_000, 50_000)])
    file_rack.reserve("Glaze room", [(held, (Left(250_000, 20_000),))])
    for name, content in (
        ("rack.csv", csv_text(file_rack.items())),
        ("rack.xlsx", xlsx_bytes(file_rack.items())),
    ):
        place = written(tmp_path, name, content)
        with Rack(tmp_path, f"sqlite:///{tmp_path / name}.sqlite3", "Bo") as other:
            found = read(place)
            action = other.bring_in(found.new, found.changed)
            assert action.kind == "import"
            assert [replace(one, last_action=0) for one in other.items()] == [
                replace(one, last_action=0) for one in file_rack.items()
            ]
            assert other.balance().closes
            mine, theirs = file_rack.balance(), other.balance()
            assert (mine.received, mine.cut, mine.free) == (theirs.received, theirs.cut, theirs.free)
            other.undo()
            assert other.items() == ()


def test_a_table_from_a_spreadsheet_in_another_country(tmp_path):
    place = written(
        tmp_path,
        "delivery.csv",
        "\ufeffForm;Material;Length_mm;Width_mm;Thickness;Price;Currency;Copies;Moisture_percent;Least\r\n"
        "sheet;birch-ply-18;2500;1250;17,9;412,50;DKK;3;8,3 %;300 x 100\r\n"
        ";;;;;;;;;\r\n"
        'offcut;hpl-0.8;2 ft 6 in;18 in;"1/32 in";;;;;\r\n',
    )
    found = read(place).new
    assert len(found) == 4
    assert found[0] == RackItem(
        *("sheet", "birch-ply-18", 250_000, 125_000, 1_790),
        price=Decimal("412.50"),
        currency="DKK",
        moisture=0.083,
        least=(10_000, 30_000),
    )
    assert (found[3].length, found[3].width, found[3].thickness) == (76_200, 45_720, 79)


def test_numbers_and_days_of_a_workbook_are_read(tmp_path):
    book = openpyxl.Workbook()
    book.active.append(["form", "material", "length", "width", "received", "price", "currency"])
    book.active.append(["sheet", "ash", 2500, 1250.5, datetime(2026, 9, 30, 7), 412.5, "DKK"])
    book.save(tmp_path / "in.xlsx")
    (item,) = read(tmp_path / "in.xlsx").new
    assert (item.width, item.received, item.price) == (125_050, date(2026, 9, 30), Decimal("412.5"))


def test_every_cell_that_cannot_be_read_is_named_and_nothing_is_booked_in(tmp_path):
    place = written(
        tmp_path,
        "in.csv",
        "form,material,length,width,price,currency,moisture,received,copies,code\n"
        "shet,birch-ply-18,2500,1250,,,,,,\n"
        "sheet,birch-plly-18,2500,1250,,,,,,\n"
        "sheet,ash,long,1250,-3,EUR,wet,1.2.26,0,\n"
        "sheet,ash,2500,,,,,,,\n"
        "board,ash,2500,200,,,,,,\n"
        "sheet,ash,2500,200,12,,,,,K7F3-2MQX\n"
        "sheet,ash,2500,200,12,,,,,\n",
    )
    told = {(one.place.line, one.place.column, one.place.key): one for one in complaints(place)}
    assert set(told) == {
        *((2, 1, "form"), (3, 2, "material"), (4, 3, "length"), (4, 5, "price"), (4, 7, "moisture")),
        *((4, 8, "received"), (4, 9, "copies"), (5, 4, "width"), (6, 0, "thickness"), (7, 10, "code")),
        (8, 6, "currency"),
    }
    assert "'sheet'" in in_words(told[2, 1, "form"].hint)
    assert in_words(told[3, 2, "material"].hint) == "Did you mean 'birch-ply-18'?"
    assert told[4, 3, "length"].given == "'long'"
    assert "2440" in in_words(told[4, 3, "length"].expected)
    assert str(told[4, 5, "price"]).startswith("in.csv, line 4, column 5, price: expected an amount")


@pytest.mark.parametrize(
    ("text", "expected", "hint"),
    [
        ("", "a first row that names the columns", ""),
        ("form,materiel,length,width\n", "the name of a column", "'material'"),
        ("form,material,length\n", "the columns form, material, length, width", ""),
        ("form,form,material,length,width\n", "each column once", ""),
        ("form,material,length,width\nsheet,ash,1,1,stray\n", "nothing, for this column has no name", ""),
        ('form,material,length,width\nsheet,"ash,1,1\n', "a CSV table", ""),
        ("form,material,length,width\nsheet,ash,1\0,1\n", "a table of text", ""),
        (
            "form,material,length,width,code\nsheet,ash,1,1,K7F3-2MQT\nsheet,ash,1,1,K7F3-2MQT\n",
            "each code once",
            "",
        ),
        (
            "form,material,length,width,parent\nsheet,ash,1,1,K7F3-2MQT\n",
            "the code of an item that is cut",
            "",
        ),
        (
            "form,material,length,width,code,copies\nsheet,ash,1,1,K7F3-2MQT,2\n",
            "one, for a code is that of one",
            "",
        ),
        ('form,material,length,width,notes\nsheet,ash,1,1,"a\nb"\n', "one line without blanks", ""),
    ],
)
def test_a_table_that_is_none_is_told_so(tmp_path, text, expected, hint):
    first = complaints(written(tmp_path, "in.csv", text))[0]
    assert in_words(first.expected).startswith(expected)
    assert hint in in_words(first.hint)


def test_a_known_code_corrects_and_what_is_booked_otherwise_is_not_brought_in(tmp_path, file_rack):
    (item,) = file_rack.receive(
        [RackItem("sheet", "ash", 250_000, 125_000, 1_800, place="bay 1", notes="kept")]
    )
    place = written(
        tmp_path, "in.csv", f"code,form,material,length,width,place\n{item.code},sheet,ash,2490,1250,bay 2\n"
    )
    found = read(place, [item])
    assert found.fields_changed(0) == ("length", "place")
    assert summary(found)[0].endswith(": length, place")
    file_rack.bring_in(found.new, found.changed)
    now = file_rack.find(item.code)
    assert (now.length, now.place, now.notes, now.thickness) == (249_000, "bay 2", "kept", 1_800)
    place = written(
        tmp_path,
        "in.csv",
        f"code,form,material,length,width,state\n{item.code},sheet,ash,2490,1250,spoiled\n",
    )
    (told,) = complaints(place, known=[now])
    assert (told.place.key, told.given) == ("state", "spoiled")
    assert "reserve, cut or spoil" in in_words(told.expected)


def test_a_photo_is_no_column(tmp_path):
    assert "photo" not in READ
    place = written(tmp_path, "in.csv", "form,material,length,width,photo\nsheet,ash,1,1,/etc/passwd\n")
    assert in_words(complaints(place)[0].expected) == "the name of a column"


@pytest.mark.parametrize("name", ["in.xls", "in.txt", "in"])
def test_other_files_are_refused_by_their_name(tmp_path, name):
    assert ".csv or .xlsx" in in_words(complaints(written(tmp_path, name, "form"))[0].expected)


@pytest.mark.parametrize("name", ["in.csv", "in.xlsx"])
def test_a_large_file_is_refused_before_it_is_read(tmp_path, monkeypatch, name):
    place = written(tmp_path, name, b"x" * (files.LARGEST_FILE + 1))
    monkeypatch.setattr("pathlib.Path.read_bytes", lambda self: pytest.fail("it was read"))
    assert in_words(complaints(place)[0].expected) == "at most 5 MB"


def a_workbook(**changed):
    """A workbook with some of its parts replaced, packed again."""
    made = openpyxl.Workbook()
    made.active.append(["form", "material", "length", "width"])
    made.active.append(["sheet", "ash", 2500, 1250])
    whole, out = io.BytesIO(), io.BytesIO()
    made.save(whole)
    with zipfile.ZipFile(whole) as source, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as target:
        for entry in source.infolist():
            content = source.read(entry)
            new = changed.get(entry.filename.rsplit("/", 1)[-1].replace(".", "_"))
            target.writestr(entry.filename, content if new is None else new(content))
    return out.getvalue()


def test_a_workbook_that_unpacks_to_too_much_is_refused(tmp_path):
    """20 kB that become more than 60 MB; what the archive says of its sizes plays no part."""
    bomb = a_workbook(
        sheet1_xml=lambda old: old.replace(b"</sheetData>", b" " * 70_000_000 + b"</sheetData>")
    )
    assert len(bomb) < 200_000
    assert in_words(complaints(written(tmp_path, "in.xlsx", bomb))[0].given) == "one that unpacks to more"
    small = a_workbook(sheet1_xml=lambda old: old.replace(b"</sheetData>", b" " * 1_000 + b"</sheetData>"))
    assert len(read(written(tmp_path, "in.xlsx", small)).new) == 1


@pytest.mark.parametrize(
    "head",
    [
        b'<!DOCTYPE a [<!ENTITY b "c">]>',
        b'<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>',
        b'<!DOCTYPE a SYSTEM "http://localhost/a.dtd">',
    ],
)
def test_a_workbook_with_definitions_of_its_own_is_refused(tmp_path, head):
    harm = a_workbook(
        sheet1_xml=lambda old: b"<?xml version='1.0'?>" + head + old[old.index(b"<worksheet") :]
    )
    assert in_words(complaints(written(tmp_path, "in.xlsx", harm))[0].given) == "one with an entity or a DTD"


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"PK\3\4 broken",
        a_workbook()[:-40],
        a_workbook(workbook_xml=lambda old: b"<workbook/>"),
        a_workbook(sheet1_xml=lambda old: b"<no"),
    ],
)
def test_a_broken_workbook_is_a_sentence(tmp_path, content):
    assert "workbook" in in_words(complaints(written(tmp_path, "in.xlsx", content))[0].expected)


def test_too_many_rows_columns_and_signs_are_refused(tmp_path):
    head = "form,material,length,width\n"
    rows = written(tmp_path, "in.csv", head + "sheet,ash,1,1\n" * (files.MOST_ROWS + 1))
    assert "rows" in in_words(complaints(rows)[0].expected)
    assert "columns" in in_words(
        complaints(written(tmp_path, "in.csv", ",".join("a" * 61) + "\n"))[0].expected
    )
    assert "signs" in in_words(complaints(written(tmp_path, "in.csv", head + "x" * 5_000))[0].expected)
