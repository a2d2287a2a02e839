"""What reading a job file asks of a kind of piece: the form of its table, and how it becomes a description."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from evenface.piece.compose import Composer


class Kind(Protocol):
    """A kind of piece as the reader knows it; see `construction.kind.Kind` for the whole of it."""

    @property
    def name(self) -> str: ...
    @property
    def form(self) -> Callable[[], type[Any]]: ...
    @property
    def compose(self) -> Callable[[Any, "Composer", str], object]: ...
