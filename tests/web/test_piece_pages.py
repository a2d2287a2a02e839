"""The page of a whole piece: what is shown of it, and everything written of it typed in anew."""

import re
import tomllib
from html import unescape
from pathlib import Path

import pytest

from evenface.construction.kinds import KINDS
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.piece_entries import groups_of, piece_entries
from evenface.interfaces.web.piece_forms import NAMES, slots_of
from evenface.store import KeptJob
from evenface.units import length_text
from evenface.words import ENGLISH

EXAMPLES = Path(__file__).parents[2] / "examples"
WHOLE = ["wall-cupboard", "drawer-pedestal", "glazing-desk", "lined-tray", "notice-panel"]
PAGE = "/jobs/1/pieces/1"


def text_of(name):
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def view_of(text):
    return Desk().look(KeptJob(1, "", 1, text, None, "", False, False), flat=False)


def leaves(data, path):
    if isinstance(data, dict):
        for key, one in data.items():
            yield from leaves(one, f"{path}.{key}")
    elif isinstance(data, list):
        for number, one in enumerate(data):
            yield from leaves(one, f"{path}[{number}]")
    else:
        yield path, data


@pytest.fixture
def cupboard(screens):
    return screens.store.add("Wall cupboard", text_of("wall-cupboard"))


def edit(screens, version, typed, live=True, about="1: Wall cupboard", page=PAGE, **more):
    fields = {"version": str(version), "about": about, **typed, **more}
    return screens.client.post(page, data=fields, headers={"X-Live": "1"} if live else {})


def written(screens, job=1):
    return tomllib.loads(screens.store.job(job).text)["piece"][0]


@pytest.mark.parametrize("name", WHOLE)
def test_every_figure_and_word_written_of_a_piece_is_an_entry_with_its_value(name):
    view = view_of(text_of(name))
    entries = {one.path: one for one in piece_entries(view, 0, ENGLISH)}
    told = dict(leaves(view.source.data["piece"][0], "piece[0]"))
    told.pop("piece[0].kind")
    assert told.keys() <= entries.keys(), told.keys() - entries.keys()
    for path, value in told.items():
        shown = {True: "yes", False: "no"}[value] if isinstance(value, bool) else f"{value}"
        assert entries[path].value in (shown, shown.removesuffix(".0")), path


@pytest.mark.parametrize("name", WHOLE)
def test_entries_have_an_id_and_a_path_of_their_own_and_words_for_a_label(name):
    for group in groups_of(view_of(text_of(name)), 0, ENGLISH):
        labels = [one.label for one in group.entries]
        assert all(label and "_" not in label for label in labels)
        assert len(set(labels)) == len(labels), group.title
    entries = piece_entries(view_of(text_of(name)), 0, ENGLISH)
    assert len({one.id for one in entries}) == len({one.path for one in entries}) == len(entries)


def keys_of(form, seen):
    for slot in slots_of(form):
        yield slot.key
        inner = [slot.sort.form, *(one.form for one in slot.sort.items)]
        for one in inner:
            if one is not None and one not in seen:
                seen.add(one)
                yield from keys_of(one, seen)


def test_every_key_of_every_whole_kind_has_a_word():
    left = {
        "kind",
        "panel",
        "outline",
        "curve",
        "points",
        "file",
        "layer",
        "unit",
    }  # of outlines, and what is not shown
    for kind in KINDS.values():
        if kind.name != "panels":
            assert set(keys_of(kind.form(), set())) - NAMES.keys() <= left, kind.name


def test_the_page_shows_views_tables_parts_and_entries(screens, cupboard):
    first = screens.get(PAGE)
    assert first.text.count("<svg") == 1  # the front at once, the rest when the script asks, or without one
    assert re.search(r'<section id="details" data-swap data-later>', first.text)
    assert f'<noscript><p><a class="button" href="{PAGE}?all=yes">' in first.text
    page = unescape(screens.get(f"{PAGE}?all=yes").text)
    assert page.count("<svg") == 5
    assert "data-later" not in page
    assert unescape(screens.get(PAGE).text).count("<svg") == 5  # made once, they come along
    for word in ("from the front", "from the right", "from above", "section", "taken apart"):
        assert word in page
    for title in ("Joints (", "Gaps (", "Fittings (", "Rows of sizes ("):
        assert title in page
    assert 'href="/jobs/1/parts/1.11"' in page
    assert "1.12 hanging rail" in page
    assert 'href="/jobs/1/parts/1.12"' not in page
    assert page.count("<h1>") == 1


def test_a_size_typed_in_is_kept_and_drawn_and_the_rest_follows(screens, cupboard):
    answer = edit(screens, cupboard.version, {"piece[0].size[0]": "1400"})
    assert answer.status_code == 200
    assert ">1400<" in answer.text
    assert written(screens)["size"] == [1400, 720, 340]
    later = screens.get(PAGE, **{"X-Live": "1"}).text
    assert f'data-version="{screens.store.job(1).version}"' in later
    assert ">1400<" in later
    assert later.count("<svg") == 4


