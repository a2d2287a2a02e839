"""How well the wishes are met: the weighted share, and in which of them another would be better."""

from collections.abc import Sequence

from evenface.evidence import Band
from evenface.materials.traits import MaterialClass, traits
from evenface.piece.brief_records import Brief

MIDDLING = 0.5
"""A wish about which nothing is known of a class counts as met by half."""
STRONG = 0.74
CLEAR = 0.24
"""Two that lie a step of the five apart differ clearly."""


def score_of(one: MaterialClass, brief: Brief) -> Band:
    """Σ weight × share / Σ weight over the wishes; 1 where nothing is wished."""
    total = sum(asked.weight or 0.0 for asked in brief.wishes)
    if total <= 0.0:
        return Band(1.0, 1.0, 1.0)
    ends = [0.0, 0.0, 0.0]
    for asked in sorted(brief.wishes, key=lambda each: each.need):
        for number, share in enumerate(_shares(one, asked.need)):
            ends[number] += (asked.weight or 0.0) / total * share
    return Band(ends[0], ends[1], ends[2])


def share_of(one: MaterialClass, need: str) -> float:
    """Nominal share of one need."""
    return _shares(one, need)[1]


def strong_in(one: MaterialClass, brief: Brief) -> tuple[str, ...]:
    """The wishes it meets well."""
    return tuple(asked.need for asked in brief.wishes if share_of(one, asked.need) >= STRONG)


def gives_up(
    one: MaterialClass, brief: Brief, others: Sequence[MaterialClass]
) -> tuple[tuple[str, float], ...]:
    """The wishes in which the best of the others is clearly better, the widest gap first."""
    gaps = []
    for asked in brief.wishes:
        if asked.need not in one.traits:
            continue
        best = max(
            (share_of(other, asked.need) for other in others if asked.need in other.traits), default=0.0
        )
        gap = best - share_of(one, asked.need)
        if gap >= CLEAR:
            gaps.append((asked.need, gap))
    return tuple(sorted(gaps, key=lambda each: (-each[1], each[0])))


def _shares(one: MaterialClass, need: str) -> tuple[float, float, float]:
    trait = one.traits.get(need)
    if trait is None:
        return (MIDDLING, MIDDLING, MIDDLING)
    scale = traits().needs[need]
    low, high = sorted((scale.share(trait.value.low), scale.share(trait.value.high)))
    return low, scale.share(trait.value.nominal), high
