"""Facings of several batches in one plan are told; one batch, and boards, are not."""

from decimal import Decimal

import pytest
from interfaces.rack_job import JOB

from evenface.job.from_rack import TakenPiece
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.rack_batches import batch_findings
from evenface.store import RackItem
from evenface.words import say


@pytest.fixture(scope="module")
def result(tmp_path_factory):
    job = tmp_path_factory.mktemp("job") / "job.toml"
    job.write_text(JOB)
    return plan(open_with_all(job, None), budget_s=0.0)


def taken(material, batch):
    item = RackItem(
        "sheet", material, 244_000, 122_000, code="K7F32MQT", batch=batch, value=Decimal(1), currency="DKK"
    )
    return TakenPiece(item, ())


def told(result, *pieces):
    layouts = [one for one in result.layouts if one.material == pieces[0].item.material]
    # as many sheets in the plan as were taken, so that nothing is bought besides
    sheets = layouts[0].sheets[:1] * len(pieces)
    one = type(layouts[0])(layouts[0].material, sheets, layouts[0].bought, layouts[0].aim, 0, False)
    return batch_findings(pieces, [one], result.sketch)


def test_two_batches_of_a_facing_are_told(result):
    (found,) = told(result, taken("hpl-0.8", "B 12"), taken("hpl-0.8", "B 13"))
    assert say(found.message) == "hpl-0.8 comes from several batches: B 12 (1), B 13 (1)."


def test_one_batch_is_none_of_a_matter_and_neither_are_boards(result):
    assert told(result, taken("hpl-0.8", "B 12"), taken("hpl-0.8", "B 12")) == ()
    assert told(result, taken("mdf-19", "B 12"), taken("mdf-19", "B 13")) == ()


def test_what_is_bought_besides_is_another_batch(result):
    (layout,) = [one for one in result.layouts if one.material == "hpl-0.8"]
    twice = type(layout)(layout.material, layout.sheets[:1] * 2, layout.bought, layout.aim, 0, False)
    (found,) = batch_findings([taken("hpl-0.8", "")], [twice], result.sketch)
    assert say(found.message).endswith("comes from several batches: not told (1), bought (1).")
    assert batch_findings([], [twice], result.sketch) == ()
