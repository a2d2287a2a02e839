"""Every kind of material held against a brief, and put in order."""

from evenface.choice.judge import reasons_of, verdict_of
from evenface.choice.members import members, with_catalogue
from evenface.choice.pairs import against_use
from evenface.choice.records import Candidate, Ranking, Verdict
from evenface.choice.wishes import gives_up, score_of, strong_in
from evenface.materials import Catalogue
from evenface.materials.traits import KINDS, MaterialClass, traits
from evenface.piece.brief_records import Brief

_ORDER = {Verdict.GOOD: 0, Verdict.DOUBT: 0, Verdict.OUT: 1}


def rank_all(brief: Brief, catalogue: Catalogue) -> tuple[Ranking, ...]:
    """Facings, surfaces, carriers, balancing sheets, glues, woods, finishes."""
    return tuple(rank(kind, brief, catalogue) for kind in KINDS)


def rank(kind: str, brief: Brief, catalogue: Catalogue) -> Ranking:
    """The candidates of one kind, those ruled out last.

    In order: share of the wishes, then fewer doubts, then the lower price level, then the name: the order in
    which wishes are written does not matter.
    """
    known = [with_catalogue(one, catalogue) for one in traits().of_kind(kind)]
    judged = [(one, (*reasons_of(one, brief), *against_use(one, brief.use))) for one in known]
    standing = [one for one, reasons in judged if verdict_of(reasons) is not Verdict.OUT]
    made = [
        Candidate(
            kind,
            one.name,
            one.title,
            verdict_of(reasons),
            reasons,
            score_of(one, brief),
            members(one, catalogue),
            strong_in(one, brief),
            gives_up(one, brief, standing),
            _price(one),
            not brief.wishes or any(asked.need in one.traits for asked in brief.wishes),
        )
        for one, reasons in judged
    ]
    return Ranking(kind, tuple(sorted(made, key=_key)))


def _key(one: Candidate) -> tuple[float, ...] | tuple[float | str, ...]:
    nominal = one.score.nominal if one.score.nominal is not None else one.score.low
    doubts = len(one.reasons)
    return (_ORDER[one.verdict], -round(nominal, 9), doubts, one.price_level or 9.0, one.name)


def _price(one: MaterialClass) -> float | None:
    trait = one.traits.get("budget")
    return trait.value.nominal if trait else None
