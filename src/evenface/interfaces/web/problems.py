"""What went wrong as data: `application/problem+json` (RFC 9457), in one shape for every refusal."""

import json
from collections.abc import Sequence
from http import HTTPStatus
from typing import Annotated, Any, Final

from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import Response

from evenface.errors import Complaint, in_words

MEDIA: Final = "application/problem+json"


class Reason(BaseModel):
    """One thing that is wrong: what was expected, what was given, where, what to try."""

    model_config = ConfigDict(extra="forbid")

    expected: str
    given: str
    where: Annotated[str, Field(description="File, line, column and key path, or the field of the request.")]
    try_: Annotated[str, Field(alias="try", description="What to try; empty when nothing is known.")] = ""


class Problem(BaseModel):
    """A refusal (RFC 9457). `reasons` holds at least one; the first also stands in the fields of its own."""

    model_config = ConfigDict(extra="allow")

    type: Annotated[str, Field(description="A stable name: `/api/problems/` and a word, such as `stale`.")]
    title: str
    status: int
    detail: str
    expected: str
    given: str
    where: str
    try_: Annotated[str, Field(alias="try")] = ""
    reasons: list[Reason]


class ProblemResponse(Response):
    """A problem as an answer."""

    media_type = MEDIA


def problem(
    status: int, word: str, expected: str, given: str, where: str, hint: str = "", **more: Any
) -> Response:
    """One problem. word : its stable name. more : further members, such as what stands now."""
    return _answer(status, word, [_reason(expected, given, where, hint)], more)


def complaints_problem(status: int, word: str, complaints: Sequence[Complaint], **more: Any) -> Response:
    """Every complaint about a text or an entry, in its order."""
    reasons = [
        _reason(in_words(one.expected), in_words(one.given), str(one.place), in_words(one.hint))
        for one in complaints
    ]
    return _answer(status, word, reasons, more)


def _reason(expected: str, given: str, where: str, hint: str) -> dict[str, str]:
    return {"expected": expected, "given": given, "where": where, "try": hint}


def _answer(status: int, word: str, reasons: list[dict[str, str]], more: dict[str, Any]) -> Response:
    first = reasons[0]
    detail = f"{first['where']}: expected {first['expected']}; given {first['given']}."
    body = {
        "type": f"/api/problems/{word}", "title": HTTPStatus(status).phrase, "status": status,
        "detail": f"{detail} {first['try']}".strip(), **first, "reasons": reasons, **more,
    }  # fmt: skip
    # a text of the request may hold a lone surrogate, which no UTF-8 can carry
    content = json.dumps(body, ensure_ascii=False).encode("utf-8", "backslashreplace")
    return ProblemResponse(content, status)
