"""What holds for a whole job, typed in on its page: for whom and where, saw and router, build-ups."""

import re
import tomllib
from html import unescape

import pytest

from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.job_entries import job_entries
from evenface.words import ENGLISH

PAGE = "/jobs/1/job"


def written(screens):
    return tomllib.loads(screens.store.job(1).text)


def edit(screens, version, live=True, **typed):
    fields = {"version": str(version), "about": "job"} | typed.pop("fields", {}) | typed
    return screens.client.post(PAGE, data=fields, headers={"X-Live": "1"} if live else {})


@pytest.mark.parametrize(
    ("path", "typed", "keys", "value"),
    [
        ("job.client", "Hedda Brand", ("job", "client"), "Hedda Brand"),
        ("job.due", "2027-05-01", ("job", "due"), "2027-05-01"),
        ("job.room", "in-a-cupboard", ("job", "room"), "in-a-cupboard"),
        ("job.shop_humidity", "45 %", ("job", "shop_humidity"), "45 %"),
        ("job.bonding_month", "march", ("job", "bonding_month"), "march"),
        ("saw.kerf", "2,8", ("saw", "kerf"), 2.8),
        ("saw.first_cut", "across", ("saw", "first_cut"), "across"),
        ("cutting.least_offcut[1]", "350", ("cutting", "least_offcut"), [100, 350]),
        ("cutting.shears", "1250", ("cutting", "shears"), 1250),
        ("order.corners", "after facing", ("order", "corners"), "after facing"),
        ("cutting.boards", "rip first", ("cutting", "boards"), "rip first"),
        ("cutting.merchant.kerf", "3.5", ("cutting", "merchant", "kerf"), 3.5),
        ("cutting.offcut_value", "40", ("cutting", "offcut_value"), 40),
        ("job.humidity", "45 %", ("job", "humidity"), "45 %"),
        ("job.temperature", "; ".join(["19"] * 6 + ["23"] * 6), ("job", "temperature"), [19] * 6 + [23] * 6),
        ("shop.cutters", "8; 6.35", ("shop", "cutters"), [8, 6.35]),
        ("allowances.overhang.front", "5", ("allowances", "overhang"), {"every": 3, "front": 5}),
        ("buildup.bench.face.batch", "east wall", ("buildup", "bench", "face", "batch"), "east wall"),
        ("buildup.bench.carrier.turned", "yes", ("buildup", "bench", "carrier", "turned"), True),
        ("buildup.door.edging.sealed", "no", ("buildup", "door", "edging", "sealed"), False),
        ("buildup.door.bonding_humidity", "55 %", ("buildup", "door", "bonding_humidity"), "55 %"),
        ("shop.reach", "55", ("shop", "reach"), 55),
        ("allowances.overhang", "4", ("allowances", "overhang"), 4),
        ("buildup.door.edging.width", "8", ("buildup", "door", "edging", "width"), 8),
        ("buildup.front.finish", "soap", ("buildup", "front", "finish"), "soap"),
        ("buildup.desk.carrier.thickness", "21.6", ("buildup", "desk", "carrier", "thickness"), 21.6),
    ],
)
def test_what_is_typed_is_written_where_it_belongs_and_undo_names_it(
    screens, glaze, path, typed, keys, value
):
    answer = edit(screens, 0, fields={path: typed})
    assert answer.status_code == 200, answer.text
    found = written(screens)
    for key in keys:
        found = found[key]
    assert found == value
    screens.post("/jobs/1/step/undo", version=1, back=PAGE)
    undone = unescape(re.search(r'<p id="did"[^>]*>(.*?)</p>', screens.get(f"{PAGE}?did=undo").text)[1])
    assert "→" in undone
    assert path not in undone or "[" in path


def test_a_table_that_is_not_there_is_begun(screens):
    job = screens.store.add("One", '[job]\nname = "One"\n')
    text = 'format = 1\n[job]\nname = "One"\n[buildup.b]\ncarrier = "mdf-19"\nglue = "pva-d3"\n[[piece]]\nname = "P"\n'
    text += '[[piece.panel]]\nname = "top"\nbuildup = "b"\nsize = [500, 300]\n'
    screens.store.save(job.id, 0, text)
    page = screens.get(PAGE).text
    assert 'name="cutting.least_offcut[0]"' not in page  # a pair is not begun by half
    assert edit(screens, 1, fields={"saw.trim": "12", "shop.bush": "27"}).status_code == 200
    assert written(screens)["saw"] == {"trim": 12}
    assert written(screens)["shop"] == {"bush": 27}


