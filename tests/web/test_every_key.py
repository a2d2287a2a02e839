"""Every key of the job file has a field on a page, but for those named here; README names the same."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from evenface.construction.kinds import KINDS
from evenface.interfaces.web.brief_entries import brief_entries
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.hours_entries import hours_entries
from evenface.interfaces.web.job_entries import job_entries
from evenface.interfaces.web.job_stock_entries import stock_entries
from evenface.interfaces.web.piece_forms import slots_of
from evenface.interfaces.web.price_entries import price_entries
from evenface.interfaces.web.whole_entries import WholeWalk, every_key
from evenface.piece import forms
from evenface.piece.calendar_forms import CalendarForm
from evenface.piece.cutting_forms import CuttingForm
from evenface.piece.price_forms import PriceForm
from evenface.piece.tables import TOP_KEYS
from evenface.store import KeptJob
from evenface.toml_places import split_path
from evenface.words import ENGLISH

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
JOB = """format = 1
[job]
name = "Shelf"
[calendar]
person = [{ name = "Sunniva" }]
locked = { "all-02" = "2027-03-11" }
[price]
risk = { "rout a grip" = "20 %" }
rate.fixed_costs = { rent = 60000 }
material."ash" = { price = 9000, per = "m3" }
fitting = [{ name = "rail", price = 145 }]
subcontract = [{ name = "steel", price = 3200 }]
other = [{ name = "ferry", price = 80 }]
offer.payment = [{ share = "100 %", when = "at the door" }]
[[stock]]
material = "birch-ply-18"
size = [2500, 1250]
defect = [{ at = [900, 60], size = [60, 40] }]
[buildup.shelf]
carrier = "birch-ply-18"
glue = "pva-d3"
[[piece]]
name = "Shelf"
[[piece.panel]]
name = "shelf"
buildup = "shelf"
size = [800, 250]
"""
"""A job in which every list of tables outside the pieces has one."""

TABLES = {
    "job": forms.JobTableForm, "allowances": forms.AllowancesForm, "saw": forms.SawForm, "shop": forms.ShopForm,
    "cutting": CuttingForm, "calendar": CalendarForm, "price": PriceForm, "stock": forms.StockForm,
    "buildup.*": forms.BuildUpForm,
}  # fmt: skip
SHORT = {  # written short, as one word, on the pages
    "allowances.overhang.every", "buildup.*.face.material", "buildup.*.back.material",
    "buildup.*.carrier.material",
}  # fmt: skip
BY_BUTTONS = {"cutting.aims": "moved up and down, taken out and added"}
OTHER_TABLES = {
    "format": "always 1", "brief": "chosen need by need", "variant": "on the page of alternatives",
    "piece": "by kind, below",
    "order": "when corners are shaped on the page of the job; moves only in the file",
}  # fmt: skip
LEFT_TO_THE_FILE = {
    "job.logger": "a file beside the job's: no path comes from a page",
    "order.move": "moves name steps, whose numbers change with the piece",
}
LEFT_OF_A_PIECE = {
    "outline": "drawn: points, a number of sides or a drawing file",
    "curve": "a free profile, drawn by points",
    "path": "the way of a grip, drawn by points; a straight one is added on the part's page",
    "doors": "what it must come through, a pair of sizes for each",
}
"""Keys of a piece or part that only the file has, with what each is."""
SAID_IN_README = {
    "job.logger": "the file of a logger",
    "order.move": "moves of steps",
    "outline": "outlines",
    "curve": "free profiles",
    "path": "bent paths of grips",
    "doors": "doors on the way in",
}
BEGUN = {
    "profile": "the part's page adds one", "cutout": "the part's page adds one", "grip": "the part's page adds one",
    "person": "added by name", "defect": "added beside its line", "fitting": "added by name",
    "subcontract": "added by name", "other": "added by name", "payment": "added by its share",
    "bay": "copied; a cupboard has one", "row": "copied; a bay has one", "panel": "copied on the list of parts",
}  # fmt: skip
"""Lists of tables and how one more comes into them on a page."""
NOT_BEGUN = {"insert": "the first insert", "divider": "the first divider of a box"}
"""Lists of which a page only copies what is there, with how README says so."""
FLAT_TOPS = "what is worked into the top of a table or the back of a cupboard"


def plain(path: str) -> str:
    """A key path with numbers and names of the maker's own left out."""
    steps = [one for one in split_path(path) if isinstance(one, str)]
    if steps[0] == "buildup":
        steps[1] = "*"
    return ".".join(steps)


