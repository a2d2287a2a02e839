"""What goes wrong with files and words, said so that it can be mended.

Takes: a place (file, line, column, key), what was expected and what was given.
Gives: one family of exceptions that the interfaces turn into plain lines, exit code 2.
May import: nothing.
Start reading at: `Complaint`.

A problem with the piece itself is a finding, never one of these.
"""

from dataclasses import dataclass
from difflib import get_close_matches


class EvenfaceError(Exception):
    """A named error; its text is the sentence a maker needs. Interfaces print it without a traceback."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a file: 1-based line and column, and the key path such as `piece[0].panel[1].size`."""

    file: str = ""
    line: int = 0
    column: int = 0
    key: str = ""

    def __str__(self) -> str:
        spot = self.file or "the text"
        if self.line:
            spot += f", line {self.line}"
            if self.column:
                spot += f", column {self.column}"
        return f"{spot}, {self.key}" if self.key else spot


@dataclass(frozen=True, slots=True)
class Complaint:
    """One thing wrong with a file: where, what was expected, what was given, what to try."""

    place: Place
    expected: str
    given: str
    hint: str = ""

    def __str__(self) -> str:
        sentence = f"{self.place}: expected {self.expected}; given {self.given}"
        return f"{sentence}. {self.hint}" if self.hint else sentence


class FileError(EvenfaceError):
    """A job, material or log file that cannot be used; holds every complaint found."""

    def __init__(self, complaints: tuple[Complaint, ...] | list[Complaint]) -> None:
        self.complaints = tuple(complaints)
        super().__init__("\n".join(str(complaint) for complaint in self.complaints))


class MissingWord(EvenfaceError):
    """A name that nothing answers to: a material, a place, a part."""

    def __init__(self, kind: str, given: str, known: list[str] | tuple[str, ...]) -> None:
        self.kind, self.given, self.known = kind, given, tuple(known)
        super().__init__(f"no {kind} is called {given!r}. {nearest_words(given, known)}".strip())


def nearest_words(given: str, known: list[str] | tuple[str, ...]) -> str:
    """A hint naming the nearest of the known words; all of them when they are few."""
    near = get_close_matches(given, known, n=2, cutoff=0.6)
    if near:
        return "Did you mean " + " or ".join(repr(word) for word in near) + "?"
    if 0 < len(known) <= 12:
        return "Known: " + ", ".join(sorted(known)) + "."
    return ""
