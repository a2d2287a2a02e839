"""Sentences stay templates until the reader's language and units are known."""

import pickle

import pytest

from evenface.words import Manner, Said, said, say

SWEDISH = {
    "The {side:word} edging is {width:mm} wide.": "Kantlisten {side:word} är {width:mm} bred.",
    "front": "fram",
}


def test_the_reader_s_language_and_units_come_last() -> None:
    sentence = said("The {side:word} edging is {width:mm} wide.", side="front", width=12.7)
    assert say(sentence) == "The front edging is 12.7 mm wide."
    swedish = Manner(translate=lambda text: SWEDISH.get(text, text), decimal_mark=",")
    assert say(sentence, swedish) == "Kantlisten fram är 12,7 mm bred."
    assert say(sentence, Manner(system="inch")) == "The front edging is 1/2 in wide."


def test_a_template_without_its_values_is_refused_at_birth() -> None:
    with pytest.raises(ValueError, match="width"):
        Said("{width:mm} wide", {})


def test_braces_and_markup_in_a_name_stay_text() -> None:
    assert say(said("Piece {name}.", name="{boom} #panic() <b>")) == "Piece {boom} #panic() <b>."


def test_sentences_can_be_compared_hashed_and_sent_to_another_process() -> None:
    one, other = said("{n:count} sheets", n=2), said("{n:count} sheets", n=2)
    assert one == other
    assert hash(one) == hash(other)
    assert pickle.loads(pickle.dumps(one)) == one
    with pytest.raises(TypeError):
        one.values["n"] = 3  # type: ignore[index]


def test_a_sentence_may_stand_inside_another() -> None:
    assert (
        say(said("Because {why}", why=said("{s:percent} is too much.", s=0.125)))
        == "Because 12.5 % is too much."
    )
