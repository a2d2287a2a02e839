"""What is said of one kind of work."""

from dataclasses import dataclass

from evenface.words import Said


@dataclass(frozen=True, slots=True)
class Saying:
    """The sentences of one kind of work. occupies : what stands in use meanwhile."""

    why: Said
    check: Said
    undo: Said
    tools: tuple[Said, ...] = ()
    occupies: tuple[str, ...] = ("bench",)


def saying(why: str, check: str, undo: str, *tools: str, occupies: tuple[str, ...] = ("bench",)) -> Saying:
    """Why the work stands here, what to look at before going on, what a slip costs, and with what it is done."""
    return Saying(Said(why), Said(check), Said(undo), tuple(Said(tool) for tool in tools), occupies)
