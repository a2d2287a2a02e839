"""Alike steps share a card: no step is lost, each has its box, and unlike ones stay apart."""

from evenface.documents.alike_cards import MOST, alike_together
from evenface.documents.bench_cards import whole_cards


def card(step, text="saw", kind="step", **more):
    return {"kind": kind, "id": step, "part": f"part {step}", "when": f"day {step}", "settings": [text],
            "minutes": 20, "hands": "20 min", **more}  # fmt: skip


def test_alike_steps_share_a_card_with_a_box_for_each():
    glue = [card(step, kind="glue") for step in ("a", "c")]
    cards = [card("a"), glue[0], card("b", "plane"), card("c"), glue[1]]
    together = alike_together(cards)
    assert [one["kind"] for one in together] == ["step", "glue", "step"]
    assert together[0]["alike"] == [["a", "part a", "day a"], ["c", "part c", "day c"]]
    assert together[0]["id"] == "2 alike, for each"
    assert "2 × 20 = 40 min" in together[0]["hands"]
    assert "a, c" in together[1]["part"]
    assert together[2] == cards[2]


def test_what_differs_only_behind_the_card_stays_apart():
    cards = [card("a"), card("a", "3 g", kind="glue"), card("b"), card("b", "4 g", kind="glue")]
    assert alike_together(cards) == cards


def test_more_than_a_card_has_room_for_go_on_another_in_their_order():
    cards = [card(f"s{number:02}") for number in range(2 * MOST + 1)]
    together = alike_together(cards)
    assert [len(one.get("alike", [])) for one in together] == [MOST, MOST, 0]
    told = [own[0] for one in together for own in one.get("alike", [])] + [together[-1]["id"]]
    assert told == [one["id"] for one in cards]


def test_a_screen_still_has_a_card_for_every_step():
    cards = [card("a"), card("b")]
    assert whole_cards(cards).keys() == {"a", "b"}
