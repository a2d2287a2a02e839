"""The pages that begin something: a new job, a piece more in a job, copies, and taking out."""

from typing import Any, Final

from starlette.responses import Response

from evenface.climate import place_names, room_kind_names
from evenface.interfaces.web.air_words import place_words, room_words
from evenface.interfaces.web.answers import back_to, changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.site import Asked, Site
from evenface.interfaces.web.starting import (
    Begun,
    add_piece,
    begin_job,
    copy_job,
    copy_part,
    fields_of,
    offered,
    pattern_named,
    remove_part,
    remove_piece,
    titles_of,
    usual_text,
)
from evenface.materials import load_catalogue
from evenface.store import KeptJob


def new_job(site: Site, asked: Asked) -> Response:
    """What is it? And then its few figures."""
    return _form(site, asked, None)


def make_job(site: Site, asked: Asked) -> Response:
    """The job, or the form again with what is wrong beside each field."""
    made = begin_job(site, asked.form, asked.manner)
    return (
        back_to(made.job, _first(site, made.job)) if made.job is not None else _form(site, asked, None, made)
    )


def _first(site: Site, job: KeptJob) -> str:
    """Where a new job is seen best: its only part, drawn with its findings and entries, else the piece."""
    view = site.desk.look(job, flat=False)
    return f"/parts/{view.sketch.parts[0].id}" if len(view.sketch.parts) == 1 else "/pieces/1"


def new_piece(site: Site, asked: Asked) -> Response:
    """The same for a piece more."""
    return _form(site, asked, site.job(asked))


@changing
def make_piece(site: Site, asked: Asked) -> Response:
    """The piece, or the form again."""
    job = site.job(asked)
    made = add_piece(site, job, asked.whole("version"), asked.form, asked.manner)
    return done(f"/jobs/{job.id}", "piece") if made.job is not None else _form(site, asked, job, made)


def _form(site: Site, asked: Asked, job: KeptJob | None, made: Begun | None = None) -> Response:
    what = asked.form.get("what", asked.query.get("what", ""))
    values: dict[str, Any] = {"job": job, "patterns": offered(), "pattern": None, "what": what}
    if what:
        pattern = pattern_named(what)
        if job is None:
            catalogue = load_catalogue(None)
            fields = fields_of(pattern, catalogue)
        else:
            view = site.desk.look(job, flat=False)
            catalogue = view.opened.catalogue
            fields = fields_of(pattern, catalogue, tuple(view.sketch.job.buildups))
        values |= {"pattern": pattern, "fields": fields}
        values["places"] = list(zip(place_names(), place_words(), strict=True))
        values["rooms"] = list(zip(room_kind_names(), room_words(asked.manner), strict=True))
        values["titles"] = titles_of(catalogue)
        values["usual"] = {one.key: usual_text(one, asked.manner) for one in fields}
    values |= {"reasons": made.reasons if made else {}, "typed": dict(asked.form)}
    title = "New job" if job is None else "New piece"
    return site.page("new.html", asked, 422 if made else 200, title=title, **values)


@changing
def change_pieces(site: Site, asked: Asked) -> Response:
    """Take a piece or a part out, or a part more like another."""
    job = site.job(asked)
    version, do, origin = asked.whole("version"), asked.form.get("do", ""), asked.form.get("origin", "")
    if do == "remove-piece":
        remove_piece(site, job, version, asked.whole("number"))
    elif do == "remove-part":
        remove_part(site, job, version, origin)
    elif do == "copy-part":
        copy_part(site, job, version, origin)
    return done(f"/jobs/{job.id}", "part" if do == "copy-part" else "out")


@changing
def copy(site: Site, asked: Asked) -> Response:
    """A copy of the job, opened."""
    return back_to(copy_job(site, site.job(asked), asked.manner))


@changing
def put_away(site: Site, asked: Asked) -> Response:
    """Take a job from the list, or bring it back; nothing of it is lost."""
    back = asked.form.get("do") == "back"
    site.store.put_away(site.job(asked).id, not back)
    return done("/", "back" if back else "away")


ROUTES: Final = (
    ("GET", "/new", new_job),
    ("POST", "/new", make_job),
    ("GET", "/jobs/{job}/new", new_piece),
    ("POST", "/jobs/{job}/new", make_piece),
    ("POST", "/jobs/{job}/pieces", change_pieces),
    ("POST", "/jobs/{job}/copy", copy),
    ("POST", "/jobs/{job}/away", put_away),
)
