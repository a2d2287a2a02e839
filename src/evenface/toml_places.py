"""Where each entry of a TOML text stands, so that every complaint can name line and column.

Takes: a TOML text that a parser has accepted.
Gives: key path → (line, column), both counted from 1; and the writing and splitting of key paths.
May import: nothing.
Start reading at: `places`.

The parser we use tells places only of syntax errors. This reads the same text once more, in one pass,
and only for places: values are stepped over, never interpreted. The tests hold it against the parser,
by setting a mark at a path and looking where it comes out.
"""

import re
from bisect import bisect_right
from collections.abc import Mapping
from contextlib import suppress

Step = str | int
"""One step of a key path: a key, or the number of an entry of a list, from 0."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_STEP = re.compile(
    r"""\.?(?:(?P<bare>[A-Za-z0-9_-]+)|"(?P<quoted>(?:[^"\\]|\\.)*)"|\[(?P<index>\d+)\])""", re.S
)
DEEPEST = 20
"""Steps of the longest key path that is read; no file of ours comes near it."""

_MANY_DOTS = re.compile(r"(?:\.[^.\n]*){" + str(DEEPEST) + "}")
_SPACE = re.compile(r"[ \t]*")
_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SCALAR = re.compile(r"[^,\]}#\r\n]*")
_STRING = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}'
    r"|'''(?:[^']|'(?!''))*'{3,5}"
    r'|"(?:[^"\\\n]|\\.)*"'
    r"|'[^'\n]*'",
    re.S,
)
_ESCAPE = re.compile(r"\\(u[0-9A-Fa-f]{4}|U[0-9A-Fa-f]{8}|x[0-9A-Fa-f]{2}|.)", re.S)
_ESCAPED = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", "e": "\x1b"}


def places(text: str) -> dict[str, tuple[int, int]]:
    """Line and column of every entry, by key path; the whole text is the path "".

    text : TOML accepted by a parser; on any other text the result is what was found before the fault.
    Path lengths above `DEEPEST` count as a fault, see `too_deep`.
    A key stands where its name begins, a table of a list where its header or brace begins, an entry of
    a list where its value begins. Columns count characters.
    """
    scan = _Scan(text)
    with suppress(_NotToml):
        scan.run()
    starts = [0, *(found.end() for found in re.finditer("\n", text))]
    out: dict[str, tuple[int, int]] = {"": (1, 1)}
    paths: dict[tuple[Step, ...], str] = {(): ""}
    for steps, offset in scan.found.items():
        line = bisect_right(starts, offset)
        path = paths[steps] = _onward(paths.get(steps[:-1]) or key_path(steps[:-1]), steps[-1])
        out[path] = (line, offset - starts[line - 1] + 1)
    return out


def too_deep(text: str) -> tuple[int, int] | None:
    """Line and column where a key path grows longer than `DEEPEST` steps; None where none does.

    Ask before parsing: on one key of a hundred thousand dots the parser takes all memory there is.
    """
    if not _MANY_DOTS.search(text):
        return None
    scan = _Scan(text)
    try:
        scan.run()
    except _TooDeep:
        before = text[: scan.at]
        return before.count("\n") + 1, scan.at - before.rfind("\n")
    except _NotToml:
        pass
    return None


def place_of(path: str, found: Mapping[str, tuple[int, int]]) -> tuple[int, int]:
    """Line and column of a key path, or of the nearest table around it that is in the text."""
    steps = split_path(path)
    while steps:
        spot = found.get(key_path(steps))
        if spot is not None:
            return spot
        steps = steps[:-1]
    return found.get("", (1, 1))


def key_path(steps: tuple[Step, ...]) -> str:
    """`("piece", 0, "panel")` as `piece[0].panel`; keys that are no plain words are quoted."""
    out = ""
    for step in steps:
        out = _onward(out, step)
    return out


def _onward(path: str, step: Step) -> str:
    if isinstance(step, int):
        return f"{path}[{step}]"
    plain = _BARE.fullmatch(step)
    shown = step if plain else '"' + step.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return f"{path}.{shown}" if path else shown


def split_path(path: str) -> tuple[Step, ...]:
    """The steps of a key path; the reverse of `key_path`.

    Raises ValueError when the text is no key path.
    """
    steps: list[Step] = []
    at = 0
    while at < len(path):
        match = _STEP.match(path, at)
        if match is None:
            raise ValueError(f"expected a key path such as piece[0].panel[1].size, was given {path[:80]!r}")
        if match["index"] is not None:
            steps.append(int(match["index"]))
        elif match["quoted"] is not None:
            steps.append(re.sub(r"\\(.)", r"\1", match["quoted"], flags=re.S))
        else:
            steps.append(match["bare"])
        at = match.end()
    return tuple(steps)


