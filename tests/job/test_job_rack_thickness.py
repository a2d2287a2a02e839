"""A rack sheet's measured thickness against the one the job is reckoned with."""

from dataclasses import replace
from decimal import Decimal

import pytest
from interfaces.rack_job import JOB

from evenface.job.from_rack import TakenPiece
from evenface.job.opening import open_with_all
from evenface.job.rack_thickness import thickness_findings
from evenface.job.sketch import sketch
from evenface.store import RackItem
from evenface.words import say


@pytest.fixture(scope="module")
def drafted(tmp_path_factory):
    job = tmp_path_factory.mktemp("job") / "job.toml"
    job.write_text(JOB)
    return sketch(open_with_all(job, None))


def taken(material, thickness):
    item = RackItem("sheet", material, 244_000, 122_000, code="K7F32MQT", value=Decimal(1), currency="DKK")
    return TakenPiece(replace(item, thickness=thickness), ())


def reckoned(drafted):
    return drafted.constructions[0].panels[0].carrier.thickness.nominal


def test_what_measures_otherwise_is_told_with_both_figures(drafted):
    nominal = reckoned(drafted)
    thick = round(nominal * 100) + 45
    (found,) = thickness_findings([taken("mdf-19", thick)], drafted.constructions)
    assert found.code == "layout.rack_thickness"
    assert (found.value.nominal, found.limit) == (pytest.approx(nominal + 0.45), pytest.approx(nominal))
    assert "K7F3-2MQT" in say(found.message)


@pytest.mark.parametrize("by", [0, 10, -10])
def test_a_tenth_is_close_enough(drafted, by):
    thick = round(reckoned(drafted) * 100) + by
    assert thickness_findings([taken("mdf-19", thick)], drafted.constructions) == ()


def test_what_nobody_measured_and_wood_is_not_judged(drafted):
    assert thickness_findings([taken("mdf-19", None)], drafted.constructions) == ()
    assert thickness_findings([taken("ash", 3_400)], drafted.constructions) == ()
