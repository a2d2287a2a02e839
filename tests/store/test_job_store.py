"""Jobs are kept: revisions, undo, stale edits, and what a kill leaves behind."""

import os
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from evenface.store import JobStore, NoSuchJob, Stale, StoreError, data_folder
from evenface.store.schema import FILE


@pytest.fixture
def store(tmp_path):
    made = JobStore(tmp_path)
    yield made
    made.close()


def test_a_job_is_kept_over_a_restart(tmp_path):
    first = JobStore(tmp_path)
    made = first.add("Bench", "a = 1\n", tmp_path / "bench.toml", "digest")
    first.close()
    second = JobStore(tmp_path)
    assert second.job(made.id) == made
    assert second.by_file(tmp_path / "bench.toml") == made
    second.close()


def test_undo_and_redo_walk_the_revisions(store):
    job = store.add("Bench", "0")
    for text in ("1", "2"):
        job = store.save(job.id, job.version, text)
    job = store.undo(job.id, job.version)
    assert (job.text, job.can_undo, job.can_redo) == ("1", True, True)
    job = store.undo(job.id, job.version)
    assert (job.text, job.can_undo, job.can_redo) == ("0", False, True)
    assert store.undo(job.id, job.version).text == "0"
    job = store.redo(job.id, job.version)
    job = store.redo(job.id, job.version)
    assert (job.text, job.can_redo) == ("2", False)


def test_redo_after_a_new_edit_takes_the_newest_branch(store):
    job = store.add("Bench", "0")
    job = store.save(job.id, job.version, "old branch")
    job = store.undo(job.id, job.version)
    job = store.save(job.id, job.version, "new branch")
    job = store.undo(job.id, job.version)
    assert store.redo(job.id, job.version).text == "new branch"


def test_an_edit_against_an_old_state_is_refused(store):
    job = store.add("Bench", "0")
    newer = store.save(job.id, job.version, "1")
    for attempt in (lambda: store.save(job.id, job.version, "x"), lambda: store.undo(job.id, job.version)):
        with pytest.raises(Stale) as caught:
            attempt()
        assert caught.value.newest == newer
    assert store.job(job.id).text == "1"


def test_an_undo_makes_other_windows_stale_too(store):
    job = store.add("Bench", "0")
    one = store.save(job.id, job.version, "1")
    store.undo(job.id, one.version)
    with pytest.raises(Stale):
        store.save(job.id, one.version, "2")


def test_two_stores_on_one_folder_see_each_other(store, tmp_path):
    other = JobStore(tmp_path)
    job = store.add("Bench", "0")
    other.save(job.id, job.version, "1")
    assert store.job(job.id).text == "1"
    with pytest.raises(Stale):
        store.save(job.id, job.version, "2")
    assert store.secret() == other.secret()
    other.close()


def test_the_last_used_comes_first(store):
    first, second = store.add("first", "1"), store.add("second", "2")
    assert [job.id for job in store.jobs()] == [second.id, first.id]
    store.use(first.id)
    assert [job.id for job in store.jobs()] == [first.id, second.id]


def test_typing_into_one_field_is_one_step_of_undo(store):
    job = store.add("Bench", "0")
    for text in ("1", "17", "177"):
        job = store.save(job.id, job.version, text, stroke="length")
    job = store.save(job.id, job.version, "177 wide", stroke="width")
    job = store.undo(job.id, job.version)
    assert job.text == "177"
    job = store.undo(job.id, job.version)
    assert job.text == "0"
    job = store.redo(job.id, job.version)
    assert job.text == "177"
    job = store.save(job.id, job.version, "178", stroke="length")  # undone and redone: a stroke of its own
    assert store.undo(job.id, job.version).text == "177"


def test_the_first_revision_is_never_replaced(store):
    job = store.add("Bench", "0")
    job = store.save(job.id, job.version, "1", stroke="length")
    assert store.undo(job.id, job.version).text == "0"


