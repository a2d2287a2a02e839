"""`evenface open`: the app started on this machine, and the browser sent to it."""

import contextlib
import socket
import sys
import threading
import webbrowser
from pathlib import Path

import uvicorn

from evenface.errors import EvenfaceError
from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.desk import name_in
from evenface.interfaces.web.site import digest
from evenface.piece.source_text import read_text
from evenface.store import JobStore, KeptJob, data_folder

ADDRESS = "127.0.0.1"


class PortInUse(EvenfaceError):
    """Another program has that port."""


def open_and_serve(job_file: Path | None, port: int, browser: bool) -> None:
    """Serve until Ctrl-C. port : 0 for any that is free. Raises PortInUse, StoreError, FileError."""
    door = _door(port)
    store = JobStore(data_folder())
    with contextlib.closing(store), door:
        job = job_to_open(store, job_file)
        address = f"http://{ADDRESS}:{door.getsockname()[1]}/jobs/{job.id}"
        sys.stdout.write(f"evenface answers at {address}\nCtrl-C ends it; everything is kept.\n")
        sys.stdout.flush()
        if browser:
            threading.Timer(0.3, _show, (address,)).start()
        config = uvicorn.Config(
            build_app(store), log_level="warning", access_log=False, lifespan="off", ws="none",
            timeout_graceful_shutdown=2, server_header=False,
        )  # fmt: skip
        with contextlib.suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[door])


def job_to_open(store: JobStore, file: Path | None) -> KeptJob:
    """The job of that file; without one the last used, else the example."""
    if file is None:
        kept = store.jobs()
        return kept[0] if kept else store.add(name_in(example_text()), example_text())
    place = file.resolve()
    text = read_text(place)
    known = store.by_file(place)
    if known is None:
        return store.add(name_in(text), text, place, digest(text.encode()))
    return store.use(known.id)


def _door(port: int) -> socket.socket:
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((ADDRESS, port))
        door.listen(128)
    except (OSError, OverflowError) as problem:
        door.close()
        raise PortInUse(
            f"Expected port {port} to be free, but it cannot be had: {problem}. "
            "Name another with --port, or leave it out to take any that is free."
        ) from problem
    return door


def _show(address: str) -> None:
    try:
        found = webbrowser.open(address)
    except webbrowser.Error:
        found = False
    if not found:
        sys.stderr.write(f"No browser was found here. Open {address} in one.\n")
