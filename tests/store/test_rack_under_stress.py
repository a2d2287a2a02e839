"""Killed at random points nothing is lost or doubled; of eight at once each takes what no other has."""

import json
import os
import subprocess
import sys
from pathlib import Path

PROGRAM = Path(__file__).with_name("rack_at_work.py")


def at_work(*words):
    done = subprocess.run(
        [sys.executable, "-W", "error", PROGRAM, *map(str, words)],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
        env={**os.environ, "OMP_NUM_THREADS": "1"},
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout.splitlines()[-1])


def test_killed_two_hundred_times_nothing_is_lost_or_doubled(tmp_path):
    told = at_work("killed", f"sqlite:///{tmp_path / 'rack.sqlite3'}", tmp_path, 200)
    assert told["faults"] == []
    assert told["kills"] == 200
    assert told["actions"] > 200  # they did work
    assert told["cut_short"] > 50  # and many died in the middle of it
    import sqlite3

    with sqlite3.connect(tmp_path / "rack.sqlite3") as base:
        assert base.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert base.execute("PRAGMA foreign_key_check").fetchall() == []
    base.close()


def test_killed_on_a_server_nothing_is_lost_or_doubled(tmp_path, postgres_address):
    told = at_work("killed", postgres_address, tmp_path, 25)
    assert told["faults"] == []
    assert told["kills"] == 25
    assert told["actions"] > 10
    assert told["cut_short"] > 5


def test_eight_at_once_each_take_what_no_other_has(tmp_path, address):
    told = at_work("crowd", address, tmp_path, 8, 60)
    people = told["reports"]
    assert [one["broken"] for one in people] == [""] * 8
    taken = [(code, f"person {number}") for number, one in enumerate(people) for code in one["taken"]]
    assert sorted(code for code, _ in taken) == told["cut"]  # each once, and none that nobody has
    assert len(told["cut"]) == 60
    assert dict(taken) == told["cutters"]
    assert (told["left"], told["rests"]) == (0, 60)
    assert told["replays"]
    assert told["closes"]
    refused = [sentence for one in people for sentence in one["refused"]]
    assert refused, "nobody was ever too late: this tests nothing"
    assert all("person" in one and "Nothing was changed" in one for one in refused), refused
