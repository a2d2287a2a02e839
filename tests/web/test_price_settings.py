"""Rates and terms of one job, typed in beside its price; what is added and taken out; the file keeps its words."""

import re
import tomllib
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.api import BASE
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.price_entries import price_entries
from evenface.words import ENGLISH

PAGE = "/jobs/1/rates"
SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
PRICE = """
[price]   # as talked over
margin      = "22 %"   # not less
delivery    = 1200
risk        = { "rout a grip" = "20 %" }
rate.hourly = 560      # for this one
rate.fixed_costs = { rent = 60000 }
subcontract = [{ name = "basin cut from stoneware", price = 2600 }]   # by Ada
offer.not_included   = ["Tiles behind the bench; their joints."]
offer.client_address = ["Kiln Lane 3"]
offer.payment = [{ share = "40 %", when = "with the order" }, { share = "60 %", when = "when ready" }]
material."ash" = { price = 9000, per = "m3" }
"""


@pytest.fixture
def job(screens):
    """A shelf with prices of its own as job number 1."""
    assert "[price]" not in SHELF
    return screens.store.add("Shelf", SHELF + PRICE)


def price(screens):
    return tomllib.loads(screens.store.job(1).text).get("price", {})


def edit(screens, version, typed, live=True, **more):
    fields = {"version": str(version), "about": "rates"} | typed | more
    return screens.client.post(PAGE, data=fields, headers={"X-Live": "1"} if live else {})


def ask(screens, version, do, **more):
    return screens.post("/jobs/1/extras", version=version, do=do, **more)


@pytest.mark.parametrize(
    ("path", "typed", "keys", "value"),
    [
        ("price.margin", "25 %", ("margin",), "25 %"),
        ("price.tax", "25 %", ("tax",), "25 %"),
        ("price.delivery", "900", ("delivery",), 900),
        ("price.rate.hourly", "575.5", ("rate", "hourly"), 575.5),
        ("price.rate.weeks", "42", ("rate", "weeks"), 42),
        ("price.rate.fixed_costs.rent", "", ("rate", "fixed_costs"), {}),
        ('price.risk."rout a grip"', "10 %", ("risk",), {"rout a grip": "10 %"}),
        ("price.material.ash.per", "m", ("material", "ash"), {"price": 9000, "per": "m"}),
        ("price.subcontract[0].count", "2", ("subcontract", 0, "count"), 2),
        ("price.offer.payment[1].when", "at the door", ("offer", "payment", 1, "when"), "at the door"),
        ("price.offer.not_included", "Tiles behind the bench; their joints. | Lamps.",
         ("offer", "not_included"), ["Tiles behind the bench; their joints.", "Lamps."]),
        ("price.offer.client_address", "Kiln Lane 3; 4671 Strandrup", ("offer", "client_address"),
         ["Kiln Lane 3", "4671 Strandrup"]),
        ("price.maker.address", "Kalkgraven 14", ("maker", "address"), ["Kalkgraven 14"]),
        ("price.offer.valid_days", "14", ("offer", "valid_days"), 14),
    ],
)  # fmt: skip
def test_what_is_typed_is_written_where_it_belongs_and_undo_names_it(screens, job, path, typed, keys, value):
    answer = edit(screens, 0, {path: typed})
    assert answer.status_code == 200, answer.text
    found = price(screens)
    for key in keys:
        found = found[key]
    assert found == value
    assert set(re.findall("#.*", job.text)) == set(re.findall("#.*", screens.store.job(1).text))
    screens.post("/jobs/1/step/undo", version=1, back=PAGE)
    assert screens.store.job(1).text == job.text
    told = unescape(re.search(r'<p id="did"[^>]*>(.*?)</p>', screens.get(f"{PAGE}?did=undo").text)[1])
    assert "→" in told
    assert "price." not in told


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        ("price.margin", "120 %"), ("price.tax", "a lot"), ("price.rate.hourly", "-5"), ("price.rate.weeks", "60"),
        ("price.currency", "crowns"), ("price.material.ash.price", ""), ("price.offer.valid_days", "soon"),
        ("price.subcontract[0].name", ""), ("price.offer.payment[0].share", "most"),
    ],
)  # fmt: skip
def test_a_slip_stays_in_its_field_with_the_reason_and_the_rest_is_kept(screens, job, path, typed):
    answer = edit(screens, 0, {path: typed, "price.contingency": "5 %"}, live=False)
    assert answer.status_code == 422
    field = re.search(rf'name="{re.escape(path)}" value="([^"]*)"[^>]*aria-invalid="true"', answer.text)
    assert unescape(field[1]) == typed
    assert price(screens) == tomllib.loads(PRICE)["price"] | {"contingency": "5 %"}


