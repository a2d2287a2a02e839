"""The kinds of piece, found by their folders: a new folder here is a new kind, no other file changes."""

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from evenface.construction.kind import Kind


def find_kinds() -> Mapping[str, Kind]:
    """Every kind by its name. Each folder's package has one `KIND`."""
    kinds = [
        import_module(f"{__name__}.{found.name}").KIND for found in iter_modules(__path__) if found.ispkg
    ]
    return MappingProxyType({kind.name: kind for kind in kinds})


KINDS = find_kinds()