def test_a_slip_stays_in_the_field_with_its_reason_and_the_name_is_needed(screens, glaze):
    answer = edit(screens, 0, fields={"saw.kerf": "thin", "job.client": "Ada"})
    assert answer.status_code == 422
    assert "thin" in answer.text
    assert written(screens)["job"]["client"] == "Ada"  # the rest is kept
    assert edit(screens, 1, fields={"job.name": ""}).status_code == 422
    assert screens.store.job(1).name == "Glaze room"
    assert edit(screens, 1, fields={"job.name": "Kiln room"}).status_code == 200
    assert screens.store.job(1).name == "Kiln room"


def test_a_year_of_air_is_one_value_or_twelve_and_a_pair_is_begun_whole(screens, glaze):
    assert edit(screens, 0, fields={"job.humidity": "45 %; 50 %"}).status_code == 422
    assert edit(screens, 0, fields={"job.humidity": "45 %"}).status_code == 200
    year = [f"{part} %" for part in range(40, 52)]
    assert edit(screens, 1, fields={"job.humidity": "; ".join(year)}).status_code == 200
    assert written(screens)["job"]["humidity"] == year
    assert edit(screens, 2, fields={"job.humidity": ""}).status_code == 200
    assert "humidity" not in written(screens)["job"]
    screens.store.save(1, 3, re.sub(r"least_offcut = .*", "", screens.store.job(1).text))
    assert edit(screens, 4, fields={"cutting.least_offcut": "120"}).status_code == 422
    assert edit(screens, 4, fields={"cutting.least_offcut": "120 x 400"}).status_code == 200
    assert written(screens)["cutting"]["least_offcut"] == [120, 400]


def test_every_entry_has_a_path_an_id_and_a_label_of_its_own(glaze):
    entries = job_entries(Desk().look(glaze, flat=False), ENGLISH)
    for told in (lambda one: one.path, lambda one: one.id, lambda one: (one.label, one.whose)):
        assert len({told(one) for one in entries}) == len(entries)


def test_a_build_up_more_like_another_and_out_again(screens, glaze):
    answer = screens.post("/jobs/1/buildups", version=0, do="add", name="thick door", like="door")
    assert answer.headers["location"] == f"{PAGE}?did=added#did"
    assert written(screens)["buildup"]["thick door"] == {"like": "door"}
    assert "Build-up thick door" in screens.get(PAGE).text
    for name in ("door", "", "x" * 61):
        assert (
            screens.post("/jobs/1/buildups", version=1, do="add", name=name, like="door").status_code == 404
        )
    assert screens.post("/jobs/1/buildups", version=1, do="remove", like="door").status_code == 422  # in use
    assert screens.post("/jobs/1/buildups", version=1, do="remove", like="thick door").status_code == 303
    assert "thick door" not in written(screens)["buildup"]


def test_in_swedish_every_label_is_spoken(screens, glaze):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    for word in ("Sågspår", "Styrbussning", "Ska vara klart", "Jobb och verkstad"):
        assert word in page
    assert "Kerf" not in page


def chosen(text, path):
    """What a choice shows."""
    options = re.search(rf'<select[^>]* name="{re.escape(path)}".*?</select>', text, re.S)
    assert options
    return unescape(re.search(r"<option[^>]*selected>(.*?)</option>", options[0])[1])


def test_places_rooms_and_months_are_said_and_own_names_stay(screens, glaze):
    shown = screens.get(PAGE).text
    assert chosen(shown, "job.place") == "Copenhagen"
    assert chosen(shown, "job.room") == "living room or kitchen of a heated home"
    assert chosen(shown, "job.bonding_month") == "September"
    screens.client.cookies.set("evenface_language", "sv")
    shown = screens.get(PAGE).text
    assert chosen(shown, "job.room") == "vardagsrum eller kök i en uppvärmd bostad"
    assert chosen(shown, "job.bonding_month") == "september"
    side = screens.get("/jobs/1/parts/3.4").text
    assert chosen(side, "piece[2].panel[3].buildup") == "carcase"  # a trade word, but the maker's own
