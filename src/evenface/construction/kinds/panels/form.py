"""The table of a piece made of loose panels."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from evenface.piece.forms import PanelForm, PieceForm


@dataclass(frozen=True, kw_only=True)
class PanelsForm(PieceForm):
    """A piece with its panels written out, at least one."""

    panel: Annotated[tuple[PanelForm, ...], Field(min_length=1)]
