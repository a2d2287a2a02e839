"""The database file: where it lies, how it is opened, and the numbered steps that shape it."""

import os
import sqlite3
from pathlib import Path
from typing import Final

from evenface.errors import EvenfaceError
from evenface.words import said

FILE: Final = "evenface.sqlite3"
STEPS: Final = (
    """
    CREATE TABLE job (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL,
        file TEXT,
        seen TEXT NOT NULL DEFAULT '',
        head INTEGER REFERENCES revision(id) DEFERRABLE INITIALLY DEFERRED,
        version INTEGER NOT NULL DEFAULT 0,
        used INTEGER NOT NULL DEFAULT 0
    ) STRICT;
    CREATE TABLE revision (
        id INTEGER PRIMARY KEY,
        job INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
        parent INTEGER REFERENCES revision(id),
        text TEXT NOT NULL,
        made_at TEXT NOT NULL DEFAULT (datetime('now'))
    ) STRICT;
    CREATE INDEX revision_parent ON revision(parent);
    CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
    """,
    """
    ALTER TABLE job ADD COLUMN gone INTEGER NOT NULL DEFAULT 0;
    ALTER TABLE revision ADD COLUMN stroke TEXT NOT NULL DEFAULT '';
    CREATE TABLE pending (
        job INTEGER NOT NULL REFERENCES job(id) ON DELETE CASCADE,
        path TEXT NOT NULL,
        typed TEXT NOT NULL,
        PRIMARY KEY (job, path)
    ) STRICT;
    """,
)
"""Each step brings the file from its place in the list to the next; a step once published never changes."""


class StoreError(EvenfaceError):
    """The data folder or its file cannot be used; the text says which and what to try."""


def data_folder() -> Path:
    """`EVENFACE_HOME` where it is set, else the place the system keeps for such data."""
    own = os.environ.get("EVENFACE_HOME")
    if own:
        return Path(own).expanduser()
    from platformdirs import user_data_path

    return user_data_path("evenface", appauthor=False)


def connect(folder: Path) -> sqlite3.Connection:
    """The file in that folder, made when missing, brought to the newest step.

    Raises StoreError when it cannot be written, is no database, or comes from a newer evenface.
    """
    place = folder / FILE
    try:
        folder.mkdir(parents=True, exist_ok=True)
        base = sqlite3.connect(place, timeout=5.0, isolation_level=None, check_same_thread=False)
    except (OSError, sqlite3.Error) as problem:
        raise _unusable(place, problem) from problem
    try:
        _set_up(base, place)
    except sqlite3.Error as problem:
        base.close()
        raise _unusable(place, problem) from problem
    except StoreError:
        base.close()
        raise
    return base


def _set_up(base: sqlite3.Connection, place: Path) -> None:
    base.execute("PRAGMA journal_mode = WAL")
    base.execute("PRAGMA synchronous = FULL")
    base.execute("PRAGMA foreign_keys = ON")
    base.execute("BEGIN IMMEDIATE")
    (step,) = base.execute("PRAGMA user_version").fetchone()
    if step > len(STEPS):
        base.execute("ROLLBACK")
        raise StoreError(
            said(
                "{place} was written by a newer evenface (step {step}, this one knows {count}). "
                "Update evenface, or set EVENFACE_HOME to another folder.",
                place=str(place),
                step=step,
                count=len(STEPS),
            )
        )
    for statements in STEPS[step:]:
        for statement in filter(str.strip, statements.split(";")):
            base.execute(statement)
    base.execute(f"PRAGMA user_version = {len(STEPS)}")
    base.execute("COMMIT")


def _unusable(place: Path, problem: Exception) -> StoreError:
    return StoreError(
        said(
            "Expected to keep jobs in {place}, but it cannot be used: {problem}. "
            "Make that folder writable, or set EVENFACE_HOME to one that is.",
            place=str(place),
            problem=str(problem),
        )
    )
