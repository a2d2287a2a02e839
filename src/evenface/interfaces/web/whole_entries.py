"""Everything that can be said of a piece or of a part that stands by itself: every key its form has, by its tables."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from typing import Any, Final

from evenface.construction.kinds import KINDS
from evenface.errors import Unreadable
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import CHOICE, LENGTH, LIST, TEXT, Entry, Held, found
from evenface.interfaces.web.piece_entries import Group, Walk
from evenface.interfaces.web.piece_forms import Slot, Sort, axes_of, slots_of
from evenface.interfaces.web.plain_entries import entry_at
from evenface.piece.forms import PanelForm
from evenface.words import Manner, said

DEEPEST: Final = 4
"""Tables within tables that are not written and are shown all the same."""


def whole_piece(view: View, number: int, manner: Manner) -> tuple[Group, ...]:
    """The piece of that number, from 0. Raises IndexError, KeyError."""
    data: Any = view.source.data["piece"][number]
    kind = str(data.get("kind", "panels"))
    walk = WholeWalk(view, manner, kind)
    return tuple(walk.table(KINDS[kind].form(), data, f"piece[{number}]", ""))


def whole_part(view: View, origin: str, manner: Manner) -> tuple[Group, ...]:
    """The panel written at that key path."""
    data: Any = found(view.source.data, origin)
    return tuple(WholeWalk(view, manner, "").table(PanelForm, data, origin, ""))


class WholeWalk(Walk):
    """Every key of the forms, written or not; lists of tables as far as they are written."""

    def __init__(self, view: View, manner: Manner, kind: str) -> None:
        super().__init__(view, manner, kind)
        self.data, self.depth = view.source.data, 0

    def group(self, title: str, own: list[Entry]) -> Group:
        """A table that says nothing yet is opened with one touch."""
        made = super().group(title, own)
        return made if made.written else Group(title, made.open, ())

    def unwritten(self, form: type[Any], value: Any, at: str, called: str) -> Iterator[Group]:
        """A table that is not there, with all it may say; one written short stays short."""
        if value is None and self.depth < DEEPEST:
            self.depth += 1
            yield from (one for one in self.table(form, {}, at, called) if one.entries)
            self.depth -= 1

    def short(self, slot: Slot, form: type[Any], value: Any, at: str, word: str) -> Iterator[Entry]:
        """Of a table that is not there everything is told in its own group."""
        if value is not None:
            yield from super().short(slot, form, value, at, word)

    def tables(self, slot: Slot, value: Any, at: str, called: str) -> Iterator[Group]:
        """Each table of a list can be copied and taken out."""
        groups = list(super().tables(slot, value, at, called))
        heads = (
            {f"{at}[{number}]": None for number in range(len(value))}
            if isinstance(value, list)
            else {at: None}
        )
        for group in groups:
            path = next(
                (one for one in heads if any(e.path.startswith(f"{one}.") for e in group.entries)), ""
            )
            if not path:
                yield group
                continue
            heads.pop(path)
            deeds = (("Another like it", f"like {path}"), ("Take it out", f"out {path}"))
            yield replace(group, deeds=tuple((self.manner.translate(words), do) for words, do in deeds))

    def figures(self, slot: Slot, sort: Sort, value: Any, at: str, word: str, deep: bool) -> Iterator[Entry]:
        """A list of plain words or figures in one field; of a list of such lists each figure that is written."""
        if any(one.form is not None or one.items for one in sort.items):
            yield from super().figures(slot, sort, value, at, word, deep)
            return
        axes, many = axes_of(self.kind, slot.key, deep), len(sort.items)
        kind = TEXT if sort.items[0].kind == CHOICE else sort.items[0].kind
        bare = value is not None and not isinstance(value, list)
        between = " x " if many > 1 and kind == LENGTH else "; "
        holds = Held(kind, between, _so_many(many) if many > 1 and not bare else None, bare)
        label, whose = word[:1].upper() + word[1:], between.join(self.word(one) for one in axes)
        entry = entry_at(
            self.data, at, label, LIST, self.manner, holds=holds, needed=slot.needed, whose=whose
        )
        yield entry


@cache
def _so_many(count: int) -> Callable[[list[str]], None]:
    def check(words: list[str]) -> None:
        if len(words) != count:
            raise Unreadable(said("{count:count} of them", count=count), repr("; ".join(words)[:40]))

    return check


def every_key(form: type[Any], at: str, seen: tuple[type[Any], ...] = ()) -> Iterator[str]:
    """Every key path a form reads, lists and their numbers left aside."""
    for slot in slots_of(form):
        inner = slot.sort.form or next((one.form for one in slot.sort.items if one.form), None)
        if inner is None:
            yield f"{at}.{slot.key}"
        elif inner not in seen:
            yield from every_key(inner, f"{at}.{slot.key}", (*seen, inner))
