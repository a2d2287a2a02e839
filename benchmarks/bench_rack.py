"""The rack under stress, on a file and on a server: workers killed at random points, and eight at once.

    .venv/bin/python benchmarks/bench_rack.py [kills]     # 200 on each unless said otherwise

Prints a line for each and exits with 1 where anything was lost, doubled or taken twice. PostgreSQL is started from
the binaries on this machine; where there are none, that is said and counts as a fault.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

TESTS = Path(__file__).parents[1] / "tests"
sys.path.insert(0, str(TESTS))
PEOPLE, ITEMS = 8, 120


def main(kills: int) -> int:
    """Exit code 1 when something is wrong."""
    from store import rack_server

    why = rack_server.missing()
    wrong = [f"PostgreSQL was not tried: {why}"] if why else []
    with tempfile.TemporaryDirectory() as folder:
        wrong += both("SQLite", lambda: f"sqlite:///{folder}/{uuid.uuid4().hex}.sqlite3", kills, folder)
        if not why:
            with server() as fresh:
                wrong += both("PostgreSQL", fresh, kills, folder)
    print("\n".join(wrong) or "nothing lost, nothing doubled, nothing taken twice")
    return int(bool(wrong))


@contextmanager
def server() -> Iterator[Callable[[], str]]:
    """A function that gives the address of an empty base each time."""
    import psycopg
    from store import rack_server

    with rack_server.running() as address:

        def fresh() -> str:
            base = f"rack_{uuid.uuid4().hex[:12]}"
            plain = address.replace("+psycopg", "").format(base="postgres")
            with psycopg.connect(plain, autocommit=True) as connection:
                connection.execute(f"CREATE DATABASE {base}")
            return address.format(base=base)

        yield fresh


def both(name: str, fresh: Callable[[], str], kills: int, folder: str) -> list[str]:
    """What went wrong of both trials on one kind of base."""
    told, seconds = at_work("killed", fresh(), folder, kills)
    print(
        f"{name:<11} killed {told['kills']} times, {told['cut_short']} in the middle of something, "
        f"{told['written_untold']} written and not told, {told['actions']} actions, {seconds:.0f} s"
    )
    wrong = [f"{name}: {fault}" for fault in told["faults"]]
    wrong += [] if told["kills"] == kills else [f"{name}: {told['kills']} kills of {kills}"]
    told, seconds = at_work("crowd", fresh(), folder, PEOPLE, ITEMS)
    people = told["reports"]
    taken = sorted(code for one in people for code in one["taken"])
    refused = sum(len(one["refused"]) for one in people)
    print(
        f"{name:<11} {PEOPLE} at once, {len(taken)} of {ITEMS} cut, {refused} times too late, {seconds:.0f} s"
    )
    if (
        taken != told["cut"]
        or len(set(taken)) != ITEMS
        or told["left"]
        or not (told["replays"] and told["closes"])
    ):
        wrong.append(f"{name}: taken twice, or left over")
    return wrong + [f"{name}: {one['broken']}" for one in people if one["broken"]]


def at_work(*words: object) -> tuple[dict[str, Any], float]:
    """The report of the program, and how long it took."""
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-W", "error", str(TESTS / "store" / "rack_at_work.py"), *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "OMP_NUM_THREADS": "1"},
    )
    if done.returncode:
        raise SystemExit(done.stderr)
    return json.loads(done.stdout.splitlines()[-1]), time.perf_counter() - began


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200))
