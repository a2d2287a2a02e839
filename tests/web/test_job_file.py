"""A job and its file: saved to it, taken over from it, and how the two stand told on every page."""

from pathlib import Path

from evenface.interfaces.web.serving import job_to_open

SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")


def test_a_job_is_saved_to_its_file_and_changes_outside_are_noticed(screens, tmp_path):
    file = tmp_path / "shelf.toml"
    file.write_text(SHELF, encoding="utf-8")
    job = job_to_open(screens.store, file)
    page = f"/jobs/{job.id}/text"
    assert "says the same" in screens.client.get(page).text
    mine = SHELF + "# mine\n"
    screens.client.post(page, data={"version": "0", "text": mine})
    assert "not yet saved" in screens.client.get(page).text
    screens.client.post(f"/jobs/{job.id}/file", data={"version": "1", "do": "write"})
    assert file.read_text(encoding="utf-8") == mine
    assert [one.name for one in tmp_path.glob(".*")] == []
    file.write_text(SHELF + "# theirs\n", encoding="utf-8")
    assert "changed outside" in screens.client.get(page).text
    assert "changed outside" in screens.client.get(f"/jobs/{job.id}").text
    assert (
        screens.client.post(f"/jobs/{job.id}/file", data={"version": "1", "do": "write"}).status_code == 409
    )
    screens.client.post(f"/jobs/{job.id}/file", data={"version": "1", "do": "take"})
    assert screens.store.job(job.id).text == SHELF + "# theirs\n"
    assert job_to_open(screens.store, file).id == job.id
    file.unlink()
    assert "gone" in screens.client.get(page).text
    assert "gone" in screens.client.get(f"/jobs/{job.id}/parts/1.1").text


def test_how_the_job_stands_to_its_file_is_told_on_every_page_but_never_without_a_file(
    screens, glaze, tmp_path
):
    assert screens.client.get("/jobs/1/outside").text.count("<p") == 0
    file = tmp_path / "shelf.toml"
    file.write_text(SHELF, encoding="utf-8")
    mine = job_to_open(screens.store, file)
    pages = [f"/jobs/{mine.id}{one}" for one in ("", "/parts/1.1", "/check", "/making", "/job", "/pieces/1")]
    assert not any("not yet saved" in screens.client.get(one).text for one in pages)
    screens.client.post(f"/jobs/{mine.id}/text", data={"version": "0", "text": SHELF + "# mine\n"})
    assert all("not yet saved" in screens.client.get(one).text for one in pages)
    file.write_text(SHELF + "# theirs\n", encoding="utf-8")
    assert all("changed outside" in screens.client.get(one).text for one in pages)
