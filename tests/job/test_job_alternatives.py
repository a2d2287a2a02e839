"""Variants side by side: what a change touches differs, what it does not touch is the same."""

from pathlib import Path

import pytest

from evenface.behaviour import Direction
from evenface.errors import FileError, MissingWord, in_words
from evenface.finding import Change
from evenface.job.alternatives import alternatives
from evenface.job.opening import open_with_all
from evenface.piece.brief_records import Alternative

JOB = """format = 1
[job]
name = "Tile bench"
place = "copenhagen"
room = "heated-home"
[buildup.bench]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
edging = { wood = "ash", width = 10 }
[[piece]]
name = "Bench"
[[piece.panel]]
name = "top"
use = "top"
buildup = "bench"
size = [1400, 610]
[[piece]]
name = "Rack"
[[piece.panel]]
name = "shelf"
use = "shelf"
buildup = "bench"
size = [700, 300]
[[variant]]
name = "bare back"
changes = { "buildup.bench.back" = "none" }
[[variant]]
name = "oak"
changes = { "buildup.bench.edging.wood" = "oak" }
[[variant]]
name = "slip"
changes = { "buildup.bench.carrier" = "birch-plyy-18" }
"""


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    file = Path(tmp_path_factory.mktemp("job")) / "bench.toml"
    file.write_text(
        JOB.replace('changes = { "buildup.bench.back" = "none" }', 'changes = { "buildup.bench.back" = "" }')
    )
    return open_with_all(file)


@pytest.fixture(scope="module")
def compared(opened):
    return alternatives(opened, piece="Bench", budget_s=0.2)


def test_the_job_as_it_is_stands_first_then_the_variants(compared):
    assert [one.name for one in compared.columns] == ["as it is", "bare back", "oak", "slip"]


def test_a_bare_back_is_lighter_bows_more_and_that_part_is_shown(compared):
    plain, bare = compared.columns[:2]
    assert compared.part == ("Bench", "top")
    assert bare.mass_kg < plain.mass_kg - 0.8
    bows = [abs(one.behaviour(compared.part).bend(Direction.BOW).deciding_mm) for one in (plain, bare)]
    assert bows[1] > 2.0 * bows[0]


def test_another_wood_leaves_the_sheets_and_shares_their_layouts(compared):
    plain, _, oak, _ = compared.columns
    assert oak.sheets == plain.sheets > 0
    assert compared.shared_layouts >= 2


def test_a_variant_that_is_no_job_says_why_and_the_others_stand(compared):
    slip = compared.columns[3]
    assert "birch-ply-18" in in_words(slip.why_not)
    assert slip.result is None
    assert all(not one.why_not for one in compared.columns[:3])


def test_only_the_piece_named_is_reckoned(compared):
    assert {part.piece for part in compared.columns[0].result.sketch.all_parts} == {"Bench"}


def test_without_prices_nothing_is_made_up(compared):
    price = compared.columns[0].price
    assert price.missing
    assert price.cost.amount == 0


def test_a_piece_nobody_knows_and_too_many_variants_are_told(opened):
    with pytest.raises(MissingWord, match="Bench"):
        alternatives(opened, piece="Bensh")
    seven = [Alternative(f"v{n}", (Change("job.client", "", f"{n}"),)) for n in range(7)]
    with pytest.raises(FileError, match="one to 6"):
        alternatives(opened, seven)


def test_slips_in_the_file_are_told_with_their_place(tmp_path):
    file = tmp_path / "job.toml"
    file.write_text(JOB + '[[variant]]\nname = "oak"\nchanges = {}\nwhy = 1\n[brief]\nheat = "must: lava"\n')
    with pytest.raises(FileError) as told:
        open_with_all(file)
    words = str(told.value)
    for word in ("brief.heat", "variant[3].changes", "variant[3].why", "variant[3].name"):
        assert word in words


def test_days_are_those_of_the_shop_and_hours_those_of_the_maker(tmp_path):
    file = tmp_path / "bench.toml"
    slow = '[calendar]\nstart = "2027-01-04"\nhours = { monday = "08:00-10:00" }\n'
    file.write_text(JOB + slow)
    asked = [Alternative("oak", (Change("buildup.bench.edging.wood", "", "oak"),))]
    usual = alternatives(open_with_all(file), asked, "Rack", budget_s=0.1).columns
    file.write_text(JOB + '[calendar]\nstart = "2027-01-04"\n')
    quick = alternatives(open_with_all(file), asked, "Rack", budget_s=0.1).columns
    assert all(slowly.days > 3 * fast.days for slowly, fast in zip(usual, quick, strict=True))
    assert usual[0].hours == pytest.approx(quick[0].hours)
    (tmp_path / "own-times.toml").write_text(
        'format = 1\n[[time]]\njob = "a"\nwork = "bond the facings"\nusual = 10.0\nminutes = 100.0\n'
    )
    timed = alternatives(open_with_all(file), asked, "Rack", budget_s=0.1).columns
    assert timed[0].hours > usual[0].hours + 0.5
    assert float(timed[0].price.hours) == pytest.approx(timed[0].hours)


def test_a_move_of_the_second_piece_follows_it_when_it_stands_alone(tmp_path):
    from evenface.job.variant_days import of_one_piece

    file = tmp_path / "bench.toml"
    file.write_text(
        JOB
        + '[[order.move]]\nstep = "2.1-03"\nbefore = "2.1-02"\n[[order.move]]\nstep = "1.1-03"\nafter = "2.1-04"\n'
        + '[calendar]\nlocked = { "2.1-02" = "2027-05-10", "1.1-02" = "2027-05-11", "all-01" = "2027-05-03" }\n'
    )
    alone = of_one_piece(open_with_all(file), 2).job
    assert [(one.step, one.after, one.before) for one in alone.moves] == [("1.1-03", "", "1.1-02")]
    assert [one.step for one in alone.calendar.locked] == ["1.1-02", "all-01"]
    assert [one.name for one in alone.pieces] == ["Rack"]
