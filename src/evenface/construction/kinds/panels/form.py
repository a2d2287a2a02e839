"""The table of a piece made of loose panels."""

from dataclasses import dataclass

from evenface.piece.forms import PanelForm, PieceForm


@dataclass(frozen=True, kw_only=True)
class PanelsForm(PieceForm):
    """A piece with its panels written out."""

    panel: tuple[PanelForm, ...] = ()
