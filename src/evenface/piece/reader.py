"""A job file read into a `Job`: every complaint at once, each with file, line, column and key."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Protocol

from evenface.errors import Complaint, FileError, nearest_words, one_of
from evenface.piece.compose import Composer
from evenface.piece.kind import Kind
from evenface.piece.like import resolve_likes
from evenface.piece.records import Job, Made
from evenface.piece.showing import shown
from evenface.piece.source_text import Source, parse, read_text
from evenface.piece.tables import against, read_tables
from evenface.words import said

FORMAT = 1
MOST_COMPLAINTS = 50


class Known(Protocol):
    """What reading asks of the catalogue."""

    def names(self, kind: str) -> tuple[str, ...]: ...


def open_job(path: Path, known: Known, kinds: Mapping[str, Kind]) -> Job:
    """Read a job file. Raises FileError holding every complaint; see `read_job`."""
    return read_job(read_text(path), str(path), known, kinds, path.parent)


def read_job(
    text: str, file: str, known: Known, kinds: Mapping[str, Kind], folder: Path | None = None
) -> Job:
    """Read the text of a job file.

    known : the names of materials. kinds : the kinds of piece by name. folder : where files named in the job
    lie; None refuses them.
    Raises FileError: syntax errors one at a time, all other complaints together (the first fifty).
    """
    return read_source(parse(text, file), known, kinds, folder)


def read_source(source: Source, known: Known, kinds: Mapping[str, Kind], folder: Path | None = None) -> Job:
    """Read a job that is parsed already; see `read_job`."""
    check_format(source)
    complaints: list[Complaint] = []
    data = resolve_likes(source, complaints)
    tables = read_tables(source, data, complaints)
    composer = Composer(source, known, tables, complaints, folder)
    pieces = _pieces(source, data, kinds, complaints)
    job = composer.job(pieces)
    if complaints or job is None:
        raise gathered(source, complaints)
    return job


def open_made(path: Path, job: Job | None = None, known: Known | None = None) -> Made:
    """Read what was made so far; with the job and the catalogue its names are looked up in them too."""
    return read_made(read_text(path), str(path), job, known)


def read_made(text: str, file: str, job: Job | None = None, known: Known | None = None) -> Made:
    """Read the text of a made file. Raises FileError holding every complaint."""
    from evenface.piece.compose_made import made_of
    from evenface.piece.forms import MadeForm

    source = parse(text, file)
    check_format(source)
    complaints: list[Complaint] = []
    form = against(source, dict(source.data), MadeForm, (), complaints)
    made = made_of(form, source, complaints, job, known) if form is not None else None
    if complaints or made is None:
        raise gathered(source, complaints)
    return made


def gathered(source: Source, complaints: list[Complaint]) -> FileError:
    """All complaints in the order of the file, each once; past fifty only how many more there are."""
    every = list(dict.fromkeys(complaints))
    more = len(every) - MOST_COMPLAINTS
    # the first found come first: what a slip drags after it may be left out, not the slip
    unique = sorted(
        every[:MOST_COMPLAINTS], key=lambda one: (one.place.line, one.place.column, one.place.key)
    )
    if more > 0:
        rest = Complaint(
            source.place(""), "a file without slips", said("{more} more complaints than are shown", more=more)
        )
        unique.append(rest)
    return FileError(unique)


def check_format(source: Source) -> None:
    given = source.data.get("format")
    number = isinstance(given, int) and not isinstance(given, bool)
    if number and given == FORMAT:
        return
    newer = isinstance(given, int) and number and given > FORMAT
    hint = "It was written for a newer evenface." if newer else "Write format = 1 as the first line."
    raise FileError([Complaint(source.place("format"), f"format = {FORMAT}", shown(given), hint)])


def _pieces(
    source: Source, data: Mapping[str, Any], kinds: Mapping[str, Kind], complaints: list[Complaint]
) -> list[tuple[Kind, Any, str]]:
    """Each piece as its kind, its validated form and its key path."""
    entries = data.get("piece")
    if not isinstance(entries, list) or not entries or not all(isinstance(one, dict) for one in entries):
        complaints.append(Complaint(source.place("piece"), "at least one [[piece]]", shown(entries)))
        return []
    out: list[tuple[Kind, Any, str]] = []
    for number, table in enumerate(entries):
        origin = f"piece[{number}]"
        name = table.get("kind", "panels")
        kind = kinds.get(name) if isinstance(name, str) else None
        if kind is None:
            words = tuple(kinds)
            hint = nearest_words(name, words) if isinstance(name, str) else ""
            complaints.append(Complaint(source.place(f"{origin}.kind"), one_of(words), shown(name), hint))
            continue
        form = against(source, table, kind.form(), ("piece", number), complaints)
        if form is not None:
            out.append((kind, form, origin))
    return out
