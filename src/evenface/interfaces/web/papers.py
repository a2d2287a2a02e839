"""The papers of a job for download: which there are, and their content, made once for a state of the job."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from importlib.util import find_spec
from typing import Final

from evenface.documents.bench_cards import bench_cards_pdf
from evenface.documents.calendar_file import calendar_ics
from evenface.documents.files import DRAWINGS, TEMPLATES, papers
from evenface.documents.flat_tables import rows_of
from evenface.documents.hand_over import care_pdf, hand_over_pdf
from evenface.documents.layout_files import CUTS, WORKBOOK
from evenface.documents.letters import Letterhead
from evenface.documents.pictures import pictures_of, slug
from evenface.documents.plan_file import PLAN
from evenface.documents.template_files import template_names
from evenface.interfaces.hand_over_papers import CARE_FILE, HAND_OVER_FILE, batches_of
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.making_plan import Planned, planned, state_of
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.store import KeptJob
from evenface.words import Manner, said
from evenface.workplan.care import CareLine, care_sheet

PACKET: Final = "packet.pdf"
CARDS: Final = "bench-cards.pdf"
DAYS: Final = "order-of-work.ics"
JOB_FILE: Final = "job.toml"
TITLES: Final[Mapping[str, str]] = {
    PACKET: "Workshop packet",
    CARDS: "Bench cards, with the care of each piece",
    DAYS: "The days, for a calendar program",
    CARE_FILE: "Care sheet for the client",
    HAND_OVER_FILE: "Hand-over sheet, with flatness to be measured",
    "parts.csv": "Parts as a table",
    CUTS: "Cuts as a table",
    WORKBOOK: "Parts, layouts, cuts and what to buy, as a workbook",
    PLAN: "The layouts as they are kept",
    JOB_FILE: "The job file, to be opened again or edited by hand",
    "result.json": "Everything, for other programs",
}
"""Every paper that is no drawing, in the order they are wanted."""
OF_THE_BENCH: Final = (CARDS, DAYS, CARE_FILE, HAND_OVER_FILE)
"""Made without laying out sheets."""
KINDS: Final[Mapping[str, str]] = {
    "pdf": "application/pdf",
    "json": "application/json",
    "toml": "application/toml; charset=utf-8",
    "csv": "text/csv; charset=utf-8",
    "svg": "image/svg+xml",
    "dxf": "image/vnd.dxf",
    "ics": "text/calendar; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
_DRAWING: Final = re.compile(rf"{DRAWINGS}/([a-z0-9-]{{1,80}})\.(?:svg|dxf)")
_STEM: Final = 48
"""Signs of a file's name that are sure to be those of the part; what comes after may be cut off."""


def _writer(name: str) -> bool:
    """Whether the library is there that writes such a file; both that are asked about are extras."""
    needed = {"dxf": "ezdxf", "xlsx": "openpyxl"}.get(name.rsplit(".", 1)[-1])
    return needed is None or find_spec(needed) is not None


@dataclass(frozen=True, slots=True)
class Listed:
    """A paper on the page. bytes : its size, None while it is not made."""

    name: str
    title: str
    bytes: int | None

    @property
    def size(self) -> str:
        """In kB, empty while it is not known."""
        return "" if self.bytes is None else f"{max(1, round(self.bytes / 1000))} kB"


type Files = tuple[str, list[Listed]]
"""What a paper is called, and each form it comes in."""


def _by_stem(files: list[Listed]) -> list[Files]:
    found: dict[str, list[Listed]] = {}
    for one in files:
        found.setdefault(one.name.rsplit("/", 1)[-1].rsplit(".", 1)[0], []).append(one)
    return list(found.items())


