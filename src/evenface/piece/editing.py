"""Entries of a job file set, added or taken out, with every other byte of the text left as it was."""

import math
import re
from collections.abc import Callable, Sequence
from typing import Any, Final

import tomlrt

from evenface.errors import Complaint, FileError, Place, Sentence, in_words, nearest_words
from evenface.finding import Change
from evenface.piece.source_text import document_of
from evenface.toml_places import DEEPEST, Step, key_path, place_of, places, split_path
from evenface.words import said

_WHOLE = re.compile(r"[+-]?(?:0|[1-9]\d{0,17})")
_DECIMAL = re.compile(r"[+-]?(?:0|[1-9]\d{0,17})(?:\.\d{1,17})?(?:[eE][+-]?\d{1,3})?")

_FULL_KEY: Final = {"face": "material", "back": "material", "carrier": "material", "overhang": "every"}
"""Entries that may be written short, as a value, or in full, as a table: the key the value has there."""
_ONE_OR_LIST: Final = ("profile",)
"""Entries that may be written as one table or as a list of tables."""
_ONE_OR_MORE: Final = ("wane", "humidity", "temperature")
"""Entries that may be one figure or a list of them."""

type Value = int | float | bool | str


class _CannotSet(Exception):
    """Why a path cannot be set.

    stuck : the steps up to the one that leads nowhere. words : the keys there are in its place.
    """

    def __init__(
        self, stuck: tuple[Step, ...], expected: Sentence, given: Sentence, words: tuple[str, ...] = ()
    ) -> None:
        super().__init__(in_words(expected))
        self.stuck, self.expected, self.given, self.words = stuck, expected, given, words


def apply_changes(text: str, changes: Sequence[Change], file: str = "") -> str:
    """The text with the changes made, one after the other; what they do not touch stays byte for byte.

    changes : `new` in plain words: numbers, true and false are written as such, everything else as a text;
        an empty `new` takes the entry out. Missing tables on the way are made; the entry after the last of a
        list is added to it, and the first of a list of words begins it. `old` is not looked at.
    file : its name, for complaints.
    Raises FileError: for a text that is no TOML, and for every path that cannot be set, with the nearest key.
    """
    mark = text[: text.startswith("\ufeff")]  # some editors put one at the head; it stays
    document = document_of(text, file)
    complaints: list[Complaint] = []
    for change in changes:
        try:
            document = _applied(document, change)
        except _CannotSet as fault:
            complaints.append(_complaint(text, file, change.path, fault))
    if complaints:
        raise FileError(complaints)
    return mark + document.render()


def edited(text: str, edit: Callable[[tomlrt.Document], None]) -> str:
    """The text after an edit of its tables; what the edit does not touch stays byte for byte.

    Raises FileError for a text that is no TOML, and what the edit raises.
    """
    mark = text[: text.startswith("\ufeff")]  # some editors put one at the head; it stays
    document = document_of(text, "")
    edit(document)
    return mark + document.render()


def value_of(new: str) -> Value:
    """What a plain word stands for: `20` a whole number, `21.8` a number, `true`, and any other a text."""
    word = new.strip()
    if word in ("true", "false"):
        return word == "true"
    if _WHOLE.fullmatch(word):
        return int(word)
    if _DECIMAL.fullmatch(word) and math.isfinite(float(word)):
        return float(word)
    return new


def _applied(document: tomlrt.Document, change: Change) -> tomlrt.Document:
    steps = _as_written(document, _steps(change.path))
    if change.new == "":
        return _without(document, steps)
    try:
        change.new.encode("utf-8")
    except UnicodeEncodeError:
        raise _CannotSet(steps, "a text that can be written as UTF-8", ascii(change.new)[:60]) from None
    _set(document, steps, value_of(change.new))
    return document


