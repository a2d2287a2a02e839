"""Changes of a job kept in one step that undo takes back; whoever looked at an older state is told."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from evenface.errors import EvenfaceError
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.site import Site, digest, file_state
from evenface.piece.editing import edited
from evenface.store import KeptJob, Stale


def keep_changes(site: Site, job: KeptJob, version: int, changes: Sequence[Change]) -> KeptJob:
    """The job with those entries set, when it is still as it was seen.

    version : of the job when the maker looked. Raises Stale, FileError where it could not be read any more.
    """
    if version != job.version:
        raise Stale(job)
    return _kept(site, job, site.desk.change(job, changes, flat=False))


def keep_text(site: Site, job: KeptJob, version: int, text: str) -> KeptJob:
    """The job with that text in its place, under the same conditions."""
    if version != job.version:
        raise Stale(job)
    return _kept(site, job, site.desk.look(job, text, flat=False))


def keep_edited(site: Site, job: KeptJob, version: int, edit: Callable[[Any], None]) -> KeptJob:
    """The job after an edit of its tables, made as `editing.edited` says, under the same conditions."""
    return keep_text(site, job, version, edited(job.text, edit))


def _kept(site: Site, job: KeptJob, after: View) -> KeptJob:
    return job if after.text == job.text else site.store.save(job.id, job.version, after.text, after.name)


class Undecided(EvenfaceError):
    """The maker has to say first what is wanted."""


def keep_from_file(site: Site, job: KeptJob, version: int) -> KeptJob:
    """The job as its file says it now. Raises Undecided, Stale, FileError, OSError, UnicodeDecodeError."""
    content = _file_of(job).read_bytes()
    kept = keep_text(site, job, version, content.decode())
    site.store.note_file(job.id, digest(content))
    return kept


def write_to_file(site: Site, job: KeptJob, over: bool) -> None:
    """The job written to its file; over : also where that was changed outside. Raises Undecided, OSError."""
    file, content = _file_of(job), job.text.encode()
    if file_state(job) == "theirs" and not over:
        raise Undecided("The file was changed outside. Say which one stands.")
    write_whole(file, content)
    site.store.note_file(job.id, digest(content))


def _file_of(job: KeptJob) -> Path:
    if job.file is None:
        raise Undecided("This job has no file. Copy the text to keep it elsewhere.")
    return job.file


def folder_of(site: Site, job: KeptJob) -> Path:
    """Where prices, times and papers of a job lie: beside its file, else in the app's own folder."""
    return job.file.parent if job.file is not None else site.store.folder


def write_whole(file: Path, content: bytes) -> None:
    """Whole or not at all: written beside, flushed, put in place. Raises OSError."""
    beside = file.with_name(f".{file.name}.{os.getpid()}")
    try:
        with beside.open("wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        beside.replace(file)
    finally:
        beside.unlink(missing_ok=True)
