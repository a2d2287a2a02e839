"""What must not get in or out: foreign sites, strange names, paths, sizes; on every page there is."""

import asyncio
import re
from contextlib import closing, contextmanager
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import ROUTES, build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.guard import LARGEST_BODY
from evenface.store import JobStore

HOME = "http://127.0.0.1:8000"
SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
BAD = '<script>alert(1)</script>\\"><img src=x onerror=alert(2)> {{7*7}} &amp;'
FILLED = {"{job}": "1", "{part}": "1.1", "{piece}": "1"}
PAGES = sorted({path for way, path, _ in ROUTES if way == "GET"})
CHANGES = sorted({path for way, path, _ in ROUTES if way == "POST"})
SVG = "{http://www.w3.org/2000/svg}"
HARMLESS = {"svg", "g", "path", "text", "tspan", "line", "rect", "circle", "polyline", "polygon", "ellipse",
            "title", "desc", "defs", "pattern", "clipPath", "use", "style", "marker"}  # fmt: skip


class Tags(HTMLParser):
    """What a browser would act upon in a page and should not find there."""

    def __init__(self):
        super().__init__()
        self.bad = []

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        keys = [key for key in given if key.startswith("on") or key == "style"]
        links = [
            one
            for key in ("href", "src", "action")
            if (one := given.get(key)) and not one.startswith(("/", "#"))
        ]
        if keys or links or tag in ("img", "iframe", "object") or (tag == "script" and "src" not in given):
            self.bad.append((tag, attrs))


def filled(path):
    for name, value in FILLED.items():
        path = path.replace(name, value)
    return re.sub(r"\{(\w+)(:\w+)?\}", "drawings", path)


def client_on(store):
    client = TestClient(
        build_app(store, Planner(0.0)), base_url=HOME, headers={"Origin": HOME}, follow_redirects=True
    )
    client.get("/")
    return client


@contextmanager
def home_at(folder):
    with pytest.MonkeyPatch.context() as patch, closing(JobStore(folder)) as made:
        patch.setenv("EVENFACE_HOME", str(folder))
        patch.delenv("EVENFACE_RACK", raising=False)
        yield made


@pytest.fixture(scope="module")
def quiet(tmp_path_factory):
    """A client on one shelf, for tests that change nothing."""
    with home_at(tmp_path_factory.mktemp("quiet")) as store:
        store.add("Shelf", SHELF)
        yield client_on(store), store


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    """A client on the hostile job."""
    with home_at(tmp_path_factory.mktemp("hostile")) as store:
        store.add("<script>alert(1)</script>", hostile_text())
        yield client_on(store)


def hostile_text():
    """The example with every name and client a piece of a page."""
    name = re.compile(r'^(\s*(?:name|client)\s*=\s*)"[^"\n]+"', re.MULTILINE)
    text = name.sub(lambda found: f'{found[1]}"{BAD}"', example_text(), count=2)
    text = text.replace('"Glazing bench"', f'"{BAD} bench"')
    return re.sub(
        r'^(\s*name\s*=\s*)"top"', lambda found: f'{found[1]}"{BAD} top"', text, count=1, flags=re.M
    )


@pytest.mark.parametrize("page", [*PAGES, "/jobs/1/pieces/1?all=yes", "/api"])
def test_names_are_escaped_on_every_page_there_is(client, page):
    answer = client.get(filled(page))
    assert answer.status_code < 500
    if not answer.headers["content-type"].startswith("text/html"):
        return
    assert "<script>alert" not in answer.text
    assert "<img src=x" not in answer.text
    assert "49" not in re.findall(r"onerror=alert\(2\)&gt; (\S+)", answer.text)
    seen = Tags()
    seen.feed(answer.text)
    assert seen.bad == []


def test_hostile_names_reach_the_pages_they_are_tested_on(client):
    for page in ("/", "/jobs/1", "/jobs/1/parts/1.1", "/jobs/1/check"):
        answer = client.get(page)
        assert answer.status_code == 200
        assert "&lt;script&gt;alert(1)" in answer.text


def test_drawings_hold_nothing_but_lines_and_letters(client):
    listed = client.get("/api/v1/jobs/1/drawings").json()
    assert listed
    for one in listed:
        picture = ElementTree.fromstring(client.get(one["address"]).content)
        for element in picture.iter():
            assert element.tag.removeprefix(SVG) in HARMLESS
            assert not [key for key in element.attrib if key.startswith("on") or key.endswith("href")]


