"""`result.json`: the whole answer for other programs, its schema, and reading it back."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any, Final

from pydantic import TypeAdapter, ValidationError

from evenface.documents import result_file as f
from evenface.documents.display import sentence, titles_in, titles_of, where
from evenface.documents.flat_tables import Row, flat_entries, rows_of
from evenface.errors import Complaint, FileError, Place
from evenface.evidence import Band
from evenface.finding import Finding, Remedy
from evenface.layouts import Layout, Sheet
from evenface.parts import LayerSizes, Part
from evenface.result import SCHEMA, Result, Sketch
from evenface.units import from_grid
from evenface.words import Said, said, say

DECIMALS: Final = 6
FINDINGS_SCHEMA: Final = "evenface-findings-1"
FLATNESS_SCHEMA: Final = "evenface-flatness-1"
SCHEMA_FILE: Final = Path(__file__).parent / "result.schema.json"
_UNITS: Final = {"fewest": "pieces of stock", "money": "money", "area": "mm2", "length": "mm"}


def result_text(result: Result, files: Sequence[str] = ()) -> str:
    """`result.json` as text, in a stable order. ValueError when a number is not finite."""
    data = asdict(result_entry(result, files))
    return json.dumps(_rounded(data), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def findings_text(findings: Sequence[Finding]) -> str:
    """Findings alone as JSON text, each as in `result.json`. ValueError when a number is not finite."""
    data = {"schema": FINDINGS_SCHEMA, "findings": [asdict(_finding(finding)) for finding in findings]}
    return json.dumps(_rounded(data), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def flatness_text(rows: Sequence[Row]) -> str:
    """Flatness alone as JSON text, each row as in `result.json`. ValueError when a number is not finite."""
    data = {"schema": FLATNESS_SCHEMA, "flatness": [asdict(entry) for entry in flat_entries(rows)]}
    return json.dumps(_rounded(data), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def read_result(text: str, file: str = "result.json") -> f.ResultFile:
    """The records of a `result.json`. FileError names every field that is not as the schema says."""
    try:
        return _adapter().validate_json(text)
    except ValidationError as error:
        raise FileError([_complaint(one, file) for one in error.errors(include_url=False)]) from None


def _complaint(error: Mapping[str, Any], file: str) -> Complaint:
    key = ".".join(str(step) for step in error["loc"])
    given = repr(error.get("input"))
    shown = given if len(given) <= 60 else given[:57] + "..."
    return Complaint(Place(file, key=key), said("what the schema says ({what})", what=error["msg"]), shown)


@cache
def _adapter() -> TypeAdapter[f.ResultFile]:
    return TypeAdapter(f.ResultFile)


def schema_text() -> str:
    """The JSON schema of `result.json`, as shipped beside this module."""
    return SCHEMA_FILE.read_text(encoding="utf-8")


def made_schema() -> str:
    """The same, made anew from the records; a test keeps the shipped one equal."""
    schema = _adapter().json_schema(mode="validation")
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": SCHEMA}
    return json.dumps(head | schema, ensure_ascii=False, indent=1) + "\n"


def result_entry(result: Result, files: Sequence[str] = ()) -> f.ResultFile:
    """The result as the records of the file."""
    titles, job = titles_of(result), result.sketch.job
    return f.ResultFile(
        schema="evenface-result-1",
        version=result.version,
        hashes=dict(sorted(result.hashes.items())),
        seed=result.seed,
        seconds=result.seconds,
        job=f.JobEntry(job.name, job.client, job.due, job.place, Path(job.file).name),
        parts=tuple(_part(part, titles) for part in result.sketch.all_parts),
        findings=tuple(_finding(finding) for finding in result.findings),
        layouts=tuple(_layout(layout, titles) for layout in result.layouts),
        buying=tuple(
            f.BuyingEntry(r.material, r.title, r.form, r.size_mm, r.amount, r.unit, say(r.note))
            for r in result.buying
        ),
        flatness=tuple(flat_entries(rows_of(result.sketch))),
        not_done=tuple(f.NotDoneEntry(room, say(why)) for room, why in result.not_done),
        files=tuple(files),
    )


def part_entries(sketch: Sketch) -> tuple[f.PartEntry, ...]:
    """Every part as in the file, of a job that is not planned yet."""
    titles = titles_in(sketch)
    return tuple(_part(part, titles) for part in sketch.all_parts)


def finding_entries(findings: Sequence[Finding]) -> tuple[f.FindingEntry, ...]:
    """Findings as in the file."""
    return tuple(_finding(finding) for finding in findings)


def _part(part: Part, titles: Mapping[str, str]) -> f.PartEntry:
    return f.PartEntry(
        id=part.id,
        piece=part.piece,
        part=part.name,
        count=part.count,
        finished_mm=part.finished_mm,
        mass_kg=part.mass_kg,
        marks={name: say(mark) for name, mark in sorted(part.marks.items())},
        layers=tuple(_layer(layer, titles) for layer in part.layers),
        origin=part.origin,
    )


def _layer(layer: LayerSizes, titles: Mapping[str, str]) -> f.LayerEntry:
    return f.LayerEntry(
        role=layer.role.value,
        edge=layer.side.value if layer.side else None,
        name=layer.name,
        material=layer.material,
        title=titles.get(layer.material, ""),
        count=layer.count,
        net_mm=layer.net_mm,
        cut_mm=layer.cut_mm,
        blank_mm=layer.blank_mm,
        bought_mm=layer.bought_mm,
        inner_mm=layer.inner_mm,
        angles_deg=layer.angles_deg,
        along_x=layer.along_x,
        direction_deg=layer.direction_deg,
        tolerance_mm=layer.tolerance_mm,
        locked=layer.locked,
        fitted=layer.fitted,
        depends_on=_spoken(layer.depends_on),
        reasons=_spoken(layer.reasons),
        origin=layer.origin,
    )


def _spoken(sentences: Sequence[Said]) -> tuple[str, ...]:
    return tuple(sentence(one) for one in sentences)


def _three(band: Band | None) -> tuple[float | None, float | None, float | None]:
    return (band.low, band.nominal, band.high) if band else (None, None, None)


def _finding(finding: Finding) -> f.FindingEntry:
    low, nominal, high = _three(finding.value)
    return f.FindingEntry(
        code=finding.code,
        severity=finding.severity.value,
        where=where(finding),
        piece=finding.piece,
        part=finding.part,
        at=finding.at,
        origin=finding.origin,
        value=finding.value.worst if finding.value else None,
        value_low=low,
        value_nominal=nominal,
        value_high=high,
        limit=finding.limit,
        unit=finding.unit,
        gauge_mm=finding.gauge_mm,
        message=say(finding.message),
        why=say(finding.why),
        source=finding.source,
        weakest=finding.weakest.value,
        remedies=tuple(_remedy(remedy) for remedy in finding.remedies),
    )


def _remedy(remedy: Remedy) -> f.RemedyEntry:
    changes = tuple(f.ChangeEntry(change.path, change.old, change.new) for change in remedy.changes)
    return f.RemedyEntry(remedy.code, say(remedy.message), changes, *_three(remedy.predicted))


def _layout(layout: Layout, titles: Mapping[str, str]) -> f.LayoutEntry:
    bought = layout.bought
    return f.LayoutEntry(
        material=layout.material,
        title=titles.get(layout.material, ""),
        aim=layout.aim,
        stock=tuple(_stock(sheet) for sheet in layout.sheets),
        bought=f.BoughtEntry(
            count=bought.count,
            by_stock=dict(sorted(bought.by_stock.items())),
            running_length_mm=from_grid(bought.running_length),
            area_mm2=bought.area / 10_000,
            price=None if bought.price is None else f"{bought.price:f}",
        ),
        measure=_measured(layout.measure, layout.aim),
        bound=_measured(layout.bound, layout.aim),
        measure_unit=_UNITS[layout.aim],  # type: ignore[arg-type]
        proved=layout.proved,
        method=layout.method,
        checked=layout.checked,
        seed=layout.seed,
        unplaced=tuple(f.UnplacedEntry(blank, count) for blank, count in layout.unplaced),
    )


def _measured(number: int | Decimal, aim: str) -> float:
    return float(number) / {"area": 10_000, "length": 100}.get(aim, 1)


def _stock(sheet: Sheet) -> f.StockEntry:
    flat = sheet.form != "stick"

    def across(count: int) -> float | None:
        return from_grid(count) if flat else None

    return f.StockEntry(
        stock=sheet.stock,
        form=sheet.form,
        size_mm=(from_grid(sheet.length), across(sheet.width)),
        trim_mm=from_grid(sheet.trim),
        placements=tuple(
            f.PlacementEntry(
                p.blank, p.part, from_grid(p.x), across(p.y), from_grid(p.length), across(p.width), p.turned
            )
            for p in sheet.placed
        ),
        cuts=tuple(_cuts(sheet)),
        offcuts=tuple(
            f.OffcutEntry(from_grid(o.x), across(o.y), from_grid(o.length), across(o.width))
            for o in sheet.offcuts
        ),
    )


def _cuts(sheet: Sheet) -> Iterator[f.CutEntry]:
    for cut in sheet.cuts:
        sizes = (from_grid(n) for n in (cut.fence, cut.position, cut.from_, cut.to_, cut.kerf))
        yield f.CutEntry(cut.number, cut.stage, cut.axis, *sizes)


def _rounded(data: object) -> object:
    """Every float to 1e-6; whole numbers keep their point, so that a reader sees which fields are lengths."""
    if isinstance(data, float):
        return round(data, DECIMALS) + 0.0
    if isinstance(data, Mapping):
        return {key: _rounded(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [_rounded(value) for value in data]
    return data
