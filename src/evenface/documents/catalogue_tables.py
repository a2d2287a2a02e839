"""The catalogue as a reader sees it: a list by kind, and everything known of one material."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from evenface.documents.display import DASH, cited, length, value_range
from evenface.documents.finding_tables import STATUS_WORDS
from evenface.documents.tables import Table, table
from evenface.errors import MissingWord
from evenface.materials import Carrier, Catalogue, Facing, Glue, Record, Wood, values_of
from evenface.words import ENGLISH, Manner, Own

KIND_WORDS: Final = {
    "carrier": "Carriers",
    "facing": "Facings and balancing sheets",
    "wood": "Woods",
    "glue": "Glues",
    "finish": "Finishes",
}


@dataclass(frozen=True, slots=True)
class Explained:
    """One material: its figures, the forms it is sold in, what to mind, where the sources disagree."""

    name: str
    title: str
    kind: str
    figures: Table
    supplies: Table
    cautions: tuple[str, ...]
    disagreement: str
    source: str
    own: bool


def materials_tables(
    catalogue: Catalogue, kind: str | None = None, manner: Manner = ENGLISH
) -> tuple[Table, ...]:
    """One table a kind: name as written in a job file, title, what it is. MissingWord: unknown kind."""
    if kind is not None:
        catalogue.names(kind)
    return tuple(
        table(
            manner.translate(KIND_WORDS[one]),
            ("Name", "Title", "Sort", ">Thickness, mm", "From"),
            [_listed(record, catalogue.is_own(one, record.name), manner) for record in records],
            manner=manner,
        )
        for one, records in catalogue.everything().items()
        if kind in (None, one)
    )


def _listed(record: Record, own: bool, manner: Manner) -> tuple[str, ...]:
    thick = DASH
    if isinstance(record, Carrier | Facing):
        nominal, between = value_range(record.thickness, manner)
        thick = f"{nominal} ({between})" if between else nominal
    word = manner.translate
    return Own(record.name), record.title, word(_sort(record)), thick, word("own" if own else "shipped")


def _sort(record: Record) -> str:
    match record:
        case Carrier():
            return record.board
        case Facing():
            return f"{record.family.replace('_', ' ')} {record.grade}".strip()
        case Wood():
            return "hardwood" if record.hardwood else "softwood"
        case Glue():
            return f"{record.kind.replace('_', ' ')} {record.water_class}".strip()
    return DASH


def explain(catalogue: Catalogue, name: str, manner: Manner = ENGLISH) -> Explained:
    """Every figure of one material. Raises MissingWord, naming the nearest, when nothing is called so."""
    for kind, records in catalogue.everything().items():
        for record in records:
            if record.name == name:
                return _explained(catalogue, kind, record, manner)
    known = [record.name for records in catalogue.everything().values() for record in records]
    raise MissingWord("material", name, known)


def _explained(catalogue: Catalogue, kind: str, record: Record, manner: Manner) -> Explained:
    figures = [
        (
            manner.translate(key.replace("_", " ")),
            *value_range(value, manner),
            value.unit,
            manner.translate(value.status.value),
            cited(value.source, manner),
        )
        for key, value in values_of(record).items()
    ]
    headings = ("What", ">Value", ">90 % range", "Unit", "Status", "Source")
    statuses = dict.fromkeys(value.status for value in values_of(record).values())
    note = "; ".join(
        f"{manner.translate(status.value)}: {manner.translate(STATUS_WORDS[status])}" for status in statuses
    )
    return Explained(
        name=record.name,
        title=record.title,
        kind=kind,
        figures=table("Figures", headings, figures, note, manner),
        supplies=table(
            "Sold as",
            ("Form", ">Size, mm", "Sold by", "Source"),
            list(_supplies(record, manner)),
            manner=manner,
        ),
        cautions=record.cautions,
        disagreement=record.disagreement,
        source=cited(record.source, manner),
        own=catalogue.is_own(kind, record.name),
    )


def _supplies(record: Record, manner: Manner) -> Iterator[tuple[str, ...]]:
    if not isinstance(record, Carrier | Facing | Wood):
        return
    for supply in record.supplies:
        sizes = [supply.length_mm, supply.width_mm]
        if supply.thickness_mm is not None:
            sizes.append(supply.thickness_mm)
        shown = [manner.translate("any") if one is None else length(one, 0.1, manner) for one in sizes]
        sold_by = {"m3": "cubic metre"}.get(supply.sold_by, supply.sold_by)
        form = manner.translate(supply.form.replace("_", " "))
        yield form, " × ".join(shown), manner.translate(sold_by), cited(supply.source, manner)
