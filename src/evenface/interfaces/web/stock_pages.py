"""The pages of buying and stock: what to buy, what lies in the rack, one item of it."""

from typing import Any, Final

from starlette.responses import RedirectResponse, Response

from evenface.documents.finding_tables import buying_table
from evenface.documents.rack_tables import balance_table, item_lines, items_table, log_table
from evenface.interfaces.from_rack import taken_table
from evenface.interfaces.racking import material_names
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.money import priced
from evenface.interfaces.web.site import Asked, Site
from evenface.interfaces.web.stock import (
    FORMS,
    change_item,
    from_rack,
    item_of,
    labels,
    lying,
    rack_csv,
    rack_key,
    receive,
    sums_of_buying,
    undo,
)
from evenface.store.rack_codes import code_text


def buying(site: Site, asked: Asked) -> Response:
    """The buying list with its sums, and what the rack has of it."""
    job = site.job(asked)
    view = site.desk.look(job)
    work = site.planner.work(view) or site.planner.start(view)
    state = work.state  # read once: the plan goes on while the page is made
    task = from_rack(site, job, view, begin=False)
    rack_state = task.state if task is not None else ""
    values: dict[str, Any] = {
        "job": job,
        "work": work,
        "state": state,
        "task": task,
        "rack_state": rack_state,
    }
    if state == "done" and work.result is not None:
        found = priced(site, job, view, work.result)
        values |= {
            "rows": buying_table(work.result.buying, asked.manner),
            "sums": sums_of_buying(found, asked.manner),
            "missing": bool(found.price.missing),
        }
    if rack_state == "done" and task is not None:
        result, taken, left_out = task.value
        values["taken"] = taken_table(taken, left_out, asked.manner)
        values["rest_to_buy"] = buying_table(result.buying, asked.manner)
    if not asked.live:
        values["held"] = len(lying(site, view.sketch.job.name).items)
    return site.page("buying_live.html" if asked.live else "buying.html", asked, title="Buying", **values)


@changing
def change_buying(site: Site, asked: Asked) -> Response:
    """Plan from the rack and reserve, or stop that."""
    job = site.job(asked)
    view = site.desk.look(job)
    if asked.form.get("do") == "stop":
        site.reckoner.stop(rack_key(job, view))
    else:
        site.reckoner.forget(rack_key(job, view))  # the rack may hold something else by now
        from_rack(site, job, view, begin=True)
    return RedirectResponse(f"/jobs/{job.id}/buying", 303)


def rack(site: Site, asked: Asked) -> Response:
    """What lies in the rack."""
    found = lying(site)
    return site.page(
        "rack.html", asked, title="The rack", job=None, items=found.items, table=items_table(found.items, asked.manner),
        balance=balance_table(found.balance, asked.manner),
        log=log_table(found.log, asked.manner), materials=material_names(None), forms=FORMS, booked=_booked(asked),
    )  # fmt: skip


def _booked(asked: Asked) -> list[str]:
    """Codes just booked in, to be written on their labels."""
    return [one for one in asked.query.get("booked", "").split(" ") if one][:50]


@changing
def change_rack(site: Site, asked: Asked) -> Response:
    """Receive, or take the last thing back."""
    if asked.form.get("do") == "undo":
        undo(site)
        return RedirectResponse("/rack", 303)
    booked = receive(site, asked.form)
    return RedirectResponse(f"/rack?booked={'+'.join(code_text(one.code) for one in booked[:50])}", 303)


def item(site: Site, asked: Asked) -> Response:
    """One item, and what can be done with it."""
    found, rests = item_of(site, asked.path["code"])
    planned = "; ".join(f"{one.length / 100:g}x{one.width / 100:g}" for one in found.planned)
    return site.page(
        "rack_item.html", asked, title=code_text(found.code), job=None, item=found, planned=planned,
        lines=list(item_lines(found, rests, asked.manner)), code=code_text(found.code),
        rests=[code_text(one.code) for one in rests], jobs=sorted({one.name for one in site.store.jobs()}),
        there=found.state in ("free", "reserved"),
    )  # fmt: skip


@changing
def change(site: Site, asked: Asked) -> Response:
    """What was asked to be done with it; after a cut to the rack, where the new codes stand."""
    found, _ = item_of(site, asked.path["code"])
    booked = change_item(site, found.code, asked.form)
    if booked:
        return RedirectResponse(f"/rack?booked={'+'.join(code_text(one.code) for one in booked)}", 303)
    return RedirectResponse(f"/rack/{code_text(found.code)}", 303)


@changing
def label_file(site: Site, asked: Asked) -> Response:
    """Stickers as PDF; `codes` names some, with spaces between."""
    content = labels(site, asked.query.get("codes", "").split(), asked.manner)
    return _file(content, "labels.pdf", "application/pdf")


def csv_file(site: Site, asked: Asked) -> Response:
    """The rack as a table."""
    return _file(rack_csv(site), "rack.csv", "text/csv; charset=utf-8")


def _file(content: bytes, name: str, media: str) -> Response:
    return Response(
        content, media_type=media, headers={"Content-Disposition": f'attachment; filename="{name}"'}
    )


ROUTES: Final = (
    ("GET", "/jobs/{job}/buying", buying),
    ("POST", "/jobs/{job}/buying", change_buying),
    ("GET", "/rack", rack),
    ("POST", "/rack", change_rack),
    ("GET", "/rack/labels.pdf", label_file),
    ("GET", "/rack/rack.csv", csv_file),
    ("GET", "/rack/{code}", item),
    ("POST", "/rack/{code}", change),
)
