"""What was just done is told on the page that follows, where the address says so."""

import re

from evenface.interfaces.web.deeds import DEEDS, differences

TOP = "/jobs/1/parts/1.1"
LENGTH = "piece[0].panel[0].size[0]"


def told(page):
    found = re.search(r'<p id="did"[^>]*>(.*?)</p>', page.text)
    return found[1] if found else ""


def set_entry(screens, version, path, value):
    fields = {"version": str(version), path: value}
    return screens.client.post(TOP, data=fields, headers={"X-Live": "1"})


def test_undo_and_redo_say_what_they_changed_as_the_screen_calls_it(screens, glaze):
    assert set_entry(screens, 0, LENGTH, "1777").status_code == 200
    undone = screens.post("/jobs/1/step/undo", version=1, back=TOP)
    assert undone.headers["location"] == f"{TOP}?did=undo#did"  # nothing more to undo: the focus at the words
    assert told(screens.get(undone.headers["location"])) == "Undone: top, Length 1777 → 1800."
    again = screens.post("/jobs/1/step/redo", version=2, back="/jobs/1/check")
    assert told(screens.get(again.headers["location"])) == "Done again: top, Length 1800 → 1777."
    screens.client.cookies.set("evenface_language", "sv")
    assert told(screens.get(again.headers["location"])) == "Gjort om: top, Längd 1800 → 1777."


def test_where_more_can_be_undone_the_focus_stays_at_the_button(screens, glaze):
    set_entry(screens, 0, LENGTH, "1777")
    set_entry(screens, 1, "piece[0].panel[0].size[1]", "640")
    assert screens.post("/jobs/1/step/undo", version=2, back=TOP).headers["location"].endswith("#undo")
    assert screens.post("/jobs/1/step/redo", version=3, back=TOP).headers["location"].endswith("#did")


def test_a_step_of_many_entries_names_two_and_counts_the_rest(screens, glaze):
    screens.post("/jobs/1/pieces", do="copy-part", version=0, origin="piece[0].panel[0]")
    undone = screens.get(screens.post("/jobs/1/step/undo", version=1, back="/jobs/1").headers["location"])
    assert told(undone).count("→") == 2
    before = screens.store.job(1).text
    longer = (
        before
        + '\n[[piece]]\nname = "Slab"\n\n[[piece.panel]]\nname = "slab"\nbuildup = "bench"\nsize = [400, 300]\n'
    )
    assert screens.post("/jobs/1/text", text=longer, version=2).status_code == 303
    undone = screens.get(screens.post("/jobs/1/step/undo", version=3, back="/jobs/1").headers["location"])
    assert "and 3 entries more" in told(undone)


def test_other_deeds_are_told_and_unknown_ones_are_not(screens, glaze):
    for deed in DEEDS:
        if deed not in ("undo", "redo"):
            assert told(screens.get(f"/jobs/1?did={deed}")) == DEEDS[deed]
    for hostile in ("", "x", "<b>", "kept2"):
        assert told(screens.client.get("/jobs/1", params={"did": hostile})) == ""
    assert told(screens.get("/jobs/1?did=undo")) == "Undone."  # nothing lies after this state


def test_an_entry_that_differs_is_found_at_any_depth():
    old = {"a": {"b": [1, {"c": "x"}]}, "d": 2}
    new = {"a": {"b": [1, {"c": "y"}, 3]}, "e": 2}
    assert set(differences(old, new)) == {
        ("a.b[1].c", "x", "y"), ("a.b[2]", None, 3), ("d", 2, None), ("e", None, 2),
    }  # fmt: skip
    assert differences(old, old) == []
