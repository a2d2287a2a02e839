"""The API held against its own description with made-up requests: answers as described, never a server error."""

from contextlib import closing

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis.strategies import booleans
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    negative_data_rejection,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
    unsupported_method,
)

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.api import BASE, OPERATIONS
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.store import JobStore
from evenface.store.rack import Rack
from evenface.store.rack_records import RackItem

THERE = {
    "job": 1, "part": "1.1", "name": "plan", "piece": 1, "pattern": "shelf", "step": "1.1-01", "variant": 1,
    "number": "1", "file": "offer.pdf", "paper": "care.pdf", "person": 1, "line": 1,
}  # fmt: skip
CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
    response_headers_conformance,
    negative_data_rejection,
    unsupported_method,
]


def as_on_this_machine(app):
    """The app as asked under its own address: the test client names a host of its own."""

    async def asked(scope, receive, send):
        others = [one for one in scope.get("headers", ()) if one[0] != b"host"]
        await app({**scope, "headers": [*others, (b"host", b"127.0.0.1")]}, receive, send)

    return asked


@pytest.fixture(scope="module")
def described(tmp_path_factory):
    home = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch, closing(JobStore(home)) as store:
        patch.setenv("EVENFACE_HOME", str(home))
        patch.delenv("EVENFACE_RACK", raising=False)
        store.add("Glaze room", example_text())
        with Rack(home) as rack:
            (item,) = rack.receive([RackItem("sheet", "birch-ply-18", 250_000, 125_000)])
        patch.setitem(THERE, "code", item.code)
        app = build_app(store, Planner(0.0))
        yield schemathesis.openapi.from_asgi("/api/v1/openapi.json", as_on_this_machine(app))


@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE])
@pytest.mark.parametrize("one", OPERATIONS, ids=lambda one: one.name)
def test_answers_are_as_described(described, one, mode):
    if mode is GenerationMode.NEGATIVE and not (one.body or one.units or "{" in one.path):
        return  # nothing is sent that could be wrong

    @seed(20270111)
    @settings(
        max_examples=8, deadline=None, database=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(case=described[BASE + one.path][one.method].as_strategy(generation_mode=mode), near=booleans())
    def asked(case, near):
        if near and mode is GenerationMode.POSITIVE:  # made-up numbers hardly ever find a job
            case.path_parameters |= {key: THERE[key] for key in case.path_parameters or {}}
        seen.add(case.call_and_validate(checks=CHECKS).status_code)

    seen = set()
    asked()
    if mode is GenerationMode.POSITIVE and not one.body:
        assert seen & {one.status, *one.refusals}
