"""Profiles, cut-outs and grips added to a part and taken off; the layers of its build-up changed on its page."""

import tomllib

import pytest

AT = "/jobs/1/add/1.2"


def panel(screens, number=1):
    return tomllib.loads(screens.store.job(1).text)["piece"][0]["panel"][number]


def test_the_page_has_a_title_and_every_form(screens, glaze):
    page = screens.get(AT).text
    assert page.count("<h1>") == 1
    assert page.count('name="what"') == 3


@pytest.mark.parametrize("what", ["profile", "cutout", "grip"])
def test_each_is_added_and_undo_leaves_every_byte_as_it_was(screens, glaze, what):
    before = panel(screens).get(what, [])
    before = [before] if isinstance(before, dict) else before
    fields = {"x": "300", "y": "300", "name": "new", "long": "80", "wide": "50"}
    assert screens.post(AT, version=0, what=what, **fields).status_code == 303
    after = panel(screens)[what]
    assert after[: len(before)] == before
    assert len(after) == len(before) + 1
    assert screens.get("/jobs/1/parts/1.2").status_code == 200
    screens.post("/jobs/1/step/undo", version=1)
    assert screens.store.job(1).text == glaze.text


def test_what_was_added_is_an_entry_of_the_part_and_can_be_taken_off(screens, glaze):
    screens.post(
        AT, version=0, what="cutout", name="spout", x="250", y="200", long="80", wide="50", radius="0"
    )
    number = len(panel(screens)["cutout"]) - 1
    path = f"piece[0].panel[1].cutout[{number}]"
    page = screens.get("/jobs/1/parts/1.2").text
    assert "Cut-out spout, from the left" in page
    answer = screens.send("/jobs/1/parts/1.2", {"version": "1", f"{path}.at[0]": "260"})
    assert answer.status_code == 303
    assert panel(screens)["cutout"][number]["at"] == [260, 200]
    assert screens.post(AT, version=2, do="remove", path=path).status_code == 303
    assert screens.post(AT, version=3, do="remove", path="job").status_code == 404


@pytest.mark.parametrize("wrong", [{"x": "left"}, {"name": ""}, {"long": "-4"}])
def test_figures_that_cannot_be_are_refused(screens, glaze, wrong):
    assert screens.post(AT, version=0, what="cutout", **wrong).status_code == 422
    assert screens.post(AT, version=0, what="hole").status_code == 404
    assert screens.post(AT, version=9, what="cutout").status_code == 409
    assert screens.store.job(1).text == glaze.text


def test_a_layer_is_changed_on_the_page_of_a_part(screens, glaze):
    page = screens.get("/jobs/1/parts/1.1").text
    assert "written at build-up bench" in page
    answer = screens.send("/jobs/1/parts/1.1", {"version": "0", "buildup.bench.back": ""})
    assert answer.status_code == 303
    assert "back" not in tomllib.loads(screens.store.job(1).text)["buildup"]["bench"]
    assert screens.send("/jobs/1/parts/1.1", {"version": "1", "buildup.bench.carrier": ""}).status_code == 422
    assert (
        screens.send("/jobs/1/parts/1.1", {"version": "1", "buildup.bench.carrier": "mdf-19"}).status_code
        == 303
    )
    carrier = tomllib.loads(screens.store.job(1).text)["buildup"]["bench"]["carrier"]
    assert carrier == {"material": "mdf-19", "thickness": 20.4}
