"""Every text of a source tree that is said to a reader, with the file it stands in.

For translators and tests; nothing of the running program needs it.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from types import MappingProxyType
from typing import Final

SAYING: Final = frozenset({"said", "Said", "translate", "t", "word", "words", "shown", "label"})
"""Functions whose first argument is said."""
TITLED: Final = frozenset({"table", "Table", "Column", "Box", "Entry", "Pattern", "Field"})
"""Functions every plain text of which is a title, a heading or a label."""
COMPLAINING: Final = MappingProxyType(
    {
        "Complaint": 1, "complain": 1, "_complain": 1, "_CannotSet": 1, "Unreadable": 0, "BadCell": 0,
        "NoSuchPage": 0, "NotAsThingsStand": 0, "Undecided": 0, "EvenfaceError": 0, "StoreError": 0,
        "RackError": 0, "NoSuchItem": 0, "_wrong": 1, "_refuse_cell": 2, "refuse": 1, "at": 2,
        "ShapeError": 1, "need": 2,
    }
)  # fmt: skip
"""Functions that say what is wrong: from which argument on every plain text is said."""
_HELD: Final = frozenset({"expected", "hint", "wanted"})
"""Names that hold such a text until it is said."""
_IN_PAGES: Final = re.compile(r"""\bt\(\s*(?:"([^"]+)"|'([^']+)')""")


def texts_of(source: Path) -> dict[str, str]:
    """Texts by the file they stand in first, in the order of the files. source : folder of the package."""
    found: dict[str, str] = {}
    for file in sorted(source.rglob("*.py")):
        titled = frozenset() if "store" in file.parts else TITLED  # tables of SQL there
        for text in _said_in(ast.parse(file.read_text(encoding="utf-8")), titled):
            found.setdefault(text, str(file.relative_to(source)))
    for file in sorted(source.rglob("*.html")):
        for double, single in _IN_PAGES.findall(file.read_text(encoding="utf-8")):
            found.setdefault(double or single, str(file.relative_to(source)))
    return {text: place for text, place in found.items() if re.search("[A-Za-z]{2}", bare(text))}


def bare(template: str) -> str:
    """A template without its fields: where no letter is left there is nothing to translate."""
    return re.sub(r"\{[^}]*\}", "", template)


def _said_in(tree: ast.Module, titled: frozenset[str]) -> Iterator[str]:
    constants = {
        target.id: node.value
        for node in tree.body
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") in _HELD:
            yield from _plain(node.value, constants)
        if not isinstance(node, ast.Call):
            continue
        name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        for keyword in node.keywords:
            if keyword.arg == "source":
                yield from _plain(keyword.value, constants)
        if name in SAYING and node.args:
            yield from _plain(node.args[0], constants)
        elif name in titled:
            for argument in node.args:
                yield from _plain(argument, constants)
        elif name in COMPLAINING:
            for argument in node.args[COMPLAINING[name] :]:
                yield from _plain(argument, constants)


def _plain(node: ast.expr, constants: dict[str, ast.expr]) -> Iterator[str]:
    """The texts an argument may be: written there, one of two, or in a table of the module."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value.removeprefix(">")
    elif isinstance(node, ast.IfExp):
        yield from _plain(node.body, constants)
        yield from _plain(node.orelse, constants)
    elif isinstance(node, ast.BoolOp):
        for one in node.values:
            yield from _plain(one, constants)
    elif isinstance(node, ast.Tuple | ast.List):
        for one in node.elts:
            yield from _plain(one, constants)
    elif isinstance(node, ast.Dict):
        for one in node.values:
            yield from _plain(one, constants)
    elif isinstance(node, ast.Name) and node.id in constants:
        yield from _plain(constants[node.id], {})
    elif isinstance(node, ast.Subscript):
        yield from _plain(node.value, constants)
    elif isinstance(node, ast.Call) and getattr(node.func, "id", "") == "MappingProxyType":
        yield from _plain(node.args[0], constants)
