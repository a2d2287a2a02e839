"""Tables for a job file, written as a maker would write them."""

import json
from collections.abc import Mapping, Sequence
from typing import Any


def table_text(path: str, entries: Mapping[str, Any], many: bool = True, indent: str = "") -> str:
    """A table under its header, `[[path]]` or `[path]`, one entry a line; nested tables stand in one line."""
    head = f"[[{path}]]" if many else f"[{path}]"
    wide = max((len(_key(key)) for key in entries), default=0)
    lines = [f"{indent}{_key(key):{wide}} = {value_text(value)}" for key, value in entries.items()]
    return "\n".join([f"{indent}{head}", *lines]) + "\n"


def value_text(value: Any) -> str:
    """A value as TOML. Raises TypeError for what a job file has no value for."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return f"{value:g}" if float(value).is_integer() and abs(value) < 1e6 else repr(value)
    if isinstance(value, Mapping):
        inner = ", ".join(f"{_key(key)} = {value_text(one)}" for key, one in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, Sequence):
        return f"[{', '.join(value_text(one) for one in value)}]"
    raise TypeError(f"expected a text, a number, a list or a table, was given {type(value).__name__}")


def _key(key: str) -> str:
    bare = key.isascii() and key.replace("-", "").replace("_", "").isalnum()
    return key if bare else json.dumps(key, ensure_ascii=False)
