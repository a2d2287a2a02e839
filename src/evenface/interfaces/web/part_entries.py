"""The entries of a part that are seldom set: each edge and corner by itself, how it is held, what it carries."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final, get_args

from evenface.climate import room_kind_names
from evenface.construction import BuiltPanel
from evenface.interfaces.web.air_words import room_words
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import (
    CHOICE,
    FIGURE,
    LENGTH,
    TEXT,
    WHOLE,
    Entry,
    entries_of,
    found,
    shown_value,
)
from evenface.interfaces.web.piece_entries import Group
from evenface.piece.form import CutWord, OrderWord, Section, SideWord
from evenface.piece.like import resolve_likes
from evenface.piece.panel_records import Edge
from evenface.toml_places import key_path
from evenface.words import Manner

SIDES: Final = get_args(SideWord)
CORNERS: Final = ("front_left", "front_right", "rear_right", "rear_left")
HELD: Final = ("free", "hinged", "screwed", "groove")


def groups_of_part(view: View, panel: BuiltPanel, manner: Manner) -> tuple[Group, ...]:
    """The entries of a part: those that are always wanted, with no title, then what may be set besides.

    The latter by what they are about; a table that is there shows all it can say.
    """
    resolved = resolve_likes(view.source, [])
    always = Group("", entries_of(view, panel, manner, resolved), ())
    return (always, *_More(view, panel, manner, resolved).groups())


def all_entries(view: View, panel: BuiltPanel, manner: Manner) -> tuple[Entry, ...]:
    """Every entry of a part in one row."""
    return tuple(entry for group in groups_of_part(view, panel, manner) for entry in group.entries)


class _More:
    def __init__(self, view: View, panel: BuiltPanel, manner: Manner, resolved: Any) -> None:
        self.resolved = resolved
        self.catalogue, self.panel, self.manner = view.opened.catalogue, panel, manner

    def groups(self) -> Iterator[Group]:
        by_side = {str(one.side): one for one in self.panel.panel.edges}
        for side in SIDES:
            if side in by_side:
                yield self.group(f"Edging, {side}", self.edge(side, by_side[side]))
        yield self.group("Each corner by itself", self.corners())
        yield self.group("How it is held", self.held())
        yield self.group("What it carries, what it may bow", self.load())
        yield self.group("Air on both sides", self.air())
        yield self.group("Sheets and pattern", self.sheets())
        yield self.group("Build-up", self.buildup())

    def group(self, title: str, entries: Iterator[Entry]) -> Group:
        return Group(self.manner.translate(title), tuple(entries), ())

    def edge(self, side: str, edge: Edge) -> Iterator[Entry]:
        at, word = f"edging.{side}", self.manner.translate
        rows: list[tuple[str, str, str, object, tuple[str, ...]]] = [
            ("width", "Edging width", LENGTH, edge.width_mm, ()),
            ("wood", "Edging wood", CHOICE, edge.wood, self.catalogue.names("wood")),
            ("cut", "Cut", CHOICE, edge.cut, get_args(CutWord)),
            ("top", "Section above", CHOICE, str(edge.top), get_args(Section)),
            ("bottom", "Section below", CHOICE, str(edge.bottom), get_args(Section)),
            ("order", "Order", CHOICE, str(edge.order), get_args(OrderWord)),
        ]
        for key, label, kind, usual, choices in rows:
            yield self.entry(f"{at}.{key}", f"{word(label)}, {word(side)}", kind, usual, choices)

    def corners(self) -> Iterator[Entry]:
        for corner in CORNERS:
            words = [self.manner.translate(one) for one in ("Corner radius", corner.replace("_", " "))]
            yield self.entry(f"corners.{corner}.radius", ", ".join(words))

    def held(self) -> Iterator[Entry]:
        yield self.entry("hold.how", "How", CHOICE, "free", HELD)
        if self.has("hold"):
            yield self.entry("hold.fixings", "Fixings", WHOLE, 0)
            yield self.entry("hold.hinges", "Hinges at the edge", CHOICE, "", SIDES)
            yield self.entry("hold.from_edge", "From the edge", LENGTH)

    def load(self) -> Iterator[Entry]:
        yield self.entry("span", "Span between supports")
        yield self.entry("load", "Load, N per metre", FIGURE)
        yield self.entry("limit.mm", "Bow that may be, mm", LENGTH)
        if self.has("limit"):
            yield self.entry("limit.gauge", "Measured over", LENGTH, 1000.0)

    def air(self) -> Iterator[Entry]:
        for face, words in (("top", "Air above"), ("bottom", "Air below")):
            air = self.entry(f"climate.{face}", words, CHOICE, "", room_kind_names())
            yield replace(air, words=room_words(self.manner))

    def sheets(self) -> Iterator[Entry]:
        yield self.entry("run", "Pattern runs on in", TEXT)
        yield self.entry("same_sheet", "From one sheet with", TEXT)
        yield self.entry("same_batch", "Of one batch with", TEXT)

    def buildup(self) -> Iterator[Entry]:
        name = self.panel.panel.buildup
        rows: list[tuple[str, str, str, tuple[str, ...]]] = [
            ("carrier.thickness", "Carrier, thickness as measured", LENGTH, ()),
            ("finish", "Finish of the wood", CHOICE, self.catalogue.names("finish")),
            ("edging_glue", "Glue of the edging", CHOICE, self.catalogue.names("glue")),
        ]
        for key, label, kind, choices in rows:
            path = f"{key_path(('buildup', name))}.{key}"
            value = shown_value(found(self.resolved, path), kind, self.manner)
            yield Entry(path, label, value, kind, "", choices, f"{self.manner.translate('build-up')} {name}")

    def has(self, key: str) -> bool:
        return isinstance(found(self.resolved, f"{self.panel.origin}.{key}"), dict)

    def entry(
        self, key: str, label: str, kind: str = LENGTH, usual: object = "", choices: tuple[str, ...] = ()
    ) -> Entry:
        path = f"{self.panel.origin}.{key}"
        value = shown_value(found(self.resolved, path), kind, self.manner)
        return Entry(path, label, value, kind, shown_value(usual, kind, self.manner), choices)
