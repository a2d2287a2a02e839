"""Jobs and their revisions. Every revision is the whole text, so nothing that reads it can lose any of it."""

import secrets
import sqlite3
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from evenface.errors import EvenfaceError
from evenface.store.schema import StoreError, connect
from evenface.words import said

STROKE_S: Final = 4
"""Typing into one field with shorter rests than this is one edit for undo."""


@dataclass(frozen=True, slots=True)
class KeptJob:
    """A job as it stands.

    version : grows with every edit, undo and redo. file : where it was opened from, or None.
    seen : the file's digest when it was last read or written here. text : the whole job file.
    """

    id: int
    name: str
    version: int
    text: str
    file: Path | None
    seen: str
    can_undo: bool
    can_redo: bool


class NoSuchJob(EvenfaceError):
    """No job has that number."""


class Stale(EvenfaceError):
    """An edit was made against a state that is no longer the newest; `newest` is the one that stands."""

    def __init__(self, newest: KeptJob) -> None:
        self.newest = newest
        super().__init__("The job was changed in another window meanwhile.")


_ROW = """
    SELECT job.id, job.name, job.version, head.text, job.file, job.seen,
        head.parent IS NOT NULL, EXISTS (SELECT 1 FROM revision AS next WHERE next.parent = job.head)
    FROM job JOIN revision AS head ON head.id = job.head
"""


