"""Kinds of piece know nothing of each other, and no room after construction knows any of them."""

import ast
from pathlib import Path

import pytest

import evenface
from evenface.construction.kinds import KINDS

HOUSE = Path(evenface.__file__).parent
SHELF = HOUSE / "construction" / "kinds"
FOLDERS = sorted(path.parent.name for path in SHELF.glob("*/__init__.py"))
CHAIN = (
    "parts",
    "behaviour",
    "choice",
    "layouts",
    "checks",
    "templates",
    "workplan",
    "pricing",
    "drawings",
    "documents",
)
"""Rooms that read what was built. `job` and `interfaces` hand the shelf of kinds on to those who read a file."""
KINDS_HOME = "evenface.construction.kinds"


def imports_of(source: str) -> set[str]:
    """Every module that is imported or from which something is, written out whole; inside functions too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and not node.level:
            found |= {node.module or "", *(f"{node.module}.{alias.name}" for alias in node.names)}
        elif isinstance(node, ast.ImportFrom):
            found.add("relative")
    return found


def foreign(source: str, folder: str) -> list[str]:
    """Imports of a kind that reach into another one."""
    others = [f"{KINDS_HOME}.{name}" for name in FOLDERS if name != folder]
    return [
        one
        for one in imports_of(source)
        if one == "relative" or any(one == other or one.startswith(f"{other}.") for other in others)
    ]


def names_a_kind(source: str) -> list[str]:
    """Imports of the kinds' home, and texts that are nothing but the name of a kind."""
    tree = ast.parse(source)
    texts = [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]
    told = {name for name in KINDS if " " in name or name == "carcase"}
    return [one for one in imports_of(source) if one.startswith(KINDS_HOME)] + [
        one for one in texts if one in told
    ]


def test_every_kind_is_on_the_shelf() -> None:
    assert {"carcase", "drawer", "framed_panel", "lined_box", "top_on_base", "panels"} <= set(FOLDERS)
    assert len(KINDS) == len(FOLDERS)


@pytest.mark.parametrize("folder", FOLDERS)
def test_no_kind_imports_another(folder: str) -> None:
    for file in (SHELF / folder).rglob("*.py"):
        assert foreign(file.read_text(encoding="utf-8"), folder) == [], file


@pytest.mark.parametrize("room", CHAIN)
def test_no_room_after_construction_knows_a_kind(room: str) -> None:
    files = [*(HOUSE / room).rglob("*.py")]
    assert files
    for file in files:
        assert names_a_kind(file.read_text(encoding="utf-8")) == [], file


def test_the_reader_sees_what_it_looks_for() -> None:
    wrong = (
        "from evenface.construction.kinds.carcase import build\n",
        "import evenface.construction.kinds.carcase.shell\n",
        "def f():\n    from evenface.construction.kinds import carcase\n",
        "from ..carcase import build\n",
    )
    for source in wrong:
        assert foreign(source, "drawer")
    assert not foreign(wrong[0], "carcase")
    assert names_a_kind(wrong[0])
    assert names_a_kind('if piece.kind == "lined box":\n    pass\n')
    assert not names_a_kind('"the boards of the carcase"\n')
