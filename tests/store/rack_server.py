"""A PostgreSQL server of our own for the tests: Debian's binaries, a folder under /tmp, never as root."""

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

NEEDED = "EVENFACE_NEED_POSTGRES"


def binaries() -> Path | None:
    """The folder with initdb and postgres, the newest there is."""
    found = shutil.which("initdb")
    places = [Path(found).resolve().parent] if found else []
    places += sorted(
        Path("/usr/lib/postgresql").glob("*/bin"), key=lambda p: -int(p.parent.name.split(".")[0])
    )
    return next(
        (place for place in places if (place / "initdb").is_file() and (place / "pg_ctl").is_file()), None
    )


def missing() -> str:
    """Why there can be no server here; empty where there can."""
    try:
        import psycopg  # noqa: F401
    except ModuleNotFoundError:
        return "the driver psycopg is not installed"
    if binaries() is None:
        return "no initdb on PATH or under /usr/lib/postgresql (Debian: apt-get install postgresql)"
    if os.name != "posix":
        return "the test set-up starts servers on POSIX systems only"
    return ""


def _other_user() -> str | None:
    """Root may not run a server: then it is postgres, or nobody."""
    if os.geteuid() != 0:
        return None
    names = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in names else "nobody"


@contextmanager
def running() -> Iterator[str]:
    """The address of a running server, without the name of a database; it is stopped and removed afterwards."""
    place = binaries()
    assert place is not None
    user = _other_user()
    name = user or pwd.getpwuid(os.geteuid()).pw_name
    folder = Path(tempfile.mkdtemp(prefix="rack-pg-", dir="/tmp"))
    if user is not None:
        shutil.chown(folder, user)

    def run(*words: object) -> None:
        done = subprocess.run(
            [str(word) for word in words],
            user=user,
            cwd=folder,
            env={"PATH": os.environ["PATH"], "LC_ALL": "C", "HOME": str(folder)},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            timeout=120,
            check=False,
        )
        assert done.returncode == 0, done.stderr.decode(errors="replace")

    data = folder / "data"
    try:
        run(place / "initdb", "-D", data, "-U", name, "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")
        options = f"-c listen_addresses='' -c unix_socket_directories={folder} -c max_connections=40"
        run(place / "pg_ctl", "-D", data, "-l", folder / "log", "-w", "-o", options, "start")
        try:
            yield f"postgresql+psycopg://{name}@/{{base}}?host={folder}"
        finally:
            run(place / "pg_ctl", "-D", data, "-m", "immediate", "-w", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
