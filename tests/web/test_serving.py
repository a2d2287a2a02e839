"""`evenface open` as a program of its own: where it answers, what it prints, and how it ends when it cannot."""

import errno
import os
import re
import signal
import socket
import subprocess
import sys
import tempfile
import urllib.error
import urllib.request
from contextlib import contextmanager
from pathlib import Path

import pytest

from evenface.interfaces.web import serving
from evenface.interfaces.web.access import Access
from evenface.interfaces.web.serving import ADDRESS, _door, _free_door, _only_here, _show
from evenface.store import JobStore, StoreError
from evenface.store.schema import FILE

NOBODY = 65534


def command(*words):
    return [sys.executable, "-m", "evenface", "open", "--no-browser", *words]


def surroundings(home):
    return {**os.environ, "EVENFACE_HOME": str(home), "PYTHONIOENCODING": "utf-8", "OMP_NUM_THREADS": "1"}


@contextmanager
def opened(home, *words):
    """The running app and what it said until it told how it is ended."""
    with subprocess.Popen(
        command(*words), env=surroundings(home), stdout=subprocess.PIPE, text=True, encoding="utf-8"
    ) as running:
        said = ""
        for line in running.stdout:
            said += line
            if "Ctrl-C" in line:
                break
        try:
            yield running, said
        finally:
            if running.poll() is None:
                running.send_signal(signal.SIGINT)
                running.wait(20)


def refused(home, *words):
    ended = subprocess.run(
        command(*words), env=surroundings(home), capture_output=True, text=True, timeout=60, check=False
    )
    assert ended.returncode == 2
    assert "Traceback" not in ended.stderr
    assert ended.stdout == ""
    return ended.stderr


def test_it_answers_on_this_machine_alone_without_a_code_and_ends_cleanly(tmp_path):
    with opened(tmp_path) as (running, said):
        address = re.search(r"http://127\.0\.0\.1:\d+/jobs/1", said)[0]
        assert "access code" not in said
        with urllib.request.urlopen(address, timeout=30) as answer:
            assert b"Glazing bench" in answer.read()
        running.send_signal(signal.SIGINT)
        assert running.wait(20) == 0


def test_shared_it_tells_address_code_and_square_and_asks_for_the_code(tmp_path):
    with opened(tmp_path, "--share") as (_, said):
        port = int(re.search(r"http://[0-9.]+:(\d+)/ with the access code (\w{4}-\w{4}-\w{4})", said)[1])
        assert "█" in said
        with pytest.raises(urllib.error.HTTPError, match="401"):
            urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=30)


@pytest.mark.parametrize(("host", "alone"), [("127.0.0.1", True), ("localhost", True), ("0.0.0.0", False)])
def test_only_the_round_trip_of_this_machine_needs_no_code(host, alone):
    with _door(0, host) as door:
        assert _only_here(door) is alone


def test_a_restart_answers_where_a_page_left_open_asks(monkeypatch):
    with _door(0) as any_free:
        usual = any_free.getsockname()[1]
    monkeypatch.setattr(serving, "USUAL_PORT", usual)
    for _ in range(2):
        with _free_door(None, ADDRESS) as door:
            assert door.getsockname()[1] == usual
            with _free_door(None, ADDRESS) as second:
                assert second.getsockname()[1] != usual
    with _free_door(0, ADDRESS) as door:
        assert door.getsockname()[1] != usual


def test_a_port_in_use_ends_with_words(tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        told = refused(tmp_path, "--port", str(port))
    assert str(port) in told
    assert "--port" in told
    assert "perhaps evenface itself" in told
    assert "Errno" not in told


def test_an_address_of_another_machine_ends_with_words(tmp_path):
    assert "--host" in refused(tmp_path, "--host", "no.such.machine.invalid")


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.EADDRNOTAVAIL, "an address of this machine as --host"),
        (errno.EACCES, "kept for the system"),
        (errno.ENOBUFS, "cannot be had"),
    ],
)
def test_why_a_port_cannot_be_had_is_said_in_plain_words(monkeypatch, number, words):
    class Refusing(socket.socket):
        def bind(self, place):
            raise OSError(number, os.strerror(number))

    monkeypatch.setattr(serving.socket, "socket", Refusing)
    with pytest.raises(serving.PortInUse, match=words) as told:
        _door(80)
    assert "Leave it out" in str(told.value) or "leave it out" in str(told.value)


def test_a_folder_that_cannot_be_made_ends_with_words(tmp_path):
    beside = tmp_path / "a file"
    beside.write_text("x", encoding="utf-8")
    told = refused(beside / "home")
    assert "EVENFACE_HOME" in told
    assert str(beside) in told


def test_a_folder_that_cannot_be_written_is_said_plainly():
    with tempfile.TemporaryDirectory() as outer:
        folder = Path(outer) / "home"
        folder.mkdir()
        Path(outer).chmod(0o755)
        folder.chmod(0o555)
        as_root = os.geteuid() == 0
        if as_root:
            os.seteuid(NOBODY)
        try:
            with pytest.raises(StoreError, match="Make that folder writable"):
                JobStore(folder)
        finally:
            if as_root:
                os.seteuid(0)


def test_a_file_that_is_no_database_ends_with_words(tmp_path):
    (tmp_path / FILE).write_bytes(b"not a database at all, but long enough to be read as one\n" * 100)
    assert FILE in refused(tmp_path)


def test_a_damaged_database_ends_with_words(tmp_path):
    store = JobStore(tmp_path)
    for number in range(40):
        store.add(f"job {number}", "x" * 5000)
    store.close()
    file = tmp_path / FILE
    content = bytearray(file.read_bytes())
    content[4096:] = b"\xff" * (len(content) - 4096)
    file.write_bytes(content)
    told = refused(tmp_path)
    assert "damaged" in told or "cannot be used" in told or "could not be kept" in told


def test_a_job_file_that_is_not_there_ends_with_words(tmp_path):
    assert "nowhere.toml" in refused(tmp_path, str(tmp_path / "nowhere.toml"))


def test_without_a_browser_the_address_is_told(monkeypatch, capsys):
    monkeypatch.setattr("webbrowser.open", lambda address: False)
    _show("http://127.0.0.1:5/jobs/1", None)
    assert "No browser was found here. Open http://127.0.0.1:5/jobs/1" in capsys.readouterr().err


@pytest.mark.parametrize(("own", "alone"), [("127.0.0.1", True), ("192.168.1.4", False)])
def test_shared_on_no_network_it_says_that_nobody_can_reach_it(monkeypatch, capsys, own, alone):
    monkeypatch.setattr(serving, "_own_address", lambda: own)
    with _door(0, "0.0.0.0") as door:
        serving._tell(door, "/jobs/1", Access())
    assert ("nobody else can reach it" in capsys.readouterr().out) is alone
