"""The air on the two faces of a panel, day by day: a logger, own monthly means, or place and kind of room."""

from functools import lru_cache
from pathlib import Path

import numpy as np

from evenface.climate import logged_year, outdoors, read_logger, room_kind, room_year
from evenface.climate.indoor import own_room
from evenface.climate.year import USUAL_SPELLS, RoomYear, smooth_year, usual_spells, with_spells
from evenface.errors import Complaint, FileError, Place
from evenface.mechanics import Climate
from evenface.piece.records import Job, Panel

USUAL_PLACE = "copenhagen"
USUAL_ROOM = "heated-home"


def air_of(job: Job, panel: Panel) -> tuple[RoomYear, RoomYear]:
    """The year above and below a panel. MissingWord for a place or kind of room nobody knows."""
    return year_of(job, panel.climate_top or job.room), year_of(job, panel.climate_bottom or job.room)


def year_of(job: Job, room: str) -> RoomYear:
    """A room's year at the job's place; in the job's own room a logger, then own means, come before models.

    A logger that does not reach over the whole year is filled up with the model's days.
    Raises FileError for a logger's file that cannot be used, MissingWord for an unknown place or room.
    """
    return _year(*_asked(job, room))


def ends_of_year(job: Job, room: str) -> tuple[float, float]:
    """Relative humidity that the driest and the dampest 5 % of a room's days stay beyond. Raises as `year_of`."""
    return _ends(*_asked(job, room))


type _Asked = tuple[Path | tuple[float, ...] | None, int | tuple[float, ...], str, str]
"""A logger's file with its state, own means of humidity and temperature, or None; then place and kind of room."""


def _asked(job: Job, room: str) -> _Asked:
    place, kind = job.place or USUAL_PLACE, (room or USUAL_ROOM).replace(" ", "-")
    if room == job.room and job.logger:
        file = logger_file(job)
        return file, file.stat().st_mtime_ns if file.is_file() else 0, place, kind
    if room == job.room and job.humidity:
        return job.humidity, job.temperature_c or (20.0,) * 12, place, kind
    return None, 0, place, kind


def _year(
    source: Path | tuple[float, ...] | None, state: int | tuple[float, ...], place: str, kind: str
) -> RoomYear:
    if isinstance(source, Path) and isinstance(state, int):
        return _logged(source, state, place, kind)
    if isinstance(source, tuple) and isinstance(state, tuple):
        return _own(source, state)
    return _modelled(place, kind)


@lru_cache(maxsize=64)  # asked for every gap round every front
def _ends(
    source: Path | tuple[float, ...] | None, state: int | tuple[float, ...], place: str, kind: str
) -> tuple[float, float]:
    dry, damp = np.percentile(_year(source, state, place, kind).humidity, (5, 95))
    return float(dry), float(damp)


def logger_file(job: Job) -> Path:
    """The logger's file, which must lie in the job's own folder, not behind a link out of it.

    Raises FileError when it lies elsewhere, or when the job itself does not lie in a folder.
    """
    where = Place(job.file, *job.texts.get("job.logger", (0, 0)), "job.logger")
    if not job.file:
        raise FileError([Complaint(where, "a job saved in a folder, with the log beside it", "a text alone")])
    folder = Path(job.file).resolve().parent
    file = (folder / job.logger).resolve()
    if not file.is_relative_to(folder):
        raise FileError([Complaint(where, "a file in the job's own folder", repr(job.logger))])
    return file


@lru_cache(maxsize=8)
def _logged(file: Path, changed_ns: int, place: str, kind: str) -> RoomYear:
    return logged_year(read_logger(file), _modelled(place, kind))


@lru_cache(maxsize=8)
def _own(humidity: tuple[float, ...], temperature_c: tuple[float, ...]) -> RoomYear:
    smooth = smooth_year(own_room(temperature_c, humidity))
    return with_spells(smooth, usual_spells(smooth, USUAL_SPELLS))


@lru_cache(maxsize=64)
def _modelled(place: str, room: str) -> RoomYear:
    return room_year(outdoors(place), room_kind(room))


def climate_of(year: RoomYear) -> Climate:
    """The air as the mechanics take it."""
    return Climate(year.humidity, year.temperature_c)
