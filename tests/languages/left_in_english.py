"""Words of English in a Swedish text: words of the tool's own sentences and names that no Swedish one has."""

import html
import re
from collections.abc import Iterator
from functools import cache

from evenface.languages import sentences_of
from evenface.languages.catalogue import names_of
from evenface.languages.gathering import bare

MADE_UP = re.compile(r"\bZ[qy][a-z]{1,2}\b")
"""Names in the examples, made up for this."""
WORD = re.compile(r"(?<![\w.\-/_\[\]'\"…])[A-Za-zÅÄÖåäöé]{3,}(?![\w\-/_\[]|\.\w|­)")
"""A word that stands by itself: no part of a key, an address, a number of a step or a broken word."""
PLAIN = frozenset((
    "the", "and", "with", "from", "which", "that", "this", "are", "was", "has", "between", "above",
    "below", "behind", "drawer", "door", "side", "right", "rear", "back", "shelf", "apron", "leg",
    "divider", "carrier", "facing", "edging", "glue", "hinge", "screw", "height", "width", "depth",
    "inside", "outside", "common", "practice", "own", "estimate", "memory", "reckoned", "reckoning",
    "published", "stop", "stops", "sheet", "sheets", "when", "who", "works", "what", "where", "wood",
    "bearer", "stile", "bottom", "top", "corner", "corners", "notch", "recess", "outline", "handle",
    "lining", "wall", "walls", "gap", "opening", "upper", "lower",
))  # fmt: skip
"""English whatever the Swedish sentences say: some of these stand in them too, as words of the job file."""
ALLOWED = frozenset((
    "ash", "birch", "beech", "oak", "cherry", "copenhagen", "price", "calendar", "cutting", "flat", "prices",
    "out", "templates", "book", "keeping", "rent", "heating", "machines", "tools", "insurance", "wood",
    "handbook", "journal", "science", "data", "dkk", "eur", "not", "hand", "handling", "fall", "plan", "ten",
))  # fmt: skip
"""Keys of materials and tables; titles of books; costs as the prices of the examples call them; broken words."""
_LEFT_OUT = re.compile(r"<(script|style|textarea|pre|code|option|select|datalist)\b[^>]*>.*?</\1>", re.DOTALL)
_SPOKEN_ALOUD = re.compile(r'\b(?:title|aria-label|alt|placeholder|aria-description)="([^"]*)"')


def pieces_of(page: str) -> Iterator[str]:
    """The texts of a page or drawing, each by itself; keys of the job file, and what is typed, left out."""
    page = _LEFT_OUT.sub(" ", page)
    yield from (html.unescape(found) for found in _SPOKEN_ALOUD.findall(page))
    for text in re.findall(r">([^<]+)<", page):
        yield " ".join(html.unescape(text).split())


def english_in(text: str) -> set[str]:
    """Words of it that are English."""
    return {word for found in WORD.findall(text) if (word := found.lower()) in _english()}


@cache
def _english() -> frozenset[str]:
    said, swedish = set(), set()
    for known in (sentences_of("sv"), names_of("sv")):
        for text, told in known.items():
            said |= _words(text)
            swedish |= _words(told)
    return frozenset((said - swedish | PLAIN) - ALLOWED)


def _words(text: str) -> set[str]:
    return {word.lower() for word in WORD.findall(bare(text))}