class _NotToml(Exception):
    """The text is not what a parser would accept."""


class _TooDeep(_NotToml):
    """A key path has more steps than anyone writes."""


class _Scan:
    """One walk through the text; `found` collects the offset of each key path."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 1 if text.startswith("\ufeff") else 0
        self.found: dict[tuple[Step, ...], int] = {}
        self.entries: dict[tuple[Step, ...], int] = {}

    def run(self) -> None:
        table: tuple[Step, ...] = ()
        self._skip(_BLANK)
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._pair(table)
            self._skip(_BLANK)

    def _header(self) -> tuple[Step, ...]:
        start = self.at
        of_list = self.text.startswith("[[", start)
        self.at += 2 if of_list else 1
        keys = [key for key, _ in self._keys()]
        path: tuple[Step, ...] = ()
        for key in keys[:-1]:
            path = self._newest((*path, key))
            self.found.setdefault(path, start)
        path = (*path, keys[-1])
        if of_list:
            number = self.entries.get(path, 0)
            self.entries[path] = number + 1
            self.found.setdefault(path, start)
            path = (*path, number)
        self.found[path] = start
        self._expect("]]" if of_list else "]")
        return path

    def _newest(self, path: tuple[Step, ...]) -> tuple[Step, ...]:
        count = self.entries.get(path)
        return path if count is None else (*path, count - 1)

    def _pair(self, table: tuple[Step, ...]) -> None:
        path = table
        for key, offset in self._keys():
            path = (*path, key)
            self.found.setdefault(path, offset)
        self._expect("=")
        self._skip(_SPACE)
        self._value(path)

    def _keys(self) -> list[tuple[str, int]]:
        """The keys of a dotted key, each with its offset."""
        out: list[tuple[str, int]] = []
        while True:
            self._skip(_SPACE)
            start = self.at
            match = _BARE.match(self.text, start) or _STRING.match(self.text, start)
            if match is None:
                raise _NotToml
            self.at = match.end()
            out.append((_plain(match[0]), start))
            if len(out) > DEEPEST:
                raise _TooDeep
            self._skip(_SPACE)
            if not self.text.startswith(".", self.at):
                return out
            self.at += 1

    def _value(self, path: tuple[Step, ...]) -> None:
        if len(path) > DEEPEST:
            raise _TooDeep
        first = self.text[self.at : self.at + 1]
        if first == "[":
            self._list(path)
        elif first == "{":
            self._inline_table(path)
        elif first in ('"', "'"):
            if not self._skip(_STRING):
                raise _NotToml
        else:
            self._skip(_SCALAR)

    def _list(self, path: tuple[Step, ...]) -> None:
        self.at += 1
        number = 0
        while not self._closed("]"):
            entry = (*path, number)
            self.found[entry] = self.at
            self._value(entry)
            number += 1

    def _inline_table(self, path: tuple[Step, ...]) -> None:
        self.at += 1
        while not self._closed("}"):
            self._pair(path)

    def _closed(self, bracket: str) -> bool:
        """Steps over blanks and commas; whether the closing bracket follows, which is stepped over."""
        self._skip(_BLANK)
        while self.text.startswith(",", self.at):
            self.at += 1
            self._skip(_BLANK)
        if self.at >= len(self.text):
            raise _NotToml
        if self.text[self.at] == bracket:
            self.at += 1
            return True
        return False

    def _skip(self, pattern: re.Pattern[str]) -> bool:
        match = pattern.match(self.text, self.at)
        if match is None:
            return False
        self.at = match.end()
        return True

    def _expect(self, mark: str) -> None:
        self._skip(_SPACE)
        if not self.text.startswith(mark, self.at):
            raise _NotToml
        self.at += len(mark)


def _plain(key: str) -> str:
    """A key without its quotes and escapes."""
    if key[0] == "'":
        return key[1:-1]
    if key[0] != '"':
        return key
    return _ESCAPE.sub(lambda found: _unescaped(found[1]), key[1:-1])


def _unescaped(code: str) -> str:
    if code[0] in "uUx" and len(code) > 1:
        return chr(int(code[1:], 16))
    return _ESCAPED.get(code, code)
