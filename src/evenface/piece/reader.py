"""A job file read into a `Job`: every complaint at once, each with file, line, column and key."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Protocol

from evenface.errors import Complaint, FileError, nearest_words
from evenface.piece.complaining import complaints_of, shown
from evenface.piece.compose import Composer
from evenface.piece.kind import Kind
from evenface.piece.like import resolve_likes
from evenface.piece.records import Job, Made
from evenface.piece.source_text import Source, parse, read_text

FORMAT = 1


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
    Raises FileError: syntax errors one at a time, all other complaints together.
    """
    source = parse(text, file)
    _check_format(source)
    complaints: list[Complaint] = []
    data = resolve_likes(source, complaints)
    form = _validated(source, data, complaints)
    if form is None:
        raise _sorted(complaints)
    composer = Composer(source, known, form, complaints, folder)
    pieces = _pieces(source, data, kinds, complaints)
    job = composer.job(form, pieces)
    if complaints or job is None:
        raise _sorted(complaints)
    return job


def open_made(path: Path) -> Made:
    """Read what was made so far; FileError holding every complaint."""
    return read_made(read_text(path), str(path))


def read_made(text: str, file: str) -> Made:
    """Read the text of a made file."""
    from evenface.piece.compose_made import made_of

    source = parse(text, file)
    _check_format(source)
    complaints: list[Complaint] = []
    form = _validate(source, dict(source.data), "MadeForm", (), complaints)
    if form is None or complaints:
        raise _sorted(complaints)
    return made_of(form)


def _sorted(complaints: list[Complaint]) -> FileError:
    unique = dict.fromkeys(complaints)
    return FileError(sorted(unique, key=lambda one: (one.place.line, one.place.column, one.place.key)))


def _check_format(source: Source) -> None:
    given = source.data.get("format")
    if given == FORMAT and isinstance(given, int) and not isinstance(given, bool):
        return
    newer = isinstance(given, int) and not isinstance(given, bool) and given > FORMAT
    hint = "It was written for a newer evenface." if newer else "Write format = 1 as the first line."
    raise FileError([Complaint(source.place("format"), f"format = {FORMAT}", shown(given), hint)])


def _validated(source: Source, data: dict[str, Any], complaints: list[Complaint]) -> Any:
    return _validate(source, data, "JobForm", (), complaints)


def _validate(
    source: Source, data: object, form_name: str, base: tuple[str | int, ...], complaints: list[Complaint]
) -> Any:
    from evenface.piece import forms

    return _against(source, data, getattr(forms, form_name), base, complaints)


def _against(
    source: Source, data: object, form: type[Any], base: tuple[str | int, ...], complaints: list[Complaint]
) -> Any:
    from pydantic import ValidationError

    try:
        return _adapter(form).validate_python(data)
    except ValidationError as fault:
        errors: Any = fault.errors(include_url=False)
        complaints.extend(complaints_of(errors, source, base, form))
    return None


_ADAPTERS: dict[type[Any], Any] = {}


def _adapter(form: type[Any]) -> Any:
    from pydantic import TypeAdapter

    if form not in _ADAPTERS:
        _ADAPTERS[form] = TypeAdapter(form)
    return _ADAPTERS[form]


def _pieces(
    source: Source, data: Mapping[str, Any], kinds: Mapping[str, Kind], complaints: list[Complaint]
) -> list[tuple[Kind, Any, str]]:
    """Each piece as its kind, its validated form and its key path."""
    out: list[tuple[Kind, Any, str]] = []
    for number, table in enumerate(data["piece"]):
        origin = f"piece[{number}]"
        name = table.get("kind", "panels")
        kind = kinds.get(name) if isinstance(name, str) else None
        if kind is None:
            words = tuple(kinds)
            hint = nearest_words(str(name), words)
            complaints.append(
                Complaint(source.place(f"{origin}.kind"), "one of " + ", ".join(words), shown(name), hint)
            )
            continue
        form = _against(source, table, kind.form(), ("piece", number), complaints)
        if form is not None:
            out.append((kind, form, origin))
    return out
