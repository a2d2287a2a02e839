"""The page on which a part gets a profile, a cut-out or a grip more, or loses one."""

from typing import Any, Final

from starlette.responses import RedirectResponse, Response

from evenface.interfaces.web.adding import FEATURES, add_feature, features_of, remove_feature
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.pages import part_of_page
from evenface.interfaces.web.site import Asked, Site
from evenface.words import said, say


def add(site: Site, asked: Asked) -> Response:
    """What stands on the part, and what may be added."""
    job = site.job(asked)
    view = site.desk.look(job, flat=False)
    one, panel = part_of_page(view, asked)
    values: dict[str, Any] = {"job": job, "part": one, "features": FEATURES}
    values |= {"known": features_of(view, panel.origin), "origin": panel.origin}
    return site.page(
        "add.html", asked, title=say(said("Add to {part}", part=one.name), asked.manner), **values
    )


@changing
def change(site: Site, asked: Asked) -> Response:
    """Add or take out; back to the part, where it is drawn."""
    job = site.job(asked)
    one, panel = part_of_page(site.desk.look(job, flat=False), asked)
    version = asked.whole("version")
    if asked.form.get("do") == "remove":
        remove_feature(site, job, version, asked.form.get("path", ""))
    else:
        add_feature(site, job, version, panel.origin, asked.form, asked.manner)
    return RedirectResponse(f"/jobs/{job.id}/parts/{one.id}", 303)


ROUTES: Final = (
    ("GET", "/jobs/{job}/add/{part}", add),
    ("POST", "/jobs/{job}/add/{part}", change),
)
