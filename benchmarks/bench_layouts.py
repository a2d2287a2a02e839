"""Layouts on published instances: ours, our strips alone, and the peers of `bench_layout_peers` in the same time.

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

from evenface.layouts import Blank, Demand, Layout, Saw, StockSize, solve_all
from evenface.layouts.engine import Engine

SCALE = 100
"""Units of the instances on the grid: some are one unit wide."""
OURS = Path(__file__).parents[1] / "tests" / "layouts" / "sources" / "published_sheets.json"


def main() -> None:
    """Print one line an instance and time, then how many are proved."""
    instances = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8")) if sys.argv[1:] else _beside_tests()
    seconds = [float(text) for text in sys.argv[2:]] or [1.0, 5.0]
    head = f"{'instance':22} {'pieces':>6} {'known':>7} {'strips':>7} {'rectp.':>6}"
    print(head + "".join(f" | {s:g} s: ours bound proved engine CP-SAT used" for s in seconds))
    tally = {limit: Tally() for limit in seconds}
    with Engine() as engine:
        for instance in instances:
            demand = demand_of(instance)
            if demand is None or demand.pieces > 3000:
                continue
            known = _known(instance)
            (strips,) = solve_all((demand,), budget_s=0.0)
            line = (
                f"{instance['name']:22} {demand.pieces:6} {known or '':>7} {_units(strips.measure, demand):7} "
                f"{_shown(rectpack_alone(demand), demand):>6}"
            )
            for limit in seconds:
                started = time.perf_counter()
                (layout,) = solve_all((demand,), budget_s=limit, engine=engine)
                used = time.perf_counter() - started
                bare = engine_alone(demand, engine, limit)
                plain = cp_sat_alone(demand, limit)
                line += f" | {_units(layout.measure, demand):9} {_units(layout.bound, demand):5} "
                line += f"{'yes' if layout.proved else '':6} {_shown(bare, demand):>6} "
                line += f"{_shown(plain, demand):>6} {used:5.1f}"
                tally[limit].add(demand, layout, bare)
            print(line, flush=True)
    for limit in seconds:
        print(f"at {limit:g} s: {tally[limit].told()}")


@dataclass
class Tally:
    """What is counted over all instances; proofs among the bin instances alone."""

    bins: int = 0
    proved: int = 0
    compared: int = 0
    better: int = 0
    worse: list[str] = field(default_factory=list)

    def add(self, demand: Demand, layout: Layout, bare: int | None) -> None:
        """One instance more."""
        if demand.aim == "fewest":
            self.bins += 1
            self.proved += layout.proved
        if bare is not None:
            ours = int(layout.measure)
            self.compared += 1
            self.better += ours < bare
            if ours > bare:
                self.worse.append(f"{ours} against {bare}")

    def told(self) -> str:
        """One line."""
        share = 100 * self.proved / max(1, self.bins)
        worse = ", ".join(self.worse) or "never"
        return (
            f"proved {self.proved} of {self.bins} bin instances ({share:.0f} %); "
            f"beside the bare engine on {self.compared}: fewer on {self.better}, more: {worse}"
        )


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
