"""What a piece must bear stands at the piece, in place of the job's brief."""

from pathlib import Path

import pytest

from evenface.construction.kinds import KINDS
from evenface.errors import FileError, MissingWord
from evenface.job.choosing import briefs_of
from evenface.materials import load_catalogue
from evenface.piece import read_job

JOB = Path("examples/whole-room.toml").read_text(encoding="utf-8")
OWN = '[[piece]]\nname = "Glazing bench"\nbrief = { for = "chemical bench", touch = 2 }\n'


def read(text):
    return read_job(text, "job.toml", load_catalogue(), KINDS)


def test_a_piece_of_any_kind_takes_a_brief_and_the_others_have_that_of_the_job():
    text = JOB.replace('[[piece]]\nname = "Glazing bench"\n', OWN).replace(
        'name     = "Glazing desk"\n', 'name     = "Glazing desk"\nbrief    = { for = "writing desk" }\n'
    )
    job = read(text + '\n[brief]\nfor = "wet bench"\n')
    named = [(name, brief.for_) for name, brief in briefs_of(job)]
    assert named == [("", "wet bench"), ("Glazing bench", "chemical bench"), ("Glazing desk", "writing desk")]
    assert [brief.for_ for _, brief in briefs_of(job, "Glazing desk")] == ["writing desk"]
    other = next(one.name for one in job.pieces if one.brief is None)
    assert briefs_of(job, other) == briefs_of(job)[:1]
    assert briefs_of(read(JOB)) == ()
    with pytest.raises(MissingWord, match="Glazing bench"):
        briefs_of(job, "Glazing bensh")


def test_slips_in_the_brief_of_a_piece_are_told_with_their_place():
    with pytest.raises(FileError) as told:
        read(JOB.replace('[[piece]]\nname = "Glazing bench"\n', OWN.replace("touch = 2", "tuoch = 2")))
    assert "piece[0].brief.tuoch" in str(told.value)
    assert "touch" in str(told.value)
