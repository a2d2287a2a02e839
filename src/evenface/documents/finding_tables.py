"""Findings, buying list and what rests on what, as finished text."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from evenface.documents.display import DASH, SEVERITY_WORDS, amount, band, cited, length, places, where
from evenface.documents.tables import Table, table
from evenface.evidence import Status, weakest
from evenface.finding import Finding, Severity
from evenface.result import BuyingRow, Result
from evenface.words import ENGLISH, Manner, figure, say

CAUTION: Final = (
    "These papers help a maker to think; they do not replace one. Local rules and licensed practice come "
    "first: water, gas and electricity belong to licensed people, and what bears load or goes to the public "
    "belongs to those who may answer for it."
)

STATUS_WORDS: Final = {
    Status.MEASURED: "measured by the maker",
    Status.READ: "read in a standard, data sheet or handbook",
    Status.DERIVED: "reckoned from figures that were read",
    Status.PRACTICE: "common practice, without a published source",
    Status.MEMORY: "from memory: have it confirmed before you rely on it",
}

COUNTED: Final = {
    Severity.STOP: ("stop", "stops"),
    Severity.WEIGH: ("risk to decide", "risks to decide"),
    Severity.NOTE: ("note", "notes"),
}


@dataclass(frozen=True, slots=True)
class FindingText:
    """A finding as it is read: every field a finished text, empty where there is nothing to say."""

    severity: str
    word: str
    code: str
    where: str
    message: str
    found: str
    limit: str
    why: str
    source: str
    evidence: str
    remedies: tuple[str, ...]
    also: tuple[str, ...] = ()
    """The same elsewhere, with other numbers: a line for each place."""

    @property
    def kind(self) -> tuple[object, ...]:
        """What findings share that say the same of several places: all but the place and its numbers."""
        return self.severity, self.code, self.why, self.source, self.remedies


def finding_text(finding: Finding, manner: Manner = ENGLISH) -> FindingText:
    """One finding in the reader's language and units."""
    return FindingText(
        severity=finding.severity.value,
        word=manner.translate(SEVERITY_WORDS[finding.severity]),
        code=finding.code,
        where=where(finding, manner),
        message=say(finding.message, manner),
        found=""
        if finding.value is None
        else band(finding.value, finding.unit, manner) + _over(finding, manner),
        limit="" if finding.limit is None else amount(finding.limit, finding.unit, manner),
        why=say(finding.why, manner),
        source=cited(finding.source.rstrip(". "), manner),
        evidence=manner.translate(STATUS_WORDS[finding.weakest]),
        remedies=tuple(say(remedy.message, manner) for remedy in finding.remedies),
    )


def gathered(findings: Sequence[Finding], manner: Manner = ENGLISH) -> tuple[FindingText, ...]:
    """Findings as texts, what is said of several places in the same words said once, where it first stands.

    Of one kind are those with the same gravity, code, reason, source and remedies. Where the numbers are the same too
    the places stand side by side; else each further place has its line under `also`.
    """
    kinds: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        kinds.setdefault(finding_text(finding, manner).kind, []).append(finding)
    return tuple(_as_one(group, manner) for group in kinds.values())


def _as_one(group: Sequence[Finding], manner: Manner) -> FindingText:
    texts = [finding_text(finding, manner) for finding in group]
    first = replace(
        texts[0], evidence=manner.translate(STATUS_WORDS[weakest([one.weakest for one in group])])
    )
    if len({(text.message, text.found, text.limit) for text in texts}) == 1:
        return replace(first, where=places(group, manner))
    return replace(first, also=tuple(f"{text.where}: {text.message}" for text in texts[1:]))


def _over(finding: Finding, manner: Manner) -> str:
    if finding.gauge_mm is None:
        return ""
    return f" {manner.translate('over')} {amount(finding.gauge_mm, 'mm', manner)}"


def findings_table(findings: Sequence[Finding], manner: Manner = ENGLISH) -> Table:
    """Findings in the order given: gravity, place, what, the number found and its limit."""
    texts = [finding_text(finding, manner) for finding in findings]
    rows = [(t.word, t.where or DASH, t.message, t.found or DASH, t.limit or DASH) for t in texts]
    return table("Findings", ("Gravity", "Where", "What", ">Found", ">Limit"), rows, manner=manner)


def tally(findings: Sequence[Finding], manner: Manner = ENGLISH) -> str:
    """ "1 stop, 2 risks to decide, 3 notes"; "nothing found" when there is none."""
    parts = []
    for severity, words in COUNTED.items():
        count = sum(finding.severity is severity for finding in findings)
        if count:
            parts.append(f"{count} {manner.translate(words[count != 1])}")
    return ", ".join(parts) or manner.translate("nothing found")


def evidence_line(result: Result, manner: Manner = ENGLISH) -> str:
    """What the findings rest on, at its weakest: said plainly on the cover."""
    if not result.findings:
        return manner.translate("No finding stands; that says only that what is checked raised none.")
    status = weakest([finding.weakest for finding in result.findings])
    return manner.translate("The weakest figure these findings rest on is {what}.").format(
        what=manner.translate(STATUS_WORDS[status])
    )


def buying_table(rows: Sequence[BuyingRow], manner: Manner = ENGLISH) -> Table:
    """What is bought: material, form, size, amount, and what the amount rests on."""
    cells = [
        (
            row.title or row.material,
            manner.translate(row.form.replace("_", " ")),
            _bought_size(row, manner),
            f"{figure(row.amount, 3, manner)} {manner.translate(_unit(row))}",
            say(row.note, manner),
        )
        for row in rows
    ]
    return table("To buy", ("Material", "Form", ">Size", ">Amount", "Note"), cells, manner=manner)


def _unit(row: BuyingRow) -> str:
    return "sheet" if row.amount == 1 and row.unit == "sheets" else row.unit


def _bought_size(row: BuyingRow, manner: Manner) -> str:
    if row.size_mm is None:
        return DASH
    any_length = manner.translate("any")
    return " × ".join(any_length if one is None else length(one, manner=manner) for one in row.size_mm)
