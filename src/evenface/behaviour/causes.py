"""What makes a bend uncertain, as a sentence: "Beech (face): humidity when glued"."""

import re
from typing import Final

from evenface.words import Said, said

_PROPERTY: Final = re.compile(r"(.+?)(?: \((\w+)\))?: (.+)")


def cause_said(name: str) -> Said:
    """The cause of that name among the shares of a bend: a property of a material in its layer, or a word."""
    found = _PROPERTY.fullmatch(name)
    if found is None:
        return said("{cause:word}", cause=name)
    title, role, what = found.groups()
    layer = said("{title} ({role:word})", title=title, role=role) if role else said("{title}", title=title)
    return said("{layer}: {what:word}", layer=layer, what=what)
