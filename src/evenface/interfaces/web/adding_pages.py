"""The page on which a part gets a profile, a cut-out or a grip more, or loses one."""

from typing import Any, Final

from starlette.responses import Response

from evenface.interfaces.web.adding import FEATURES, add_feature, features_of, remove_feature
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.pages import part_of_page
from evenface.interfaces.web.site import Asked, Site
from evenface.words import said, say


def add(site: Site, asked: Asked) -> Response:
    """What stands on the part, and what may be added."""
    job = site.job(asked)
    view = site.desk.look(job, flat=False)
    one, panel = part_of_page(view, asked)
    values: dict[str, Any] = {"job": job, "part": one, "features": FEATURES}
    values |= {"known": features_of(view, panel.origin, asked.manner), "origin": panel.origin}
    return site.page(
        "add.html", asked, title=say(said("Add to {part}", part=one.name), asked.manner), **values
    )


@changing
def change(site: Site, asked: Asked) -> Response:
    """Add or take out; back to the part, where it is drawn."""
    job = site.job(asked)
    one, panel = part_of_page(site.desk.look(job, flat=False), asked)
    version, page = asked.whole("version"), f"/jobs/{job.id}/parts/{one.id}"
    if asked.form.get("do") == "remove":
        deed = "off"
        remove_feature(site, job, version, asked.form.get("path", ""))
    else:
        deed = "added"
        add_feature(site, job, version, panel.origin, asked.form, asked.manner)
    return done(page, deed)


ROUTES: Final = (
    ("GET", "/jobs/{job}/add/{part}", add),
    ("POST", "/jobs/{job}/add/{part}", change),
)
