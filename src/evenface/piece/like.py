"""`like = "other"`: an entry takes over what another says and changes only what it writes itself."""

import copy
from collections.abc import Mapping
from typing import Any

from evenface.errors import Complaint, nearest_words
from evenface.piece.source_text import Source

type Table = dict[str, Any]


def resolve_likes(source: Source, complaints: list[Complaint]) -> Table:
    """The file's data with every `like` of build-ups and panels filled in and taken away.

    A circle or an unknown name is a complaint; the entry is then left as it is written.
    """
    data: Table = copy.deepcopy(dict(source.data))
    buildups = data.get("buildup")
    if isinstance(buildups, dict):
        tables = {name: table for name, table in buildups.items() if isinstance(table, dict)}
        paths = {name: f"buildup.{name}" for name in tables}
        buildups.update(_resolved(tables, paths, source, complaints, "build-up"))
    pieces = data.get("piece")
    for number, piece in enumerate(pieces if isinstance(pieces, list) else []):
        panels = piece.get("panel") if isinstance(piece, dict) else None
        if isinstance(panels, list):
            _resolve_panels(panels, f"piece[{number}].panel", source, complaints)
    return data


def _resolve_panels(panels: list[Any], path: str, source: Source, complaints: list[Complaint]) -> None:
    tables: dict[str, Table] = {}
    paths: dict[str, str] = {}
    for number, panel in enumerate(panels):
        name = panel.get("name") if isinstance(panel, dict) else None
        if isinstance(name, str) and name not in tables:
            tables[name], paths[name] = panel, f"{path}[{number}]"
    done = _resolved(tables, paths, source, complaints, "panel of this piece")
    for number, panel in enumerate(panels):
        name = panel.get("name") if isinstance(panel, dict) else None
        if isinstance(name, str) and panel is tables.get(name):
            panels[number] = done[name]


def _resolved(
    tables: Mapping[str, Table],
    paths: Mapping[str, str],
    source: Source,
    complaints: list[Complaint],
    what: str,
) -> dict[str, Table]:
    done: dict[str, Table] = {}

    def resolve(name: str, chain: tuple[str, ...]) -> Table:
        if name in done:
            return done[name]
        table = dict(tables[name])
        other = table.pop("like", None)
        if other is not None:
            place = source.place(f"{paths[name]}.like")
            if not isinstance(other, str) or other not in tables:
                hint = nearest_words(str(other), tuple(tables))
                complaints.append(Complaint(place, f"the name of a {what}", repr(other), hint))
            elif other in (*chain, name):
                circle = " → ".join((*chain, name, other))
                complaints.append(Complaint(place, "no circle of likes", circle, "Write one of them out."))
            else:
                table = _over(resolve(other, (*chain, name)), table)
        done[name] = table
        return table

    for name in tables:
        resolve(name, ())
    return done


def _over(base: Table, own: Table) -> Table:
    """`own` laid over `base`, table within table."""
    merged = copy.deepcopy(base)
    for key, value in own.items():
        below = merged.get(key)
        merged[key] = _over(below, value) if isinstance(below, dict) and isinstance(value, dict) else value
    return merged
