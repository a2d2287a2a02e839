"""Questions put to what was built, one a file, answered by findings with number, limit and remedy.

Takes: built panels, their parts, and the job.
Gives: findings; never an exception, never a changed record.
May import: units, errors, evidence, words, finding, materials, climate, mechanics, shape, piece, behaviour, parts.
Start reading at: `ask.ask_all`.
"""

from evenface.checks.ask import CHECKS, ask_all
from evenface.checks.question import Asked, Check

__all__ = ["CHECKS", "Asked", "Check", "ask_all"]
