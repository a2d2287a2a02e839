"""Whatever a finding offers as a change of entries can be tried, kept, and does what it says."""

import re

import pytest

from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.pages import alike, shown
from evenface.languages import manner_for
from evenface.store import KeptJob

MANNER = manner_for("en", "mm")
TOP = """format = 1
[job]
name = "Wedging table"
[buildup.top]
face = "linoleum-2"
{back}
carrier = "birch-ply-21"
glue = "pva-d3"
edging = {{ wood = "ash", width = {width} }}
[[piece]]
name = "Wedging table"
[[piece.panel]]
name = "top"
size = [1600, 800]
buildup = "top"
use = "top"
corners = {{ radius = {radius} }}
"""


def top(width: float = 10, radius: float = 0, back: str = "") -> KeptJob:
    return KeptJob(1, "x", 0, TOP.format(width=width, radius=radius, back=back), None, "", False, False)


@pytest.mark.parametrize(
    "job",
    [
        pytest.param(top(), id="bare below"),
        pytest.param(top(back='back = "balancing-paper-0.2"'), id="paper below"),
        pytest.param(top(back='back = { material = "linoleum-2", turned = true }'), id="turned below"),
        pytest.param(top(width=16), id="wide edging"),
        pytest.param(top(radius=50), id="corners into the carrier"),
    ],
)
def test_every_change_of_entries_that_is_offered_can_be_tried_and_helps(job):
    desk = Desk()
    view = desk.look(job)
    tried = 0
    for finding in view.sketch.findings:
        for remedy in finding.remedies:
            if not remedy.changes:
                continue
            tried += 1
            trial = desk.attempt(job, remedy.changes)
            left = [
                one for one in trial.after.sketch.findings if (one.code, one.at) == (finding.code, finding.at)
            ]
            if left and remedy.predicted is None and remedy.code != "balance.hold_down":
                pytest.fail(f"{remedy.code} leaves {finding.code} as it was")
            assert trial.before.opened.job != trial.after.opened.job, remedy.code
    assert tried


def remedies_of(job: KeptJob, code: str) -> dict[str, bool]:
    """What is offered against a finding of that code, and whether it can be tried."""
    found = next(one for one in Desk().look(job).sketch.findings if one.code == code)
    return {remedy.code: bool(remedy.changes) for remedy in found.remedies}


def test_what_an_entry_can_mend_is_one_click():
    assert remedies_of(top(width=16), "edging.wide_under") == {"edging.narrower": True, "edging.flush": True}
    assert remedies_of(top(), "balance.bare") == {"balance.same_sheet": True, "balance.hold_down": True}
    assert remedies_of(top(), "flat.bow")["flat.hold"]


def test_four_corners_that_one_entry_mends_are_told_once():
    job = top(radius=50)
    corners = [one for one in alike(shown(Desk().look(job), job, MANNER)) if "cuts" in one.text.message]
    assert [len(one.also) for one in corners] == [3]
    assert all(address for _, address in corners[0].remedies)


def test_corners_that_are_mended_one_by_one_are_told_one_by_one():
    own = "corners = {{ front_left = {{ radius = 50 }}, front_right = {{ radius = 50 }} }}"
    text = TOP.replace("corners = {{ radius = {radius} }}", own).format(width=10, back="")
    job = KeptJob(1, "x", 0, text, None, "", False, False)
    corners = [one for one in alike(shown(Desk().look(job), job, MANNER)) if "cuts" in one.text.message]
    assert len(corners) == 2


def test_a_trial_comes_back_to_the_page_it_was_begun_on(screens):
    screens.post("/jobs", **{"from": "example"})
    for page in ("/jobs/1/parts/3.3", "/jobs/1/pieces/3"):
        tried = re.search(r'href="(/jobs/1/try[^"]*)"', screens.get(page).text)[1].replace("&amp;", "&")
        assert f'href="{page}#found-' in screens.get(tried).text
    fields = dict(re.findall(r"(version|finding|remedy)=([0-9]+)", tried))
    kept = screens.post("/jobs/1/keep", back="/jobs/1/parts/3.3", **fields)
    assert kept.headers["location"].startswith("/jobs/1/parts/3.3?did=kept")
    again = screens.post("/jobs/1/step/undo", version=1)
    assert again.status_code == 303
    away = screens.post("/jobs/1/keep", back="//elsewhere.example/", version=2, finding=0, remedy=0)
    assert away.headers["location"].startswith("/jobs/1/check")


def test_what_a_trial_changes_is_what_is_drawn(screens):
    screens.post("/jobs", **{"from": "example"})
    page = screens.get(
        "/jobs/1/try?version=0&finding=0&remedy=0"
    ).text  # the order of gluing: seen in the edge only
    before, after = re.findall(r"<svg.*?</svg>", page, re.S)[:2]
    assert before != after
    assert "facing first" in before
    assert "edging first" in after


def test_where_an_entry_is_written_is_said_once_for_all_that_are_written_there(screens):
    screens.post("/jobs", **{"from": "example"})
    page = screens.get("/jobs/1/parts/1.1").text
    assert (
        page.split("What may be set besides")[0]
        .split("Build-up</summary>")[0]
        .count("changes every part like it")
        == 1
    )


@pytest.mark.parametrize(("units", "unit"), [("mm", "mm"), ("inch", "in")])
def test_every_length_to_enter_says_its_unit(screens, units, unit):
    screens.post("/jobs", **{"from": "example"})
    screens.post("/units", units=units, back="/")
    page = screens.get("/jobs/1/parts/1.1").text
    for label in ("Length", "Edging width", "Corner radius"):
        assert f'data-unit="{unit}">{label}</label>' in page
    assert ">Count</label>" in page
    assert not re.search(r"data-unit[^>]*>Count<", page)


def test_every_page_of_a_job_says_under_which_question_it_stands(screens):
    screens.post("/jobs", **{"from": "example"})
    for page, word in {
        "parts/1.1": "Parts", "pieces/1": "Parts", "solid/1": "Parts", "new": "Parts", "add/1.1": "Parts",
        "flat/1.1": "Will it work?", "limits": "Will it work?", "try?version=0&finding=0&remedy=0": "Will it work?",
        "calendar": "Making", "making/all-01": "Making", "choice": "Price", "alternatives": "Price",
        "job": "Job and workshop", "hours": "Making", "stock": "Buying", "brief": "Price",
        "rates": "Price", "variants": "Price",
    }.items():  # fmt: skip
        head = screens.get(f"/jobs/1/{page}").text.split("</nav>")[0]
        assert re.findall(r'aria-current="(?:page|true)">([^<]*)<', head) == [word], page
