"""The list of jobs: what is looked for, in which order, and a way to begin one."""

import re
import unicodedata
from collections.abc import Iterable
from typing import Final

from starlette.responses import Response

from evenface.interfaces.web.site import Asked, Site
from evenface.store import KeptJob
from evenface.words import said, say

ORDERS: Final = {"used": "last opened", "changed": "last changed", "name": "by name"}
LONGEST: Final = 120
_LAST_LETTERS: Final = {"sv": str.maketrans({"å": "{", "ä": "|", "æ": "|", "ö": "}", "ø": "}"})}
"""Letters that stand after z, by language; elsewhere they stand with the letter they are made from."""


def jobs_page(site: Site, asked: Asked, status: int = 200, reason: str = "", typed: str = "") -> Response:
    """Every job, or those that are looked for; asked by our script, only those."""
    find = " ".join(asked.query.get("find", "").split())[:LONGEST]
    order = asked.query.get("order", "")
    order = order if order in ORDERS else "used"
    kept, changed = site.store.jobs(), site.store.changed()
    shown = [one for one in kept if matches(one, find)]
    if order == "changed":
        shown.sort(key=lambda one: changed[one.id], reverse=True)
    elif order == "name":
        shown.sort(key=lambda one: name_key(one.name, asked.manner.language))
    return site.page(
        "jobs_found.html" if asked.live else "jobs.html", asked, status, title="Jobs", job=None, jobs=shown,
        of=len(kept), find=find, order=order, orders=ORDERS, found=told(shown, kept, find, asked),
        changed={number: one.astimezone() for number, one in changed.items()}, reason=reason, typed=typed,
        away=() if asked.live else site.store.jobs(gone=True),
    )  # fmt: skip


def told(shown: Iterable[KeptJob], kept: Iterable[KeptJob], find: str, asked: Asked) -> str:
    """How many are found, in words."""
    found, of = len(tuple(shown)), len(tuple(kept))
    if found:
        words = said("{found} of {of} jobs with “{find}”.", found=found, of=of, find=find)
    else:
        words = said("No job with “{find}” in its name or file. {of} jobs are here.", find=find, of=of)
    return say(words, asked.manner)


def matches(job: KeptJob, find: str) -> bool:
    """Whether every word looked for stands in the job's name or the path of its file."""
    text = plain(f"{job.name} {job.file or ''}")
    return all(plain(word) in text for word in find.split())


def plain(text: str) -> str:
    """Small letters without their marks: what is typed in a hurry finds them all the same."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def name_key(name: str, language: str) -> tuple[tuple[int, int, str], ...]:
    """Where a name stands in the order of names: letters as the language has them, numbers by their size."""
    letters = unicodedata.normalize("NFC", name).casefold().translate(_LAST_LETTERS.get(language, {}))
    parts = re.findall(r"[0-9]+|[^0-9]+", letters)
    return tuple((0, int(one), "") if one.isdecimal() else (1, 0, plain(one)) for one in parts)
