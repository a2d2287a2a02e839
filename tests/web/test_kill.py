"""The app killed at random moments while a maker types: what was answered is there after the next start."""

import http.client
import os
import random
import signal
import subprocess
import sys
import threading
import time
import tomllib
from contextlib import closing, contextmanager
from pathlib import Path
from urllib.parse import urlencode

import pytest

from evenface.interfaces.web.guard import COOKIE
from evenface.interfaces.web.serving import _door
from evenface.store import JobStore

KILLS = 40
SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
GOOD, BAD = "piece[0].panel[0].size[0]", "piece[0].panel[0].size[1]"
NURSERY = """
import os, signal, sys
from evenface.interfaces.web.serving import open_and_serve
signal.signal(signal.SIGCHLD, signal.SIG_IGN)
for port in sys.stdin:
    child = os.fork()
    if child == 0:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        open_and_serve(None, int(port), False)
        os._exit(0)
    print(child, flush=True)
"""
"""Starts one app after another without reading the program anew each time."""


@contextmanager
def nursery(home):
    words = [sys.executable, "-c", NURSERY]
    surroundings = {**os.environ, "EVENFACE_HOME": str(home), "OMP_NUM_THREADS": "1"}
    with subprocess.Popen(
        words, env=surroundings, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as running:
        yield running
        running.stdin.close()


def start(running, port):
    running.stdin.write(f"{port}\n")
    running.stdin.flush()
    child = int(running.stdout.readline())
    until = time.monotonic() + 60
    while True:
        try:
            with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=30)) as line:
                line.request("GET", "/static/icon.svg")
                line.getresponse().read()
                return child
        except OSError:
            assert time.monotonic() < until
            time.sleep(0.005)


def type_in(port, secret, number):
    """A length that can be and a width that cannot, as one stroke; the answer's status, None when there is none."""
    body = urlencode({"over": "yes", "version": "0", GOOD: str(number), BAD: f"w{number}"})
    headers = {
        "Content-Type": "application/x-www-form-urlencoded", "X-Live": "1", "Cookie": f"{COOKIE}={secret}",
        "Origin": f"http://127.0.0.1:{port}",
    }  # fmt: skip
    try:
        with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=30)) as line:
            line.request("POST", "/jobs/1/parts/1.1", body, headers)
            answer = line.getresponse()
            answer.read()
            return answer.status
    except (OSError, http.client.HTTPException):
        return None


def kept_in(home):
    with closing(JobStore(home)) as store:
        text, pending = store.job(1).text, store.pending(1)
        assert store._base.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    return tomllib.loads(text)["piece"][0]["panel"][0]["size"][0], pending.get(BAD, "")


def type_until_killed(child, port, secret, number, chance):
    """The last number that was answered; the one after it may be kept or not."""
    # the first answer reckons longest: the kill falls among later ones
    assert type_in(port, secret, number + 1) == 422
    number += 1
    killer = threading.Timer(chance.uniform(0.0, 0.12), os.kill, (child, signal.SIGKILL))
    killer.start()
    while (status := type_in(port, secret, number + 1)) is not None:
        assert status == 422
        number += 1
    killer.join()
    return number


@pytest.mark.skipif(not hasattr(os, "fork"), reason="starts apps by forking")
def test_nothing_that_was_answered_is_lost_by_any_kill(tmp_path):
    chance = random.Random(7)
    with closing(JobStore(tmp_path)) as store:
        secret = store.secret()
        store.add("Shelf", SHELF)
    with _door(0) as free:
        port = free.getsockname()[1]
    last, first = 500, 500
    with nursery(tmp_path) as running:
        for _ in range(KILLS):
            last = type_until_killed(start(running, port), port, secret, last, chance)
            length, aside = kept_in(tmp_path)
            assert length in (last, last + 1)
            assert aside in (f"w{last}", f"w{last + 1}")
            last = length
    # besides the first of each start: the kills fell between edits, on a slow machine too, not before any
    assert last - first > KILLS + KILLS // 8
