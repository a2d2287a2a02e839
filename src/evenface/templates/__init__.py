"""Templates for the router, one for each curve that is routed; forms for bent strips, rails for scoops.

Takes: a job with its tools, and its built panels.
Gives: `RoutedTemplate` and `Jig` records, and findings for what these tools cannot cut.
May import: errors, evidence, words, finding, materials, shape, piece, construction.
Start reading at: `wanted.curves_of`, then `make.templates_of`; forms and rails in `jigs.jigs_of`.
"""

from evenface.templates.cutters import NeededCutter, cutters_of
from evenface.templates.jigs import jigs_of
from evenface.templates.make import templates_of
from evenface.templates.records import Jig, RoutedTemplate

__all__ = ["Jig", "NeededCutter", "RoutedTemplate", "cutters_of", "jigs_of", "templates_of"]
