"""What goes wrong with files and words, said so that it can be mended.

Takes: a place (file, line, column, key), what was expected and what was given.
Gives: one family of exceptions that the interfaces turn into plain lines, exit code 2; `told_of`, which gives
    their sentences in the reader's language.
May import: words.
Start reading at: `Complaint`.

A problem with the piece itself is a finding, never one of these.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from evenface.words import ENGLISH, Manner, Said, said, say

type Sentence = str | Said
"""A sentence with values, or a plain text: one without values, or what was typed, in quotes."""


class EvenfaceError(Exception):
    """A named error; its text is the sentence a maker needs. Interfaces print it without a traceback.

    The text is English; `told_of` gives the sentence in another language.
    """

    def __init__(self, sentence: Sentence = "") -> None:
        self.sentence = sentence
        super().__init__(in_words(sentence))


class Unreadable(ValueError):
    """A value that is none of its kind: what was expected, and what was given."""

    def __init__(self, expected: Sentence, given: Sentence) -> None:
        self.expected, self.given = expected, given
        super().__init__(f"expected {in_words(expected)}, was given {in_words(given)}")


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a file: 1-based line and column, and the key path such as `piece[0].panel[1].size`."""

    file: str = ""
    line: int = 0
    column: int = 0
    key: str = ""

    def __str__(self) -> str:
        return say(_spot(self))


@dataclass(frozen=True, slots=True)
class Complaint:
    """One thing wrong with a file: where, what was expected, what was given, what to try."""

    place: Place
    expected: Sentence
    given: Sentence
    hint: Sentence = ""

    def __str__(self) -> str:
        return say(self.sentence)

    @property
    def sentence(self) -> Said:
        """The whole complaint as one sentence."""
        frame = said(
            "{place}: expected {expected:word}; given {given:word}",
            place=_spot(self.place),
            expected=self.expected,
            given=self.given,
        )
        return said("{frame}. {hint:word}", frame=frame, hint=self.hint) if self.hint else frame


class FileError(EvenfaceError):
    """A job, material or log file that cannot be used; holds every complaint found."""

    def __init__(self, complaints: tuple[Complaint, ...] | list[Complaint]) -> None:
        self.complaints = tuple(complaints)
        rows = {f"row{number}": one.sentence for number, one in enumerate(self.complaints)}
        super().__init__(Said("\n".join(f"{{{row}}}" for row in rows), rows))


class MissingWord(EvenfaceError):
    """A name that nothing answers to: a material, a place, a part."""

    def __init__(self, kind: str, given: str, known: list[str] | tuple[str, ...]) -> None:
        self.kind, self.given, self.known = kind, given, tuple(known)
        near = nearest_words(given, known)
        missing = said("no {kind:word} is called {given}.", kind=kind, given=repr(given))
        super().__init__(said("{missing} {near}", missing=missing, near=near) if near else missing)


def nearest_words(given: str, known: list[str] | tuple[str, ...]) -> Sentence:
    """A hint naming the nearest of the known words; all of them when they are few; empty when nothing helps."""
    near = get_close_matches(given, known, n=2, cutoff=0.6)
    if len(near) == 2:
        return said("Did you mean {first} or {second}?", first=repr(near[0]), second=repr(near[1]))
    if near:
        return said("Did you mean {word}?", word=repr(near[0]))
    return known_words(sorted(known)) if 0 < len(known) <= 12 else ""


def known_words(known: Iterable[str]) -> Said:
    """A hint naming every word there is."""
    return said("Known: {words}.", words=", ".join(known))


def one_of(words: Iterable[str]) -> Said:
    """What is expected where only some words may stand."""
    return said("one of {words}", words=", ".join(words))


def all_of(words: Sequence[str]) -> Sentence:
    """What is given where several words stand together."""
    told: Sentence = words[0]
    for word in words[1:]:
        told = said("{some} and {other}", some=told, other=word)
    return told


def in_words(sentence: Sentence, manner: Manner = ENGLISH) -> str:
    """A sentence in the reader's language; a text that has no translation, such as what was typed, as it is."""
    return manner.translate(sentence) if isinstance(sentence, str) else say(sentence, manner)


def parts_of(problem: ValueError) -> tuple[Sentence, Sentence]:
    """What a value was expected to be and what it was; the second is empty where the problem does not tell."""
    if isinstance(problem, Unreadable):
        return problem.expected, problem.given
    text = str(problem)
    if not text.startswith("expected "):
        return text, ""
    expected, _, given = text.removeprefix("expected ").partition(", was given ")
    head, _, typed = given.partition(": ")
    if typed and head[0].isalpha():
        return expected, said("{what:word}: {typed}", what=head, typed=typed)
    return expected, given


def told_of(problem: Complaint | EvenfaceError, manner: Manner = ENGLISH) -> str:
    """What went wrong, in the reader's language; of a file every complaint on a line of its own."""
    return in_words(problem.sentence, manner)


def told_at_entry(complaint: Complaint, manner: Manner = ENGLISH) -> str:
    """A complaint without its place, for the field it belongs to."""
    frame = said(
        "Expected {expected:word}; given {given:word}.", expected=complaint.expected, given=complaint.given
    )
    return f"{say(frame, manner)} {in_words(complaint.hint, manner)}".strip()


def told_of_value(problem: ValueError, manner: Manner = ENGLISH) -> str:
    """Why what was typed into a field is no value for it."""
    expected, given = parts_of(problem)
    if given:
        return say(
            said("Expected {expected:word}, was given {given:word}.", expected=expected, given=given), manner
        )
    return say(said("Expected {expected:word}.", expected=expected), manner)


def _spot(place: Place) -> Said:
    """A place as a sentence: file, line, column, key."""
    file: Sentence = place.file or said("the text")
    spot = said("{file}", file=file)
    if place.line:
        spot = said("{spot}, line {line}", spot=spot, line=str(place.line))
        if place.column:
            spot = said("{spot}, column {column}", spot=spot, column=str(place.column))
    return said("{spot}, {key}", spot=spot, key=place.key) if place.key else spot
