"""`evenface materials`: what the catalogue knows."""

from pathlib import Path

from rich.console import Console
from rich.markup import escape

from evenface.documents.catalogue_tables import explain, materials_tables
from evenface.interfaces.screen import manner_of, show_table
from evenface.materials import load_catalogue


def show_materials(name: str | None, kind: str | None, materials: Path | None) -> None:
    """List all, one kind, or explain one material. MissingWord for a name or kind that is not known."""
    console, manner = Console(highlight=False), manner_of("mm")
    catalogue = load_catalogue(materials)
    if name is None:
        for table in materials_tables(catalogue, kind, manner):
            show_table(console, table)
            console.print()
        return
    told = explain(catalogue, name, manner)
    kind_told = manner.translate(told.kind)
    console.print(escape(f"{manner.name(told.title)}  ({told.name}, {kind_told})"), style="bold")
    for line in (*told.cautions, told.disagreement):
        if line:
            console.print(escape(manner.translate(line)))
    for table in (told.figures, told.supplies):
        show_table(console, table)
