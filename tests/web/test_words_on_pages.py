"""What stands on the pages beside a figure or an address: units, and words for what is not there."""

import re

import pytest


@pytest.mark.parametrize(
    ("units", "unit", "lengths"), [("mm", "mm", "sizes in mm"), ("inch", "in", "sizes in inches")]
)
def test_no_size_stands_without_its_unit(screens, glaze, units, unit, lengths):
    screens.post("/units", units=units, back="/")
    for page in ("/jobs/1", "/jobs/1/pieces/1"):
        cells = re.findall(r'class="cell">([^<]+)<', screens.get(page).text)
        assert cells[:3:2] == ["Count 1", "15.8 kg each"]
        assert re.fullmatch(rf"Finished [0-9 /.]+ × [0-9 /.]+ × [0-9 /.]+ {unit}", cells[1])
    for page in ("parts/1.1", "check", "flat/1.1", "limits"):
        shown = screens.get(f"/jobs/1/{page}").text
        assert re.search(rf"<caption>[^<]+<span[^>]*>· {lengths}</span>", shown), page


@pytest.mark.parametrize("given", ["abc", "-1", "1e3", "%00"])
def test_an_address_that_names_no_job_tells_of_no_number_of_ours(screens, given):
    answer = screens.get(f"/jobs/{given}")
    assert answer.status_code == 404
    assert "There is no page at this address." in answer.text
    assert "no job with the number" not in answer.text


def test_loose_parts_are_listed_before_what_was_found_at_them(screens, glaze):
    made = screens.post("/new", what="cupboard").headers["location"]
    standing = screens.get(re.match(r"/jobs/[0-9]+", made)[0] + "/pieces/1").text
    loose = screens.get("/jobs/1/pieces/1").text
    assert [page.count('id="parts-of-it"') for page in (loose, standing)] == [1, 1]
    assert loose.index('id="parts-of-it"') < loose.index('id="findings"')
    assert standing.index('id="parts-of-it"') > standing.index('id="findings"')


def test_units_and_language_come_back_to_what_was_looked_at(screens, glaze):
    for address in ("/new?what=top", "/jobs/1/solid/1?part=1.1", "/jobs/1/limits?wood=oak", "/jobs/1/making"):
        page = screens.get(address).text
        backs = re.findall(r'name="back" value="([^"]*)">\s*<button id="to-', page)
        assert backs == [address, address]
        for way, to in (("units", "#to-units"), ("language", "#main")):
            assert screens.post(f"/{way}", back=backs[0]).headers["location"] == address + to
    for bad in (
        "//elsewhere.example/?a",
        "/new?what=top#x y",
        "/new?https://elsewhere.example",
        "/new?\r\nSet-Cookie: a",
    ):
        assert screens.post("/units", back=bad).headers["location"] == "/#to-units"


def test_what_is_missing_in_a_file_is_called_nothing(screens):
    told = screens.post("/jobs", text="format = 1\n[job]\nname = 'Kiln shed'\n").text
    assert "None" not in told
    assert "at least one [[piece]]; given nothing" in told
