"""The entries of a whole piece: every figure and word written under it, and those that may be, by their tables."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final
from zlib import crc32

from evenface.climate import room_kind_names
from evenface.construction.kinds import KINDS
from evenface.interfaces.web.air_words import room_words
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import CHOICE, FIGURE, FLAG, TEXT, YES_NO, Entry, shown_value
from evenface.interfaces.web.piece_forms import (
    NAMES,
    Slot,
    Sort,
    axes_of,
    needed_of,
    short_of,
    slots_of,
)
from evenface.interfaces.web.site import Asked
from evenface.interfaces.web.starting import titles_of
from evenface.words import Manner

_ELSEWHERE: Final = ("panel", "outline", "curve", "points")
"""Lists that are not typed figure by figure here: panels have a page each, outlines are drawn."""
_BUILDUPS: Final = (
    "buildup", "sides", "left", "right", "top", "bottom", "shelves", "dividers", "drawers",
)  # fmt: skip
_MATERIALS: Final[Mapping[str, str]] = {
    "wood": "wood", "bottom_wood": "wood", "lining": "wood", "facing": "facing", "glue": "glue",
}  # fmt: skip
_ROOMS: Final = ("inside", "room_behind")


@dataclass(frozen=True, slots=True)
class Group:
    """The entries of one table. title : what it is, in the reader's language; empty for the piece itself.

    written : those the file has, needed or not. open : those it may have. deeds : what can be done with the whole
    of it, in the reader's language, and the word that asks for it. says : what stands after the title; it may
    change while one types.
    """

    title: str
    written: tuple[Entry, ...]
    open: tuple[Entry, ...]
    deeds: tuple[tuple[str, str], ...] = ()
    says: str = ""

    @property
    def entries(self) -> tuple[Entry, ...]:
        return (*self.written, *self.open)


def groups_of(view: View, number: int, manner: Manner) -> tuple[Group, ...]:
    """The entries of the piece of that number, from 0, as its file has them. Raises IndexError, KeyError."""
    data: Any = view.source.data["piece"][number]
    kind = str(data.get("kind", "panels"))
    return tuple(Walk(view, manner, kind).table(KINDS[kind].form(), data, f"piece[{number}]", ""))


def piece_entries(view: View, number: int, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in groups_of(view, number, manner) for entry in group.entries)


def form_of(
    view: View, groups: Sequence[Group], asked: Asked, told: Mapping[str, Entry] | None = None
) -> dict[str, Any]:
    """For a page with entries: the shape of its form, and what our script is told of it.

    told : entries as the page has them, where that is known, by their paths.
    anew : whether its page has another shape by now. hinted : entries told one by one: those that were sent or are
    no longer as the page has them; where that is not known those always shown, and of the folded ones those that
    say something. titles : of materials, by their names.
    """
    entries = [entry for group in groups for entry in group.entries]
    paths = "\n".join(f"{group.title}: {entry.path}" for group in groups for entry in group.entries)
    shape = f"{crc32(paths.encode('utf-8', 'surrogatepass')):08x}"
    if told is not None:
        hinted = [one for one in entries if one.path in asked.form or told.get(one.path) != one]
    else:
        shown = {one.path for group in groups[:1] for one in group.entries}
        hinted = [one for one in entries if one.value or one.path in asked.form or one.path in shown]
    anew = asked.form.get("shape", shape) != shape
    titles = {} if asked.live and not anew else titles_of(view.opened.catalogue)
    return {"shape": shape, "anew": anew, "hinted": hinted, "titles": titles}


class Walk:
    """The entries of a table of the file, as its form reads them."""

    def __init__(self, view: View, manner: Manner, kind: str) -> None:
        self.manner, self.kind = manner, kind
        catalogue = view.opened.catalogue
        self.buildups = tuple(view.sketch.job.buildups)
        self.materials = {key: catalogue.names(sort) for key, sort in _MATERIALS.items()}

    def table(self, form: type[Any], data: Mapping[str, Any], path: str, title: str) -> Iterator[Group]:
        """The entries of a table, then those of the tables in it."""
        own: list[Entry] = []
        inner: list[Group] = []
        for slot in slots_of(form):
            if slot.key in _ELSEWHERE or (not title and slot.key == "kind"):
                continue
            value, at, word = data.get(slot.key), f"{path}.{slot.key}", self.word(slot.key)
            called = f"{title}, {word}" if title else _capital(word)
            if slot.sort.items:
                own += self.figures(slot, slot.sort, value, at, word, bool(title))
                inner += self.tables(slot, value, at, called)
            elif isinstance(value, dict) and slot.sort.form is None:
                inner += self.any_words(value, at, called)
            elif slot.sort.form is None and slot.sort.kind:
                own.append(self.entry(slot, slot.sort, value, at, word))
            elif slot.sort.form is not None and isinstance(value, dict):
                inner += self.table(slot.sort.form, value, at, called)
            elif slot.sort.form is not None:
                own += self.short(slot, slot.sort.form, value, at, word)
                inner += self.unwritten(slot.sort.form, value, at, called)
        yield self.group(title, own)
        yield from inner

    def group(self, title: str, own: list[Entry]) -> Group:
        """The entries of one table: what is written, then what may be."""
        written = tuple(one for one in own if one.value or one.needed)
        return Group(title, written, tuple(one for one in own if one not in written))

    def unwritten(self, form: type[Any], value: Any, at: str, called: str) -> Iterator[Group]:
        """The entries of a table that is not there, where more than `short` is told of it."""
        yield from ()

    def short(self, slot: Slot, form: type[Any], value: Any, at: str, word: str) -> Iterator[Entry]:
        """A table written as one value, or not at all: its entry, where one is enough."""
        bare = short_of(form)
        if bare is not None:
            usual = getattr(slot.usual, bare.key, None)
            yield self.entry(replace(bare, usual=usual, needed=False), bare.sort, value, at, word)
        elif value is None and (first := needed_of(form)) is not None:
            label = f"{word}, {self.word(first.key)}"
            yield self.entry(replace(first, needed=False), first.sort, None, f"{at}.{first.key}", label)

    def tables(self, slot: Slot, value: Any, at: str, called: str) -> Iterator[Group]:
        """The tables of a list; the only one may be written without a list."""
        form = slot.item(0).form
        many = [(at, value)] if isinstance(value, dict) else []
        if isinstance(value, list):
            many = [(f"{at}[{number}]", one) for number, one in enumerate(value)]
        for number, (path, one) in enumerate(many, start=1):
            if form is not None and isinstance(one, dict):
                name = str(one.get("name", "")) or (str(number) if len(many) > 1 or slot.key == "bay" else "")
                yield from self.table(form, one, path, f"{called} {name}".strip())

    def any_words(self, data: Mapping[str, Any], path: str, title: str) -> Iterator[Group]:
        """A table whose words are checked elsewhere: what is written in it, by what it is."""
        own: list[Entry] = []
        for key, one in data.items():
            at = f"{path}.{key}"
            if isinstance(one, dict):
                yield from self.any_words(one, at, f"{title}, {self.word(key)}")
            elif isinstance(one, bool | int | float | str):
                kind = FLAG if isinstance(one, bool) else TEXT if isinstance(one, str) else FIGURE
                own.append(self.entry(Slot(key, Sort(kind)), Sort(kind), one, at, self.word(key)))
        yield Group(title, tuple(own), ())

    def figures(self, slot: Slot, sort: Sort, value: Any, at: str, word: str, deep: bool) -> Iterator[Entry]:
        """The figures of a list that is written, each by itself."""
        if isinstance(value, list):
            axes = axes_of(self.kind, slot.key, deep)
            for number, one in enumerate(value):
                label = self.word(axes[number]) if number < len(axes) else f"{word} {number + 1}"
                item = sort.items[min(number, len(sort.items) - 1)]
                if item.items:
                    yield from self.figures(slot, item, one, f"{at}[{number}]", label, deep)
                elif item.form is None:
                    yield self.entry(replace(slot, needed=True), item, one, f"{at}[{number}]", label)
        elif value is not None and not isinstance(value, dict):  # one figure stands for all
            yield self.entry(slot, slot.item(0), value, at, word)

    def entry(self, slot: Slot, sort: Sort, value: Any, at: str, word: str) -> Entry:
        kind, choices = sort.kind, sort.choices
        known = self.known(at) if kind == TEXT else ()
        if known:
            kind, choices = CHOICE, known
        elif kind == FLAG:
            choices = tuple(YES_NO)
        usual = shown_value(slot.usual, kind, self.manner)
        shown = shown_value(value, kind, self.manner)
        words = self.said(at) if known else ()
        return Entry(at, _capital(word), shown, kind, usual, choices, needed=slot.needed, words=words)

    def known(self, at: str) -> tuple[str, ...]:
        """The words there are for an entry, by its key."""
        key = at.rsplit(".", 1)[-1]
        if key in _BUILDUPS:
            return self.buildups
        if key in _ROOMS:
            return room_kind_names()
        return self.materials.get(key, ())

    def said(self, at: str) -> tuple[str, ...]:
        """How those words are said: the maker's own as they are; of materials nothing, the page has their titles."""
        key = at.rsplit(".", 1)[-1]
        if key in _BUILDUPS:
            return self.buildups
        return room_words(self.manner) if key in _ROOMS else ()

    def word(self, key: str) -> str:
        """What a key is called."""
        return self.manner.translate(NAMES[key] if key in NAMES else key.replace("_", " "))


def _capital(word: str) -> str:
    return word[:1].upper() + word[1:]
