"""What changes something: edits, undo and redo, remedies kept, the text and its file, units."""

import logging
from typing import Final

from starlette.responses import RedirectResponse, Response

from evenface.errors import EvenfaceError, FileError, told_of
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import MEANWHILE, answered, name_of
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.faults import FAULT, KEPT
from evenface.interfaces.web.job_list import jobs_page
from evenface.interfaces.web.keeping import (
    Undecided,
    keep_changes,
    keep_from_file,
    keep_text,
    write_to_file,
)
from evenface.interfaces.web.pages import part_of_page, part_page, remedy_of
from evenface.interfaces.web.part_entries import all_entries
from evenface.interfaces.web.site import Asked, Site, file_state, own_page
from evenface.languages import LANGUAGES
from evenface.store import KeptJob, Stale
from evenface.words import said, say

LOG: Final = logging.getLogger(__name__)


def edit_part(site: Site, asked: Asked) -> Response:
    """What was typed into a part's entries: kept where it can be, else given back with the reason."""
    job = site.job(asked)
    part_of_page(site.desk.look(job, flat=False), asked)

    def find(view: View) -> tuple[str, tuple[Entry, ...]] | None:
        found = view.part(asked.path["part"])
        return None if found is None else (name_of(found[1]), all_entries(view, found[1], asked.manner))

    return answered(site, asked, job, find, part_page)


def keep_remedy(site: Site, asked: Asked) -> Response:
    """A remedy that was tried, kept; undo takes it back."""
    job = site.job(asked)
    if asked.whole("version") != job.version:
        return _newer(site, asked, job)
    _, remedy = remedy_of(site.desk.look(job), asked)
    try:
        keep_changes(site, job, job.version, remedy.changes)
    except Stale as stale:
        return _newer(site, asked, stale.newest)
    return done(own_page(asked.form.get("back", ""), f"/jobs/{job.id}/check"), "kept")


def step(site: Site, asked: Asked) -> Response:
    """Undo or redo, then back to the page it was asked on."""
    job = site.job(asked)
    way = "undo" if asked.path["way"] == "undo" else "redo"
    move = site.store.undo if way == "undo" else site.store.redo
    try:
        moved = move(job.id, asked.whole("version"))
    except Stale as stale:
        return _newer(site, asked, stale.newest)
    able = moved.can_undo if way == "undo" else moved.can_redo
    return done(own_page(asked.form.get("back", "")), way, way if able else "did")


def text_page(site: Site, asked: Asked) -> Response:
    """The job file as text, with what keeps it from being read."""
    job = site.job(asked)
    try:
        site.desk.look(job, flat=False)
    except FileError as error:
        return _text(site, asked, job, 200, None, [told_of(one, asked.manner) for one in error.complaints])
    return _text(site, asked, job)


def outside(site: Site, asked: Asked) -> Response:
    """How the job stands to its file: asked by a page that comes to the front again."""
    return site.page("outside.html", asked, job=site.job(asked))


def edit_text(site: Site, asked: Asked) -> Response:
    """The text as typed, kept when it can be read; else given back with every complaint."""
    job = site.job(asked)
    typed = asked.form.get("text", "").replace("\r\n", "\n")
    if asked.whole("version") != job.version:
        return _text(site, asked, job, 409, typed, [asked.manner.translate(MEANWHILE)])
    try:
        keep_text(site, job, job.version, typed)
    except Stale as stale:
        return _text(site, asked, stale.newest, 409, typed, [asked.manner.translate(MEANWHILE)])
    except FileError as error:
        return _text(site, asked, job, 422, typed, [told_of(one, asked.manner) for one in error.complaints])
    except EvenfaceError:
        raise
    except Exception:  # the text goes back into its field, to be changed there
        LOG.exception("the text of job %d could not be reckoned with", job.id)
        told = [asked.manner.translate(one) for one in (FAULT, KEPT)]
        return _text(site, asked, job, 500, typed, told)
    return RedirectResponse(asked.address, 303)


def _text(
    site: Site,
    asked: Asked,
    job: KeptJob,
    status: int = 200,
    typed: str | None = None,
    faults: list[str] | None = None,
) -> Response:
    return site.page(
        "text.html", asked, status, title="Job file", job=job, text=job.text if typed is None else typed,
        faults=faults or [], file=file_state(job),
    )  # fmt: skip


def to_file(site: Site, asked: Asked) -> Response:
    """Write the job to its file, or take over what stands there."""
    job = site.job(asked)
    if asked.whole("version") != job.version:
        return _newer(site, asked, job)
    try:
        if asked.form.get("do") == "take":
            keep_from_file(site, job, job.version)
        else:
            write_to_file(site, job, over=asked.form.get("sure") == "yes")
    except Stale as stale:
        return _newer(site, asked, stale.newest)
    except FileError as error:
        return _text(site, asked, job, 422, None, [told_of(one, asked.manner) for one in error.complaints])
    except (OSError, UnicodeDecodeError) as problem:
        told = say(
            said(
                "{file} cannot be used: {problem}. The job itself is kept here.",
                file=str(job.file),
                problem=str(problem),
            ),
            asked.manner,
        )
        return _text(site, asked, job, 422, None, [told])
    except Undecided as why:
        return _text(site, asked, job, 409, None, [told_of(why, asked.manner)])
    return RedirectResponse(f"/jobs/{job.id}/text", 303)


def add_job(site: Site, asked: Asked) -> Response:
    """A new job: the example, or a text that was pasted."""
    pasted = asked.form.get("text", "").replace("\r\n", "\n")
    text = example_text() if asked.form.get("from") == "example" else pasted
    probe = KeptJob(0, "", 0, text, None, "", False, False)
    try:
        name = site.desk.look(probe).name
    except FileError as error:
        return jobs_page(site, asked, 422, reason=told_of(error, asked.manner), typed=text)
    made = site.store.add(name, text)
    return RedirectResponse(f"/jobs/{made.id}", 303)


def example_text() -> str:
    """The example that comes with evenface."""
    from evenface.interfaces.web.site import HERE

    return (HERE / "example.toml").read_text(encoding="utf-8")


def plan_again(site: Site, asked: Asked) -> Response:
    """Begin the layouts, or end them."""
    job = site.job(asked)
    view = site.desk.look(job)
    if asked.form.get("do") == "cancel":
        site.planner.cancel(view)
    else:
        site.planner.start(view)
    return RedirectResponse(own_page(asked.form.get("back", f"/jobs/{job.id}/cutting")), 303)


def units(site: Site, asked: Asked) -> Response:
    """Millimetres or inches, for what is shown."""
    answer = RedirectResponse(f"{own_page(asked.form.get('back', ''))}#to-units", 303)
    system = "inch" if asked.form.get("units") == "inch" else "mm"
    answer.set_cookie("evenface_units", system, max_age=400 * 86400, httponly=True, samesite="strict")
    return answer


def language(site: Site, asked: Asked) -> Response:
    """The language of what is shown."""
    answer = RedirectResponse(f"{own_page(asked.form.get('back', ''))}#main", 303)
    wanted = asked.form.get("language", "")
    code = wanted if wanted in LANGUAGES else "en"
    answer.set_cookie("evenface_language", code, max_age=400 * 86400, httponly=True, samesite="strict")
    return answer


def _newer(site: Site, asked: Asked, job: KeptJob) -> Response:
    told = [
        asked.manner.translate("The job was changed in another window meanwhile. Nothing was changed now.")
    ]
    return site.page("problem.html", asked, 409, title="Changed meanwhile", sentences=told, job=job)
