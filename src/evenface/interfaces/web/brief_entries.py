"""The entries of a brief: what the job, or one piece of it, must bear and what is wished of it."""

from collections.abc import Iterator
from typing import Any, Final

from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import CHOICE, Entry, found, shown_value
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.starting import written_pieces
from evenface.materials.traits import Need, traits
from evenface.piece.briefs import USES, named_brief
from evenface.words import Manner, said, say

WEIGHTS: Final = ("2", "3")
"""Of wishes that count more than one; any other stays as the file has it."""


def brief_groups(view: View, manner: Manner) -> tuple[Group, ...]:
    """The brief of the job, then that of each piece, which goes before it."""
    briefs, word = _Briefs(view, manner), manner.translate("Piece")
    groups = [Group("", tuple(briefs.entries("brief", "")), ())]
    for number, piece in enumerate(written_pieces(view)):
        name = str(piece.get("name", ""))
        entries = tuple(briefs.entries(f"piece[{number}].brief", name))
        groups.append(Group(f"{word} {number + 1}", entries, (), (), name))
    return tuple(groups)


def brief_entries(view: View, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in brief_groups(view, manner) for entry in group.entries)


class _Briefs:
    def __init__(self, view: View, manner: Manner) -> None:
        self.data, self.manner = view.source.data, manner

    def entries(self, at: str, whose: str) -> Iterator[Entry]:
        yield self.entry(f"{at}.for", "Used as", tuple(traits().uses), whose=whose)
        yield self.entry(f"{at}.use", "Part it is about", USES, whose=whose)
        brought = self.brought(str(found(self.data, f"{at}.for") or ""))
        for need in traits().needs.values():
            choices = self.choices(need, str(found(self.data, f"{at}.{need.name}") or ""))
            words = tuple(self.words(need, one) for one in choices)
            yield self.entry(
                f"{at}.{need.name}", need.title, choices, words, whose, brought.get(need.name, "")
            )

    def brought(self, use: str) -> dict[str, str]:
        """What a use with a name asks, by the need."""
        asked = named_brief(use).asked if use in traits().uses else ()
        weights = {one.need: "wish" if one.weight == 1.0 else f"{one.weight or 0:g}" for one in asked}
        return {
            one.need: self.words(
                traits().needs[one.need], f"must: {one.word}" if one.is_must else weights[one.need]
            )
            for one in asked
        }

    def choices(self, need: Need, written: str) -> tuple[str, ...]:
        """A must by each of its levels, the usual one short; a wish, and wishes that count more."""
        levels = tuple(f"must: {level}" for level in need.levels)
        usual = f"must: {need.usual}"
        return (*("must" if one == usual and written != usual else one for one in levels), "wish", *WEIGHTS)

    def words(self, need: Need, choice: str) -> str:
        if choice.startswith("must"):
            level = choice.partition(": ")[2] or need.usual
            return say(said("must: {level:word}", level=level), self.manner)
        weight = 1.0 if choice == "wish" else float(choice)
        return say(said("wish, weight {weight:g}", weight=weight), self.manner)

    def entry(
        self, path: str, label: str, choices: tuple[str, ...], words: tuple[str, ...] = (), whose: str = "",
        usual: str = "",
    ) -> Entry:  # fmt: skip
        value: Any = found(self.data, path)
        shown = shown_value(value, CHOICE, self.manner)
        unset = "as usual" if not words else "by its use" if usual else "not asked"
        return Entry(path, label, shown, CHOICE, usual, choices, whose=whose, words=words, unset=unset)
