"""What does not go together: classes of a build-up held against each other and against the use of the panel."""

from collections.abc import Mapping

from evenface.choice.records import Reason, Verdict
from evenface.materials.traits import MaterialClass, Pair, traits
from evenface.words import said


def doubts_of(classes: Mapping[str, str]) -> tuple[Reason, ...]:
    """Every rule that concerns a build-up. classes : by kind, e.g. facing, carrier, back, glue; use as well."""
    return tuple(
        _reason(pair)
        for pair in traits().pairs
        if all(classes.get(kind, "") in names for kind, names in pair.among.items())
    )


def fits(classes: Mapping[str, str]) -> bool:
    """Whether nothing rules the build-up out."""
    return all(reason.verdict is not Verdict.OUT for reason in doubts_of(classes))


def against_use(one: MaterialClass, use: str) -> tuple[Reason, ...]:
    """The rules that concern one class and the use of the panel alone."""
    return tuple(
        _reason(pair)
        for pair in traits().pairs
        if pair.among.keys() == {one.kind, "use"}
        and one.name in pair.among[one.kind]
        and use in pair.among["use"]
    )


def _reason(pair: Pair) -> Reason:
    verdict = Verdict(pair.verdict)
    return Reason(
        verdict,
        "",
        said("{why}", why=pair.why),
        "",
        pair.source,
        pair.status,
        disagreement=verdict is Verdict.DOUBT,
    )
