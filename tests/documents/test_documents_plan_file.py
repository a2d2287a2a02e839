"""The kept plan: comes back as it was, is not believed, and is not read when it is none."""

import json
from dataclasses import replace

import pytest

from evenface.documents.plan_file import PLAN, kept_plans, plan_text


def test_layouts_come_back_whole(glaze_room, tmp_path):
    (tmp_path / PLAN).write_text(plan_text(glaze_room), encoding="utf-8")
    kept = kept_plans(tmp_path)
    assert list(kept) == [layout.material for layout in glaze_room.layouts]
    for layout in glaze_room.layouts:
        back = kept[layout.material]
        assert (back.sheets, back.bought, back.aim, back.section) == (
            layout.sheets,
            layout.bought,
            layout.aim,
            layout.section,
        )
        assert (back.bound, back.proved, back.checked, back.findings) == (0, False, False, ())


def test_a_plan_from_the_rack_is_kept_for_the_rack_only(glaze_room, tmp_path):
    (tmp_path / PLAN).write_text(
        plan_text(replace(glaze_room, hashes={**glaze_room.hashes, "rack": "0"})), encoding="utf-8"
    )
    assert kept_plans(tmp_path) == {}
    assert kept_plans(tmp_path, from_rack=True)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: "",
        lambda text: text[: len(text) // 2],
        lambda text: "[" * 100_000,
        lambda text: text.replace("evenface-plan-1", "evenface-plan-0"),
        lambda text: json.dumps({**json.loads(text), "layouts": 7}),
        lambda text: text.replace('"form":"sheet"', '"form":"cloud"'),
        lambda text: text.replace('"aim":"', '"aim":"no '),
    ],
)
def test_what_cannot_be_read_is_no_plan(glaze_room, tmp_path, spoil):
    (tmp_path / PLAN).write_text(spoil(plan_text(glaze_room)), encoding="utf-8")
    assert kept_plans(tmp_path) == {}
    assert kept_plans(tmp_path / "nowhere") == {}
