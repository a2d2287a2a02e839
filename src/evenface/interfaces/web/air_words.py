"""How places, rooms and months are said where one of them is chosen: by name or meaning, not by the file's word."""

from evenface.climate import outdoors, place_names, room_kind, room_kind_names
from evenface.words import Manner


def place_words() -> tuple[str, ...]:
    """Names of the places, in the order of `place_names`."""
    return tuple(outdoors(one).name for one in place_names())


def room_words(manner: Manner) -> tuple[str, ...]:
    """What each kind of room is, in the order of `room_kind_names`."""
    return tuple(manner.translate(room_kind(one).meaning) for one in room_kind_names())


def month_words(months: tuple[str, ...], manner: Manner) -> tuple[str, ...]:
    """Months as the reader's language writes them: with a capital in English only."""
    said = (manner.translate(one) for one in months)
    return tuple(one.capitalize() if manner.language == "en" else one for one in said)
