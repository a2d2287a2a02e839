"""`evenface materials`: what the catalogue knows."""

from pathlib import Path

from rich.console import Console
from rich.markup import escape

from evenface.documents.catalogue_tables import explain, materials_tables
from evenface.interfaces.screen import show_table
from evenface.materials import load_catalogue


def show_materials(name: str | None, kind: str | None, materials: Path | None) -> None:
    """List all, one kind, or explain one material. MissingWord for a name or kind that is not known."""
    console = Console(highlight=False)
    catalogue = load_catalogue(materials)
    if name is None:
        for table in materials_tables(catalogue, kind):
            show_table(console, table)
            console.print()
        return
    told = explain(catalogue, name)
    console.print(f"{escape(told.title)}  ({escape(told.name)}, {escape(told.kind)})", style="bold")
    for line in (*told.cautions, told.disagreement):
        if line:
            console.print(escape(line))
    for table in (told.figures, told.supplies):
        show_table(console, table)
