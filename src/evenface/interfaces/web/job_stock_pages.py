"""The page beside the buying list: what the layouts of this job may be cut from, line by line."""

from collections.abc import Mapping
from typing import Final

from starlette.responses import Response

from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.edits import Outcome
from evenface.interfaces.web.entry_pages import entries_page, handlers
from evenface.interfaces.web.job_stock import add_damage, add_line, remove_damage, remove_line
from evenface.interfaces.web.job_stock_entries import AT, DAMAGE, new_line, stock_entries, stock_groups
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.plain_entries import pair_such_as
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.store import KeptJob

ABOUT: Final = "stock"


def _page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None,
    told: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    view = site.desk.look(job, flat=False)
    groups = (Group("", (), ()), *stock_groups(view, asked.manner))
    names = [f"{group.title}: {group.says}" for group in groups[1:]]
    examples = [pair_such_as(*one, asked.manner) for one in ((900, 60), (60, 40))]
    return entries_page(
        site, asked, job, view, groups, status, out, "job_stock.html", ("deeds", "line", "damage"),
        title="What can be bought", about=ABOUT, new=new_line(view, asked.manner), told=told or {}, sent=asked.form,
        names=names, damage=DAMAGE, examples=examples, here=f"/jobs/{job.id}/stock",
    )  # fmt: skip


@changing
def change(site: Site, asked: Asked) -> Response:
    """A line or damage more or less; a slip comes back with its reason."""
    job, version = site.job(asked), asked.whole("version")
    do, *numbers = asked.form.get("do", "").split(" ")
    which = [int(one) for one in numbers if one.isascii() and one.isdigit() and len(one) < 6]
    told: Mapping[str, str] = {}
    if do == "add":
        told = add_line(site, job, version, asked.form, asked.manner)
    elif do == "damage":
        told = add_damage(site, job, version, asked.whole("line"), asked.form, asked.manner)
    elif do == "out" and len(which) == 1:
        remove_line(site, job, version, which[0])
    elif do == "mend" and len(which) == 2:
        remove_damage(site, job, version, which[0], which[1])
    else:
        raise NoSuchPage("There is no such thing to do here.")
    if told:
        return _page(site, asked, job, 422, None, told)
    return done(f"/jobs/{job.id}/stock", "added" if do in ("add", "damage") else "out")


_SHOW, _EDIT = handlers(ABOUT, stock_entries, _page)
ROUTES: Final = (
    ("GET", f"/jobs/{{job}}/{AT}", _SHOW),
    ("POST", f"/jobs/{{job}}/{AT}", _EDIT),
    ("POST", "/jobs/{job}/lines", change),
)
