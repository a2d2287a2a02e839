"""What a kind of piece brings: the table of the job file, its reading, and how it is built."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from evenface.construction.ground import Ground
from evenface.construction.placed import Assembly
from evenface.finding import Finding

if TYPE_CHECKING:
    from evenface.construction.records import Construction
    from evenface.piece.compose import Composer


def _nothing(_construction: "Construction", _ground: Ground) -> tuple[Finding, ...]:
    return ()


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of piece.

    name : as written in the job file (`kind = "…"`).
    form : gives the form class (a function, so that pydantic is loaded only when a file is read).
    compose : from the validated form, with the composer of the file and the piece's key path, to the
        description kept in `Piece`; what does not fit is a complaint of the composer's.
    build : from the description, with what it stands on (thicknesses, woods, the room), to its parts, where
        they stand, joints, gaps and fittings. A problem with the piece is a finding, never an exception.
    check : what only this kind can say of the finished construction.
    """

    name: str
    form: Callable[[], type[Any]]
    compose: Callable[[Any, "Composer", str], object]
    build: Callable[[Any, Ground], Assembly]
    check: Callable[["Construction", Ground], tuple[Finding, ...]] = _nothing
