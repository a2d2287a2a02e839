"""The list of jobs: looked through and put in order, with and without the script."""

import re

import pytest

from evenface.interfaces.web.job_list import name_key

NAMES = ("Bench 10", "Ösby kiln room", "bench 2", "Zinc table", "Äppelbo shelf", "Ångström desk")
LIVE = {"X-Live": "1"}


@pytest.fixture
def jobs(screens):
    return [screens.store.add(name, f'[job]\nname = "{name}"\n') for name in NAMES]


def listed(answer):
    return re.findall(r'<a href="/jobs/\d+"><b>(.*?)</b>', answer.text)


def test_the_last_opened_stands_first(screens, jobs):
    assert listed(screens.get("/")) == list(reversed(NAMES))
    screens.store.use(jobs[2].id)
    assert listed(screens.get("/"))[0] == "bench 2"


def test_in_the_order_of_names_numbers_count_by_size_and_letters_as_the_language_has_them(screens, jobs):
    in_english = ["Ångström desk", "Äppelbo shelf", "bench 2", "Bench 10", "Ösby kiln room", "Zinc table"]
    assert listed(screens.get("/?order=name")) == in_english
    screens.client.cookies.set("evenface_language", "sv")
    in_swedish = ["bench 2", "Bench 10", "Zinc table", "Ångström desk", "Äppelbo shelf", "Ösby kiln room"]
    assert listed(screens.get("/?order=name")) == in_swedish
    assert sorted(["ös", "zo", "äs", "ås"], key=lambda one: name_key(one, "sv")) == ["zo", "ås", "äs", "ös"]


def test_in_the_order_of_changes_the_last_written_stands_first(screens, jobs):
    with screens.store._writing() as base:  # as if each had been written on a day of its own
        for day, one in enumerate(jobs):
            base.execute(
                "UPDATE revision SET made_at = ? WHERE job = ?", (f"2026-03-{9 - day:02} 07:00:00", one.id)
            )
    assert listed(screens.get("/?order=changed")) == list(NAMES)
    saved = screens.store.job(jobs[3].id)
    screens.store.save(saved.id, saved.version, saved.text + "# looked at\n")
    assert listed(screens.get("/?order=changed"))[0] == "Zinc table"
    assert "2026-03-09" in screens.get("/").text


@pytest.mark.parametrize(
    ("find", "names"),
    [
        ("BENCH", ["bench 2", "Bench 10"]), ("osby", ["Ösby kiln room"]), ("desk ang", ["Ångström desk"]),
        ("  room   ös ", ["Ösby kiln room"]), ("%", []), ("nothing of the kind", []),
    ],
)  # fmt: skip
def test_every_word_looked_for_must_be_there_in_any_order_with_or_without_marks(screens, jobs, find, names):
    answer = screens.client.get("/", params={"find": find, "order": "name"})
    assert listed(answer) == names
    assert f"{len(names)} of 6 jobs" in answer.text or "No job with" in answer.text
    only = screens.client.get("/", params={"find": find, "order": "name"}, headers=LIVE)
    assert listed(only) == names
    assert "<html" not in only.text


def test_the_path_of_its_file_finds_a_job_and_what_is_asked_is_shown_as_text(screens, jobs, tmp_path):
    screens.store.add("Drawer", "[job]\n", tmp_path / "pottery" / "drawer.toml")
    assert listed(screens.get("/?find=pottery")) == ["Drawer"]
    hostile = screens.client.get("/", params={"find": "<b>x</b>", "order": "<i>"})
    assert "<b>x</b>" not in hostile.text
    assert "<i>" not in hostile.text


def test_one_job_alone_needs_no_looking_for(screens):
    screens.store.add("Only", "[job]\n")
    assert 'name="find"' not in screens.get("/").text


def test_jobs_put_away_are_not_found_and_swedish_is_spoken(screens, jobs):
    screens.store.put_away(jobs[0].id)
    screens.client.cookies.set("evenface_language", "sv")
    answer = screens.get("/?find=bench", **LIVE)
    assert listed(answer) == ["bench 2"]
    assert "Hitta" in screens.get("/?find=bench").text
    assert "1 av 5 jobb" in answer.text
    assert "Inget jobb" in screens.get("/?find=xyz").text
