"""A table more in a list of tables of a job file, written as those beside it are."""

from typing import Any

import tomlrt


def add_table(holder: Any, key: str, table: dict[str, Any]) -> None:
    """`table` after the last under `key`; a list is begun where there is none, or one table without a list."""
    table = plain(table)
    new, known = tomlrt.Table.inline(table), holder.get(key)
    if known is None:
        holder[key] = [new]
    elif isinstance(known, dict):
        before = known.to_dict() if hasattr(known, "to_dict") else dict(known)
        del holder[key]
        holder[key] = [tomlrt.Table.inline(before), new]
    elif isinstance(known, tomlrt.AoT):
        known.add(table)
    else:
        known.append(new)


def plain(value: Any) -> Any:
    """Whole numbers as a maker writes them, without a point."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value
