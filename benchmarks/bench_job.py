"""How long a job takes: two examples planned with their packets, and the program's first word.

Everything is set against something measured in the same run: the whole job against its own solver's time
budget, `--version` against a bare interpreter. Run: python benchmarks/bench_job.py
"""

import datetime
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from evenface.documents.files import write_packet
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.sketch import sketch

EXAMPLES = Path(__file__).parents[1] / "examples"
BARS_MS = {"glaze-room": 3000, "whole-room": 6000}


def median_s(work: Callable[[], object], times: int) -> float:
    """Median of several runs, the first left out."""
    taken = []
    for _ in range(times + 1):
        started = time.perf_counter()
        work()
        taken.append(time.perf_counter() - started)
    return sorted(taken[1:])[times // 2]


def started_s(*arguments: str) -> float:
    """Median time of a fresh interpreter doing that."""
    return median_s(lambda: subprocess.run([sys.executable, *arguments], check=True, capture_output=True), 9)


def job_rows(name: str) -> None:
    """What each part of planning that example takes beside the solver, and the sum against its bar."""
    file = EXAMPLES / f"{name}.toml"
    opened = open_with_all(file)
    with tempfile.TemporaryDirectory() as folder:
        result = plan(opened, budget_s=0.0)
        rows = [
            ("read the job file", median_s(lambda: open_with_all(file), 3)),
            ("sketch: sizes and findings", median_s(lambda: sketch(opened), 5)),
            ("plan without solver's time", median_s(lambda: plan(opened, budget_s=0.0), 3)),
            (
                "packet and all files",
                median_s(lambda: write_packet(result, Path(folder), datetime.date(2026, 1, 1)), 3),
            ),
        ]
    print(f"{name}, {sum(part.count for part in result.sketch.all_parts)} parts")
    for what, seconds in rows:
        print(f"  {what:30s} {1000 * seconds:9.1f} ms")
    beside = sum(seconds for what, seconds in rows if what.startswith(("read", "plan", "packet")))
    print(f"  {'whole job beside the solver':30s} {1000 * beside:9.1f} ms   bar {BARS_MS[name]} ms")


def main() -> None:
    """Print the table."""
    for name in BARS_MS:
        job_rows(name)
    bare, version = started_s("-c", "pass"), started_s("-m", "evenface", "--version")
    print(
        f"{'--version over a bare start':32s} {1000 * (version - bare):9.1f} ms   bar 150 ms (× {version / bare:.1f})"
    )


if __name__ == "__main__":
    main()
