"""What becomes of a change that cannot be kept: said on a page of its own, nothing lost."""

from collections.abc import Callable
from functools import wraps

from starlette.responses import RedirectResponse, Response

from evenface.errors import EvenfaceError, FileError, told_of
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.store import KeptJob, NoSuchJob, Stale

MEANWHILE = (
    "The job was changed in another window meanwhile. Nothing was changed now: look again and repeat it."
)


def changing(handler: Callable[[Site, Asked], Response]) -> Callable[[Site, Asked], Response]:
    """The handler of a change: a job that is no longer as it was seen, or would have faults, becomes a page."""

    @wraps(handler)
    def guarded(site: Site, asked: Asked) -> Response:
        try:
            return handler(site, asked)
        except Stale as stale:
            return told(
                site, asked, stale.newest, 409, "Changed meanwhile", [asked.manner.translate(MEANWHILE)]
            )
        except FileError as error:
            sentences = [told_of(one, asked.manner) for one in error.complaints]
            return told(site, asked, _job(site, asked), 422, "Nothing was changed", sentences)
        except (NoSuchJob, NoSuchPage):
            raise
        except EvenfaceError as problem:
            return told(
                site,
                asked,
                _job(site, asked),
                422,
                "Nothing was changed",
                told_of(problem, asked.manner).splitlines(),
            )

    return guarded


def told(
    site: Site, asked: Asked, job: KeptJob | None, status: int, title: str, sentences: list[str]
) -> Response:
    """A page that says why, with ways on."""
    values = {"title": title, "sentences": sentences, "job": job}
    return site.page("problem.html", asked, status, here=f"/jobs/{job.id}" if job else "/", **values)


def back_to(job: KeptJob, page: str = "", part: str = "") -> Response:
    """To a page of the job, so that loading it again repeats nothing."""
    return RedirectResponse(f"/jobs/{job.id}{page}{f'#{part}' if part else ''}", 303)


def _job(site: Site, asked: Asked) -> KeptJob | None:
    return site.job(asked) if "job" in asked.path else None
