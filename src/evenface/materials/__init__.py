"""The catalogue: what is known of boards, facings, woods, glues and finishes, and how surely.

Takes: the data files beside this one, and a maker's own file of materials.
Gives: records whose every figure carries unit, range, status and source; the trade's limits by their id.
May import: units, errors, evidence, toml_places.
Start reading at: `records`, then `catalogue`.
"""

from evenface.materials.catalogue import Catalogue, load_catalogue
from evenface.materials.records import Carrier, Facing, Finish, Glue, Record, Wood, values_of
from evenface.materials.supply import Supply

__all__ = [
    "Carrier",
    "Catalogue",
    "Facing",
    "Finish",
    "Glue",
    "Record",
    "Supply",
    "Wood",
    "load_catalogue",
    "values_of",
]
