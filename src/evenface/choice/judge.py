"""Is a must met? The figure decides; a range that reaches across the limit is said, never hidden."""

from evenface.choice.records import Reason, Verdict
from evenface.materials.traits import MaterialClass, Need, Trait, traits
from evenface.piece.brief_records import Asked, Brief
from evenface.words import Said, said

SPOKEN = {
    Verdict.OUT: "{title}: {need} asks for {limit}, it has {found}.",
    Verdict.DOUBT: "{title}: {need} asks for {limit}, sources or products give {low:.0f} to {high}.",
}


def reasons_of(one: MaterialClass, brief: Brief) -> tuple[Reason, ...]:
    """What the musts say against a class; each must by itself, so that none can make good for another."""
    found = (_reason(one, asked) for asked in brief.musts)
    return tuple(reason for reason in found if reason is not None)


def verdict_of(reasons: tuple[Reason, ...]) -> Verdict:
    """The gravest of them."""
    verdicts = {reason.verdict for reason in reasons}
    return next((one for one in (Verdict.OUT, Verdict.DOUBT) if one in verdicts), Verdict.GOOD)


def _reason(one: MaterialClass, asked: Asked) -> Reason | None:
    trait = one.traits.get(asked.need)
    if trait is None:
        return None
    need = traits().needs[asked.need]
    level = need.level_for(one.kind, asked.word, asked.level)
    worst, best = _ends(trait, need)
    meets = _meets(need, trait.value.nominal, level)
    if meets and _meets(need, worst, level):
        return None
    verdict = Verdict.DOUBT if meets else Verdict.OUT
    message = said(
        SPOKEN[verdict],
        title=one.title,
        need=need.title,
        limit=_amount(need, level),
        found=_amount(need, trait.value.nominal),
        low=trait.value.low,
        high=_amount(need, trait.value.high),
    )
    straddles = _meets(need, best, level)
    return Reason(
        verdict,
        asked.need,
        message,
        trait.why,
        trait.value.source,
        trait.value.status,
        trait.value,
        level,
        straddles,
    )


def _amount(need: Need, figure: float) -> Said:
    """ "grade 2", "price level 3", but "150 °C"."""
    if need.unit in ("grade", "price level"):
        return said("{unit:word} {figure}", unit=need.unit, figure=figure)
    return said("{figure:.0f} {unit}", unit=need.unit, figure=figure)


def _ends(trait: Trait, need: Need) -> tuple[float, float]:
    """The worse and the better end of the range."""
    ends = trait.value.low, trait.value.high
    return (ends[1], ends[0]) if need.less_is_better else ends


def _meets(need: Need, figure: float, level: float) -> bool:
    return figure <= level if need.less_is_better else figure >= level
