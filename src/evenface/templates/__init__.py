"""Templates for the router: which curves of a job are routed, and the template for each.

Takes: a job with its tools, and its built panels.
Gives: `RoutedTemplate` records, and findings for what these tools cannot cut.
May import: errors, evidence, words, finding, materials, shape, piece, construction.
Start reading at: `wanted.curves_of`, then `make.templates_of`.
"""

from evenface.templates.make import templates_of
from evenface.templates.records import RoutedTemplate

__all__ = ["RoutedTemplate", "templates_of"]
