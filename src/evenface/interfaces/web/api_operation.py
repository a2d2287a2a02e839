"""One thing a program can ask for: its address, what it takes and gives, and who answers it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.store import KeptJob
from evenface.words import Manner, said


@dataclass(frozen=True, slots=True)
class Call:
    """A request as an operation reads it."""

    path: Mapping[str, str]
    body: BaseModel | None
    manner: Manner

    def job(self, site: Site) -> KeptJob:
        """The job of the address. Raises NoSuchJob, NoSuchPage."""
        given = self.path["job"]
        if not (given.isascii() and given.isdigit() and len(given) < 12):
            raise NoSuchPage(said("{given} is not the number of a job.", given=repr(given[:40])))
        return site.store.job(int(given))


@dataclass(frozen=True, slots=True)
class Operation:
    """An entry of the table. name : of the operation, for programs that make functions of it.

    body : the model of what is sent. answer : the type of what is given, a model of JSON; None for other media.
    refusals : statuses with a problem, besides those that every operation of its sort may have.
    units : whether `?units=` decides how sentences and drawings speak.
    """

    method: str
    path: str
    name: str
    summary: str
    handler: Callable[[Site, Call], Any]
    answer: Any = None
    body: type[BaseModel] | None = None
    status: int = 200
    media: str = "application/json"
    refusals: tuple[int, ...] = ()
    units: bool = False
