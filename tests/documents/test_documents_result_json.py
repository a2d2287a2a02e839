"""result.json: its own schema, sums that close, and what comes back when it is read."""

import json
import math
from dataclasses import replace

import pytest
from documents.glaze_room import BENCH, findings_by_hand, piece, result_of

from evenface.documents.result_json import (
    findings_text,
    made_schema,
    read_result,
    result_entry,
    result_text,
    schema_text,
)
from evenface.errors import FileError
from evenface.evidence import Band

KINDS = {
    "object": dict,
    "array": list,
    "string": str,
    "boolean": bool,
    "null": type(None),
    "integer": int,
    "number": (int, float),
}
SIMPLE = {
    "type": lambda v, rule: isinstance(v, KINDS[rule]) and (not isinstance(v, bool) or rule == "boolean"),
    "const": lambda v, rule: v == rule,
    "enum": lambda v, rule: v in rule,
    "minimum": lambda v, rule: not isinstance(v, int | float) or v >= rule,
    "minItems": lambda v, rule: not isinstance(v, list) or len(v) >= rule,
    "maxItems": lambda v, rule: not isinstance(v, list) or len(v) <= rule,
    "required": lambda v, rule: not isinstance(v, dict) or set(rule) <= v.keys(),
}
SPOKEN = {"title", "description", "$defs", "$schema", "$id"}
INNER = {"properties", "additionalProperties", "prefixItems", "items", "anyOf"}


def faults(value, schema, root, at="$"):
    """What of a value is not as a schema says; refuses a schema that uses words not known here."""
    if "$ref" in schema:
        target = root
        for step in schema["$ref"].removeprefix("#/").split("/"):
            target = target[step]
        return faults(value, target, root, at)
    assert schema.keys() <= SIMPLE.keys() | SPOKEN | INNER
    found = [
        f"{at}: {word} {schema[word]}"
        for word in SIMPLE.keys() & schema
        if not SIMPLE[word](value, schema[word])
    ]
    if "anyOf" in schema and all(faults(value, one, root, at) for one in schema["anyOf"]):
        found.append(f"{at}: none of anyOf")
    return found + [
        f for key, inner, one in _inside(value, schema) for f in faults(inner, one, root, f"{at}.{key}")
    ]


def _inside(value, schema):
    """(key, value, schema) of what a value holds; a key that may not be there gets a schema nothing fits."""
    if isinstance(value, dict):
        known, others = schema.get("properties", {}), schema.get("additionalProperties", True)
        for key, inner in value.items():
            yield key, inner, known.get(key, {} if others is True else others or {"enum": []})
    if isinstance(value, list):
        first = schema.get("prefixItems", [])
        for number, inner in enumerate(value):
            yield number, inner, first[number] if number < len(first) else schema.get("items", {})


def test_it_is_as_its_schema_says(glaze_room):
    schema = json.loads(schema_text())
    data = json.loads(result_text(glaze_room, ("packet.pdf", "result.json")))
    assert faults(data, schema, schema) == []
    for spoil in (
        lambda d: d.pop("buying"),
        lambda d: d["parts"][0].update(count=0),
        lambda d: d["findings"][0].update(severity="dire"),
        lambda d: d["layouts"][0]["stock"][0].update(size_mm=[1.0]),
        lambda d: d.update(more=1),
    ):
        data = json.loads(result_text(glaze_room))
        spoil(data)
        assert faults(data, schema, schema)


def test_the_shipped_schema_is_the_one_the_records_make():
    assert schema_text() == made_schema()


def test_it_comes_back_as_it_was_written(glaze_room):
    text = result_text(glaze_room, ("result.json",))
    back = read_result(text)
    assert back.parts[1].finished_mm == (715.0, 397.25, pytest.approx(19.6))
    assert back.files == ("result.json",)
    assert result_text(glaze_room, ("result.json",)) == text
    entry = result_entry(glaze_room)
    assert [part.id for part in back.parts] == [part.id for part in entry.parts]
    assert back.findings == entry.findings


def test_areas_close(glaze_room):
    """1 sheet = pieces + offcuts + kerfs (not of the trims) + trims, from the file alone."""
    stock = json.loads(result_text(glaze_room))["layouts"][0]["stock"][0]
    long, wide = stock["size_mm"]
    trims = long * wide - (long - 2 * stock["trim_mm"]) * (wide - 2 * stock["trim_mm"])
    area = sum(one["length_mm"] * one["width_mm"] for key in ("placements", "offcuts") for one in stock[key])
    kerfs = sum((cut["to_mm"] - cut["from_mm"]) * cut["kerf_mm"] for cut in stock["cuts"] if cut["stage"])
    assert long * wide == pytest.approx(area + kerfs + trims, abs=1e-6)


def test_the_ladder_is_in_it(glaze_room):
    bench = json.loads(result_text(glaze_room))["parts"][0]
    carrier = next(layer for layer in bench["layers"] if layer["role"] == "carrier")
    assert carrier["net_mm"] == [1772.0, 636.0, 17.8]
    front = next(layer for layer in bench["layers"] if layer["edge"] == "front")
    assert (front["net_mm"][0], front["inner_mm"], front["angles_deg"]) == (1800.0, 1772.0, [45.0, 45.0])
    assert all(reason[0].isupper() or reason[0].isdigit() for reason in front["reasons"])


def test_the_value_of_a_finding_is_the_end_that_decides(glaze_room):
    finding = next(f for f in json.loads(result_text(glaze_room))["findings"] if f["code"] == "bow.limit")
    assert (finding["value"], finding["value_low"], finding["value_nominal"]) == (2.25, -1.5, None)
    assert finding["where"] == "Cupboard, door"


def test_findings_alone_are_the_same_findings(glaze_room):
    alone = json.loads(findings_text(glaze_room.findings))
    assert alone["schema"] == "evenface-findings-1"
    assert alone["findings"] == json.loads(result_text(glaze_room))["findings"]
    assert json.loads(findings_text(()))["findings"] == []


def test_lengths_are_rounded_to_a_millionth():
    shelf = replace(BENCH, length_mm=1800.0 + 1 / 3)
    part = json.loads(result_text(result_of(piece("Bench", shelf))))["parts"][0]
    assert part["finished_mm"][0] == 1800.333333


def test_a_number_that_is_none_is_refused(glaze_room):
    spoiled = replace(findings_by_hand()[0], value=Band(math.nan, None, math.nan))
    with pytest.raises(ValueError, match="not JSON compliant"):
        result_text(replace(glaze_room, findings=(spoiled,)))


def test_reading_names_the_field(glaze_room):
    data = json.loads(result_text(glaze_room))
    data["parts"][0]["count"] = "many"
    data["surprise"] = True
    with pytest.raises(FileError) as error:
        read_result(json.dumps(data))
    assert "parts.0.count" in str(error.value)
    assert "surprise" in str(error.value)
    assert len(error.value.complaints) == 2
