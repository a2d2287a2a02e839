"""The templates of a job as files: true-size pages, SVG and DXF in mm, and the list of them."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from evenface.documents.display import FIT_MM, called, length
from evenface.documents.pictures import slug, unique
from evenface.documents.setting import shortened
from evenface.documents.tables import Table, table
from evenface.documents.templates_pages import template_pages
from evenface.drawings import NoDxfWriter, Scene, jig_of, pair_of, template_of, to_dxf, to_svg
from evenface.templates import Jig, RoutedTemplate, cutters_of
from evenface.words import ENGLISH, Manner, Own, Said, said, say

NOTE: Final = (
    "True-size pages, SVG and DXF lie in the folder templates. Measure bush and cutter: a cutter 0.2 mm under size "
    "moves the cut by 0.1 mm on each side."
)


def template_names(templates: Sequence[RoutedTemplate], jigs: Sequence[Jig] = ()) -> list[str]:
    """Name of the files of each template, then of each form and rail, without suffix."""
    places = [(one.curve.piece, one.curve.panel, one.curve.name) for one in templates]
    return unique(slug(*place) for place in [*places, *((one.piece, one.panel, one.name) for one in jigs)])


def scene_of(one: RoutedTemplate, manner: Manner = ENGLISH) -> Scene:
    """The template at true size; a pair where recess and insert come from one."""
    name = Own(shortened(called((one.curve.panel, one.curve.name), manner), 40))
    if one.pair is not None and one.pair_guides is not None:
        return pair_of(
            one.pair,
            one.pair_guides,
            one.template.cutter,
            name,
            manner,
            one.board,
            one.notes,
            one.curve.lies_on,
        )
    return template_of(one.template, name, manner, one.board, one.holes, one.notes, one.curve.lies_on)


def scene_of_jig(one: Jig, manner: Manner = ENGLISH) -> Scene:
    """The form or rail at true size."""
    return jig_of(one, Own(shortened(called((one.panel, one.name), manner), 40)), manner)


def template_files(
    templates: Sequence[RoutedTemplate],
    day: date,
    paper: str = "A4",
    manner: Manner = ENGLISH,
    jigs: Sequence[Jig] = (),
) -> dict[str, bytes]:
    """PDF, SVG and DXF of every template, form and rail by the name of its file; no DXF without ezdxf."""
    made: dict[str, bytes] = {}
    scenes = [*(scene_of(one, manner) for one in templates), *(scene_of_jig(one, manner) for one in jigs)]
    for name, scene in zip(template_names(templates, jigs), scenes, strict=True):
        made[f"{name}.pdf"] = template_pages(scene, day, paper, manner=manner)
        made[f"{name}.svg"] = to_svg(scene).encode()
        try:
            made[f"{name}.dxf"] = to_dxf(scene).encode()
        except NoDxfWriter:
            continue
    return made


def templates_table(
    templates: Sequence[RoutedTemplate], manner: Manner = ENGLISH, jigs: Sequence[Jig] = ()
) -> Table:
    """What each template, form and rail is for, its tools, size and passes."""
    rows = [
        (
            f"{one.curve.piece}: {manner.name(one.curve.panel)}",
            one.curve.name,
            manner.translate(one.template.work),
            f"{manner.translate(one.template.guide.kind)} {_mm(one.template.guide.diameter_mm, manner)}",
            _mm(one.template.cutter.diameter_mm, manner),
            _mm(one.template.offset_mm, manner),
            " × ".join(_mm(size, manner) for size in one.template.outline.size),
            _mm(one.least_radius_mm, manner),
            f"{one.passes} × {_mm(one.pass_mm, manner)}",
        )
        for one in templates
    ]
    rows += [
        (
            f"{one.piece}: {manner.name(one.panel)}",
            one.name,
            f"{manner.translate(one.what)} × {one.count}",
            f"{manner.translate(one.guide_kind)} {_mm(one.guide_mm, manner)}",
            _mm(one.cutter_mm, manner),
            "",
            " × ".join(_mm(size, manner) for size in one.outline.size),
            "",
            f"{one.passes} × {_mm(one.pass_mm, manner)}",
        )
        for one in jigs
    ]
    headings = ("Part", "Curve", "Work", "Guide", ">Cutter", ">Offset", ">Template", ">Least R", ">Passes")
    note = manner.translate(NOTE)
    if templates or jigs:
        note = f"{note} {say(_cutters(templates, jigs), manner)}"
    return table("Templates", headings, rows, note, manner)


def _cutters(templates: Sequence[RoutedTemplate], jigs: Sequence[Jig]) -> Said:
    """The cutters the job needs, in one sentence."""
    listed = said("")
    for number, one in enumerate(cutters_of(templates, jigs)):
        told = said("{shape:word} {size:mm2}, reaching {reach:mm}", shape=one.shape, size=one.diameter_mm,
                    reach=one.reach_mm)  # fmt: skip
        if one.largest_mm is not None:
            told = said("{told}, at most {largest:mm2} across", told=told, largest=one.largest_mm)
        if one.limit_rpm is not None:
            told = said("{told}, {limit:count} turns a minute at most", told=told, limit=one.limit_rpm)
        listed = told if number == 0 else said("{before}; {told}", before=listed, told=told)
    return said("Cutters: {listed}.", listed=listed)


def cutters_table(
    templates: Sequence[RoutedTemplate], manner: Manner = ENGLISH, jigs: Sequence[Jig] = ()
) -> Table:
    """The cutters the job needs, with their limits and what each is for."""
    rows = [
        (
            f"{manner.translate(one.shape)} {_mm(one.diameter_mm, manner)}",
            "" if one.largest_mm is None else _mm(one.largest_mm, manner),
            "" if one.limit_rpm is None else str(one.limit_rpm),
            _mm(one.reach_mm, manner),
            called(one.used_for, manner),
        )
        for one in cutters_of(templates, jigs)
    ]
    headings = ("Cutter", ">At most", ">Turns a minute", ">Reach", "For")
    return table("Cutters", headings, rows, manner=manner)


def _mm(size_mm: float, manner: Manner) -> str:
    return length(size_mm, FIT_MM, manner)