def test_words_flags_figures_and_tables_not_yet_written(screens, cupboard):
    typed = {
        "piece[0].joint": "biscuit",
        "piece[0].one_sheet": "no",
        "piece[0].plinth.height": "80",
        "piece[0].plinth.wood": "ash",
        "piece[0].bay[1].row[0].load": "300",
        "piece[0].bay[0].row[0].run": "doors to the left",
    }
    assert edit(screens, cupboard.version, {"piece[0].joint": "biscuit"}).status_code == 200
    del typed["piece[0].plinth.wood"], typed["piece[0].plinth.height"]
    answer = edit(screens, screens.store.job(1).version, typed)
    assert answer.status_code == 200, answer.text
    now = written(screens)
    assert (now["joint"], now["one_sheet"], now["bay"][1]["row"][0]["load"]) == ("biscuit", False, 300)
    assert now["bay"][0]["row"][0]["run"] == "doors to the left"


@pytest.mark.parametrize(
    ("path", "typed", "told"),
    [
        ("piece[0].size[0]", "wide", "Expected a length"),
        ("piece[0].size[0]", "", "cannot be left out"),
        ("piece[0].sides", "", "cannot be left out"),
        ("piece[0].joint", "nails", "Expected one of dowel"),
        ("piece[0].bay[0].row[0].shelves", "two", "whole number"),
        ("piece[0].bay[0].row[0].load", "heavy", "expected a number"),
        ("piece[0].bay[0].row[0].shelves", "21", "given 21"),
    ],
)
def test_what_cannot_be_is_told_at_its_field_and_not_kept(screens, cupboard, path, typed, told):
    answer = edit(screens, cupboard.version, {path: typed})
    assert answer.status_code == 422
    hint = re.search(r'<p id="hint-[^"]*" class="hint"[^>]*data-wrong[^>]*>(.*?)</p>', answer.text)
    assert hint
    assert told.lower() in unescape(hint[1]).lower()
    assert screens.store.job(1).text == cupboard.text
    assert unescape(screens.get(PAGE).text).count("data-unsent") == 1  # it waits in its field


def test_an_entry_set_in_another_window_is_told_and_others_are_merged(screens, cupboard):
    assert (
        edit(
            screens, cupboard.version, {"piece[0].size[0]": "1500", "was:piece[0].size[0]": "1600"}
        ).status_code
        == 200
    )
    mine = {"piece[0].size[0]": "1450", "was:piece[0].size[0]": "1600", "piece[0].size[1]": "700"}
    mine["was:piece[0].size[1]"] = "720"
    answer = edit(screens, cupboard.version, mine)
    assert answer.status_code == 409
    assert written(screens)["size"] == [1500, 700, 340]
    assert edit(screens, cupboard.version, mine, over="yes").status_code == 200
    assert written(screens)["size"] == [1450, 700, 340]


def test_a_name_typed_letter_by_letter_keeps_what_is_edited(screens, cupboard):
    about, version = "1: Wall cupboard", cupboard.version
    for name in ("Wall cupboar", "Wall cup"):
        answer = edit(screens, version, {"piece[0].name": name}, about=about)
        assert answer.status_code == 200
        about = unescape(re.search('name="about" id="about" value="([^"]*)"', answer.text)[1])
        version = int(re.search('id="version" value="([0-9]+)"', answer.text)[1])
    assert written(screens)["name"] == "Wall cup"
    stale = edit(screens, version, {"piece[0].name": "Chest"}, about="1: Wall cupboard")
    assert stale.status_code == 422
    assert "another window" in stale.text


def test_a_piece_of_loose_panels_has_name_and_count_and_no_whole_drawings(screens, glaze):
    page = screens.get(PAGE).text
    assert "taken apart" not in page
    entries = re.findall('<input type="hidden" name="was:([^"]*)"', page)
    assert entries[:2] == ["piece[0].name", "piece[0].count"]
    assert not any("panel" in one for one in entries)
    assert edit(screens, glaze.version, {"piece[0].count": "2"}, about="", live=False).status_code == 422
    about = unescape(re.search('id="about" value="([^"]*)"', page)[1])
    assert edit(screens, glaze.version, {"piece[0].count": "2"}, about=about, live=False).status_code == 303
    assert written(screens)["count"] == 2


@pytest.mark.parametrize("number", ["0", "9", "x", "-1"])
def test_a_piece_that_is_not_there(screens, cupboard, number):
    assert screens.get(f"/jobs/1/pieces/{number}").status_code == 404


def test_inch_and_swedish(screens, cupboard):
    screens.client.cookies.set("evenface_units", "inch")
    screens.client.cookies.set("evenface_language", "sv")
    page = unescape(screens.get(PAGE).text)
    shown = re.search(r'name="piece\[0\]\.size\[0\]" value="([^"]*)"', page)[1]
    assert shown == length_text(1600, "inch")
    assert '<html lang="sv">' in page


def test_the_parts_page_and_the_page_of_a_part_lead_to_the_piece(screens, cupboard):
    assert f'href="{PAGE}"' in screens.get("/jobs/1").text
    assert f'href="{PAGE}"' in screens.get("/jobs/1/parts/1.11").text
