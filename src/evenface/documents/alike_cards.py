"""One card for steps that are word for word alike, with a box for each part: four drawers, one set of cards."""

import json
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any, Final

from evenface.documents.setting import plain
from evenface.words import ENGLISH, Manner, said, say

type Card = Mapping[str, Any]

MOST: Final = 6
"""Boxes one card has room for; more parts go on another card."""
_OWN: Final = ("id", "part", "when")
"""What alike cards differ in."""


def alike_together(cards: Sequence[Card], manner: Manner = ENGLISH) -> list[Card]:
    """The cards of `cards_data` with alike steps on one card, where the first of them stands.

    A step's own card gets `alike`: id, part and time of each; what stands behind it names all of them in its head.
    """
    bundles = [list(own) for _, own in groupby(cards, key=lambda card: card["id"])]
    groups: dict[str, list[list[Card]]] = {}
    for bundle in bundles:
        groups.setdefault(_told(bundle), []).append(bundle)
    first = {id(part[0]): part for group in groups.values() for part in _parts(group)}
    return [card for bundle in bundles if id(bundle) in first for card in _one(first[id(bundle)], manner)]


def _told(bundle: Sequence[Card]) -> str:
    """All that a step's cards say, but for which part and when."""
    return json.dumps([{k: v for k, v in card.items() if k not in _OWN} for card in bundle], sort_keys=True)


def _parts(group: Sequence[list[Card]]) -> Iterator[Sequence[list[Card]]]:
    for begin in range(0, len(group), MOST):
        yield group[begin : begin + MOST]


def _one(bundles: Sequence[list[Card]], manner: Manner) -> Iterator[Card]:
    if len(bundles) == 1:
        yield from bundles[0]
        return
    steps = [bundle[0] for bundle in bundles]
    alike = [[one["id"], _without_number(one), one["when"]] for one in steps]
    count = say(said("{count:count} alike, for each", count=len(steps)), manner)
    ids = ", ".join(one["id"] for one in steps)
    for number, card in enumerate(bundles[0]):
        if number == 0:
            yield {**card, "id": count, "part": "", "alike": alike, "hands": _hands(card, len(steps), manner)}
        else:
            yield {**card, "id": count, "part": plain(ids)}


def _without_number(card: Card) -> str:
    """The part's name without the number its step begins with."""
    number = card["id"].rpartition("-")[0]
    return str(card["part"]).removeprefix(f"{number} ")


def _hands(card: Card, count: int, manner: Manner) -> str:
    together = said(
        "{count:count} × {minutes:count} = {all:count} min of hands. Each: {hands}",
        count=count,
        minutes=card["minutes"],
        all=count * card["minutes"],
        hands=card["hands"],
    )
    return say(together, manner)
