"""Reading the catalogues (gettext's PO files, one folder for each language) and speaking from them.

A sentence without a translation is shown in English: an untranslated caution is better than none. The tests
name every one that is missing. The files are read with Babel when the language is first asked for.
"""

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final

from evenface.errors import EvenfaceError
from evenface.words import Manner

HERE: Final = Path(__file__).parent
LANGUAGES: Final[Mapping[str, str]] = MappingProxyType({"en": "English", "sv": "Svenska"})
"""Languages by their code of ISO 639-1, each named in itself."""
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
    names = names_of(language)
    return Manner(
        system,
        lambda template: known.get(template, template),
        _MARKS.get(language, "."),
        language,
        lambda title: names.get(title, title),
    )


@cache
def sentences_of(language: str) -> Mapping[str, str]:
    """Every sentence of that language by its English template; what is not translated yet is left out."""
    return _read(language, lambda file: True)


@cache
def names_of(language: str) -> Mapping[str, str]:
    """Titles of the catalogue's materials by their English."""
    return _read(language, lambda file: file == "materials.po")


def _read(language: str, wanted: Callable[[str], bool]) -> Mapping[str, str]:
    from babel.messages.pofile import read_po

    known: dict[str, str] = {}
    for file in sorted(one for one in (HERE / language).glob("*.po") if wanted(one.name)):
        with file.open("rb") as opened:
            for message in read_po(opened, locale=language, abort_invalid=True):
                if message.id and isinstance(message.string, str) and message.string and not message.fuzzy:
                    known[str(message.id)] = message.string
    return MappingProxyType(known)
