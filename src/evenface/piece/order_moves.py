"""`[order]` of a job file: steps the maker works at another place than the one derived, and when corners are shaped."""

from dataclasses import dataclass
from typing import Any, Final, Literal

from evenface.errors import Complaint, nearest_words
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.words import said

_EXAMPLE: Final = '[[order.move]] tables such as { step = "1.1-07", after = "1.1-03" }'
_PARTS: Final = ("move", "corners")
_KEYS: Final = ("step", "after", "before")
_MOST: Final = 500

type CornersWhen = Literal["before facing", "after facing"]


@dataclass(frozen=True, slots=True)
class Move:
    """A step worked right after another one, or right before it; one of the two is empty."""

    step: str
    after: str = ""
    before: str = ""
    origin: str = ""

    @property
    def target(self) -> str:
        return self.after or self.before


def moves_in(source: Source, complaints: list[Complaint]) -> tuple[Move, ...]:
    """The moves, in the order of the file; what is no move is a complaint."""
    table = source.data.get("order")
    if table is None:
        return ()
    if not isinstance(table, dict):
        complaints.append(Complaint(source.place("order"), _EXAMPLE, shown(table)))
        return ()
    complaints += [
        Complaint(source.place(f"order.{key}"), "move or corners", repr(key), nearest_words(key, _PARTS))
        for key in table
        if key not in _PARTS
    ]
    entries = table.get("move", [])
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        complaints.append(Complaint(source.place("order.move"), _EXAMPLE, shown(entries)))
        return ()
    if len(entries) > _MOST:
        complaints.append(
            Complaint(source.place("order.move"), said("at most {most} moves", most=_MOST), str(len(entries)))
        )
        return ()
    made = [_move(source, number, one, complaints) for number, one in enumerate(entries)]
    return tuple(move for move in made if move is not None)


def corners_in(source: Source, complaints: list[Complaint]) -> CornersWhen:
    """When corners under a facing that lies over the edging are shaped; before facing where nothing is said."""
    table = source.data.get("order")
    given = table.get("corners", "before facing") if isinstance(table, dict) else "before facing"
    if given == "after facing":
        return "after facing"
    if given != "before facing":
        complaints.append(
            Complaint(source.place("order.corners"), '"before facing" or "after facing"', shown(given))
        )
    return "before facing"


def _move(source: Source, number: int, table: dict[str, Any], complaints: list[Complaint]) -> Move | None:
    origin = f"order.move[{number}]"
    wrong = [
        Complaint(
            source.place(f"{origin}.{key}"), "step, after or before", repr(key), nearest_words(key, _KEYS)
        )
        for key in table
        if key not in _KEYS
    ]
    for key in _KEYS:
        value = table.get(key)
        if key in table and (not isinstance(value, str) or not value.strip()):
            wrong.append(Complaint(source.place(f"{origin}.{key}"), "the name of a step", shown(value)))
    if "step" not in table:
        wrong.append(Complaint(source.place(origin), "the step that is moved: step = …", "none"))
    if ("after" in table) == ("before" in table):
        given = "both" if "after" in table else "neither"
        wrong.append(Complaint(source.place(origin), "after = … or before = …", given))
    if wrong:
        complaints += wrong
        return None
    words = {key: str(value).strip() for key, value in table.items()}
    move = Move(words["step"], words.get("after", ""), words.get("before", ""), origin)
    if move.step == move.target:
        complaints.append(Complaint(source.place(origin), "another step than the one moved", repr(move.step)))
        return None
    return move
