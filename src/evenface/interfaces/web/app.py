"""The app: which address leads to which page."""

from secrets import token_urlsafe

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from evenface.interfaces.web import (
    actions,
    adding_pages,
    brief_pages,
    comparing_pages,
    flat_pages,
    hours_pages,
    job_list,
    job_pages,
    job_stock_pages,
    making_pages,
    money_pages,
    pages,
    paper_pages,
    piece_pages,
    price_settings_pages,
    solid_pages,
    starting_pages,
    stock_pages,
    variant_pages,
    whole_pages,
)
from evenface.interfaces.web.access import Access
from evenface.interfaces.web.access_door import NEEDED, AccessDoor
from evenface.interfaces.web.api import BASE, api_app, api_page_values
from evenface.interfaces.web.asking import answering, nowhere
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.guard import Guard, on_this_net
from evenface.interfaces.web.site import HERE, Asked, Handler, Site
from evenface.store import JobStore

GET, POST = "GET", "POST"

ROUTES: tuple[tuple[str, str, Handler], ...] = (
    (GET, "/", job_list.jobs_page),
    (POST, "/jobs", actions.add_job),
    (POST, "/units", actions.units),
    (POST, "/language", actions.language),
    (GET, "/jobs/{job}", pages.piece),
    (GET, "/jobs/{job}/parts/{part}", pages.part),
    (POST, "/jobs/{job}/parts/{part}", actions.edit_part),
    (GET, "/jobs/{job}/check", pages.check),
    (GET, "/jobs/{job}/try", pages.attempt),
    (POST, "/jobs/{job}/keep", actions.keep_remedy),
    (GET, "/jobs/{job}/cutting", pages.cutting),
    (POST, "/jobs/{job}/cutting", actions.plan_again),
    (GET, "/jobs/{job}/text", actions.text_page),
    (POST, "/jobs/{job}/text", actions.edit_text),
    (POST, "/jobs/{job}/file", actions.to_file),
    (GET, "/jobs/{job}/outside", actions.outside),
    (POST, "/jobs/{job}/step/{way}", actions.step),
    *money_pages.ROUTES,
    *comparing_pages.ROUTES,
    *starting_pages.ROUTES,
    *making_pages.ROUTES,
    *stock_pages.ROUTES,
    *flat_pages.ROUTES,
    *adding_pages.ROUTES,
    *solid_pages.ROUTES,
    *piece_pages.ROUTES,
    *paper_pages.ROUTES,
    *job_pages.ROUTES,
    *hours_pages.ROUTES,
    *variant_pages.ROUTES,
    *whole_pages.ROUTES,
    *price_settings_pages.ROUTES,
    *brief_pages.ROUTES,
    *job_stock_pages.ROUTES,
)


def build_app(store: JobStore, planner: Planner | None = None, access: Access | None = None) -> Starlette:
    """The app on that store.

    planner : how layouts are reckoned, for tests with less time. access : the code it asks for where it is
    shared; None for this machine alone.
    """
    site = Site(store) if planner is None else Site(store, planner=planner)
    routes = [Route(path, answering(site, handler), methods=[way]) for way, path, handler in ROUTES]
    static = Mount("/static", StaticFiles(directory=HERE / "static"))
    for_programs = [
        Route("/api", answering(site, api_page), methods=[GET]),
        Mount(BASE, app=api_app(site)),
    ]
    return Starlette(
        routes=[*routes, *for_programs, static],
        middleware=_doors(site, access),
        exception_handlers={HTTPException: nowhere(site)},
    )


def api_page(site: Site, asked: Asked) -> Response:
    """In a few lines, what programs can do."""
    return site.page("api.html", asked, title="For programs", job=None, **api_page_values())


def _doors(site: Site, access: Access | None) -> list[Middleware]:
    if access is None:
        return [Middleware(Guard, secret=site.store.secret())]
    asking = site.templates.get_template("access.html")
    return [
        Middleware(Guard, secret=token_urlsafe(32), own=on_this_net),  # strangers never see the lasting one
        Middleware(AccessDoor, access=access, page=lambda told: asking.render(needed=NEEDED, told=told)),
    ]