class JobStore:
    """All jobs in one folder; may be used from several threads and by several processes."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._base = connect(folder)
        self._lock = threading.RLock()

    def close(self) -> None:
        """Close the file; what was written stands."""
        with self._lock:
            self._base.close()

    def jobs(self, gone: bool = False) -> tuple[KeptJob, ...]:
        """Every job, the last used first; with gone=True those that were put away instead."""
        question = _ROW + " WHERE job.gone = ? ORDER BY job.used DESC, job.id DESC"
        with self._lock:
            rows = self._base.execute(question, (int(gone),)).fetchall()
        return tuple(_kept(row) for row in rows)

    def changed(self) -> dict[int, datetime]:
        """When each job was last written, by its number; with the zone of the world's time."""
        with self._lock:
            rows = self._base.execute("SELECT job, max(made_at) FROM revision GROUP BY job").fetchall()
        return {number: datetime.fromisoformat(made).replace(tzinfo=UTC) for number, made in rows}

    def job(self, number: int) -> KeptJob:
        """The job of that number. Raises NoSuchJob."""
        with self._lock:
            row = self._base.execute(_ROW + " WHERE job.id = ?", (number,)).fetchone()
        if row is None:
            raise NoSuchJob(said("There is no job with the number {number}.", number=number))
        return _kept(row)

    def by_file(self, file: Path) -> KeptJob | None:
        """The job that was opened from this file."""
        with self._lock:
            row = self._base.execute(_ROW + " WHERE job.file = ? AND NOT job.gone", (str(file),)).fetchone()
        return None if row is None else _kept(row)

    def add(self, name: str, text: str, file: Path | None = None, seen: str = "") -> KeptJob:
        """A new job with its first revision."""
        with self._writing() as base:
            made = base.execute(
                "INSERT INTO job (name, file, seen) VALUES (?, ?, ?)", (name, file and str(file), seen)
            )
            number = made.lastrowid
            first = base.execute("INSERT INTO revision (job, text) VALUES (?, ?)", (number, text)).lastrowid
            base.execute("UPDATE job SET head = ? WHERE id = ?", (first, number))
        assert number is not None  # an INSERT that succeeded has a row
        return self.use(number)

    def save(
        self, number: int, version: int, text: str, name: str | None = None, stroke: str = ""
    ) -> KeptJob:
        """The text as the newest revision, after the one that stands. Raises Stale.

        stroke : what is being typed into. A revision of the same stroke, not older than `STROKE_S`, is
        replaced, so that undo takes back a number and not its last figure.
        """
        with self._writing() as base:
            head = self._checked(number, version)
            before = _same_stroke(base, head, stroke)
            made = base.execute(
                "INSERT INTO revision (job, parent, text, stroke) VALUES (?, ?, ?, ?)",
                (number, head if before is None else before, text, stroke),
            )
            base.execute(
                "UPDATE job SET head = ?, version = version + 1, name = coalesce(?, name) WHERE id = ?",
                (made.lastrowid, name, number),
            )
            if before is not None:
                base.execute("DELETE FROM revision WHERE id = ?", (head,))
        return self.job(number)

    def undo(self, number: int, version: int) -> KeptJob:
        """Back to the revision before; as it was when there is none. Raises Stale."""
        return self._move(number, version, "SELECT parent FROM revision WHERE id = ?")

    def redo(self, number: int, version: int) -> KeptJob:
        """Forward to the newest revision made after this one. Raises Stale."""
        return self._move(number, version, "SELECT max(id) FROM revision WHERE parent = ?")

    def _move(self, number: int, version: int, question: str) -> KeptJob:
        with self._writing() as base:
            head = self._checked(number, version)
            (target,) = base.execute(question, (head,)).fetchone()
            if target is not None:
                base.execute("UPDATE job SET head = ?, version = version + 1 WHERE id = ?", (target, number))
                base.execute("UPDATE revision SET stroke = '' WHERE id IN (?, ?)", (head, target))
            base.execute("DELETE FROM pending WHERE job = ?", (number,))
        return self.job(number)

    def beside(self, number: int, way: str) -> str | None:
        """The text that "undo" or "redo" would bring; None where there is none. Raises NoSuchJob."""
        self.job(number)
        which = "head.parent" if way == "undo" else "(SELECT max(id) FROM revision WHERE parent = head.id)"
        question = (
            "SELECT other.text FROM job JOIN revision AS head ON head.id = job.head "
            f"JOIN revision AS other ON other.id = {which} WHERE job.id = ?"
        )
        with self._lock:
            row = self._base.execute(question, (number,)).fetchone()
        return None if row is None else str(row[0])

    def pending(self, number: int) -> dict[str, str]:
        """What was typed and could not be kept yet, by key path."""
        with self._lock:
            rows = self._base.execute("SELECT path, typed FROM pending WHERE job = ?", (number,)).fetchall()
        return dict(rows)

    def set_pending(self, number: int, typed: Mapping[str, str | None]) -> None:
        """Keep what was typed; None forgets it. Nothing is written where nothing changes."""
        known = self.pending(number)
        changed = {path: new for path, new in typed.items() if known.get(path) != new}
        if not changed:
            return
        with self._writing() as base:
            for path, new in changed.items():
                if new is None:
                    base.execute("DELETE FROM pending WHERE job = ? AND path = ?", (number, path))
                else:
                    base.execute("INSERT OR REPLACE INTO pending VALUES (?, ?, ?)", (number, path, new))

    def put_away(self, number: int, away: bool = True) -> KeptJob:
        """Take the job from the list, or bring it back; nothing of it is lost. Raises NoSuchJob."""
        job = self.job(number)
        with self._writing() as base:
            base.execute("UPDATE job SET gone = ? WHERE id = ?", (int(away), number))
        return job

    def note_file(self, number: int, seen: str) -> None:
        """The digest of the job's file, just read or written."""
        with self._writing() as base:
            base.execute("UPDATE job SET seen = ? WHERE id = ?", (seen, number))

    def use(self, number: int) -> KeptJob:
        """Put the job first in the list."""
        with self._writing() as base:
            base.execute("UPDATE job SET used = 1 + (SELECT max(used) FROM job) WHERE id = ?", (number,))
        return self.job(number)

    def secret(self) -> str:
        """A random word of this folder, the same after a restart: the pages' proof that they are ours."""
        with self._writing() as base:
            base.execute("INSERT OR IGNORE INTO setting VALUES ('secret', ?)", (secrets.token_urlsafe(32),))
            (word,) = base.execute("SELECT value FROM setting WHERE name = 'secret'").fetchone()
        return str(word)

    def _checked(self, number: int, version: int) -> int:
        row = self._base.execute("SELECT head, version FROM job WHERE id = ?", (number,)).fetchone()
        if row is None:
            raise NoSuchJob(said("There is no job with the number {number}.", number=number))
        if row[1] != version:
            raise Stale(self.job(number))
        return int(row[0])

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """All of it or nothing. Raises StoreError when the disc is full or locked."""
        with self._lock:
            try:
                self._base.execute("BEGIN IMMEDIATE")
                yield self._base
                self._base.execute("COMMIT")
            except sqlite3.Error as problem:
                self._roll_back()
                raise StoreError(
                    said("The job could not be kept: {problem}. Nothing was changed.", problem=str(problem))
                ) from problem
            except BaseException:
                self._roll_back()
                raise

    def _roll_back(self) -> None:
        if self._base.in_transaction:
            self._base.execute("ROLLBACK")


def _same_stroke(base: sqlite3.Connection, head: int, stroke: str) -> int | None:
    """What came before the head, when the head is an unfinished number of the same field."""
    if not stroke:
        return None
    row = base.execute(
        "SELECT parent FROM revision WHERE id = ? AND stroke = ? AND parent IS NOT NULL "
        "AND made_at >= datetime('now', ?) "
        "AND NOT EXISTS (SELECT 1 FROM revision AS next WHERE next.parent = ?)",
        (head, stroke, f"-{STROKE_S} seconds", head),
    ).fetchone()
    return None if row is None else int(row[0])


def _kept(row: tuple[int, str, int, str, str | None, str, int, int]) -> KeptJob:
    number, name, version, text, file, seen, undo, redo = row
    return KeptJob(number, name, version, text, Path(file) if file else None, seen, bool(undo), bool(redo))
