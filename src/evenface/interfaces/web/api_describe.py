"""The OpenAPI 3.1 document, written out from the table of operations and the models it names."""

import re
from collections.abc import Sequence
from typing import Any, Final

from pydantic import TypeAdapter

from evenface import __version__
from evenface.interfaces.web.api_operation import Operation
from evenface.interfaces.web.problems import MEDIA, Problem

REFERENCE: Final = "#/components/schemas/{model}"
PARAMETERS: Final[dict[str, dict[str, Any]]] = {
    "job": {"type": "integer", "minimum": 1, "maximum": 99_999_999_999},
    "part": {"type": "string", "minLength": 1, "pattern": r"^[0-9]+(\.[0-9]+)*$"},
    "name": {"type": "string", "minLength": 1, "pattern": "^[a-z-]+$"},
    "pattern": {"type": "string", "minLength": 1, "pattern": "^[a-z]+$"},
    "step": {"type": "string", "minLength": 1, "pattern": r"^[0-9a-z]+[0-9a-z.-]*$"},
    "code": {"type": "string", "minLength": 8, "maxLength": 9, "pattern": "^[0-9A-Z]{4}-?[0-9A-Z]{4}$"},
    "variant": {"type": "integer", "minimum": 1, "maximum": 99_999},
    "number": {"type": "string", "minLength": 1, "maxLength": 20, "pattern": "^[0-9-]+$"},
    "file": {"type": "string", "minLength": 1, "maxLength": 80, "pattern": "^[A-Za-z0-9._-]+$"},
    "paper": {"type": "string", "minLength": 1, "maxLength": 120, "pattern": "^[a-z0-9][a-z0-9./-]*$"},
    "piece": {"type": "integer", "minimum": 1, "maximum": 99_999},
    "person": {"type": "integer", "minimum": 1, "maximum": 99_999},
    "line": {"type": "integer", "minimum": 1, "maximum": 99_999},
}
ALWAYS: Final = (401, 403, 429)
"""An app that is shared asks for its code, everybody refuses foreign pages."""


def openapi(operations: Sequence[Operation], base: str) -> dict[str, Any]:
    """The document as data."""
    wanted: dict[tuple[str, str], TypeAdapter[Any]] = {("problem", "serialization"): TypeAdapter(Problem)}
    for one in operations:
        if one.body is not None:
            wanted[(f"{one.name} body", "validation")] = TypeAdapter(one.body)
        if one.answer is not None:
            wanted[(f"{one.name} answer", "serialization")] = TypeAdapter(one.answer)
    inputs: list[Any] = [(name, mode, adapter) for (name, mode), adapter in wanted.items()]
    schemas, shared = TypeAdapter.json_schemas(inputs, by_alias=True, ref_template=REFERENCE)
    by_name = {name: schema for (name, _), schema in schemas.items()}
    paths: dict[str, dict[str, Any]] = {}
    for one in operations:
        paths.setdefault(base + one.path, {})[one.method.lower()] = _operation(one, by_name)
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "evenface", "version": __version__,
            "description": "The actions of the screens for programs. What changes a job names the version that was "
            "looked at; a job that moved on is refused with what stands now. Lengths in mm.",
        },
        "paths": paths,
        "components": {
            "schemas": shared.get("$defs", {}),
            "securitySchemes": {"code": {"type": "http", "scheme": "bearer",
                                         "description": "The access code of a shared app; none otherwise."}},
        },
        "security": [{}, {"code": []}],
    }  # fmt: skip


def _operation(one: Operation, schemas: dict[Any, Any]) -> dict[str, Any]:
    refused = {MEDIA: {"schema": schemas["problem"]}}
    answer = schemas[f"{one.name} answer"] if one.answer is not None else {"type": "string"}
    responses: dict[str, Any] = {
        str(one.status): {"description": one.summary, "content": {one.media: {"schema": answer}}}
    }
    for status in _refusals(one):
        responses[str(status)] = {"description": "Refused; the body says why.", "content": refused}
    if one.status == 201:
        responses["201"]["headers"] = {"Location": {"schema": {"type": "string"}}}
    told: dict[str, Any] = {
        "operationId": one.name, "summary": one.summary, "parameters": _parameters(one), "responses": responses,
    }  # fmt: skip
    if one.body is not None:
        content = {"application/json": {"schema": schemas[f"{one.name} body"]}}
        told["requestBody"] = {"required": True, "content": content}
    return told


def _parameters(one: Operation) -> list[dict[str, Any]]:
    found = [
        {"name": name, "in": "path", "required": True, "schema": PARAMETERS[name]}
        for name in re.findall(r"\{(\w+)\}", one.path)
    ]
    if one.units:
        units = {"type": "string", "enum": ["mm", "inch"], "default": "mm"}
        found.append({"name": "units", "in": "query", "required": False, "schema": units})
    return found


def _refusals(one: Operation) -> list[int]:
    statuses = {*ALWAYS, *one.refusals, 500, 503}
    if "{job}" in one.path:
        statuses |= {404, 422}  # no such job; a job whose text has faults
    if one.body is not None:
        statuses |= {400, 411, 413, 415, 422}
    if one.units:
        statuses.add(422)
    return sorted(statuses)