@pytest.mark.parametrize("page", [*PAGES, "/api", "/api/v1/jobs", "/nowhere", "/static/style.css"])
def test_every_answer_has_the_strict_headers(quiet, page):
    headers = quiet[0].get(filled(page)).headers
    policy = dict(one.strip().split(" ", 1) for one in headers["content-security-policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == "'self'"
    assert policy["frame-ancestors"] == "'none'"
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["x-frame-options"] == "DENY"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == "same-origin"


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Host": "evil.example"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Cookie": "evenface_own=guessed"},
    ],
)
def test_nothing_changes_for_a_foreign_site_or_without_our_cookie(quiet, headers):
    own, store = quiet
    client = TestClient(own.app, base_url=HOME, headers={"Origin": HOME})
    if "Cookie" not in headers:
        client.cookies = own.cookies
    for page in CHANGES:
        assert client.post(filled(page), data={"version": "0"}, headers=headers).status_code == 403
    assert store.job(1).version == 0
    assert len(store.jobs()) == 1


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_foreign_site_does_not_even_read(quiet, site):
    client, _ = quiet
    assert client.get("/", headers={"Sec-Fetch-Site": site}).status_code == 403
    assert client.get("/", headers={"Sec-Fetch-Site": "none"}).status_code == 200
    assert client.get("/", headers={"Sec-Fetch-Site": "same-origin"}).status_code == 200


@pytest.mark.parametrize(
    "path",
    ["../../../../etc/passwd", "..%2f..%2f..%2fetc%2fpasswd", "%2e%2e/%2e%2e/etc/passwd", "/etc/passwd",
     "drawings/../../../etc/passwd", "..\\..\\etc\\passwd", "packet.pdf%00.svg", "file:///etc/passwd"],
)  # fmt: skip
@pytest.mark.parametrize(
    "root", ["/jobs/1/paper/", "/static/", "/api/v1/jobs/1/parts/1.1/drawings/", "/jobs/1/parts/"]
)
def test_no_path_from_outside_is_followed(quiet, root, path):
    answer = quiet[0].get(root + path)
    assert answer.status_code in (400, 403, 404, 405)
    assert "root:" not in answer.text


def test_a_body_too_large_is_refused_before_any_of_it_is_read(quiet):
    store = quiet[1]
    read = []

    async def ask():
        async def receive():
            read.append(1)
            return {"type": "http.request", "body": b"x", "more_body": True}

        told = []

        async def send(message):
            told.append(message)

        headers = [
            (b"host", b"127.0.0.1:8000"), (b"origin", HOME.encode()),
            (b"cookie", f"evenface_own={store.secret()}".encode()), (b"content-length", str(LARGEST_BODY + 1).encode()),
        ]  # fmt: skip
        scope = {
            "type": "http", "method": "POST", "path": "/jobs", "raw_path": b"/jobs", "query_string": b"",
            "headers": headers, "root_path": "", "scheme": "http", "http_version": "1.1",
        }  # fmt: skip
        await build_app(store)(scope, receive, send)
        return told[0]["status"]

    assert asyncio.run(ask()) == 413
    assert read == []


@pytest.mark.parametrize(
    "host", ["127.0.0.1:8000", "localhost:8000", "[::1]:8000", "127.0.0.2:8000", "LOCALHOST"]
)
def test_it_answers_under_every_name_of_the_round_trip_it_may_be_started_on(quiet, host):
    client, _ = quiet
    own = TestClient(client.app, base_url=HOME, headers={"Host": host, "Origin": f"http://{host}"})
    assert own.get("/").status_code == 200
    assert own.post("/units", data={"units": "inch"}, follow_redirects=False).status_code == 303


@pytest.mark.parametrize(
    "host",
    ["192.168.1.4:8000", "127.0.0.1.evil.example", "[::1", "::1.evil.example", "localhost.evil.example", ""],
)
def test_other_names_stay_outside(quiet, host):
    client, _ = quiet
    refused = TestClient(client.app, base_url=HOME, headers={"Host": host}).get("/")
    assert refused.status_code == 403
