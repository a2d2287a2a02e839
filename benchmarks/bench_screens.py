"""How fast the screens answer: a hundred edits of the example's first part through the app, and the first answer.

Everything goes through the app's own door, without a browser and without a network. Edits are set against the
app's smallest page in the same run, the first answer against a bare interpreter.
Run: python benchmarks/bench_screens.py
"""

import os
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path

from starlette.testclient import TestClient

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import build_app
from evenface.store import JobStore

HOME = "http://127.0.0.1:8000"


def taken_ms(work: Callable[[int], object], times: int) -> list[float]:
    """Milliseconds of each run, in rising order."""
    out = []
    for number in range(times):
        started = time.perf_counter()
        work(number)
        out.append(1000 * (time.perf_counter() - started))
    return sorted(out)


def first_answer_s(home: str) -> float:
    """From the command to the first page, in a process of its own."""
    started = time.perf_counter()
    command = [sys.executable, "-m", "evenface", "open", "--no-browser"]
    child = subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, env={**os.environ, "EVENFACE_HOME": home}
    )
    try:
        assert child.stdout is not None
        address = child.stdout.readline().split()[-1]
        with urllib.request.urlopen(address, timeout=30) as answer:
            answer.read()
        return time.perf_counter() - started
    finally:
        child.terminate()
        child.wait()


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as folder:
        store = JobStore(Path(folder))
        job = store.add("Glaze room", example_text())
        client = TestClient(build_app(store), base_url=HOME, headers={"Origin": HOME, "X-Live": "1"})
        client.get("/")

        def edit(field: str, first: float) -> Callable[[int], object]:
            def once(number: int) -> object:
                fields = {"version": str(store.job(job.id).version), field: str(first + number)}
                answer = client.post(f"/jobs/{job.id}/parts/1.1", data=fields)
                assert answer.status_code == 200, answer.text
                return answer

            return once

        rows = {
            "the list of jobs": taken_ms(lambda _: client.get("/"), 100),
            "edit a length": taken_ms(edit("piece[0].panel[0].size[0]", 1701.0), 100),
            "edit an edging width": taken_ms(edit("piece[0].panel[0].edging.width", 22.0), 20),
        }
        for what, times in rows.items():
            median, p95 = times[len(times) // 2], times[int(0.95 * len(times))]
            print(f"{what:24s} median {median:7.1f} ms   95 % under {p95:7.1f} ms   bar 50 and 100 ms")
        store.close()
        print(f"start to first answer    {first_answer_s(folder):7.2f} s")


if __name__ == "__main__":
    main()
