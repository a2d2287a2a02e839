"""What a piece must bear, as it is written in a job: `heat = "must: hot pots"`, `touch = "wish"`, `touch = 2`."""

from collections.abc import Mapping
from typing import Any, Final

from evenface.errors import Complaint, FileError, MissingWord, Place, known_words, nearest_words, one_of
from evenface.materials.traits import Need, traits
from evenface.piece.brief_records import Asked, Brief
from evenface.words import said

MOST_WEIGHT: Final = 100.0
USES: Final = ("top", "shelf", "door", "front", "side", "panel")
_EXAMPLE: Final = '"must", "must: LEVEL", "wish" or a weight such as 2'


def named_brief(name: str) -> Brief:
    """The brief of a use with a name, such as "wet bench". MissingWord, naming the nearest."""
    uses = traits().uses
    if name not in uses:
        raise MissingWord("use", name, tuple(uses))
    return brief_of(uses[name], lambda key: Place("choice.toml", key=f"use.{name}.{key}"), name)


def brief_of(table: Mapping[str, Any], place: Any, name: str = "") -> Brief:
    """A brief as written. place : from a key to its place. Raises FileError with every complaint."""
    complaints: list[Complaint] = []
    asked: list[Asked] = []
    base = Brief()
    use = table.get("use", "")
    for key, given in table.items():
        if key == "use":
            if given not in USES:
                complaints.append(Complaint(place(key), one_of(USES), repr(given)))
        elif key == "for":
            try:
                base = named_brief(given if isinstance(given, str) else repr(given))
            except MissingWord as fault:
                complaints.append(
                    Complaint(place(key), "a use with a name", repr(given), known_words(fault.known))
                )
        elif key not in traits().needs:
            words = (*traits().needs, "use", "for")
            hint = nearest_words(key, words) or known_words(words)
            complaints.append(Complaint(place(key), "a known need", repr(key), hint))
        else:
            _add(traits().needs[key], given, asked, complaints, place(key))
    if complaints:
        raise FileError(complaints)
    made = Brief(tuple(asked), use or base.use, name or base.for_)
    return made.over(base)


def _add(need: Need, given: Any, asked: list[Asked], complaints: list[Complaint], at: Place) -> None:
    if isinstance(given, int | float) and not isinstance(given, bool):
        if 0.0 < given <= MOST_WEIGHT:
            asked.append(Asked(need.name, need.level(), float(given)))
        else:
            complaints.append(
                Complaint(
                    at,
                    said("a weight above 0 and at most {most:g}", most=MOST_WEIGHT),
                    str(given),
                )
            )
        return
    how, _, level = (given if isinstance(given, str) else "").partition(":")
    word = level.strip()
    if how.strip() not in ("must", "wish") or (how.strip() == "wish" and word):
        complaints.append(Complaint(at, _EXAMPLE, repr(given)[:80]))
    elif word and word not in need.levels:
        hint = nearest_words(word, tuple(need.levels))
        complaints.append(Complaint(at, one_of(need.levels), repr(word), hint))
    else:
        asked.append(
            Asked(need.name, need.level(word), None if how.strip() == "must" else 1.0, word or need.usual)
        )
