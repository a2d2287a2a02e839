"""Layouts on published instances: ours, our strips alone, and the peers of `bench_layout_peers` in the same time.

*engine* is the bare engine in the same limit, *at.our* the bare engine in as many seconds as ours really used; where
the three differ each is run three times, in alternating order, and the middle stands (of *used* the longest). *plan* is
the time a layout takes without any search, the later aims included; used seconds beyond the limit are told at the end.

Run: python benchmarks/bench_layouts.py INSTANCES.json [SECONDS ...]   (1 and 5 s when none are given)

INSTANCES.json is a list of records with name, problem (bin_packing_2d, bin_packing_1d, strip_2d), bins
([width, height, …]), items ([width, height, copies, profit, oriented]) and known ([{value, variant}]). Without a
file the instances that stand beside the tests are taken. Times differ from machine to machine; compare the columns.
"""

import json
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bench_layout_peers import cp_sat_alone, engine_alone, rectpack_alone

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all
from evenface.layouts.engine import Engine

SCALE = 100
"""Units of the instances on the grid: some are one unit wide."""
OURS = Path(__file__).parents[1] / "tests" / "layouts" / "sources" / "published_sheets.json"


def main() -> None:
    """Print one line an instance and time, then how many are proved."""
    instances = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8")) if sys.argv[1:] else _beside_tests()
    seconds = [float(text) for text in sys.argv[2:]] or [1.0, 5.0]
    head = f"{'instance':22} {'pieces':>6} {'known':>7} {'strips':>7} {'rectp.':>6}"
    print(head + "".join(f" | {s:g} s: ours bound proved engine at.our CP-SAT used plan" for s in seconds))
    tally = {limit: Tally(limit) for limit in seconds}
    with Engine() as engine:
        for number, instance in enumerate(instances):
            demand = demand_of(instance)
            if demand is None or demand.pieces > 3000:
                continue
            known = _known(instance)
            started = time.perf_counter()
            (strips,) = solve_all((demand,), budget_s=0.0)
            own_s = time.perf_counter() - started
            line = (
                f"{instance['name']:22} {demand.pieces:6} {known or '':>7} {_units(strips.measure, demand):7} "
                f"{_shown(rectpack_alone(demand), demand):>6}"
            )
            for limit in seconds:
                runs = [_run(demand, engine, limit, number)]
                if len({runs[0].ours, runs[0].bare, runs[0].at_our}) > 1:
                    runs += [_run(demand, engine, limit, number + more) for more in (1, 2)]
                run = _middle(runs)
                plain = cp_sat_alone(demand, limit)
                line += f" | {_units(run.ours, demand):9} {_units(run.bound, demand):5} "
                line += f"{'yes' if run.proved else '':6} {_shown(run.bare, demand):>6} "
                line += f"{_shown(run.at_our, demand):>6} {_shown(plain, demand):>6} {run.used_s:5.2f} {own_s:4.2f}"
                tally[limit].add(demand, instance["name"], run)
            print(line, flush=True)
    for limit in seconds:
        print(f"at {limit:g} s: {tally[limit].told()}")


@dataclass(frozen=True, slots=True)
class Run:
    """One instance once: ours, the bare engine in the same limit, and in the seconds ours really used."""

    ours: int
    bound: int
    proved: bool
    used_s: float
    bare: int | None
    at_our: int | None


def _run(demand: Demand, engine: Engine, limit: float, number: int) -> Run:
    """Which goes first alternates, so that neither gains by a machine that slows down."""
    bare = engine_alone(demand, engine, limit) if number % 2 else None
    started = time.perf_counter()
    (layout,) = solve_all((demand,), budget_s=limit, engine=engine)
    used = time.perf_counter() - started
    at_our = engine_alone(demand, engine, used)
    if number % 2 == 0:
        bare = engine_alone(demand, engine, limit)
    return Run(int(layout.measure), int(layout.bound), layout.proved, used, bare, at_our)


