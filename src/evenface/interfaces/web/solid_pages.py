"""The page on which a piece is looked at from all sides, taken apart, cut through, and bowed by month."""

from typing import Any, Final

from markupsafe import Markup
from starlette.responses import Response

from evenface.climate.outdoors import MONTHS
from evenface.construction import Construction
from evenface.drawings import plan_of
from evenface.drawings.solid_colours import Colour, colours_of_board, colours_of_panel
from evenface.drawings.whole import APART_PAPER_MM, apart_of
from evenface.interfaces.web.api_solid import part_numbers, piece_of
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.site import Asked, Site, drawn
from evenface.words import Manner

_SCALES: Final = (0.5, 0.2, 0.1, 0.05, 0.02)


def solid(site: Site, asked: Asked) -> Response:
    """The piece from all sides; its triangles are fetched by the script, drawings stand where it cannot run."""
    job = site.job(asked)
    view = site.desk.look(job, flat=False)
    construction = piece_of(view, asked.path["piece"])
    number = view.sketch.constructions.index(construction) + 1
    name = construction.piece.name
    values: dict[str, Any] = {
        "title": f"{name}: {asked.manner.translate('in 3-D')}",
        "piece": name,
        "number": number,
        "others": [
            (n, one.piece.name) for n, one in enumerate(view.sketch.constructions, start=1) if n != number
        ],
        "parts": _parts(view, construction, asked.manner),
        "colours": _colours(construction),
        "months": list(enumerate(MONTHS)),
        "pictures": _pictures(view, construction, asked.manner),
        "source": f"/api/v1/jobs/{job.id}/pieces/{number}",
    }
    return site.page("solid.html", asked, job=job, **values)


def _parts(view: View, construction: Construction, manner: Manner) -> list[tuple[str, str, str]]:
    """Number, name and address of every part; a board has no page of its own."""
    numbers = part_numbers(view, construction)
    paged = {part.id for part in view.sketch.parts}
    names = [*(one.name for one in construction.panels), *(one.name for one in construction.boards)]
    rows = [(numbers[name], name) for name in names]
    rows.sort(key=lambda row: [int(figure) for figure in row[0].split(".")])
    return [(number, manner.name(name), number if number in paged else "") for number, name in rows]


def _colours(construction: Construction) -> list[Colour]:
    found: dict[str, Colour] = {}
    for panel in construction.panels:
        found |= colours_of_panel(panel)
    for board in construction.boards:
        found |= colours_of_board(board)
    return [found[key] for key in sorted(found, key=lambda key: found[key].title)]


def _pictures(view: View, construction: Construction, manner: Manner) -> list[Markup]:
    """What is shown without WebGL: the piece taken apart, or the plans of loose panels."""
    size = construction.arranged.size_mm
    if size is None:
        return [drawn(plan_of(panel, manner)) for panel in construction.panels]
    scale = next((one for one in _SCALES if 1.5 * max(size) * one <= APART_PAPER_MM[0]), _SCALES[-1])
    return [drawn(apart_of(construction, scale, part_numbers(view, construction), manner))]


ROUTES: Final = (("GET", "/jobs/{job}/solid/{piece}", solid),)
