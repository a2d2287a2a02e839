"""What every page needs: the store, the desk, the planner, the reader's manner, the templates."""

import hashlib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any, Final
from urllib.parse import urlencode

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from evenface import __version__
from evenface.drawings import Scene, to_svg
from evenface.errors import EvenfaceError, in_words
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.kept import Kept
from evenface.interfaces.web.reckoning import Reckoner
from evenface.languages import LANGUAGES
from evenface.store import JobStore, KeptJob
from evenface.words import Manner

HERE: Final = Path(__file__).parent
_OWN_PAGE: Final = re.compile(
    r"/(?:rack(?:/[0-9A-Z-]+)?|new|jobs/\d+(?:/[a-z]+(?:/[0-9a-z][0-9a-z.-]*(?:/all)?)?)?)?"
    r"(?:\?[0-9A-Za-z=&%._-]{0,200})?"
)
KEPT: Final = 48
"""Drawings, tables and plans kept ready for a state of a job."""
KEPT_PAPERS: Final = 10
"""Papers kept for a second download; all that hangs on the layouts counts as one."""


class NoSuchPage(EvenfaceError):
    """The address leads nowhere; the text says what was looked for."""


class NotAsThingsStand(EvenfaceError):
    """Cannot be done now; the text says why, and what to do first."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A request as the pages read it: the reader's manner, the fields sent, whether our script asks."""

    path: Mapping[str, str]
    query: Mapping[str, str]
    form: Mapping[str, str]
    manner: Manner
    live: bool
    address: str
    method: str = "GET"

    def whole(self, name: str) -> int:
        """A whole number sent as a field, or -1."""
        given = self.form.get(name, self.query.get(name, self.path.get(name, "")))
        return int(given) if given.isascii() and given.isdigit() and len(given) < 12 else -1


@dataclass(slots=True)
class Site:
    """Everything the handlers share."""

    store: JobStore
    desk: Desk = field(default_factory=Desk)
    planner: Planner = field(default_factory=Planner)
    reckoner: Reckoner = field(default_factory=Reckoner)
    kept: Kept = field(default_factory=lambda: Kept(KEPT))
    papers: Kept = field(default_factory=lambda: Kept(KEPT_PAPERS))
    templates: Environment = field(
        default_factory=lambda: Environment(
            loader=FileSystemLoader(HERE / "templates"),
            autoescape=True,
            auto_reload=False,  # they change with the program: a page asks for dozens of them
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
    )

    def __post_init__(self) -> None:
        self.desk.home = self.store.folder

    def page(self, name: str, asked: Asked, status: int = 200, **values: Any) -> Response:
        """A page or a fragment of one."""
        common: dict[str, Any] = {
            "t": asked.manner.translate,
            "named": asked.manner.name,
            "spoken": partial(in_words, manner=asked.manner),
        }
        common |= {"units": asked.manner.system, "here": asked.address}
        common |= {
            "language": asked.manner.language,
            "languages": LANGUAGES,
            "today": date.today().isoformat(),
        }
        inches = asked.manner.system == "inch"
        common["unit"] = asked.manner.translate("in") if inches else "mm"
        common["lengths"] = asked.manner.translate("sizes in inches" if inches else "sizes in mm")
        asked_for = urlencode({name: one for name, one in asked.query.items() if name != "did"})
        common["back_here"] = f"{asked.address}?{asked_for}" if asked_for else asked.address
        job = values.get("job")
        common["outside"] = file_state(job) if isinstance(job, KeptJob) else "none"
        common["did"] = self._did(asked, job)
        text = self.templates.get_template(name).render(common | {"version": __version__} | values)
        return HTMLResponse(text, status)

    def _did(self, asked: Asked, job: KeptJob | None) -> str:
        """What was just done, where the address says so."""
        from evenface.interfaces.web.deeds import told

        deed = "" if asked.live else asked.query.get("did", "")
        return told(self.store, self.desk, job, deed, asked.manner) if deed else ""

    def job(self, asked: Asked) -> KeptJob:
        """The job the address names. Raises NoSuchJob, NoSuchPage where it names no number."""
        if asked.whole("job") < 0:
            raise NoSuchPage("There is no page at this address.")
        return self.store.job(asked.whole("job"))


def own_page(given: str, otherwise: str = "/") -> str:
    """The address when it is one of our pages, else the list of jobs or what is named instead."""
    return given if _OWN_PAGE.fullmatch(given) else otherwise


def drawn(scene: Scene) -> Markup:
    """A scene for a page; the writer has escaped every text in it."""
    return Markup(to_svg(scene))


def file_state(job: KeptJob) -> str:
    """How the job stands to its file: none, same, ours (changed here), theirs (changed outside), missing."""
    if job.file is None:
        return "none"
    try:
        outside = job.file.read_bytes()
    except OSError:
        return "missing"
    if outside == job.text.encode():
        return "same"
    return "ours" if digest(outside) == job.seen else "theirs"


def digest(content: bytes) -> str:
    """What the store keeps of a file to see that it changed."""
    return hashlib.sha256(content).hexdigest()


type Handler = Callable[[Site, Asked], Response]