def _steps(path: str) -> tuple[Step, ...]:
    try:
        steps = split_path(path)
        path.encode("utf-8")
    except ValueError:
        raise _CannotSet((), "a key path such as piece[0].panel[1].size", ascii(path)[:80]) from None
    if not steps:
        raise _CannotSet((), "a key path such as piece[0].panel[1].size", "an empty one")
    if len(steps) > DEEPEST:
        raise _CannotSet(
            (),
            said("a key path of at most {most} steps", most=DEEPEST),
            said("one of {count}", count=len(steps)),
        )
    return steps


def _as_written(document: tomlrt.Document, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps as the file has them: `profile[0]` and `profile` may both name the only profile."""
    out: list[Step] = []
    holder: Any = document
    for step in steps:
        if out and out[-1] in _ONE_OR_LIST:
            if isinstance(holder, dict) and step == 0:
                continue
            if isinstance(holder, list) and len(holder) == 1 and isinstance(step, str):
                out.append(0)
                holder = holder[0]
        out.append(step)
        holder = holder[step] if _stands(holder, step) else None
    return tuple(out)


def _stands(holder: Any, step: Step) -> bool:
    if isinstance(step, int):
        return isinstance(holder, list) and step < len(holder)
    return isinstance(holder, dict) and step in holder


def _set(document: tomlrt.Document, steps: tuple[Step, ...], value: Value) -> None:
    holder: Any = document
    for number, step in enumerate(steps[:-1], start=1):
        if _is_new(holder, step, steps[:number]):
            inner = _wrapped(steps, number, value, _words(holder))
            _add(holder, step, inner, steps[:number])
            return
        short = _full_key(step)
        if short and not isinstance(holder[step], dict | list):
            holder[step] = tomlrt.Table.inline({short: holder[step]})
        elif _stands_bare(holder[step], steps, number):
            holder[step] = [holder[step]]
        holder = holder[step]
    if _is_new(holder, steps[-1], steps):
        _add(holder, steps[-1], value, steps)
    else:
        _replace(holder, steps[-1], value, steps)


def _stands_bare(given: object, steps: tuple[Step, ...], number: int) -> bool:
    """Whether one word stands where a list may stand, and the next step asks for one of the list."""
    many = steps[0] == "calendar" or steps[number - 1] in _ONE_OR_MORE
    return many and steps[number] in (0, 1) and not isinstance(given, dict | list)


def _without(document: tomlrt.Document, steps: tuple[Step, ...]) -> tomlrt.Document:
    """The document without an entry, but with the comments above it, which `del` takes along.

    Where whole lines from the entry's first on say the same when they are gone, just those go.
    """
    text = document.render()
    _remove(document, steps)
    plain = document.to_dict()
    most = len(text) - len(document.render())
    start = _line_start(text, steps)
    for found in re.finditer(r"\n|\Z", text[start : start + most + 1]):
        try:
            shorter = tomlrt.loads(text[:start] + text[start + found.end() :])
        except tomlrt.TOMLError:
            continue
        if found.end() <= most and shorter.to_dict() == plain:
            return shorter
    return document


def _line_start(text: str, steps: tuple[Step, ...]) -> int:
    """Offset of the line on which an entry begins."""
    line, _ = place_of(key_path(steps), places(text))
    starts = [0, *(found.end() for found in re.finditer("\n", text))]
    return starts[line - 1]


def _remove(document: tomlrt.Document, steps: tuple[Step, ...]) -> None:
    around: Any = None
    holder: Any = document
    for number, step in enumerate(steps, start=1):
        if _is_new(holder, step, steps[:number]):
            raise _CannotSet(steps[:number], "an entry to take out", "nothing", _words(holder))
        if number == len(steps):
            if number > 1 and isinstance(holder, tomlrt.AoT) and len(holder) == 1:
                # an empty list in the place of its tables would take no table more
                del around[steps[number - 2]]
            else:
                del holder[step]
        else:
            around, holder = holder, holder[step]


def _is_new(holder: Any, step: Step, until: tuple[Step, ...]) -> bool:
    """Whether the step names nothing yet; _CannotSet where the holder can have no such step."""
    if isinstance(holder, dict) and isinstance(step, str):
        return step not in holder
    if isinstance(holder, list) and isinstance(step, int):
        if step > len(holder):
            raise _CannotSet(until, said("a number from 0 to {count}", count=len(holder)), str(step))
        return step == len(holder)
    if isinstance(holder, dict):
        raise _CannotSet(until, "the name of a key", said("the number {step}", step=step), _words(holder))
    if isinstance(holder, list):
        raise _CannotSet(
            until, "the number of an entry, such as [0]", said("the name {step}", step=repr(step))
        )
    raise _CannotSet(until, "a table or a list around it", repr(holder)[:80])


def _wrapped(steps: tuple[Step, ...], number: int, value: Value, words: tuple[str, ...]) -> Any:
    """The value within the tables that the steps from `number` on name.

    A list of plain words begins with its first; a list of tables is not made out of nothing.
    """
    inner: Any = [value] if steps[number:] and steps[-1] == 0 else value
    for step in reversed(steps[number : -1 if isinstance(inner, list) else None]):
        if isinstance(step, int):
            raise _CannotSet(steps[:number], "a list that is there", "nothing", words)
        inner = {step: inner}
    return inner


def _add(holder: Any, step: Step, value: Any, until: tuple[Step, ...]) -> None:
    if isinstance(step, int):
        _add_to_list(holder, value, until)
    elif isinstance(value, dict):
        made = tomlrt.Table.section(value) if _holds_sections(holder) else tomlrt.Table.inline(value)
        holder[step] = made
    else:
        holder[step] = value


def _add_to_list(entries: Any, value: Any, until: tuple[Step, ...]) -> None:
    if any(isinstance(entry, dict) != isinstance(value, dict) for entry in entries):
        raise _CannotSet(until, "an entry like the others of the list", "another kind")
    if isinstance(entries, tomlrt.AoT):
        entries.add(value)
    else:
        entries.append(value)


def _holds_sections(holder: tomlrt.Table) -> bool:
    """Whether a new table gets a header of its own here: at the top, and among tables that have one."""
    if isinstance(holder, tomlrt.Document):
        return True
    entries = holder.values()
    return bool(holder) and all(isinstance(one, tomlrt.Table) and not one.is_inline for one in entries)


def _replace(holder: Any, step: Step, value: Value, until: tuple[Step, ...]) -> None:
    given = holder[step]
    short = _full_key(step)
    if isinstance(given, dict) and short:
        if short in given:
            _replace(given, short, value, (*until, short))
        else:
            given[short] = value
    elif isinstance(given, dict):
        raise _CannotSet(until, "one entry", "a whole table", _words(given))
    elif isinstance(given, list):
        raise _CannotSet(
            until,
            said("one entry of the list, such as {path}", path=key_path((*until, 0))),
            "the whole list",
        )
    elif not _same(given, value):
        holder[step] = value


def _full_key(step: Step) -> str:
    return _FULL_KEY.get(step, "") if isinstance(step, str) else ""


def _same(given: object, value: object) -> bool:
    """Whether the file says so already, if with other signs: 60.0 is 60, but true is not 1."""
    return given == value and isinstance(given, bool) == isinstance(value, bool)


def _words(holder: Any) -> tuple[str, ...]:
    return tuple(holder) if isinstance(holder, dict) else ()


def _complaint(text: str, file: str, path: str, fault: _CannotSet) -> Complaint:
    line, column = place_of(key_path(fault.stuck), places(text))
    wanted = str(fault.stuck[-1]) if fault.stuck else path
    shown = path if path.isprintable() and len(path) <= 200 else ascii(path)[:200]
    hint = nearest_words(wanted, fault.words)
    return Complaint(Place(file, line, column, shown), fault.expected, fault.given, hint)
