"""The pages of alternatives: variants side by side, what a brief leaves over."""

from typing import Any, Final
from urllib.parse import quote

from starlette.responses import RedirectResponse, Response

from evenface.documents.choosing import (
    RANK_NOTE,
    build_ups_table,
    comparison_scene,
    comparison_table,
    ranking_table,
)
from evenface.documents.display import called
from evenface.documents.money_text import locale_for
from evenface.interfaces.choosing import MOST_BUILD_UPS, variant_row
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.comparing import (
    OF_PIECE,
    add_variant,
    adopt,
    asking,
    brief_for,
    chosen,
    compared,
    own_briefs,
    remove_variant,
)
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.site import Asked, Site, drawn
from evenface.interfaces.web.starting import titles_of
from evenface.job.alternatives import Comparison
from evenface.job.choosing import Chosen, needs_in_words
from evenface.materials import Catalogue
from evenface.materials.traits import traits
from evenface.words import Manner


def alternatives(site: Site, asked: Asked) -> Response:
    """The job as it is and its variants, side by side; reckoned beside the page."""
    job = site.job(asked)
    view = site.desk.look(job)
    pieces = [one.name for one in view.sketch.job.pieces]
    piece = asked.query.get("piece", "")
    piece = piece if piece in pieces else ""
    variants = view.opened.job.variants
    values: dict[str, Any] = {
        "job": job, "pieces": pieces, "piece": piece, "variants": variants,
        "address": f"/jobs/{job.id}/alternatives?piece={quote(piece)}", "task": None, "state": "",
        "buildups": tuple(view.sketch.job.buildups), "choices": _choices(view.opened.catalogue),
        "titles": titles_of(view.opened.catalogue),
    }  # fmt: skip
    if variants:
        task = compared(site, asking(site, job, view, piece))
        state = task.state  # read once: the reckoning goes on while the page is made
        values |= {"task": task, "state": state}
        if state == "done":
            values |= _side_by_side(task.value, asked.manner)
    name = "alternatives_live.html" if asked.live else "alternatives.html"
    return site.page(name, asked, title="Alternatives", **values)


def _side_by_side(found: Comparison, manner: Manner) -> dict[str, Any]:
    rows = [variant_row(column, found.part, locale_for(found.locale, manner)) for column in found.columns]
    part = called(found.part, manner)
    return {
        "table": comparison_table(rows, part, manner),
        "picture": drawn(comparison_scene(rows, part, manner)),
    }


def _choices(catalogue: Catalogue) -> dict[str, tuple[str, tuple[str, ...]]]:
    return {
        "carrier": ("Carrier", catalogue.names("carrier")),
        "face": ("Facing on the show face", catalogue.names("facing")),
        "back": ("Facing on the back", catalogue.names("facing")),
        "edging.wood": ("Edging wood", catalogue.names("wood")),
        "glue": ("Glue", catalogue.names("glue")),
    }


@changing
def change_alternatives(site: Site, asked: Asked) -> Response:
    """Adopt a variant, add one, take one out, or begin or end the reckoning."""
    job = site.job(asked)
    version, number, do = asked.whole("version"), asked.whole("number"), asked.form.get("do", "")
    if do == "adopt":
        adopt(site, job, version, number)
    elif do == "remove":
        remove_variant(site, job, version, number)
    elif do == "add":
        add_variant(site, job, version, asked.form)
    elif do in ("stop", "again"):
        piece = asked.form.get("piece", "")
        question = asking(site, job, site.desk.look(job), piece)
        if do == "stop":
            site.reckoner.stop(question.key)
        else:
            compared(site, question, again=True)
        return RedirectResponse(f"/jobs/{job.id}/alternatives?piece={quote(piece)}", 303)
    return done(
        f"/jobs/{job.id}/alternatives", "variant" if do == "adopt" else "added" if do == "add" else "off"
    )


def choice(site: Site, asked: Asked) -> Response:
    """What a brief rules out, and build-ups of what is left; reckoned beside the page."""
    job = site.job(asked)
    view = site.desk.look(job)
    uses = tuple(traits().uses)
    use = asked.query.get("use", "")
    pieces = tuple(f"{OF_PIECE}{name}" for name, _ in own_briefs(view))
    use = use if use in (*uses, *pieces) else ""
    brief = brief_for(view, use)
    values: dict[str, Any] = {
        "job": job, "uses": uses, "use": use, "of_pieces": pieces,
        "own": view.opened.job.brief is not None, "task": None, "state": "",
        "address": f"/jobs/{job.id}/choice?use={quote(use)}",
    }  # fmt: skip
    if brief is not None:
        task = chosen(site, job, view, brief, again=asked.query.get("again") == "yes")
        state = task.state
        values |= {"task": task, "state": state, "needs": needs_in_words(brief)}
        if state == "done":
            values |= _chosen(task.value, asked.manner) | {"buildups": tuple(view.sketch.job.buildups)}
    name = "choice_live.html" if asked.live else "choice.html"
    return site.page(name, asked, title="What to build from", **values)


def _chosen(found: Chosen, manner: Manner) -> dict[str, Any]:
    best = found.build_ups[:MOST_BUILD_UPS]
    cells = [
        (one.facing.title, one.carrier, one.back, one.behaviour, one.lies_flat, one.price_level)
        for one in best
    ]
    return {
        "rankings": [ranking_table(one, manner) for one in found.rankings],
        "rank_note": RANK_NOTE,
        "best": build_ups_table(cells, manner),
        "build_ups": best,
    }


ROUTES: Final = (
    ("GET", "/jobs/{job}/alternatives", alternatives),
    ("POST", "/jobs/{job}/alternatives", change_alternatives),
    ("GET", "/jobs/{job}/choice", choice),
)
