"""Panels of a kind of piece as patterns: everything but their size, which building gives them."""

from typing import TYPE_CHECKING, Any

from evenface.errors import nearest_words
from evenface.piece.records import Panel

if TYPE_CHECKING:
    from evenface.piece.compose import Composer


def pattern_of(
    composer: "Composer", role: str, buildup: str, path: str, use: str = "panel", cutouts: Any = ()
) -> Panel:
    """A panel for a role, as large as nothing yet. path : of the entry that names the build-up."""
    from evenface.piece.forms import PanelForm

    known = composer.tables.buildup_names
    if buildup not in known:
        composer.complain(
            path, "the name of a [buildup.…] table", repr(buildup), nearest_words(buildup, known)
        )
    sound = buildup if buildup in known else next(iter(known), buildup)
    given: Any = use
    pattern = PanelForm(name=role, buildup=sound, size=(1000.0, 1000.0), use=given, cutout=cutouts)
    return composer.panel(pattern, path.removesuffix(".buildup"))