def test_what_could_not_be_kept_is_not_lost_and_goes_with_undo(store, tmp_path):
    job = store.add("Bench", "0")
    store.set_pending(job.id, {"a": "18OO", "b": "x"})
    store.set_pending(job.id, {"b": None, "c": None})
    other = JobStore(tmp_path)
    assert other.pending(job.id) == {"a": "18OO"}
    other.close()
    store.undo(job.id, job.version)
    assert store.pending(job.id) == {}


def test_a_job_put_away_can_be_brought_back(store):
    first, second = store.add("first", "1"), store.add("second", "2")
    store.put_away(first.id)
    assert [job.id for job in store.jobs()] == [second.id]
    assert [job.id for job in store.jobs(gone=True)] == [first.id]
    assert store.job(first.id).text == "1"
    store.put_away(first.id, False)
    assert {job.id for job in store.jobs()} == {first.id, second.id}
    with pytest.raises(NoSuchJob):
        store.put_away(77)


def test_a_file_of_the_first_step_is_brought_up(tmp_path):
    from evenface.store.schema import STEPS

    base = sqlite3.connect(tmp_path / FILE)
    base.executescript(STEPS[0])
    base.execute("INSERT INTO revision (id, job, text) VALUES (1, 1, 'old')")
    base.execute("INSERT INTO job (id, name, head) VALUES (1, 'Bench', 1)")
    base.execute("PRAGMA user_version = 1")
    base.commit()
    base.close()
    store = JobStore(tmp_path)
    assert [job.text for job in store.jobs()] == ["old"]
    assert store.pending(1) == {}
    store.close()


def test_an_unknown_number_is_named(store):
    with pytest.raises(NoSuchJob, match="number 77"):
        store.job(77)
    with pytest.raises(NoSuchJob):
        store.save(77, 0, "")


def test_a_newer_file_is_refused_untouched(tmp_path):
    JobStore(tmp_path).close()
    base = sqlite3.connect(tmp_path / FILE)
    base.execute("PRAGMA user_version = 99")
    base.close()
    with pytest.raises(StoreError, match="newer evenface"):
        JobStore(tmp_path)


def test_a_file_that_is_no_database_is_said_plainly(tmp_path):
    (tmp_path / FILE).write_text("this is a shopping list, and a long one at that" * 40)
    with pytest.raises(StoreError, match="EVENFACE_HOME"):
        JobStore(tmp_path)


def test_a_folder_that_cannot_be_made_is_said_plainly(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(StoreError, match="writable"):
        JobStore(tmp_path / "file" / "below")


def test_the_folder_can_be_chosen(monkeypatch, tmp_path):
    monkeypatch.setenv("EVENFACE_HOME", str(tmp_path))
    assert data_folder() == tmp_path
    monkeypatch.delenv("EVENFACE_HOME")
    assert data_folder().name == "evenface"


WRITER = """
import sys
from pathlib import Path
from evenface.store import JobStore
store = JobStore(Path(sys.argv[1]))
job = store.add("Bench", "0")
for number in range(1, 100000):
    job = store.save(job.id, job.version, f"{number} " + "x" * 20000 + f" {number}")
    print(number, flush=True)
"""


@pytest.mark.parametrize("said_before_kill", [1, 40])
def test_killed_while_writing_no_answered_revision_is_lost(tmp_path, said_before_kill):
    child = subprocess.Popen([sys.executable, "-c", WRITER, str(tmp_path)], stdout=subprocess.PIPE, text=True)
    assert child.stdout is not None
    for _ in range(said_before_kill):
        child.stdout.readline()
    os.kill(child.pid, signal.SIGKILL)
    answered = [int(line) for line in child.stdout if line.endswith("\n")] or [said_before_kill]
    child.wait()
    child.stdout.close()
    store = JobStore(Path(tmp_path))
    words = store.jobs()[0].text.split()
    store.close()
    assert words[0] == words[2]
    assert answered[-1] <= int(words[0]) <= answered[-1] + 1
