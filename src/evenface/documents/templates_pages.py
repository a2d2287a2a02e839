"""A drawing at true size laid over printed pages, with cut marks, marks to lay them true and check lines."""

from datetime import date

from evenface.documents.setting import plain, set_pdf, shortened
from evenface.drawings import Scene, to_svg
from evenface.errors import EvenfaceError
from evenface.shape.tiling import Tiling, Way, tile
from evenface.words import ENGLISH, Manner, said


class ScaleError(EvenfaceError):
    """A drawing that is not at 1:1 was to be printed as a template."""


def template_pages(
    scene: Scene,
    day: date,
    paper: str = "A4",
    way: Way = "fewest",
    overlap_mm: float = 10.0,
    manner: Manner = ENGLISH,
) -> bytes:
    """A PDF with the drawing at true size; a page map comes first when it takes more than one page.

    scene : at scale 1. paper : A4, A3 or Letter. Every page carries a 100 mm line each way; neighbours
    overlap, and crosses that both show are laid on each other.
    Raises ScaleError when the scene is not at 1:1, ShapeError for an unknown paper or no room.
    """
    if scene.scale != 1.0:
        raise ScaleError(
            said(
                "{title}: a template is drawn at 1:1, was given {scale}",
                title=scene.title,
                scale=scene.scale_text,
            )
        )
    return set_pdf(
        "tiles.typ",
        _data(scene, tile(scene.bounds, paper, way, overlap_mm=overlap_mm), day, manner),
        manner.language,
    )


def _data(scene: Scene, tiling: Tiling, day: date, manner: Manner) -> dict[str, object]:
    pages = tiling.pages
    boxes = [page.window for page in pages]
    whole = [
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    ]
    title = plain(scene.title)
    count = manner.translate("{n} pages of {paper}").format(n=len(pages), paper=tiling.paper)
    return {
        "title": title,
        "how": manner.translate(
            "Print at 100 %. On every page the two red lines measure 100 mm; if they do not, do not use it. "
            "Cut along the dash-dotted lines, lay each page on its neighbour so that the crosses meet, glue."
        ),
        "line": f"{shortened(title, 50)} 1:1, {count}, {day.isoformat()}",
        "svg": to_svg(scene),
        "bounds": scene.bounds,
        "whole": whole,
        "paper": tiling.paper_size,
        "margin": tiling.margin_mm,
        "checks": tiling.check_lines,
        "pages": [
            {"name": p.name, "window": p.window, "cut": p.cut, "shift": p.shift, "marks": p.marks}
            for p in pages
        ],
    }
