"""People at work on one rack, as processes: killed at random points, or eight at once.

Run as a program: it imports once and forks from there, so that a person costs milliseconds, not seconds. Its last
line on standard output is a report in JSON.
"""

import json
import os
import random
import select
import signal
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from store.rack_acts import ACTS, MATERIALS, act, by_code, replayed, sums_by_hand

from evenface.store.rack import Rack
from evenface.store.rack_records import Left, RackError, RackItem, Taken


def killed(address: str, folder: Path, kills: int) -> dict[str, object]:
    """Kill a worker at a random point, look at everything, go on; so many times.

    The worker says "?" before each action and its number when it is told that it is done. What it was told must be
    in the log, in that order; of what it was not told, one action at most, whole.
    """
    chance = random.Random(20_270_111)
    report: dict[str, object] = {"kills": 0, "cut_short": 0, "written_untold": 0, "actions": 0}
    faults: list[str] = []
    with Rack(folder, address, "start") as rack:
        rack.receive([RackItem("sheet", MATERIALS[0], 250_000, 125_000)] * 3)
    known = 1
    for number in range(kills):
        pace = (
            4.0 if int(report["actions"]) < 1.5 * number else 1.0
        )  # a busy machine needs more time to do any
        told, asked = _one_life(address, folder, chance.randrange(2**32), pace * chance.uniform(0.003, 0.08))
        with Rack(folder, address, "looker") as rack:
            log = rack.log(None)
            new = sorted(one.number for one in log if one.number > known)
            untold = [one for one in new if one not in told]
            if not set(told) <= set(new):
                faults.append(f"kill {number}: lost {sorted(set(told) - set(new))}")
            if len(untold) > 1 or (untold and untold != new[-1:]):
                faults.append(f"kill {number}: doubled {untold}")
            if any(not one.changes for one in log if one.kind not in ("reserve",)):
                faults.append(f"kill {number}: an action without its changes")
            if number % 5 == 4 or number == kills - 1:  # the log keeps all, so that a fault shows later too
                if replayed(rack) != by_code(rack):
                    faults.append(f"kill {number}: items are not what the log says")
                received, everywhere = sums_by_hand(rack)
                if received != everywhere or not rack.balance().closes:
                    faults.append(f"kill {number}: sums do not close")
            known = max([known, *new])
            report["cut_short"] = int(report["cut_short"]) + (asked > len(told))
            report["written_untold"] = int(report["written_untold"]) + len(untold)
            report["actions"] = int(report["actions"]) + len(new)
        report["kills"] = number + 1
    report["faults"] = faults
    return report


def _one_life(address: str, folder: Path, seed: int, seconds: float) -> tuple[list[int], int]:
    """Numbers of the actions a worker was told are done until it was killed, and how many it began."""
    read_end, write_end = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read_end)
        chance = random.Random(seed)
        rack = Rack(folder, address, "worker")
        os.write(write_end, b"ready\n")
        while True:
            what = chance.choice(ACTS)
            os.write(write_end, b"?\n")
            if act(rack, what, chance):
                os.write(write_end, f"{rack.log(1)[0].number}\n".encode())
            else:
                os.write(write_end, b"none\n")
    os.close(write_end)
    select.select([read_end], [], [], 20)  # it stands ready
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(read_end, "rb") as pipe:
        lines = [line for line in pipe.read().decode().split("\n")[:-1] if line != "ready"]
    told = [int(line) for line in lines if line.isdigit()]
    return told, lines.count("?") - lines.count("none")


def crowd(address: str, folder: Path, people: int, items: int) -> dict[str, object]:
    """So many at once each try to reserve and cut whatever they see free, until nothing is."""
    with Rack(folder, address, "start") as rack:
        rack.receive([RackItem("sheet", MATERIALS[0], 250_000, 125_000)] * items)
    gate_read, gate_write = os.pipe()
    ends = []
    for number in range(people):
        read_end, write_end = os.pipe()
        if os.fork() == 0:
            os.close(gate_write)
            os.read(gate_read, 1)  # all start when the gate is closed
            try:
                told = _one_of_crowd(address, folder, number)
            except BaseException as problem:  # told to the parent, whatever it is
                told = {"taken": [], "refused": [], "broken": repr(problem)}
            os.write(write_end, json.dumps(told).encode())
            os._exit(0)
        os.close(write_end)
        ends.append(read_end)
    os.close(gate_read)
    os.close(gate_write)
    reports = []
    for end in ends:
        with os.fdopen(end, "rb") as pipe:
            reports.append(json.loads(pipe.read()))
    for _ in ends:
        os.wait()
    with Rack(folder, address, "looker") as rack:
        cuts = [one for one in rack.log(None) if one.kind == "cut"]
        return {
            "reports": reports,
            "cut": sorted(one.changes[0].code for one in cuts),
            "cutters": {one.changes[0].code: one.person for one in cuts},
            "left": len(rack.items(states=("reserved",)))
            + len([one for one in rack.items(states=("free",)) if not one.parent]),
            "rests": len([one for one in rack.items() if one.parent]),
            "replays": replayed(rack) == by_code(rack),
            "closes": rack.balance().closes,
        }


def _one_of_crowd(address: str, folder: Path, number: int) -> dict[str, object]:
    chance = random.Random(number)
    taken, refused = [], []
    with Rack(folder, address, f"person {number}") as rack:
        while free := [one for one in rack.items(states=("free",)) if not one.parent]:
            one = chance.choice(free[:6])
            job = f"job {number}"
            try:
                if chance.random() < 0.5:
                    (one,) = rack.reserve(job, [(one, (Left(250_000, 10_000),))])
                    rack.cut(one, None, job)
                else:
                    rack.cut(one, (Left(250_000, 10_000),), job)
                taken.append(one.code)
            except Taken as late:
                refused.append(str(late))
            except RackError as problem:
                return {"taken": taken, "refused": refused, "broken": str(problem)}
    return {"taken": taken, "refused": refused, "broken": ""}


if __name__ == "__main__":
    what, place, data, *figures = sys.argv[1:]
    made = {"killed": killed, "crowd": crowd}[what](place, Path(data), *(int(figure) for figure in figures))
    print(json.dumps(made))
