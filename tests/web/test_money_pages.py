"""Price, papers to the client, alternatives and choice, as a browser would ask for them."""

import re
import tomllib
from html import unescape

import pytest

PAGES = ["/price", "/alternatives", "/choice", "/choice?use=wet+room"]


@pytest.mark.parametrize("page", PAGES)
def test_each_page_has_a_title_of_its_own_and_nothing_inline(screens, glaze, page):
    answer = screens.settled(f"/jobs/{glaze.id}{page}")
    assert answer.status_code == 200
    assert answer.text.count("<h1>") == 1
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", answer.text)
    title = re.search("<title>(.*)</title>", answer.text)[1]
    assert title not in {
        re.search("<title>(.*)</title>", screens.get(f"/jobs/1{p}").text)[1] for p in ("", "/check")
    }


def test_what_is_not_priced_is_asked_for_and_written_into_the_job(screens, glaze):
    page = screens.settled("/jobs/1/price").text
    assert "at least" in page
    asked = [unescape(one) for one in re.findall(r'<input id="blank-\d+" name="([^"]+)"', page)]
    assert "price.rate.hourly" in asked
    assert 'price.material."hpl-0.8".price' in asked
    units = {
        unescape(name): word
        for name, word in re.findall(r'<select name="([^"]+)".*?value="(\w+)" selected', page)
    }
    figures = dict.fromkeys(asked, "100") | {"price.margin": "20 %"}
    answer = screens.send("/jobs/1/price", {"version": "0"} | figures | units)
    assert answer.status_code == 303
    kept = tomllib.loads(screens.store.job(1).text)["price"]
    assert kept["rate"] == {"hourly": 100}
    assert kept["margin"] == "20 %"
    assert kept["material"]["ash"] == {"price": 100, "per": "m3"}
    whole = screens.settled("/jobs/1/price").text
    assert "at least" not in whole
    assert "blank-1" not in whole
    screens.post("/jobs/1/step/undo", version=1)
    assert screens.store.job(1).text == glaze.text


@pytest.mark.parametrize("typed", ["much", "-3", ""])
def test_a_price_that_cannot_be_is_refused(screens, glaze, typed):
    answer = screens.send("/jobs/1/price", {"version": "0", "price.rate.hourly": typed})
    assert answer.status_code == 422
    assert screens.store.job(1).text == glaze.text


@pytest.mark.parametrize("typed", ["100 %", "-5 %", "20", "nan"])
def test_a_margin_of_all_of_it_or_below_nothing_is_refused(screens, glaze, typed):
    answer = screens.send("/jobs/1/price", {"version": "0", "price.margin": typed})
    assert answer.status_code == 422
    assert "share" in unescape(answer.text)
    assert screens.store.job(1).text == glaze.text


def test_a_decimal_comma_is_a_point_in_the_file(screens, glaze):
    screens.send("/jobs/1/price", {"version": "0", "price.rate.hourly": "560,5"})
    assert tomllib.loads(screens.store.job(1).text)["price"]["rate"]["hourly"] == 560.5


def test_papers_are_refused_while_prices_are_missing_and_kept_as_drafts(screens, glaze):
    refused = screens.post("/jobs/1/offers", paper="offer")
    assert refused.status_code == 422
    assert "not priced" in refused.text
    assert screens.post("/jobs/1/offers", paper="offer", draft="yes").status_code == 303
    assert screens.post("/jobs/1/offers", paper="confirmation", draft="yes").status_code == 303
    links = re.findall(r'href="(/jobs/1/offers/[^"]+)"', screens.get("/jobs/1/price").text)
    assert [one.split("/")[4] for one in links] == ["0002", "0002", "0001", "0001", "0001"]
    offer = screens.get("/jobs/1/offers/0001/offer.pdf")
    assert offer.content.startswith(b"%PDF")
    assert offer.headers["content-disposition"] == 'attachment; filename="0001-offer.pdf"'
    assert screens.get("/jobs/1/offers/0001/job-1.toml").text == glaze.text


