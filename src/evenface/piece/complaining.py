"""From what the validator says to what a maker needs to read."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any, get_args, get_origin

from evenface.errors import Complaint, Sentence, known_words, nearest_words, one_of, parts_of
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.toml_places import Step, key_path
from evenface.words import said

_EXPECTED = {
    "missing": "this key",
    "string_type": "a text",
    "int_type": "a whole number",
    "bool_type": "true or false",
    "dict_type": "a table",
    "tuple_type": "a list",
    "dataclass_type": "a table",
    "dataclass_exact_type": "a table",
    "decimal_type": "a number",
    "decimal_parsing": "a number",
}


def complaints_of(
    errors: Iterable[Mapping[str, Any]], source: Source, base: tuple[Step, ...], form: type[Any]
) -> Iterator[Complaint]:
    """One complaint an error of pydantic; `base` is the key path of what was validated against `form`."""
    for error in errors:
        steps = (*base, *error["loc"])
        kind = str(error["type"])
        if kind in ("unexpected_keyword_argument", "extra_forbidden"):
            known = known_keys(form, error["loc"][:-1])
            yield _unknown(source, steps, known)
            continue
        if kind in ("missing", "missing_argument", "missing_keyword_only_argument"):
            path = key_path(steps)
            yield Complaint(
                source.place(path),
                said("the key {key}", key=repr(steps[-1])),
                "nothing",
                "It cannot be left out.",
            )
            continue
        expected, given, hint = _told(error, kind)
        yield Complaint(source.place(key_path(steps)), expected, given, hint)


def _unknown(source: Source, steps: tuple[Step, ...], known: tuple[str, ...]) -> Complaint:
    hint = nearest_words(str(steps[-1]), known) or known_words(known)
    return Complaint(source.place(key_path(steps)), "a known key", shown(steps[-1]), hint)


def _told(error: Mapping[str, Any], kind: str) -> tuple[Sentence, Sentence, Sentence]:
    given = shown(error.get("input"))
    context = error.get("ctx") or {}
    if kind == "value_error":
        problem = context.get("error")
        expected, was = parts_of(problem if isinstance(problem, ValueError) else ValueError(str(problem)))
        return expected, was or given, ""
    if kind == "literal_error":
        words = [
            word.strip().strip("'") for word in str(context["expected"]).replace(" or ", ", ").split(",")
        ]
        given_word = error.get("input")
        hint = nearest_words(given_word, words) if isinstance(given_word, str) else ""
        return one_of(words), given, hint
    if kind in ("too_short", "too_long"):
        count = context.get("min_length", context.get("max_length"))
        return said("{count} entries", count=str(count)), str(context.get("actual_length")), ""
    if "ge" in context or "gt" in context:
        return (
            said("a number of at least {limit}", limit=str(context.get("ge", context.get("gt")))),
            given,
            "",
        )
    if "le" in context or "lt" in context:
        return said("a number of at most {limit}", limit=str(context.get("le", context.get("lt")))), given, ""
    return _EXPECTED.get(kind, str(error.get("msg", "something else"))), given, ""


def known_keys(form: type[Any], steps: tuple[Step, ...]) -> tuple[str, ...]:
    """The keys of the form that stands at the end of a path into another form."""
    current: Any = form
    for step in steps:
        current = _inner(current, step)
        if current is None:
            return ()
    found = _dataclass_in(current)
    return tuple(_key(one) for one in fields(found)) if found is not None else ()


def _inner(current: Any, step: Step) -> Any:
    found = _dataclass_in(current)
    if isinstance(step, int):
        return current
    if found is not None:
        match = {_key(one): one.type for one in fields(found)}
        if step in match:
            return match[step]
    return current if get_origin(current) is dict else None


def _key(one: Any) -> str:
    return str(one.name).rstrip("_")


def _dataclass_in(annotation: Any) -> Any:
    """The first dataclass inside an annotation such as `tuple[Annotated[X, ...], ...] | None`."""
    if isinstance(annotation, type) and is_dataclass(annotation):
        return annotation
    for argument in get_args(annotation):
        found = _dataclass_in(argument)
        if found is not None:
            return found
    return None
