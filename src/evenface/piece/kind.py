"""What a kind of piece brings: the form of its table, and how the form becomes its description and panels."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from evenface.piece.records import Panel

if TYPE_CHECKING:
    from evenface.piece.compose import Composer


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of piece.

    form : gives the form class (a function, so that pydantic is loaded only when a file is read).
    compose : from the validated form, with the composer of the file and the piece's key path, to the
        description kept in `Piece`.
    panels_of : from the description to its panels.
    """

    name: str
    form: Callable[[], type[Any]]
    compose: Callable[[Any, "Composer", str], object]
    panels_of: Callable[[Any], tuple[Panel, ...]]

    def panels(self, description: object) -> tuple[Panel, ...]:
        """The panels of a piece of this kind."""
        return self.panels_of(description)