def offered() -> set[str]:
    view = Desk().look(KeptJob(0, "", 0, JOB, None, "", False, False), flat=False)
    makers = (job_entries, hours_entries, stock_entries, price_entries, brief_entries)
    return {plain(entry.path) for make in makers for entry in make(view, ENGLISH)}


def has(known: set[str], key: str) -> bool:
    """The key itself, or a part of it that is typed by itself."""
    return key in known or any(one.startswith(f"{key}.") for one in known)


def test_every_table_of_a_job_file_is_told_of_here():
    assert "order.corners" in offered()
    assert set(TOP_KEYS) == {one.split(".")[0] for one in TABLES} | OTHER_TABLES.keys()


@pytest.mark.parametrize("at", TABLES)
def test_every_key_beside_the_pieces_has_a_field(at):
    known = offered()
    missing = {key for key in every_key(TABLES[at], at) if not has(known, key)}
    told = SHORT | BY_BUTTONS.keys() | LEFT_TO_THE_FILE.keys()
    assert missing == {key for key in told if key.startswith(f"{at}.") and key in missing}
    stale = {key for key in told if key.startswith(f"{at}.")} - missing
    assert not stale, "has a field by now: take it off the list"


def skeleton(form, seen=()) -> dict[str, object]:
    """A table in which every list of tables has one, empty but for its own lists."""
    found: dict[str, object] = {}
    for slot in slots_of(form):
        inner = next((one.form for one in slot.sort.items if one.form), None)
        if inner is not None and inner not in seen:
            found[slot.key] = [skeleton(inner, (*seen, inner))]
        elif slot.sort.form is not None and slot.sort.form not in seen:
            within = skeleton(slot.sort.form, (*seen, slot.sort.form))
            found |= {slot.key: within} if within else {}
    return found


def keys_told(form, kind) -> set[str]:
    view = Desk().look(KeptJob(0, "", 0, JOB, None, "", False, False), flat=False)
    walk = WholeWalk(view, ENGLISH, kind)
    data = skeleton(form)
    walk.data = {"piece": [data]}
    groups = walk.table(form, data, "piece[0]", "")
    return {plain(entry.path).removeprefix("piece.") for group in groups for entry in group.entries}


def left_over(form, kind) -> Iterator[str]:
    told = keys_told(form, kind)
    for path in every_key(form, "piece"):
        key = path.removeprefix("piece.")
        if not has(told, key) and not set(key.split(".")) & LEFT_OF_A_PIECE.keys():
            yield key


def test_every_key_of_a_part_has_a_field():
    assert set(left_over(forms.PanelForm, "")) == set()


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_of_a_piece_has_a_field(kind):
    rest = {key for key in left_over(KINDS[kind].form(), kind) if not key.startswith("panel.")}
    assert rest == {"kind", "brief"}  # a piece stays what it is; its brief has a page of its own


def test_what_is_left_to_the_file_is_left_indeed():
    told = keys_told(forms.PanelForm, "")
    for key in LEFT_OF_A_PIECE:
        assert not any(key in one.split(".") for one in told), f"{key} has a field by now"


def lists(form, seen=()) -> Iterator[str]:
    for slot in slots_of(form):
        inner = slot.sort.form or next((one.form for one in slot.sort.items if one.form), None)
        if inner is None or inner in seen:
            continue
        if slot.sort.form is None:
            yield slot.key
        yield from lists(inner, (*seen, inner))


def test_one_more_of_every_list_comes_from_a_page_or_is_named():
    every = [*TABLES.values(), forms.PanelForm, *(kind.form() for kind in KINDS.values())]
    assert {key for form in every for key in lists(form)} == BEGUN.keys() | NOT_BEGUN.keys()


def test_readme_names_what_is_left_to_the_file():
    assert SAID_IN_README.keys() == LEFT_TO_THE_FILE.keys() | LEFT_OF_A_PIECE.keys()
    said = re.search(r"- Only in the job file: (.*?)\.\n", README, re.DOTALL)
    assert said is not None
    sentence = " ".join(said[1].split())
    for words in (*SAID_IN_README.values(), *NOT_BEGUN.values(), FLAT_TOPS):
        assert words in sentence
