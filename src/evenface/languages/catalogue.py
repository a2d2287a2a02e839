"""Reading the catalogues (gettext's PO files, one folder for each language) and speaking from them.

A sentence without a translation is shown in English: an untranslated caution is better than none. The tests
name every one that is missing. The files are read with Babel when the language is first asked for.
"""

import re
from collections.abc import Callable, Mapping
from functools import cache, lru_cache, partial
from pathlib import Path
from types import MappingProxyType
from typing import Final

from evenface.errors import EvenfaceError
from evenface.words import Manner, Own

HERE: Final = Path(__file__).parent
LANGUAGES: Final[Mapping[str, str]] = MappingProxyType({"en": "English", "sv": "Svenska"})
"""Languages by their code of ISO 639-1, each named in itself."""
LONGEST_NAME: Final = 80
"""No name a kind gives is longer."""
_FIGURES: Final = re.compile(r"\d+(?:\.\d+)*")
_HOLE: Final = re.compile("#")
_MARKS: Final[Mapping[str, str]] = MappingProxyType({"sv": ","})


class UnknownLanguage(EvenfaceError):
    """There is no catalogue for that language."""


def manner_for(language: str, system: str = "mm") -> Manner:
    """How a reader of that language and system of units ("mm" or "inch") wants to be spoken to.

    language : a key of `LANGUAGES`. Raises UnknownLanguage.
    """
    if language not in LANGUAGES:
        raise UnknownLanguage(f"Expected a language of {', '.join(LANGUAGES)}, but was given {language!r}.")
    if language == "en":
        return Manner(system=system)
    known = sentences_of(language)
    return Manner(
        system,
        lambda template: known.get(template, template),
        _MARKS.get(language, "."),
        language,
        partial(name_in, language),
    )


def name_in(language: str, name: str) -> str:
    """The name of a material, a part or a place in the reader's words; `Own` and unknown names as they are.

    Names with figures are known by their pattern: "drawer #" also reads "drawer 3", and "* recess" reads what is
    cut for something with a name.
    """
    return name if isinstance(name, Own) or len(name) > LONGEST_NAME else _told(language, name)


@lru_cache(maxsize=8192)
def _told(language: str, name: str) -> str:
    names = names_of(language)
    if name in names:
        return names[name]
    told = names.get(_FIGURES.sub("#", name), "")
    if "#" in told:
        mark = (
            _MARKS.get(language, ".") if "×" in told else "."
        )  # a size, or the number of something in something
        figures = iter(one.replace(".", mark) for one in _FIGURES.findall(name))
        return _HOLE.sub(lambda _: next(figures), told)
    if " & " in name:
        return " & ".join(_told(language, one) for one in name.split(" & "))
    for start, end, told in _affixes_of(language):
        if name.startswith(start) and name.endswith(end) and len(name) > len(start) + len(end):
            return told.replace("*", _told(language, name[len(start) : len(name) - len(end)]))
    return name


@cache
def _affixes_of(language: str) -> tuple[tuple[str, str, str], ...]:
    """What stands before and behind a name in the patterns that take one, and what is said of it."""
    found = ((key.partition("*"), told) for key, told in names_of(language).items() if "*" in key)
    return tuple((start, end, told) for (start, _, end), told in found)


@cache
def sentences_of(language: str) -> Mapping[str, str]:
    """Every sentence of that language by its English template; what is not translated yet is left out."""
    return _read(language, lambda file: file != "names.po")


@cache
def names_of(language: str) -> Mapping[str, str]:
    """Titles of the catalogue's materials, and names the kinds give to parts and places, by their English."""
    return _read(language, lambda file: file in ("materials.po", "names.po"))


def _read(language: str, wanted: Callable[[str], bool]) -> Mapping[str, str]:
    from babel.messages.pofile import read_po

    known: dict[str, str] = {}
    for file in sorted(one for one in (HERE / language).glob("*.po") if wanted(one.name)):
        with file.open("rb") as opened:
            for message in read_po(opened, locale=language, abort_invalid=True):
                if message.id and isinstance(message.string, str) and message.string and not message.fuzzy:
                    known[str(message.id)] = message.string
    return MappingProxyType(known)
