"""Published instances of one-dimensional bin packing against their best known (all proved) numbers of bins.

E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", J. Heuristics 2 (1996): u250_00, t60_00, t249_00;
A. Scholl, R. Klein and C. Jürgens, "BISON", Comput. Oper. Res. 24 (1997): N1C1W1_A, N3C2W4_F; G. Wäscher and T. Gau,
OR Spektrum 18 (1996): TEST0014, TEST0044; J. E. Schoenfield (2002): Hard28 BPP40. Optimal values READ in the table
of bounds of BPPLIB (Delorme, Iori, Martello). The number of bins has no tolerance; where the search of one second
has not reached the optimum it may stand one above, and the bound may never stand above it.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all, verify

INSTANCES = json.loads((Path(__file__).parent / "published_sticks.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda instance: instance["name"])
def test_best_known_number_of_sticks(instance: dict[str, Any]) -> None:
    blanks = tuple(
        Blank(f"p{number}", str(number), "edging", length * 10, 10, count)
        for number, (length, count) in enumerate(instance["pieces"])
    )
    length, known = int(instance["length"]), int(instance["known"])
    demand = Demand("ash", blanks, (StockSize("s", "ash", "stick", length * 10),), Saw(kerf=0))
    (layout,) = solve_all((demand,), budget_s=1.0)
    assert verify(demand, layout) == ()
    assert layout.bound <= known <= layout.bought.count
    assert layout.bought.count <= known + 1
