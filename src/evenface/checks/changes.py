"""Entries that several remedies set alike."""

import re
from typing import Final

from evenface.construction import BuiltPanel
from evenface.finding import Change

_WRITTEN: Final = re.compile(r"piece\[\d+\]\.panel\[\d+\]")


def held_flat(panel: BuiltPanel) -> tuple[Change, ...]:
    """The part screwed down, as an entry; nothing where the part is not written in the job but made by its piece."""
    if _WRITTEN.fullmatch(panel.origin) is None:
        return ()
    return (Change(f"{panel.origin}.hold.how", panel.panel.hold.how, "screwed"),)
