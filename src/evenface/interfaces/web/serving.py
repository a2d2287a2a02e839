"""`evenface open`: the app started on this machine, and the browser sent to it."""

import contextlib
import errno
import ipaddress
import socket
import sqlite3
import sys
import threading
import webbrowser
from pathlib import Path
from typing import Final

import uvicorn

from evenface.errors import EvenfaceError
from evenface.interfaces.screen import show_square
from evenface.interfaces.web.access import Access
from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.desk import name_in
from evenface.interfaces.web.site import digest
from evenface.interfaces.web.tidying import Tidy, collect_seldom
from evenface.piece.source_text import read_text
from evenface.store import JobStore, KeptJob, StoreError, data_folder
from evenface.words import Said, said

ADDRESS: Final = "127.0.0.1"
EVERYWHERE: Final = "0.0.0.0"
USUAL_PORT: Final = 6174
"""Where the app answers when no port is named and no other has it: a page left open finds it after a restart."""
FAR_AWAY: Final = ("192.0.2.1", 9)
"""An address that nobody has (RFC 5737): which way it would be reached tells this machine's own; nothing is sent."""


ALONE: Final = (
    "This machine is on no network now, so nobody else can reach it: join one, then start evenface again.\n"
)


class PortInUse(EvenfaceError):
    """Another program has that port, or this machine has no such address."""


def open_and_serve(
    job_file: Path | None, port: int | None, browser: bool, share: bool = False, host: str = ""
) -> None:
    """Serve until Ctrl-C. port : 0 for any that is free, None for the usual one, or any where that is taken.

    Raises PortInUse, StoreError, FileError.

    share : on every address of this machine; host : on this one. Both ask for an access code, which is told
    here, unless the host is this machine's own round trip.
    """
    door = _free_door(port, host or (EVERYWHERE if share else ADDRESS))
    with contextlib.closing(door):
        access = None if _only_here(door) else Access()
        store = JobStore(data_folder())
        with contextlib.closing(store):
            page = f"/jobs/{_first_job(store, job_file).id}"
            _tell(door, page, access)
            if browser:
                threading.Timer(0.3, _show, (_address(door, here=True) + page, access)).start()
            collect_seldom()
            config = uvicorn.Config(
                Tidy(build_app(store, access=access)), log_level="warning", access_log=False, lifespan="off", ws="none",
                timeout_graceful_shutdown=2, server_header=False, proxy_headers=False,
            )  # fmt: skip
            with contextlib.suppress(KeyboardInterrupt):
                uvicorn.Server(config).run(sockets=[door])


def _first_job(store: JobStore, file: Path | None) -> KeptJob:
    try:
        return job_to_open(store, file)
    except sqlite3.Error as problem:
        raise StoreError(
            said(
                "Expected to read the jobs in {folder}, but its file is damaged: {problem}. "
                "Move it away to begin anew, or set EVENFACE_HOME to another folder.",
                folder=str(data_folder()),
                problem=str(problem),
            )
        ) from problem


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


def _free_door(port: int | None, host: str) -> socket.socket:
    """The door at that port; at the usual one, or any that is free, when none is named."""
    if port is not None:
        return _door(port, host)
    try:
        return _door(USUAL_PORT, host)
    except PortInUse:
        return _door(0, host)


def _door(port: int, host: str = ADDRESS) -> socket.socket:
    try:
        found = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE)
    except (OSError, UnicodeError) as problem:
        raise PortInUse(
            said(
                "Expected an address of this machine as --host, was given {host}: {problem}. "
                "Leave it out for this machine alone, or give --share for all its addresses.",
                host=repr(host),
                problem=str(problem),
            )
        ) from problem
    family, _, _, _, place = found[0]
    # named as TCP, for only then small answers are sent at once: unnamed, the body waited 40 ms for the head's receipt
    door = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind(place)
        door.listen(128)
    except (OSError, OverflowError) as problem:
        door.close()
        raise PortInUse(_why_not(problem, port, host)) from problem
    return door


def _why_not(problem: OSError | OverflowError, port: int, host: str) -> Said:
    """Why the app cannot answer there, and what to try."""
    number = getattr(problem, "errno", None)
    if number == errno.EADDRNOTAVAIL:
        return said(
            "Expected an address of this machine as --host, was given {host}, which it does not have. "
            "Leave it out for this machine alone, or give --share for all its addresses.",
            host=repr(host),
        )
    if number in (errno.EACCES, errno.EPERM):
        return said(
            "Port {port} is kept for the system: only its administrator may use it. "
            "Name one from 1024 on with --port, or leave it out to take any that is free.",
            port=str(port),
        )
    taken = (
        "another program has it, perhaps evenface itself, still running in another window"
        if number == errno.EADDRINUSE
        else str(problem)
    )
    return said(
        "Expected port {port} of {host} to be free, but it cannot be had: {taken:word}. "
        "Name another with --port, or leave it out to take any that is free.",
        port=str(port),
        host=host,
        taken=taken,
    )


def _only_here(door: socket.socket) -> bool:
    return ipaddress.ip_address(door.getsockname()[0]).is_loopback


def _address(door: socket.socket, here: bool = False) -> str:
    """Where the app is found: from this machine, or from others on its net."""
    host, port = door.getsockname()[:2]
    address = ipaddress.ip_address(host)
    if address.is_unspecified:
        host = ADDRESS if here else _own_address()
        address = ipaddress.ip_address(host)
    return f"http://[{host}]:{port}" if address.version == 6 else f"http://{host}:{port}"


def _own_address() -> str:
    """This machine's address on its net; its round trip when it is on none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as feeler:
        try:
            feeler.connect(FAR_AWAY)
            return str(feeler.getsockname()[0])
        except OSError:
            return ADDRESS


def _tell(door: socket.socket, page: str, access: Access | None) -> None:
    if access is None:
        sys.stdout.write(f"evenface answers at {_address(door)}{page}\n")
    else:
        sys.stdout.write(f"evenface answers at {_address(door)}/ with the access code {access.code}\n")
        if ipaddress.ip_address(_own_address()).is_loopback:
            sys.stdout.write(ALONE)
        sys.stdout.write("Whoever has both can change every job. The code is new at each start.\n")
        sys.stdout.write("What is sent is not encrypted: share it on a net you trust.\n")
        show_square(_with_code(_address(door), access))
    sys.stdout.write("Ctrl-C ends it; everything is kept.\n")
    sys.stdout.flush()


def _with_code(address: str, access: Access) -> str:
    """The page that asks for the code, with the code where the browser keeps it to itself."""
    return f"{address}/access#code={access.code}"


def _show(address: str, access: Access | None) -> None:
    if access is not None:
        address = _with_code(address.split("/jobs/", 1)[0], access)
    try:
        found = webbrowser.open(address)
    except webbrowser.Error:
        found = False
    if not found:
        sys.stderr.write(f"No browser was found here. Open {address} in one.\n")
