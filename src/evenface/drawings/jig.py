"""Forms for bent strips and rails for scoops at true size, with what lies against them."""

from evenface.drawings.draft import TILED_LETTERS, Draft
from evenface.drawings.scene import SMALL_MM, Anchor, Path, Scene, Stroke
from evenface.drawings.template import (
    MEASURE_FIRST,
    draw_check_lines,
    draw_hold_down,
    draw_outline,
    rotation_note,
)
from evenface.shape.segment import Segment
from evenface.templates import Jig
from evenface.words import ENGLISH, Manner, Said, said

_BEYOND_MM = 8.0
_BESIDE_MM = 2.0


def jig_of(jig: Jig, name: str, manner: Manner = ENGLISH) -> Scene:
    """A form or rail at 1:1: its edge, what lies against it, marks with their words, middle, hold-down zones."""
    draft = Draft(1.0, manner, TILED_LETTERS)
    for zone in jig.hold_down:
        draw_hold_down(draft, zone, beside_middle=len(jig.hold_down) == 1)
    draw_outline(draft, jig.outline, Stroke.CUT, "template")
    for outline in jig.shown:
        draw_outline(draft, outline, Stroke.HIDDEN, "part")
    _draw_middle(draft, jig.middle)
    for number, (line, words) in enumerate(jig.marks):
        _draw_mark(draft, line, words, lettered=number == 0)
    draw_check_lines(draft, jig.outline.bounds)
    return draft.scene(said("{name}: {what:word}", name=name, what=jig.what), *jig.notes, *_notes(jig))


def _draw_middle(draft: Draft, middle: Segment) -> None:
    """The centre line, run out past both its ends."""
    ux, uy = middle.heading(0.0)
    draft.line(
        (middle.x0 - ux * _BEYOND_MM, middle.y0 - uy * _BEYOND_MM),
        (middle.x1 + ux * _BEYOND_MM, middle.y1 + uy * _BEYOND_MM),
        Stroke.CENTRE,
        "centre lines",
    )


def _draw_mark(draft: Draft, line: Segment, words: Said, lettered: bool) -> None:
    """A line that matters, run out a little where it is straight; like ones are lettered once."""
    if line.is_arc:
        draft.add(Path(((*line.first, line.bulge), (*line.last, 0.0)), False, Stroke.DOTTED, "marks"))
        x, y = line.first
    else:
        ux, uy = line.heading(0.0)
        first = (line.x0 - ux * _BEYOND_MM, line.y0 - uy * _BEYOND_MM)
        x, y = last = (line.x1 + ux * _BEYOND_MM, line.y1 + uy * _BEYOND_MM)
        draft.line(first, last, Stroke.ACCENT, "marks")
    if lettered:  # to the left of its upper end, where neither form nor strips lie
        places = [(x - _BESIDE_MM, y + k) for k in (0.0, 3.0, 6.0, 9.0)]
        draft.label(draft.words(words), places, SMALL_MM, Anchor.END, "marks")


def _notes(jig: Jig) -> list[Said]:
    made = said("cut {count:count} alike", count=jig.count)
    if jig.what != "rail":
        made = said(
            "cut {count:count} alike: saw and smooth the first to the line, the others along it with a {guide:word} "
            "of {size:mm2} on a cutter of the same size, {passes:count} passes of {each:mm}",
            count=jig.count,
            guide=jig.guide_kind,
            size=jig.guide_mm,
            passes=jig.passes,
            each=jig.pass_mm,
        )
    tool = said(
        "cutter {cutter:mm2} on a carriage with {guide:word} {size:mm2}: {depth:mm} deep in {passes:count} passes of "
        "{each:mm}",
        cutter=jig.cutter_mm,
        guide=jig.guide_kind,
        size=jig.guide_mm,
        depth=jig.depth_mm,
        passes=jig.passes,
        each=jig.pass_mm,
    )
    lines = said("full line: cut here; dashed: what lies against it; show face up")
    if jig.what == "rail":
        lines = said(
            "full line: cut here; dashed: the feet; seen from the side, the face worked on lies below"
        )
    return [
        made,
        *([tool] if jig.what == "rail" else []),
        *rotation_note(jig.cutter_mm),
        lines,
        MEASURE_FIRST,
    ]
