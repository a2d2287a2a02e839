"""Published instances of two-dimensional bin packing against their best known numbers of sheets.

The ten classes are those of J. O. Berkey and P. Y. Wang, "Two-dimensional finite bin-packing algorithms", J. Oper.
Res. Soc. 38 (1987), and S. Martello and D. Vigo, "Exact solution of the two-dimensional finite bin packing problem",
Manage. Sci. 44 (1998), first instance of 20 pieces each; OF1 and CHL5 are classical two-dimensional cutting stock
instances. Best known values (READ in the data tables of the open solver's repository): pieces not turned, guillotine
cuts in three stages with a trimming cut, first cut along. For CHL5 and OF1 the published plans start across and cut
identical strips, so a plan of ours may be better, never worse.
"""

import json
from pathlib import Path

import pytest

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all, verify

INSTANCES = json.loads((Path(__file__).parent / "published_sheets.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda instance: instance["name"])
def test_best_known_number_of_sheets(instance: dict[str, object]) -> None:
    length, width = instance["sheet"]  # type: ignore[misc]
    blanks = tuple(
        Blank(f"p{number}", str(number), "face", long, wide, count or 1)
        for number, (long, wide, count) in enumerate(instance["pieces"])  # type: ignore[arg-type]
    )
    stock = (StockSize("sheet", "board", "sheet", length, width),)
    demand = Demand("board", blanks, stock, Saw(kerf=0, stages=3, first_cut="any", least_offcut=(1, 1)))
    (layout,) = solve_all((demand,), budget_s=1.0)
    assert verify(demand, layout) == ()
    known = int(instance["known"])  # type: ignore[call-overload]
    assert layout.bought.count <= known
    assert layout.bound <= known or layout.bought.count < known
