"""The catalogue: what is known of boards, facings, woods, glues and finishes, and how surely.

Takes: the data files beside this one, and a maker's own file of materials.
Gives: records whose every figure carries unit, range, status and source; the trade's limits by their id.
May import: units, errors, evidence, words, finding.
Start reading at: `records`.
"""

from evenface.materials.records import Carrier, Facing, Finish, Glue, Record, Wood, values_of
from evenface.materials.supply import Supply

__all__ = ["Carrier", "Facing", "Finish", "Glue", "Record", "Supply", "Wood", "values_of"]
