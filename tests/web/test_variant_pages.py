"""What each variant sets differently, changed, added and left out on a page; the file keeps its words."""

import re
import tomllib
from html import unescape

PAGE = "/jobs/1/variants"


def variants(screens):
    return tomllib.loads(screens.store.job(1).text)["variant"]


def edit(screens, version, typed, live=True, **more):
    fields = {"version": str(version), "about": "variants"} | typed | more
    return screens.client.post(PAGE, data=fields, headers={"X-Live": "1"} if live else {})


def ask(screens, version, do, **more):
    return screens.post("/jobs/1/differences", version=version, do=do, **more)


def test_what_a_variant_sets_is_called_as_on_its_page_and_changed(screens, glaze):
    page = unescape(screens.get(PAGE).text)
    assert "top, Corner radius" in page
    path = 'variant[1].changes."piece[0].panel[0].corners.radius"'
    assert edit(screens, 0, {path: "25", "variant[1].name": "small <b>radius"}).status_code == 200
    assert variants(screens)[1]["changes"]["piece[0].panel[0].corners.radius"] == 25
    assert variants(screens)[1]["name"] == "small <b>radius"
    assert "small <b>" not in screens.get(PAGE).text
    assert re.findall("#.*", screens.store.job(1).text) == re.findall("#.*", glaze.text)
    screens.post("/jobs/1/step/undo", version=1, back=PAGE)
    assert screens.store.job(1).text == glaze.text


def test_a_slip_stays_in_its_field_and_two_windows_lose_nothing(screens, glaze):
    answer = edit(screens, 0, {"variant[2].name": "smaller radius, narrower edging"}, live=False)
    assert answer.status_code == 422
    assert "a name of its own" in unescape(answer.text)
    assert edit(screens, 0, {"variant[2].name": ""}).status_code == 422
    assert variants(screens) == tomllib.loads(glaze.text)["variant"]
    assert edit(screens, 0, {"variant[2].name": "oak all round"}).status_code == 200
    late = edit(screens, 0, {"variant[2].name": "other"}, **{"was:variant[2].name": "oak"})
    assert late.status_code == 409
    assert variants(screens)[2]["name"] == "oak all round"


def test_something_more_differs_and_is_left_out_again(screens, glaze):
    new = {"variant": 2, "path": "buildup.bench.edging.width", "new": "14"}
    assert ask(screens, 0, "add", **new).headers["location"] == f"{PAGE}?did=added#did"
    assert variants(screens)[2]["changes"] == {
        "buildup.bench.edging.wood": "oak", "buildup.bench.edging.width": 14,
    }  # fmt: skip
    assert ask(screens, 1, "out 2 0").status_code == 303
    assert variants(screens)[2]["changes"] == {"buildup.bench.edging.width": 14}
    assert ask(screens, 2, "out 2 0").status_code == 422  # it would set nothing
    assert ask(screens, 2, "out 9 0").status_code == 404
    assert ask(screens, 1, "out 0 0").status_code == 409
    assert ask(screens, 2, "melt 0 0").status_code == 404


def test_what_the_job_could_not_be_comes_back_with_its_reason(screens, glaze):
    new = {"variant": 2, "path": "buildup.bench.carrier", "new": "mdf-99"}
    answer = ask(screens, 0, "add", **new)
    assert answer.status_code == 422
    assert re.search(r'id="why-new"><strong>Expected', answer.text)
    assert 'value="mdf-99"' in answer.text
    assert '<option value="buildup.bench.carrier" selected>' in answer.text
    assert ask(screens, 0, "add", **(new | {"new": ""})).status_code == 422
    assert variants(screens) == tomllib.loads(glaze.text)["variant"]


def test_in_swedish_and_with_no_variant(screens, glaze):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    assert "Vad varianterna anger annorlunda" in page
    assert "Take out" not in page
    screens.store.save(1, 0, glaze.text.split("# ---- variants")[0])
    assert "Det finns ingen variant" in screens.get(PAGE).text


def test_an_entry_that_no_page_has_is_called_by_its_path(screens, glaze):
    screens.store.save(
        1, 0, glaze.text.replace('"buildup.bench.edging.wood" = "oak"', '"buildup.hall.face" = "oak"')
    )
    page = unescape(screens.get(PAGE).text)
    assert "Entry of the job file (3: buildup.hall.face)" in page
    assert "Take out: buildup.hall.face" in page