@pytest.mark.parametrize(
    "name", ["0001/../jobs.sqlite", "0009/offer.pdf", "0001/none.pdf", "..%2F..%2Fx/offer.pdf"]
)
def test_only_papers_that_are_listed_can_be_had(screens, glaze, name):
    assert screens.get(f"/jobs/1/offers/{name}").status_code == 404


def test_other_jobs_do_not_show_these_papers(screens, glaze):
    screens.post("/jobs/1/offers", paper="offer", draft="yes")
    screens.store.add("Other", glaze.text)
    assert "/offers/0001" not in screens.settled("/jobs/2/price").text
    assert screens.get("/jobs/2/offers/0001/offer.pdf").status_code == 404


def test_a_variant_is_adopted_with_one_click_and_taken_back(screens, glaze):
    page = screens.settled("/jobs/1/alternatives").text
    assert page.count("<svg") == 1
    assert "oak" in page
    assert screens.post("/jobs/1/alternatives", do="adopt", number=2, version=0).status_code == 303
    bench = tomllib.loads(screens.store.job(1).text)["buildup"]["bench"]
    assert bench["edging"]["wood"] == "oak"
    assert screens.post("/jobs/1/alternatives", do="adopt", number=1, version=0).status_code == 409
    screens.post("/jobs/1/step/undo", version=1)
    assert screens.store.job(1).text == glaze.text


def test_a_variant_is_added_and_taken_out(screens, glaze):
    fields = {
        "do": "add",
        "version": "0",
        "buildup": "bench",
        "carrier": "mdf-22",
        "edging.width": "25",
        "name": "12",
    }
    assert screens.send("/jobs/1/alternatives", fields).status_code == 303
    made = tomllib.loads(screens.store.job(1).text)["variant"][-1]
    assert made == {
        "name": "12",
        "changes": {"buildup.bench.carrier": "mdf-22", "buildup.bench.edging.width": 25},
    }
    assert screens.store.job(1).text.startswith(glaze.text.rstrip())
    assert (
        screens.send("/jobs/1/alternatives", fields | {"version": "1"}).status_code == 422
    )  # the name is taken
    screens.post("/jobs/1/alternatives", do="remove", number=3, version=1)
    assert tomllib.loads(screens.store.job(1).text) == tomllib.loads(glaze.text)


@pytest.mark.parametrize("wrong", [{"number": 9, "do": "adopt"}, {"do": "add", "buildup": "none"}])
def test_variants_that_are_not_there_are_told(screens, glaze, wrong):
    assert screens.post("/jobs/1/alternatives", version=0, **wrong).status_code == 404


def test_a_comparison_can_be_stopped_and_begun_again(screens, glaze):
    screens.get("/jobs/1/alternatives")
    screens.post("/jobs/1/alternatives", do="stop", piece="")
    stopped = screens.get("/jobs/1/alternatives").text
    assert "was stopped" in stopped or "<svg" in stopped
    screens.post("/jobs/1/alternatives", do="again", piece="")
    assert "<svg" in screens.settled("/jobs/1/alternatives").text


def test_a_build_up_of_the_choice_becomes_a_variant(screens, glaze):
    page = screens.settled("/jobs/1/choice?use=wet+room").text
    found = re.findall(r'type="hidden" name="(carrier|face|back)" value="([^"/]*)"', page)
    fields = dict(found[:3])
    answer = screens.send("/jobs/1/alternatives", {"do": "add", "version": "0", "buildup": "desk"} | fields)
    assert answer.status_code == 303
    changes = tomllib.loads(screens.store.job(1).text)["variant"][-1]["changes"]
    assert changes["buildup.desk.carrier"] == fields["carrier"]
    assert changes["buildup.desk.face"] == ("" if fields["face"] == "none" else fields["face"])
