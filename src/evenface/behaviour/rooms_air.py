"""The air on the two faces of a panel, day by day, from the job's place and the kinds of room."""

from functools import lru_cache

from evenface.climate import outdoors, room_kind, room_year
from evenface.climate.indoor import own_room
from evenface.climate.year import USUAL_SPELLS, RoomYear, smooth_year, usual_spells, with_spells
from evenface.mechanics import Climate
from evenface.piece.records import Job, Panel

USUAL_PLACE = "copenhagen"
USUAL_ROOM = "heated-home"


def air_of(job: Job, panel: Panel) -> tuple[RoomYear, RoomYear]:
    """The year above and below a panel. MissingWord for a place or kind of room nobody knows."""
    return year_of(job, panel.climate_top or job.room), year_of(job, panel.climate_bottom or job.room)


def year_of(job: Job, room: str) -> RoomYear:
    """A room's year at the job's place; the maker's own monthly means come before every model."""
    if job.humidity and room == job.room:
        temperature = job.temperature_c or (20.0,) * 12
        smooth = smooth_year(own_room(temperature, job.humidity))
        return with_spells(smooth, usual_spells(smooth, USUAL_SPELLS))
    return _modelled(job.place or USUAL_PLACE, (room or USUAL_ROOM).replace(" ", "-"))


@lru_cache(maxsize=64)
def _modelled(place: str, room: str) -> RoomYear:
    return room_year(outdoors(place), room_kind(room))


def climate_of(year: RoomYear) -> Climate:
    """The air as the mechanics take it."""
    return Climate(year.humidity, year.temperature_c)
