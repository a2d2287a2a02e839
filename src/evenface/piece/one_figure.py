"""One figure of a job file typed anew: text, data and places follow without the file being read again."""

import re
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from evenface.finding import Change
from evenface.piece.editing import value_of
from evenface.piece.source_text import Source
from evenface.toml_places import Step, key_path, split_path

_KEY: Final = re.compile(r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*")[ \t]*=[ \t]*""")
_FIGURE: Final = re.compile(r"-?\d+(?:\.\d+)?(?=[ \t\r\n,\]}#]|\Z)")


def retyped(source: Source, text: str, change: Change) -> tuple[str, Source] | None:
    """The text with that figure in the place of the one that stands there, and what parsing it would give.

    source : of that text. The same, byte for byte, as `editing.apply_changes` and `source_text.parse` give; None
    where the change is anything else than one plain figure for another, written out in the file: then those are asked.
    """
    value = value_of(change.new)
    at = _place_of(source, change.path)
    if at is None or isinstance(value, bool | str) or text.startswith("\ufeff"):
        return None
    steps, line, column = at
    starts = [0, *(found.end() for found in re.finditer("\n", text))]
    start = starts[line - 1] + column - 1
    if isinstance(steps[-1], str):
        key = _KEY.match(text, start)
        if key is None:
            return None
        start = key.end()
    old = _FIGURE.match(text, start)
    if old is None:
        return None
    if _at(source.data, steps) == value:
        return text, source
    written = repr(value)
    longer = len(written) - len(old[0])
    column = old.end() - starts[bisect_right(starts, start) - 1]
    found = {
        path: (where, across + longer) if longer and where == line and across > column else (where, across)
        for path, (where, across) in source.found.items()
    }
    data = _with(source.data, steps, value)
    return f"{text[:start]}{written}{text[old.end() :]}", replace(source, data=data, found=found)


def _place_of(source: Source, path: str) -> tuple[tuple[Step, ...], int, int] | None:
    """Steps, line and column of a path at which a figure stands."""
    try:
        steps = split_path(path)
    except ValueError:
        return None
    where = source.found.get(key_path(steps))
    given = _at(source.data, steps)
    if not steps or where is None or isinstance(given, bool) or not isinstance(given, int | float):
        return None
    return steps, *where


def _at(data: Any, steps: tuple[Step, ...]) -> Any:
    for step in steps:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return None
    return data


def _with(data: Any, steps: tuple[Step, ...], value: int | float) -> Any:
    """The same data with another value there; what lies on the way to it is new, all else is shared."""
    if not steps:
        return value
    first, rest = steps[0], steps[1:]
    if isinstance(data, Mapping):
        return {**data, first: _with(data[first], rest, value)}
    return [_with(one, rest, value) if number == first else one for number, one in enumerate(data)]
