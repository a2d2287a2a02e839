"""Sentences as templates with values; language and units are put in at the very end.

Takes: an English template and its values.
Gives: `Said`, which any room may hand on, and `say`, which documents and interfaces call.
May import: units.
Start reading at: `Said`.

The English template is also the key under which a translation is looked up. Fields of a template:
`{width:mm}` a length in mm, shown in the reader's system; `{fit:mm2}` the same with two decimals;
`{share:percent}` a fraction; `{angle:deg}`, `{mass:kg}`, `{stress:mpa}`, `{days:days}`; `{n:count}` a whole
number; `{name}` a text, a number, or another `Said`.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from string import Formatter
from types import MappingProxyType

from evenface.units import length_figure, number_text

type Spoken = str | int | float | Said


class Own(str):
    """A name the maker wrote: it is shown in every language as it was written.

    Names that a kind of piece gives to its parts, and places on them, are plain texts: `Manner.name` knows them.
    Equal to the plain text of the same letters, so it serves as the same key.
    """

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence: a template and its values. Equal templates and values are equal sentences.

    Raises ValueError when the template names a value that is not given.
    """

    template: str
    values: Mapping[str, Spoken] = field(default_factory=dict)

    def __post_init__(self) -> None:
        missing = _fields_of(self.template) - self.values.keys()
        if missing:
            raise ValueError(f"template {self.template!r} lacks values for {sorted(missing)}")
        object.__setattr__(self, "values", MappingProxyType(dict(self.values)))

    def __hash__(self) -> int:
        return hash(
            (self.template, tuple(sorted((name, repr(value)) for name, value in self.values.items())))
        )

    def __reduce__(self) -> "tuple[type[Said], tuple[str, dict[str, Spoken]]]":
        return Said, (self.template, dict(self.values))


@lru_cache(maxsize=8192)
def _fields_of(template: str) -> frozenset[str]:
    """The values a template names; each is looked through once, for a page says hundreds of sentences."""
    return frozenset(name for _, name, _, _ in Formatter().parse(template) if name is not None)


def said(template: str, **values: Spoken) -> Said:
    """Short form of `Said(template, {...})`."""
    return Said(template, values)


NOTHING = Said("")


@dataclass(frozen=True, slots=True)
class Manner:
    """How the reader wants to be spoken to.

    system : "mm" or "inch".
    translate : from the English template to the reader's language.
    language : that language's code, for papers and pages that must name it.
    name : from the English title of a material, or the name a kind of piece gives to a part ("left door 2"), to the
        reader's words for it; any other text, and every `Own` name, stays as it is.
    """

    system: str = "mm"
    translate: Callable[[str], str] = str
    decimal_mark: str = "."
    language: str = "en"
    name: Callable[[str], str] = str

    @property
    def length_unit(self) -> str:
        """The unit lengths are given in, as it is written behind them."""
        return self.translate("in") if self.system == "inch" else "mm"


ENGLISH = Manner()


def say(sentence: Said, manner: Manner = ENGLISH) -> str:
    """The finished sentence in the reader's language and units."""
    template = manner.translate(sentence.template)
    pieces: list[str] = []
    for literal, name, spec, _ in Formatter().parse(template):
        pieces.append(literal)
        if name is not None:
            pieces.append(_spoken(sentence.values[name], spec or "", manner))
    return "".join(pieces)


def listed(names: Iterable[Spoken], between: str = ", ") -> Said:
    """Several names as one sentence, each to be shown in the reader's words."""
    values = {f"name{number}": name for number, name in enumerate(names)}
    return Said(between.join(f"{{{key}}}" for key in values), values)


def figure(number: float, decimals: int = 1, manner: Manner = ENGLISH) -> str:
    """A bare number with at most so many decimals, with the reader's decimal mark."""
    return marked(number_text(number, decimals), manner)


def length_said(length_mm: float, manner: Manner = ENGLISH, decimals: int = 1) -> str:
    """A length with its unit, in the reader's language and units."""
    return f"{length_shown(length_mm, manner, decimals)} {manner.length_unit}"


def length_shown(length_mm: float, manner: Manner = ENGLISH, decimals: int = 1) -> str:
    """The same without its unit, as it stands in a table or on a drawing."""
    return marked(length_figure(length_mm, manner.system, decimals), manner)


def marked(text: str, manner: Manner) -> str:
    """Figures written with a point, with the reader's decimal mark."""
    return text.replace(".", manner.decimal_mark)


def _spoken(value: Spoken, spec: str, manner: Manner) -> str:
    if isinstance(value, Said):
        return say(value, manner)
    if isinstance(value, str):
        return (
            manner.translate(value) if spec == "word" and not isinstance(value, Own) else manner.name(value)
        )
    text = _FORMS[spec](float(value), manner) if spec in _FORMS else format(value, spec)
    return marked(text, manner)


_FORMS: Mapping[str, Callable[[float, Manner], str]] = {
    "": lambda number, manner: number_text(number, 3),
    "mm": lambda number, manner: length_said(number, manner, 1),
    "mm2": lambda number, manner: length_said(number, manner, 2),
    "percent": lambda number, manner: f"{number_text(100 * number, 1)} %",
    "deg": lambda number, manner: f"{number_text(number, 1)}°",
    "kg": lambda number, manner: f"{number_text(number, 1)} kg",
    "mpa": lambda number, manner: f"{number_text(number, 2)} N/mm²",
    "days": lambda number, manner: f"{number_text(number, 0)} {manner.translate('days')}",
    "count": lambda number, manner: number_text(number, 0),
}
