"""A job opened from text, beside the file it came from: what a variant or a remedy would make of it."""

from dataclasses import replace
from pathlib import Path

from evenface.construction.kinds import KINDS
from evenface.errors import Complaint, FileError, Place
from evenface.finding import Change
from evenface.job.opening import Opened
from evenface.piece.editing import apply_changes
from evenface.piece.reader import read_source
from evenface.piece.source_text import parse, read_text


def text_of(opened: Opened) -> str:
    """The text of the job's file. Raises FileError for a job that has none."""
    if not opened.job.file or not Path(opened.job.file).is_file():
        raise FileError(
            [
                Complaint(
                    Place(opened.job.file), "a job that lies in a file", "one that does not", "Keep it first."
                )
            ]
        )
    return read_text(Path(opened.job.file))


def changed(opened: Opened, changes: tuple[Change, ...], text: str | None = None) -> Opened:
    """The job with entries set differently; nothing is kept. Raises FileError where that is no job any more.

    text : the job's text; default: that of its file. What was made so far and the catalogue stay.
    """
    words = apply_changes(text if text is not None else text_of(opened), changes, opened.job.file)
    source = parse(words, opened.job.file)
    folder = Path(opened.job.file).parent if opened.job.file else None
    return replace(opened, job=read_source(source, opened.catalogue, KINDS, folder))
