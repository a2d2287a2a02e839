"""What to build a piece from: what its brief rules out and why, what is good, and what that costs elsewhere.

Takes: a brief and the catalogue.
Gives: `Ranking` of each kind of material, every reason with source and status; doubts about a build-up.
May import: errors, evidence, words, materials, piece, behaviour.
Start reading at: `rank.rank_all`.
"""

from evenface.choice.pairs import doubts_of, fits
from evenface.choice.rank import rank, rank_all
from evenface.choice.records import Candidate, Ranking, Reason, Verdict

__all__ = ["Candidate", "Ranking", "Reason", "Verdict", "doubts_of", "fits", "rank", "rank_all"]
