"""The order of the house: every import of every room is read and held against the map."""

import ast
from pathlib import Path

import pytest

import evenface
from evenface.rooms import RANK, may_import

HOUSE = Path(evenface.__file__).parent
OUTSIDE = {"__init__", "__main__", "rooms", "_version"}
"""The door and the map stand outside the rooms: the door may open any room, none may look at the door."""


def room_of(path: Path, house: Path = HOUSE) -> str:
    return path.relative_to(house).parts[0].removesuffix(".py")


def imported_rooms(source: str, package: str) -> list[tuple[int, str]]:
    """Line and room of every import from the house, wherever in the file it stands."""
    found: list[tuple[int, str]] = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                parents = package.split(".")[: len(package.split(".")) - node.level + 1]
                base = ".".join([*parents, base] if base else parents)
            names = [f"{base}.{alias.name}" for alias in node.names] if base == "evenface" else [base]
        else:
            continue
        found += [(node.lineno, name.split(".")[1]) for name in names if name.startswith("evenface.")]
    return found


def breaches(path: Path, house: Path = HOUSE) -> list[str]:
    room = room_of(path, house)
    package = ".".join(["evenface", *path.relative_to(house).parts[:-1]])
    out = []
    for line, target in imported_rooms(path.read_text(encoding="utf-8"), package):
        if target in {"rooms", "__version__"}:
            continue
        if target not in RANK:
            out.append(f"{path.name}:{line}: evenface.{target} is no room of the map")
        elif room not in OUTSIDE and not may_import(room, target):
            out.append(
                f"{path.relative_to(house)}:{line}: {room} (rank {RANK[room]}) looks at {target} "
                f"(rank {RANK[target]})"
            )
    return out


def test_every_room_stands_on_the_map() -> None:
    rooms = {room_of(path) for path in HOUSE.rglob("*.py")} - OUTSIDE
    assert rooms <= RANK.keys(), f"not on the map: {sorted(rooms - RANK.keys())}"


def test_no_import_goes_uphill() -> None:
    broken = [line for path in sorted(HOUSE.rglob("*.py")) for line in breaches(path)]
    assert not broken, "\n".join(broken)


@pytest.mark.parametrize(
    "source",
    [
        "from evenface.piece import Job\n",
        "import evenface.piece.records\n",
        "from evenface import piece\n",
        "def f():\n    from ..piece import records\n",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from evenface.piece import Job\n",
        "import evenface.attic\n",
    ],
)
def test_the_reader_of_imports_sees_each_way_of_writing_one(tmp_path: Path, source: str) -> None:
    room = tmp_path / "mechanics"
    room.mkdir()
    culprit = room / "culprit.py"
    culprit.write_text(source, encoding="utf-8")
    assert len(breaches(culprit, tmp_path)) == 1


def test_every_room_says_what_it_takes_and_gives() -> None:
    silent = []
    for room in RANK:
        place = HOUSE / room / "__init__.py" if (HOUSE / room).is_dir() else HOUSE / f"{room}.py"
        if place.exists():
            note = ast.get_docstring(ast.parse(place.read_text(encoding="utf-8"))) or ""
            if not all(head in note for head in ("Takes:", "Gives:", "May import:", "Start reading at:")):
                silent.append(str(place.relative_to(HOUSE)))
    assert not silent, f"no four-line note at the head of: {silent}"


def test_the_note_may_import_names_only_rooms_below() -> None:
    wrong = []
    for room in RANK:
        place = HOUSE / room / "__init__.py" if (HOUSE / room).is_dir() else HOUSE / f"{room}.py"
        if not place.exists():
            continue
        note = ast.get_docstring(ast.parse(place.read_text(encoding="utf-8"))) or ""
        line = next((row for row in note.splitlines() if row.strip().startswith("May import:")), "")
        named = [word for word in line.replace(",", " ").replace(".", " ").split() if word in RANK]
        wrong += [f"{room} names {other}" for other in named if not may_import(room, other)]
    assert not wrong, wrong
