"""The examples are pieces one would make: nothing to stop them, no risk left open by those of whole pieces."""

from pathlib import Path

import pytest

from evenface.finding import Severity
from evenface.job.opening import open_with_all
from evenface.job.plan import plan

EXAMPLES = Path(__file__).parents[2] / "examples"
CLEAN = (
    "whole-room",
    "wall-cupboard",
    "drawer-pedestal",
    "notice-panel",
    "lined-tray",
    "glazing-desk",
    "desk-drawer",
)


def weighed(file: Path):
    return [
        one for one in plan(open_with_all(file), budget_s=0.0).findings if one.severity is not Severity.NOTE
    ]


@pytest.mark.parametrize("name", CLEAN)
def test_an_example_leaves_no_risk_open(name):
    assert [(one.code, one.part) for one in weighed(EXAMPLES / f"{name}.toml")] == []


def test_the_cupboard_with_shelves_of_its_own_board_would_sag(tmp_path):
    text = (EXAMPLES / "wall-cupboard.toml").read_text()
    (line,) = [row for row in text.splitlines() if row.startswith('shelves = "shelf"')]
    changed = tmp_path / "cupboard.toml"
    changed.write_text(text.replace(line, ""))
    (told,) = weighed(changed)
    assert (told.code, told.part) == ("shelf.sags", "loose shelf")
    assert told.value.low < told.value.nominal < told.value.high
    assert told.value.nominal > 773.15 * 0.0025 > told.limit  # seen, not only more than is aimed for
