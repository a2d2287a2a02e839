"""Sets of parts that are to come from one sheet: doors that hang together, a pair, all fronts of a row."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from evenface.construction import BuiltPanel
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.records import Blank, Saw
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import expand
from evenface.layouts.together import on_one
from evenface.parts import Part
from evenface.words import said


def sets_named(wanted: Sequence[Blank], parts: Sequence[Part], panels: Sequence[BuiltPanel]) -> list[Blank]:
    """The blanks with the name of their set, as the panels have it; face and back of a set go together."""
    by_origin = {panel.origin: panel.panel.same_sheet for panel in panels if panel.panel.same_sheet}
    names = {part.id: by_origin[part.origin] for part in parts if part.origin in by_origin}
    return [
        replace(blank, same=names[blank.part]) if blank.part in names and not blank.same else blank
        for blank in wanted
    ]


def sets_that_fit(
    blanks: Sequence[Blank], stock: Sequence[StockSize], saw: Saw, material: str
) -> tuple[tuple[Blank, ...], tuple[Finding, ...]]:
    """The blanks, with sets given up that no one sheet holds; and what there is to say of each set.

    A run of a roll is one piece: nothing is asked of it.
    """
    sets: dict[str, list[Blank]] = defaultdict(list)
    for blank in blanks:
        if blank.same:
            sets[blank.same].append(blank)
    dropped: set[str] = set()
    findings = []
    for name, held in sets.items():
        pieces = expand(held)
        if stock[0].form == "roll":
            dropped.add(name)
        elif any(on_one(pieces, size, saw) is not None for size in stock):
            findings.append(_kept(name, held, len(pieces), material))
        else:
            dropped.add(name)
            findings.append(_given_up(name, held, len(pieces), material))
    kept = tuple(replace(blank, same="") if blank.same in dropped else blank for blank in blanks)
    return kept, tuple(findings)


def _kept(name: str, held: Sequence[Blank], count: int, material: str) -> Finding:
    return Finding(
        code="layout.one_sheet",
        severity=Severity.NOTE,
        part=held[0].part,
        at=held[0].layer,
        value=certain(count),
        unit="pieces",
        message=said(
            "The set {name}: {count:count} blanks come from one sheet of {material}.",
            name=name,
            count=count,
            material=material,
        ),
        why=said("Bond them alike as well: same day, same press load, the same face out."),
        source="layouts",
    )


def _given_up(name: str, held: Sequence[Blank], count: int, material: str) -> Finding:
    return Finding(
        code="layout.not_one_sheet",
        severity=Severity.WEIGH,
        part=held[0].part,
        at=held[0].layer,
        value=certain(count),
        unit="pieces",
        message=said(
            "The set {name} goes on no one sheet of {material}: its {count:count} blanks are laid out freely.",
            name=name,
            count=count,
            material=material,
        ),
        why=said("Sheets of two batches differ in colour and move differently."),
        source="sizes of supply",
        remedies=(
            Remedy(
                "layout.one_batch", said("Buy its sheets from one batch, with the same number on the edge.")
            ),
            Remedy("layout.smaller_set", said("Make two sets of it, or buy a larger sheet.")),
        ),
    )
