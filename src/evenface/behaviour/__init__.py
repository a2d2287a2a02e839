"""How each part bows, cups and twists through the year, with a band for what is not known.

Takes: built panels and the job's climate.
Gives: `Behaviour` records: mm over the part by month, bands, what they rest on, the force that holds flat.
May import: units, errors, evidence, words, finding, materials, climate, mechanics, shape, piece.
Start reading at: `year.behaviour_of`.
"""

from evenface.behaviour.bonding import Gate, bonding_gate
from evenface.behaviour.records import Behaviour, Bend, Direction, Drying
from evenface.behaviour.variants import Variant, variants
from evenface.behaviour.year import behaviour_of, behaviours_of, finish_of

__all__ = [
    "Behaviour",
    "Bend",
    "Direction",
    "Drying",
    "Gate",
    "Variant",
    "behaviour_of",
    "behaviours_of",
    "bonding_gate",
    "finish_of",
    "variants",
]
