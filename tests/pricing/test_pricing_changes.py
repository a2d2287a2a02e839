"""Two versions of a job beside each other, through the whole chain."""

from datetime import date
from pathlib import Path

import pytest

from evenface.documents.order_papers import changes_table
from evenface.errors import FileError
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import prices_for
from evenface.job.versions import version_of
from evenface.pricing import Group
from evenface.pricing.changes import compare

JOB = """format = 1
[job]
name = "Wedging table"
currency = "EUR"
[buildup.top]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
edging = { wood = "ash", width = 20, section = "flush" }
[[piece]]
name = "Table"
  [[piece.panel]]
  name = "top"
  use = "top"
  buildup = "top"
  size = [1400, 700]
  corners = { radius = 20 }
  [[piece.panel]]
  name = "shelf"
  buildup = "top"
  size = [1100, 400]
[price]
margin = "20 %"
tax = "25 %"
rate.hourly = 60
material."hpl-0.8" = { price = 30, per = "m2" }
material."birch-ply-18" = { price = 90, per = "sheet" }
material."ash" = { price = 1500, per = "m3" }
material."pva-d3" = { price = 9, per = "kg" }
"""
START = date(2027, 1, 11)


@pytest.fixture(scope="module")
def version(tmp_path_factory):
    made = {}

    def of(*changes):
        if changes not in made:
            text = JOB
            for old, new in changes:
                assert old in text
                text = text.replace(old, new)
            path = tmp_path_factory.mktemp("job") / "job.toml"
            path.write_text(text, encoding="utf-8")
            opened = open_with_all(path)
            made[changes] = version_of(opened, plan(opened, 0.3), prices_for(opened), START)
        return made[changes]

    return of


def test_the_same_job_twice_has_no_change(version):
    changed = compare(version(), version())
    assert changed.nothing
    assert changed.groups == ()
    assert not changed.at_least


def test_a_larger_top_with_other_corners_and_one_shelf_more(version):
    new = version(
        ("[1400, 700]", "[1500, 700]"), ("radius = 20", "radius = 30"), ('"shelf"', '"shelf"\n  count = 2')
    )
    changed = compare(version(), new)
    rows = changes_table(changed).rows
    assert rows[0] == (
        "Table: top",
        "size, corners: 20 mm becomes 30 mm (4 of them)",
        "1400 × 700 × 19.5",
        "1500 × 700 × 19.5",
    )
    assert rows[1][1:] == ("number", "1100 × 400 × 19.5", "2 × (1100 × 400 × 19.5)")
    assert changed.net.amount > 0
    assert changed.hours > 0
    assert Group.LABOUR in [one.group for one in changed.groups]


def test_sums_of_the_change_close(version):
    old, new = version(), version(("[1400, 700]", "[1500, 700]"))
    changed = compare(old, new)
    assert (
        sum(one.new.amount - one.old.amount for one in changed.groups)
        == new.price.cost.amount - old.price.cost.amount
    )
    assert old.price.total + changed.total == new.price.total


def test_there_and_back_cancels(version):
    new = version(("[1400, 700]", "[1500, 700]"))
    there, back = compare(version(), new), compare(new, version())
    assert (there.net + back.net).amount == 0
    assert there.days + back.days == 0


def test_another_wood_and_a_part_that_is_dropped(version):
    oak = 'material."oak" = { price = 2600, per = "m3" }\n'
    second = JOB[JOB.index('  [[piece.panel]]\n  name = "shelf"') : JOB.index("[price]")]
    new = version(('wood = "ash"', 'wood = "oak"'), (second, ""), ("rate.hourly", oak + "rate.hourly"))
    top, shelf = changes_table(compare(version(), new)).rows
    assert top[1] == "edging: ash becomes oak"
    assert shelf[1:] == ("no longer made", "1100 × 400 × 19.5", "–")


def test_more_glueing_days_are_later_and_a_gap_in_the_prices_is_told(version):
    later = version(
        ('section = "flush" }', 'section = "flush" }\nfinish = "soap"'), ("rate.hourly = 60\n", "")
    )
    assert compare(version(), later).at_least
    with pytest.raises(ValueError, match="tax"):
        compare(version(), version(('tax = "25 %"\n', "")))


def test_lines_that_move_in_the_file_are_no_change(version):
    assert compare(version(), version(("[job]\n", "# a remark\n\n[job]\n"))).nothing


def test_the_day_it_is_ready_follows_the_shop_and_steps_moved_by_hand(tmp_path):
    from evenface.job.versions import ready_on

    file = tmp_path / "job.toml"
    text = Path("examples/one-shelf.toml").read_text()
    days = {}
    added = {
        "usual": "",
        "mondays": '\n[calendar]\nhours = { monday = "08:00-15:00" }\n',
        "closed": f'\n[calendar]\nholidays = ["{START.isoformat()}..2027-02-28"]\n',
    }
    for name, more in added.items():
        file.write_text(text + more)
        opened = open_with_all(file)
        days[name] = ready_on(opened, plan(opened, 0.1), prices_for(opened), START)
    assert days["usual"] < days["mondays"]
    assert days["closed"] > date(2027, 2, 28)
    file.write_text(text + '\n[[order.move]]\nstep = "9.9-99"\nafter = "1.1-02"\n')
    opened = open_with_all(file)
    with pytest.raises(FileError, match=r"9\.9-99"):
        ready_on(opened, plan(opened, 0.1), prices_for(opened), START)