def _middle(runs: list[Run]) -> Run:
    """Of three runs the middle of each column; no plan at all counts as worst; the longest time."""

    def middle(values: list[int | None]) -> int | None:
        return sorted(values, key=lambda value: sys.maxsize if value is None else value)[len(values) // 2]

    ours = middle([run.ours for run in runs])
    return Run(
        ours if ours is not None else runs[0].ours,
        max(run.bound for run in runs),
        sum(run.proved for run in runs) * 2 > len(runs),
        max(run.used_s for run in runs),
        middle([run.bare for run in runs]),
        middle([run.at_our for run in runs]),
    )


@dataclass
class Tally:
    """What is counted over all instances; proofs among the bin instances alone."""

    limit: float
    bins: int = 0
    proved: int = 0
    compared: list[int] = field(default_factory=lambda: [0, 0])
    fewer: list[int] = field(default_factory=lambda: [0, 0])
    more: list[list[str]] = field(default_factory=lambda: [[], []])
    over: list[tuple[float, str]] = field(default_factory=list)

    def add(self, demand: Demand, name: str, run: Run) -> None:
        """One instance more."""
        if demand.aim == "fewest":
            self.bins += 1
            self.proved += run.proved
        for at, bare in enumerate((run.bare, run.at_our)):
            if bare is not None:
                self.compared[at] += 1
                self.fewer[at] += run.ours < bare
                if run.ours > bare:
                    self.more[at].append(f"{name} {run.ours} against {bare}")
        self.over.append((run.used_s - self.limit, name))

    def told(self) -> str:
        """A few lines."""
        share = 100 * self.proved / max(1, self.bins)
        lines = [f"proved {self.proved} of {self.bins} bin instances ({share:.0f} %)"]
        for at, what in enumerate(("in the same limit", "in the seconds ours used")):
            lines.append(
                f"beside the bare engine {what}, on {self.compared[at]}: fewer on {self.fewer[at]}, "
                f"more: {', '.join(self.more[at]) or 'never'}"
            )
        longest, name = max(self.over)
        lines.append(f"longest beyond the limit: {longest:.2f} s ({name})")
        return "\n  ".join(lines)


def _shown(measure: int | None, demand: Demand) -> str:
    return "-" if measure is None else str(_units(measure, demand))


def demand_of(instance: dict[str, Any]) -> Demand | None:
    """The instance as a demand; None for problems of another kind (one sheet only, several sizes)."""
    kind, bins = instance["problem"], instance["bins"]
    if kind not in ("bin_packing_2d", "bin_packing_1d", "strip_2d") or len(bins) != 1:
        return None
    variant: dict[str, Any] = next(
        (k["variant"] for k in instance.get("known", []) if k["variant"].get("guillotine")), {}
    )
    blanks = []
    for number, item in enumerate(instance["items"]):
        long, wide, count, _, oriented = (*item, None, None)[:5]
        sizes = (long, wide or 1)
        if kind == "strip_2d" and bins[0][0] is not None:
            sizes = (wide, long)
        turns = kind != "bin_packing_1d" and not oriented and bool(variant.get("rotation", True))
        blanks.append(
            Blank(f"p{number}", str(number), "face", sizes[0] * SCALE, sizes[1] * SCALE, count or 1, turns)
        )
    long, wide = bins[0][:2]
    kerf, trim = instance.get("kerf") or 0, instance.get("trim") or 0
    first = {"horizontal": "along", "vertical": "across"}.get(variant.get("first_cut") or "", "any")
    stages = None if kind == "strip_2d" else 3
    saw = Saw(kerf=kerf * SCALE, stages=stages, first_cut=first, least_offcut=(1, 1))  # type: ignore[arg-type]
    if kind == "bin_packing_1d":
        stock = StockSize("s", "m", "stick", long * SCALE)
    elif kind == "strip_2d":
        stock = StockSize("s", "m", "roll", None, (wide or long) * SCALE)
    else:
        stock = StockSize("s", "m", "sheet", long * SCALE, wide * SCALE, trim=trim * SCALE)
    return Demand("m", tuple(blanks), (stock,), saw)


def _units(measure: object, demand: Demand) -> int:
    number: int = int(measure)  # type: ignore[call-overload]
    return int(-(-number // SCALE)) if demand.aim == "length" else number


def _known(instance: dict[str, Any]) -> int | None:
    """Best value known for straight cuts, of the variant read first; any other is a bound, not a target."""
    for known in instance.get("known", []):
        if known["variant"].get("guillotine", True):
            return int(known["value"])
    return int(instance["known"][0]["value"]) if instance.get("known") else None


def _beside_tests() -> list[dict[str, Any]]:
    return [
        {
            "name": one["name"],
            "problem": "bin_packing_2d",
            "bins": [one["sheet"]],
            "items": [[*piece, None, True] for piece in one["pieces"]],
            "known": [{"value": one["known"], "variant": {"guillotine": True, "rotation": False}}],
        }
        for one in json.loads(OURS.read_text(encoding="utf-8"))
    ]


if __name__ == "__main__":
    main()
