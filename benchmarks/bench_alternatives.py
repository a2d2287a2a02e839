"""How long six variants of the example's bench take beside the layouts, against planning the bench once.

OMP_NUM_THREADS=1 python benchmarks/bench_alternatives.py
"""

import time
from dataclasses import replace
from pathlib import Path

from evenface.finding import Change
from evenface.job.alternatives import alternatives
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.piece.brief_records import Alternative

EXAMPLE = Path(__file__).parents[1] / "examples" / "glaze-room.toml"
PIECE = "Glazing bench"
VARIANTS = {
    "MDF": (("buildup.bench.carrier", "mdf-22"), ("buildup.bench.carrier.thickness", "")),
    "backing laminate": (("buildup.bench.back", "hpl-backer-0.8"),),
    "linoleum": (("buildup.bench.face", "linoleum-2"), ("buildup.bench.back", "linoleum-2")),
    "smaller radius": (("piece[0].panel[0].corners.radius", "30"), ("buildup.bench.edging.width", "12")),
    "oak": (("buildup.bench.edging.wood", "oak"),),
    "facing first": (("buildup.bench.edging.order", "facing first"),),
}


def main() -> None:
    """Print seconds and the ratio to one plan."""
    opened = open_with_all(EXAMPLE)
    variants = [
        Alternative(name, tuple(Change(path, "", new) for path, new in changes))
        for name, changes in VARIANTS.items()
    ]
    alone = replace(opened.job, pieces=tuple(one for one in opened.job.pieces if one.name == PIECE))
    started = time.perf_counter()
    result = plan(replace(opened, job=alone))
    once = time.perf_counter() - started - sum(layout.seconds for layout in result.layouts)
    found = alternatives(opened, variants, PIECE)
    beside = found.seconds - found.solver_seconds
    print(f"one plan beside its layouts     {once:6.2f} s")
    print(f"seven columns beside theirs     {beside:6.2f} s   {beside / max(once, 1e-6):5.1f} × one plan")
    print(f"all with layouts                {found.seconds:6.2f} s   {found.shared_layouts} layouts shared")


if __name__ == "__main__":
    main()
