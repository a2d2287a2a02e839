"""Whole pieces of the examples, built, with their steps."""

from functools import cache
from pathlib import Path

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.materials import load_catalogue
from evenface.parts import parts_of
from evenface.piece import open_job
from evenface.workplan import derive_steps, panels_to_make, pieces_to_make

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("wall-cupboard", "drawer-pedestal", "notice-panel", "lined-tray", "glaze-room")


def of(job):
    """Panels and pieces of a job, ready for the order of work."""
    constructions = construct(job, load_catalogue(), KINDS)
    panels = panels_to_make(constructions, parts_of(constructions))
    return panels, pieces_to_make(constructions, panels)


@cache
def example(name):
    """Panels and pieces of an example."""
    return of(open_job(EXAMPLES / f"{name}.toml", load_catalogue(), KINDS))


@cache
def steps_of(name):
    panels, pieces = example(name)
    return derive_steps(panels, pieces=pieces)


def find(steps, work, word=""):
    """The first step of that work whose title tells that word."""
    from evenface.words import say

    return next(step for step in steps if step.work is work and word in say(step.title))
