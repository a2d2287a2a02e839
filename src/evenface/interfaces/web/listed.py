"""Entries that hold several words or lengths: shown in one field, set in the file one by one."""

from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher

from evenface.finding import Change


def words_in(typed: str, between: str) -> list[str]:
    """The words of a field; signs and spaces between them too much are left aside."""
    if between.strip() == "x":
        typed = typed.replace("×", "x").replace("X", "x")
    return [one for part in typed.split(between.strip()) if (one := part.strip())]


def list_changes(path: str, was: Sequence[str], now: Sequence[str], bare: bool) -> list[Change]:
    """Changes that make the list of words `was` the list `now`; what stays is not touched.

    bare : one word stands there without a list around it, or may. Nothing in `now` takes the entry out.
    """
    if not now:
        return [Change(path, ", ".join(was), "")] if was else []
    if bare and len(now) == 1:
        return [Change(path, was[0] if was else "", now[0])]
    kept = list(was)
    changes = [Change(f"{path}[{place}]", kept.pop(place), "") for place in reversed(_too_much(was, now))]
    for place, word in enumerate(now):
        old = kept[place] if place < len(kept) else ""
        if old != word:
            changes.append(Change(f"{path}[{place}]", old, word))
    return changes


def _too_much(was: Sequence[str], now: Sequence[str]) -> list[int]:
    """Places of words to take out: those that went, where nothing else changed; else those beyond the end."""
    steps = SequenceMatcher(None, was, now, autojunk=False).get_opcodes()
    if all(step[0] in ("equal", "delete") for step in steps):
        return list(_places((start, end) for tag, start, end, _, _ in steps if tag == "delete"))
    return list(range(len(now), len(was)))


def _places(spans: Iterable[tuple[int, int]]) -> Iterable[int]:
    for start, end in spans:
        yield from range(start, end)