def test_more_is_added_and_taken_out(screens, job):
    assert ask(screens, 0, "add", kind="fitting", name="rail", figure="145").status_code == 303
    assert ask(screens, 1, "add", kind="subcontract", name="steel <b>frame").status_code == 303
    assert ask(screens, 2, "add", kind="risk", name="bond the facings", figure="8 %").status_code == 303
    assert (
        ask(screens, 3, "add", kind="rate.fixed_costs", name="book-keeping", figure="8500").status_code == 303
    )
    found = price(screens)
    assert found["fitting"] == [{"name": "rail", "price": 145}]
    assert found["subcontract"][1] == {"name": "steel <b>frame"}
    assert found["risk"] == {"rout a grip": "20 %", "bond the facings": "8 %"}
    assert found["rate"]["fixed_costs"] == {"rent": 60000, "book-keeping": 8500}
    page = screens.get(PAGE).text
    assert "steel &lt;b&gt;frame" in page
    assert "steel <b>" not in page
    assert ask(screens, 4, "out subcontract 0").status_code == 303
    assert ask(screens, 5, "out fitting 0").status_code == 303
    assert ask(screens, 6, "out offer.payment 0").status_code == 422  # the rest is not the whole
    assert ask(screens, 6, "out fitting 0").status_code == 404
    assert ask(screens, 6, "out risk 0").status_code == 404
    assert "fitting" not in price(screens)
    assert len(price(screens)["subcontract"]) == 1


def test_what_cannot_be_added_comes_back_with_its_reason(screens, job):
    nameless = ask(screens, 0, "add", kind="other", figure="80")
    assert nameless.status_code == 422
    assert re.search(r'id="why-name"><strong>Expected', nameless.text)
    assert 'value="80"' in nameless.text
    wrong = ask(screens, 0, "add", kind="other", name="Ferry", figure="much")
    assert wrong.status_code == 422
    assert re.search(r'id="why-figure"><strong>Expected', wrong.text)
    assert ask(screens, 0, "add", kind="risk", name="rout a grip").status_code == 422
    assert ask(screens, 0, "add", kind="gold", name="bars", figure="1").status_code == 422
    assert ask(screens, 7, "add", kind="other", name="Ferry", figure="80").status_code == 409
    assert price(screens) == tomllib.loads(PRICE)["price"]


def test_a_job_without_prices_begins_them(screens):
    screens.store.add("Shelf", SHELF)
    assert ask(screens, 0, "add", kind="offer.payment", name="at the door", figure="100 %").status_code == 303
    assert price(screens) == {"offer": {"payment": [{"share": "100 %", "when": "at the door"}]}}
    assert edit(screens, 1, {"price.rate.hourly": "500", "price.margin": "20 %"}).status_code == 200
    assert price(screens)["rate"] == {"hourly": 500}
    screens.post("/jobs/1/step/undo", version=2, back=PAGE)
    screens.post("/jobs/1/step/undo", version=3, back=PAGE)
    assert screens.store.job(1).text == SHELF


def test_two_windows_lose_nothing(screens, job):
    assert edit(screens, 0, {"price.margin": "25 %"}).status_code == 200
    late = edit(screens, 0, {"price.margin": "30 %"}, **{"was:price.margin": "22 %"})
    assert late.status_code == 409
    assert price(screens)["margin"] == "25 %"


def test_every_entry_has_a_path_an_id_and_a_label_of_its_own(job):
    entries = price_entries(Desk().look(job, flat=False), ENGLISH)
    assert len(entries) > 30
    for told in (lambda one: one.path, lambda one: one.id, lambda one: (one.label, one.whose)):
        assert len({told(one) for one in entries}) == len(entries)


def test_in_swedish_every_label_is_spoken(screens, job):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    for word in ("Satser och villkor", "Marginal", "Andras arbete", "Betalning 2", "Priset gäller"):
        assert word in page
    for word in ("Margin<", "Work of others", "a sheet", "Take out", "Who makes it"):
        assert word not in page


def test_programs_do_the_same(store):
    api = TestClient(build_app(store, Planner(0.0)), base_url="http://127.0.0.1:8000" + BASE)
    job = f"jobs/{store.add('Shelf', SHELF).id}"
    body = {"version": 0, "kind": "subcontract", "name": "Steel", "figure": "3200"}
    answer = api.post(f"{job}/extras", json=body)
    assert tomllib.loads(answer.json()["text"])["price"]["subcontract"] == [{"name": "Steel", "price": 3200}]
    assert api.post(f"{job}/extras", json=body).status_code == 409
    assert api.post(f"{job}/extras", json=body | {"version": 1, "figure": "dear"}).status_code == 422