class Papers:
    """The papers of one job as it stands, in the reader's language and units."""

    def __init__(self, site: Site, job: KeptJob, view: View, manner: Manner) -> None:
        self.site, self.job, self.view, self.manner = site, job, view, manner
        self.key = state_of(site, job, view, manner)

    def listed(self) -> list[Listed]:
        """Every paper but drawings and templates."""
        return [Listed(name, title, self._size(name)) for name, title in TITLES.items() if _writer(name)]

    def templates(self) -> list[Files]:
        """Templates at true size, of parts that have any, each in every form it comes in."""
        return _by_stem([Listed(name, name, self._size(name)) for name in self._template_files()])

    def drawings(self) -> list[Files] | None:
        """Every drawing, in every form it comes in; they are made for it beside the page, None until they are."""
        key = ("papers", *self.key)
        made = self.site.papers.known(key)
        if made is None:
            begun = self.site.papers.begun(key, self._made_of_the_plan)
            if not begun.done():
                return None
            made = begun.result()
        return _by_stem(
            [Listed(name, name, len(made[name])) for name in made if name.startswith(f"{DRAWINGS}/")]
        )

    def content(self, name: str) -> bytes:
        """One paper. Raises NoSuchPage, for a name that cannot be one before anything is made."""
        if not self._may_be(name):
            raise NoSuchPage(said("There is no paper called {name}.", name=repr(name[:80])))
        if name == JOB_FILE:
            return self.job.text.encode()
        made = {name: self._of_the_bench(name)} if name in OF_THE_BENCH else self._of_the_plan()
        if name not in made:
            raise NoSuchPage(said("There is no paper called {name}.", name=repr(name[:80])))
        return made[name]

    def _may_be(self, name: str) -> bool:
        if (name in TITLES and _writer(name)) or name in self._template_files():
            return True
        found = _DRAWING.fullmatch(name)
        return found is not None and any(found[1].startswith(stem) for stem in self._stems())

    def _stems(self) -> Iterator[str]:
        """How the names of drawings begin: with their part, or with what is drawn."""
        yield from ("layout-", "whole-", "board-", "marked-")
        for part in self.view.sketch.parts:
            yield slug(part.piece, part.name)[:_STEM]
            yield slug(part.id)

    def _template_files(self) -> list[str]:
        sketch = self.view.sketch
        names = template_names(sketch.templates, sketch.jigs)
        made = [f"{TEMPLATES}/{name}.{kind}" for name in names for kind in ("pdf", "svg", "dxf")]
        return [one for one in made if _writer(one)]

    def _size(self, name: str) -> int | None:
        if name == JOB_FILE:
            return len(self.job.text.encode())
        key = ("paper", name, *self.key) if name in OF_THE_BENCH else ("papers", *self.key)
        made = self.site.papers.known(key)
        if made is None:
            return None
        content = made if name in OF_THE_BENCH else made.get(name)
        return None if content is None else len(content)

    def _of_the_plan(self) -> Mapping[str, bytes]:
        """Packet, lists, drawings, templates: all that hangs on the layouts."""

        made: Mapping[str, bytes] = self.site.papers.get(("papers", *self.key), self._made_of_the_plan)
        return made

    def _made_of_the_plan(self) -> Mapping[str, bytes]:
        result = self.site.planner.result(self.site.desk.look(self.job))
        return papers(result, pictures_of(result, self.manner), date.today(), self.manner)

    def _of_the_bench(self, name: str) -> bytes:
        """Cards, days, care and hand-over: all that hangs on the order of work."""
        makers: Mapping[str, Callable[[], bytes]] = {
            CARDS: self._cards, DAYS: self._days, CARE_FILE: self._care, HAND_OVER_FILE: self._hand_over,
        }  # fmt: skip
        made: bytes = self.site.papers.get(("paper", name, *self.key), makers[name])
        return made

    def _cards(self) -> bytes:
        known, day = self._planned(), date.today()
        care = self._care_lines()
        return bench_cards_pdf(self.job.name, known.plan, known.parts, known.glued, care, day, 4, self.manner)

    def _days(self) -> bytes:
        known, due = self._planned(), self.view.opened.job.due
        wanted = date.fromisoformat(due) if due else None
        return calendar_ics(self.job.name, known.plan, known.parts, date.today(), wanted, self.manner)

    def _care(self) -> bytes:
        batches = batches_of(self.view.opened, self.view.sketch.constructions)
        return care_pdf(self._head(), self._care_lines(), batches, self.manner)

    def _hand_over(self) -> bytes:
        flat = rows_of(self.site.desk.look(self.job).sketch)
        return hand_over_pdf(self._head(), flat, self.view.opened.made.flat, self.manner)

    def _head(self) -> Letterhead:
        job, day = self.view.opened.job, date.today()
        return Letterhead(
            job.name, f"{day:%y%m%d}", day, job.price.maker, job.client, locale=job.price.locale
        )

    def _care_lines(self) -> dict[str, tuple[CareLine, ...]]:
        return {one.piece.name: care_sheet(one.panels, one.boards) for one in self.view.sketch.constructions}

    def _planned(self) -> Planned:
        return planned(self.site, self.job, self.view, None, self.manner)
