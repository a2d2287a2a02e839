"""A reader of Swedish types what cannot be: every page that refuses it does so in Swedish."""

import html
import re

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.store import JobStore

HOME = "http://127.0.0.1:8000"
AT = "piece[0].panel[0]"
ENGLISH = re.compile(
    r"\b(a|an|the|of|or|and|such|with|without|one|expected|given|nothing|neither|both|number|length|line|column|there|"
    r"known|did|you|mean|it|at|least|most|below|above|is|was|not|no|than|cannot|this|that|called|has|name|again)\b",
    re.IGNORECASE,
)
SHEET = {"do": "receive", "material": "birch-ply-21", "form": "offcut", "size": "1900x700", "place": "A3"}


@pytest.fixture
def client(tmp_path):
    store = JobStore(tmp_path / "kept")
    store.add("Glaze room", example_text())
    made = TestClient(
        build_app(store, Planner(0.0)), base_url=HOME, headers={"Origin": HOME}, follow_redirects=False
    )
    made.get("/")
    made.cookies.set("evenface_language", "sv")
    yield made
    store.close()


def complaints(page: str) -> list[str]:
    """What the page says is wrong, without what is quoted and without key paths."""
    found = [
        words
        for _, words in re.findall(r'<(p|div|ul|pre)\b[^>]*role="alert"[^>]*>(.*?)</\1>', page, re.DOTALL)
    ]
    found += re.findall(r'class="hint"[^>]*><strong>(.*?)</strong>', page, re.DOTALL)
    return [html.unescape(re.sub("<[^>]*>", " ", one)).strip() for one in found]


def english_in(told: str) -> list[str]:
    bare = re.sub(r"'[^']*'|\"[^\"]*\"|\[[^\]]*\]|[\w.]+\[\d+\][\w.\[\]]*|\b[a-z]+(\.[a-z_]+)+", "", told)
    bare = re.sub(r"(något av|Kända:|name eller) [^.;\n]*", "", bare)  # words of the job file
    return [found.group() for found in ENGLISH.finditer(bare)]


def refused(answer, status: int) -> str:
    assert answer.status_code == status, answer.text[:300]
    told = complaints(answer.text)
    assert any(told), answer.text[-3000:]
    words = " ".join(told)
    assert english_in(words) == [], words
    return words


@pytest.mark.parametrize(
    ("path", "typed", "part"),
    [
        (f"{AT}.size[0]", "long", "Väntade en längd som 18"),
        (f"{AT}.size[0]", "-5,5", "Väntade en längd över 0; fick -5,5."),
        (f"{AT}.size[0]", "30500", "Väntade en längd på högst 20 m; fick 30,5 m."),
        (f"{AT}.size[0]", "", "det här kan inte utelämnas"),
        (f"{AT}.size[0]", "1/0", "Väntade en längd"),
        (f"{AT}.count", "two", "Väntade ett heltal, fick 'two'."),
        (f"{AT}.count", "0", "Väntade ett heltal från 1 till 10000; fick 0."),
        (f"{AT}.use", "roof", "Väntade något av top, shelf"),
        (f"{AT}.edging.width", "wide", "Väntade en längd som 18"),
        (f"{AT}.corners.radius", "-1", "Väntade en längd"),
    ],
)
def test_a_bad_entry_is_refused_beside_its_field(client, path, typed, part):
    answer = client.post("/jobs/1/parts/1.1", data={"version": "0", path: typed})
    assert part in refused(answer, 422)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("format = 1\n[job\n", "väntade giltig TOML; fick ']' saknas"),
        ("format = 2\n", "Filen skrevs för en nyare evenface."),
        ("format = 1\n[jobb]\n", "väntade en känd nyckel; fick 'jobb'. Menade du"),
        ("format = 1\npiece = 3\n", "väntade minst en [[piece]]; fick 3"),
        (
            re.sub("(?m)^due .*$", 'due = "soon"', example_text()),
            "väntade ett datum som 2027-03-12; fick 'soon'",
        ),
        (example_text().replace('carrier = "', 'carrier = "x', 1), "väntade bärskiva ur katalogen"),
    ],
)
def test_a_text_that_cannot_be_read_is_told(client, text, part):
    assert part in refused(client.post("/jobs/1/text", data={"version": "0", "text": text}), 422)
    assert part in refused(client.post("/jobs", data={"text": text}), 422)


@pytest.mark.parametrize(
    ("address", "part"),
    [
        ("/jobs/77", "Det finns inget jobb med numret 77."),
        ("/jobs/1/parts/9.9", "Det här jobbet har ingen del '9.9'."),
        ("/rack/K7F3-2MQT", "Inget i lagret har koden K7F3-2MQT."),
        ("/rack/K7F3-2MQX", "som har ett felaktigt tecken"),
        ("/new?what=boat", "Det finns inget slags möbel som heter 'boat'."),
        ("/rack/labels.pdf", "Det finns inget i lagret att skriva etiketter för"),
    ],
)
def test_an_address_that_names_nothing_is_told(client, address, part):
    answer = client.get(address)
    assert part in refused(answer, answer.status_code)


@pytest.mark.parametrize(
    ("field", "typed", "part"),
    [
        ("material", "birch-ply-999", "Menade du 'birch-ply-"),
        ("size", "big", 'väntade två mått, som "600 x 400"; fick'),
        ("form", "heap", "väntade något av"),
        ("copies", "0", "väntade 1 till"),
        ("price", "cheap", "väntade ett belopp"),
    ],
)
def test_stock_that_cannot_be_is_refused(client, field, typed, part):
    assert part in refused(client.post("/rack", data=SHEET | {field: typed}), 422)


@pytest.mark.parametrize(
    ("field", "typed", "part"),
    [
        ("length", "long", "Väntade en längd"),
        ("name", "", "Väntade ett namn på 1 till 80 tecken."),
        ("length", "1e9", "Väntade"),
    ],
)
def test_a_new_job_that_cannot_be_is_refused(client, field, typed, part):
    assert part in refused(client.post("/new", data={"what": "top", field: typed}), 422)
