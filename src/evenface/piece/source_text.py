"""From a file on disk to plain data with places: everything that can be wrong before a key is looked at."""

import contextlib
import stat
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import tomlrt

from evenface.errors import Complaint, FileError, Place, Sentence
from evenface.piece.toml_faults import toml_fault
from evenface.toml_places import place_of, places, too_deep
from evenface.words import said

LARGEST_BYTES: Final = 2_000_000


@dataclass(frozen=True, slots=True)
class Source:
    """A parsed file: its name, its data, and where each key path stands."""

    file: str
    data: Mapping[str, Any]
    found: Mapping[str, tuple[int, int]]

    def place(self, path: str) -> Place:
        """The place of a key path, or of the nearest table around it."""
        line, column = place_of(path, self.found)
        return Place(self.file, line, column, path)

    def entry(self, path: str, number: int) -> str:
        """Key path of an entry that may be written as one table or as a list of tables."""
        numbered = f"{path}[{number}]"
        return numbered if numbered in self.found or path not in self.found else path


def read_text(path: Path) -> str:
    """The text of a file; FileError when there is none, it is over 2 MB, or it is not UTF-8."""

    def refused(expected: Sentence, given: Sentence, hint: Sentence = "", line: int = 0) -> FileError:
        return FileError([Complaint(Place(str(path), line), expected, given, hint)])

    try:
        if path.is_dir():
            raise refused("a job file", "a folder", "Name the .toml file inside it.")
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise refused("a file", "something else, such as a pipe")
        size = status.st_size
        if size > LARGEST_BYTES:
            raise refused(
                "a file of at most 2 MB",
                said("{size:.1f} MB", size=size / 1e6),
                "Is this the right file?",
            )
        raw = path.read_bytes()
    except FileNotFoundError:
        raise refused("a job file", "nothing of that name", "Check the spelling and the folder.") from None
    except PermissionError:
        raise refused("a file that may be read", "one without that permission") from None
    except (OSError, ValueError) as fault:
        raise refused("a job file", str(fault)) from None
    return decoded(raw, str(path))


def decoded(raw: bytes, file: str) -> str:
    """UTF-8 text of bytes; FileError naming the line of the first byte that is not."""
    if len(raw) > LARGEST_BYTES:
        raise FileError(
            [
                Complaint(
                    Place(file),
                    "a file of at most 2 MB",
                    said("{size:.1f} MB", size=len(raw) / 1e6),
                )
            ]
        )
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as fault:
        line = raw.count(b"\n", 0, fault.start) + 1
        complaint = Complaint(
            Place(file, line),
            "text in UTF-8",
            said("byte 0x{byte:02x}", byte=raw[fault.start]),
            "Save the file as UTF-8.",
        )
        raise FileError([complaint]) from None


def parse(text: str, file: str) -> Source:
    """The data of a TOML text with its places; FileError with line and column for a syntax error."""
    return Source(file, _data_of(text, file), places(text.removeprefix("\ufeff")))


def _data_of(text: str, file: str) -> dict[str, Any]:
    """The data alone. Where nothing is to be edited the plain reader does, in half the time; what it will not
    read, the editing one reads or says what is wrong with."""
    plain = text.removeprefix("\ufeff")
    if len(plain) <= LARGEST_BYTES and too_deep(plain) is None:
        with contextlib.suppress(tomllib.TOMLDecodeError, ValueError, RecursionError, OverflowError):
            return tomllib.loads(plain)
    return document_of(text, file).to_dict()


def document_of(text: str, file: str) -> tomlrt.Document:
    """A TOML text to be edited; FileError with line and column for a syntax error."""
    text = text.removeprefix("\ufeff")  # some editors put a mark at the head
    if len(text) > LARGEST_BYTES:
        raise FileError(
            [
                Complaint(
                    Place(file),
                    "a text of at most 2 MB",
                    said("{size:.1f} MB", size=len(text) / 1e6),
                )
            ]
        )
    deep = too_deep(text)
    if deep is not None:
        raise _syntax(file, *deep, "keys at most 20 dots deep", "a deeper one")
    try:
        return tomlrt.loads(text)
    except tomlrt.TOMLParseError as fault:
        raise _syntax(file, fault.line, fault.col, "TOML", toml_fault(str(fault).split("\n")[0])) from None
    except (tomlrt.TOMLError, ValueError, RecursionError, OverflowError) as fault:
        raise _syntax(
            file, 0, 0, "TOML", toml_fault(str(fault).split("\n")[0][:200] or type(fault).__name__)
        ) from None


def _syntax(file: str, line: int, column: int, expected: str, given: Sentence) -> FileError:
    return FileError([Complaint(Place(file, line, column), expected, given)])
