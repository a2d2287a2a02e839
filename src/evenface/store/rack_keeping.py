"""What lies beside the tables: a backup in one file, and photos, which only the rack itself names."""

import os
import shutil
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Final

import sqlalchemy as sa

from evenface.store.rack_base import FILE, open_engine, reading, writing
from evenface.store.rack_records import RackError, RackItem
from evenface.store.rack_tables import IN_ORDER
from evenface.words import said

PHOTOS: Final = "photos"
LARGEST_PHOTO: Final = 20_000_000
_KINDS: Final = {b"\xff\xd8\xff": ".jpg", b"\x89PNG\r\n\x1a\n": ".png"}


def back_up(engine: sa.Engine, data: Path, folder: Path, now: datetime) -> Path:
    """The whole rack as one SQLite file in a new folder inside `folder`, the photos beside it; gives that folder.

    It is looked at before it gets its name. To go back, put its files into an empty data folder.
    Raises RackError where it cannot be written.
    """
    place = folder / f"rack-{now:%Y-%m-%d-%H%M%S}"
    beside = folder / f".{place.name}.new"
    try:
        if place.exists():
            raise RackError(said("{place} is there already; nothing was written.", place=str(place)))
        shutil.rmtree(beside, ignore_errors=True)
        beside.mkdir(parents=True)
        copy = beside / FILE
        if engine.dialect.name == "sqlite":
            _copy_of_file(engine, copy)
        else:
            _copy_of_rows(engine, copy)
        _look_at(copy)
        if (data / PHOTOS).is_dir():
            shutil.copytree(data / PHOTOS, beside / PHOTOS)
        os.replace(beside, place)
    except (OSError, sqlite3.Error, sa.exc.SQLAlchemyError) as problem:
        raise RackError(
            said(
                "The rack could not be backed up to {place}: {problem}. Name another folder.",
                place=str(place),
                problem=str(problem),
            )
        ) from problem
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return place


def _copy_of_file(engine: sa.Engine, copy: Path) -> None:
    with closing(engine.raw_connection()) as base:
        base.cursor().execute("VACUUM INTO ?", (str(copy),))
    with copy.open("r+b") as file:
        os.fsync(file.fileno())


def _copy_of_rows(engine: sa.Engine, copy: Path) -> None:
    """From a server: every row, read at one moment, into a file of the same shape."""
    made = open_engine(f"sqlite:///{copy}")
    with reading(engine) as source, writing(made) as target:
        for table in IN_ORDER:
            columns = list(table.primary_key.columns)
            rows = [dict(row) for row in source.execute(sa.select(table).order_by(*columns)).mappings()]
            if rows:
                target.execute(sa.insert(table), rows)
    with closing(made.raw_connection()) as base:
        base.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")
    made.dispose()


def _look_at(copy: Path) -> None:
    with closing(sqlite3.connect(copy)) as base:
        (told,) = base.execute("PRAGMA integrity_check").fetchone()
        broken = base.execute("PRAGMA foreign_key_check").fetchall()
    if told != "ok" or broken:
        raise RackError(
            said(
                "The copy {copy} is damaged ({told}); nothing was kept of it. Look at the disc.",
                copy=str(copy),
                told=told,
            )
        )


def keep_photo(data: Path, code: str, source: Path) -> str:
    """Copy a picture into the data folder under a name of our own; gives that name, for `correct(photo=...)`.

    Only JPEG and PNG of at most 20 MB. Raises RackError. An earlier photo of the item stays, for undo.
    """
    try:
        size = source.stat().st_size
        if size > LARGEST_PHOTO:
            raise RackError(
                said(
                    "{source}: expected at most {most} MB, was given {size:.1f} MB",
                    source=str(source),
                    most=LARGEST_PHOTO // 1000000,
                    size=size / 1e6,
                )
            )
        content = source.read_bytes()
    except OSError as problem:
        raise RackError(
            said("{source} cannot be read: {why}.", source=str(source), why=problem.strerror or str(problem))
        ) from problem
    ending = next((ending for head, ending in _KINDS.items() if content.startswith(head)), None)
    if ending is None:
        raise RackError(said("{source}: expected a JPEG or PNG picture", source=str(source)))
    folder = data / PHOTOS
    try:
        folder.mkdir(parents=True, exist_ok=True)
        number = 1
        while (folder / f"{code}-{number}{ending}").exists():
            number += 1
        place = folder / f"{code}-{number}{ending}"
        beside = place.with_suffix(".new")
        beside.write_bytes(content)
        os.replace(beside, place)
    except OSError as problem:
        raise RackError(
            said(
                "{folder} cannot be written: {why}.", folder=str(folder), why=problem.strerror or str(problem)
            )
        ) from problem
    return place.name


def photo_place(data: Path, item: RackItem) -> Path | None:
    """Where the photo of an item lies, inside the data folder and nowhere else; None where there is none."""
    if not item.photo:
        return None
    folder = (data / PHOTOS).resolve()
    place = (folder / item.photo).resolve()
    if place.parent != folder or not place.is_file():
        return None
    return place
