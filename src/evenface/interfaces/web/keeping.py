"""Changes of a job kept in one step that undo takes back; whoever looked at an older state is told."""

import os
from collections.abc import Sequence
from pathlib import Path

from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.site import Site
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


def _kept(site: Site, job: KeptJob, after: View) -> KeptJob:
    return job if after.text == job.text else site.store.save(job.id, job.version, after.text, after.name)


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
