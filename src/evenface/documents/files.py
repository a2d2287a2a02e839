"""Writing a job's papers into a folder, so that a stop at any moment leaves whole files only.

Every file is first written beside its place and flushed; only when all of them lie there are they moved into
place, one after another, `result.json` last. Whoever finds a `result.json` finds the files it names.
"""

import json
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Final

from evenface.documents.layout_files import layout_files
from evenface.documents.packet import packet_pdf
from evenface.documents.parts_csv import parts_text
from evenface.documents.pictures import Pictures, pictures_of
from evenface.documents.plan_file import PLAN, plan_text
from evenface.documents.result_json import result_text
from evenface.documents.template_files import template_files
from evenface.errors import EvenfaceError
from evenface.result import Result
from evenface.words import ENGLISH, Manner, said

RESULT: Final = "result.json"
DRAWINGS: Final = "drawings"
TEMPLATES: Final = "templates"
OURS: Final = {DRAWINGS: (".svg", ".dxf"), TEMPLATES: (".pdf", ".svg", ".dxf")}
"""Folders whose files belong to one result alone, with what we write there."""


class WritingError(EvenfaceError):
    """A file or folder that cannot be written; the text names it and says what to try."""


def papers(result: Result, pictures: Pictures, day: date, manner: Manner = ENGLISH) -> dict[str, bytes]:
    """The content of every file by its name in the folder, `result.json` last."""
    made = {f"{DRAWINGS}/{one.name}.svg": one.svg.encode() for one in pictures}
    made |= {
        f"{TEMPLATES}/{name}": content
        for name, content in template_files(
            result.sketch.templates, day, manner=manner, jigs=result.sketch.jigs
        ).items()
    }
    made |= layout_files(result, pictures, day, DRAWINGS, manner)
    made["parts.csv"] = parts_text(result).encode()
    made[PLAN] = plan_text(result).encode()
    made["packet.pdf"] = packet_pdf(result, pictures, day, manner)
    made[RESULT] = result_text(result, (*made, RESULT)).encode()
    return made


def write_packet(
    result: Result,
    folder: Path,
    day: date,
    manner: Manner = ENGLISH,
    pictures: Pictures | None = None,
) -> tuple[Path, ...]:
    """Write packet, lists, drawings and `result.json`; give their places, that one last.

    pictures : where they are drawn already. Drawings and templates that an earlier `result.json` in the folder
    names and that are no longer made are removed; no other file is touched. WritingError when the folder or a file
    cannot be written: then, and when the writing is interrupted before the first file is in place, the
    folder is as it was.
    """
    drawn = pictures_of(result, manner) if pictures is None else pictures
    return write_files(papers(result, drawn, day, manner), folder)


def write_files(contents: Mapping[str, bytes], folder: Path) -> tuple[Path, ...]:
    """Write files by their names in the folder, all or none; the last one named is put in place last."""
    with _spoken(folder):
        outdated = _outdated(folder, contents) if RESULT in contents else []
        with _beside(contents, folder) as waiting:
            for place in waiting:
                _writable(place)
            for place, beside in waiting.items():
                with _spoken(place):
                    os.replace(beside, place)
        for one in outdated:
            one.unlink(missing_ok=True)
    return tuple(folder / name for name in contents)


@contextmanager
def _beside(contents: Mapping[str, bytes], folder: Path) -> Iterator[dict[Path, Path]]:
    """Every content in a file beside its place; whatever still lies there at the end is removed."""
    waiting: dict[Path, Path] = {}
    try:
        for name, content in contents.items():
            place = folder / name
            with _spoken(place):
                place.parent.mkdir(parents=True, exist_ok=True)
                beside = place.with_name(f".{place.name}.new")
                waiting[place] = beside
                with beside.open("wb") as file:
                    file.write(content)
                    file.flush()
                    os.fsync(file.fileno())
        yield waiting
    finally:
        for beside in waiting.values():
            beside.unlink(missing_ok=True)


def _writable(place: Path) -> None:
    """Raises WritingError for a place taken by a folder, or by a file another program holds open."""
    if place.is_dir():
        raise WritingError(
            said(
                "{place} is a folder; expected to write a file there. Name another folder.", place=str(place)
            )
        )
    if place.exists():
        with _spoken(place), place.open("r+b"):
            pass


def _outdated(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Drawings an earlier result names that are not made any more."""
    try:
        named = json.loads((folder / RESULT).read_text(encoding="utf-8"))["files"]
        names = [PurePosixPath(name) for name in named if isinstance(name, str)]
    except (OSError, ValueError, KeyError, TypeError):
        return []
    return [
        folder / name
        for name in names
        if name.suffix in OURS.get(str(name.parent), ()) and str(name) not in contents
    ]


@contextmanager
def _spoken(place: Path) -> Iterator[None]:
    """Turns what the system says about a place into a sentence."""
    try:
        yield
    except PermissionError as error:
        raise WritingError(
            said(
                "{place} cannot be written: it is open in another program, or belongs to someone else. "
                "Close it, or name another folder.",
                place=str(place),
            )
        ) from error
    except FileExistsError as error:
        raise WritingError(
            said("{place} cannot be made: a file stands where a folder is needed.", place=str(place))
        ) from error
    except OSError as error:
        raise WritingError(
            said("{place} cannot be written: {why}.", place=str(place), why=error.strerror or str(error))
        ) from error
