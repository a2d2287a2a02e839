"""The map of the house: which room may look at which.

Data flows one way. A room imports only from rooms of a lower rank; rooms of one rank do not
know each other. `tests/test_rooms.py` reads every import (those inside functions and under
TYPE_CHECKING too) and names the line that breaks the order. Change the map here, in one step,
with the reason in the commit.
"""

from typing import Final

RANK: Final[dict[str, int]] = {
    # words every room speaks
    "units": 0,
    "toml_places": 0,
    "evidence": 0,
    "words": 0,
    "errors": 0,  # what is wrong is a sentence with values too
    "finding": 0,
    # what is known of the world, and pure computation
    "materials": 1,
    "climate": 1,
    "mechanics": 1,
    "shape": 1,
    "languages": 1,  # catalogues of sentences: knows words, nothing of furniture
    # what the maker asked for
    "piece": 2,
    # what that means in wood and sheets
    "construction": 3,
    "parts": 4,
    "behaviour": 4,
    "choice": 5,  # what to build from: looks at behaviour, not at checks or layouts
    "layouts": 5,
    "checks": 5,
    "templates": 5,  # beside the checks: both only look at what is built, neither at the other
    # how it is made, step by step
    "workplan": 6,
    # what it costs: reads steps and layouts, knows no papers
    "pricing": 7,
    # the two complete answers, then pictures and papers of them
    "result": 8,
    # the only SQL: jobs and their revisions
    "store": 8,
    "drawings": 9,
    "documents": 10,
    "job": 11,
    "interfaces": 12,
}
"""Rank of each room; what costs, orders and draws reads what was built, never the other way round."""


def may_import(importer: str, imported: str) -> bool:
    """Whether room `importer` may import from room `imported`.

    Both are names of `RANK`; KeyError names the room that is not on the map.
    Rank 0 rooms may know those that stand before them in `RANK`, so that their order stays a line.
    """
    if importer == imported:
        return True
    if RANK[importer] == RANK[imported] == 0:
        order = list(RANK)
        return order.index(imported) < order.index(importer)
    return RANK[imported] < RANK[importer]
