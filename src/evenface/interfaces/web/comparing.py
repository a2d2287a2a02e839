"""What the pages of alternatives do: variants side by side, one adopted, one added; what a brief leaves over."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from evenface.errors import Complaint, FileError, Place
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.keeping import folder_of, keep_changes, keep_text
from evenface.interfaces.web.reckoning import Task
from evenface.interfaces.web.site import NoSuchPage, Site, digest
from evenface.interfaces.web.written import table_text
from evenface.job.alternatives import Comparison, alternatives
from evenface.job.choosing import Chosen, choose
from evenface.job.pricing import prices_for
from evenface.piece.brief_records import Brief
from evenface.piece.briefs import named_brief
from evenface.piece.editing import value_of
from evenface.piece.wanted import MOST_VARIANTS
from evenface.store import KeptJob
from evenface.toml_places import key_path
from evenface.words import said

BUDGET_S: Final = 2.0
LAYERS: Final = ("carrier", "face", "back", "glue", "edging.wood", "edging.width")
"""What a new variant can set differently of a build-up."""
OF_PIECE: Final = "piece: "
NONE: Final = "none"
"""In a form: the layer is left out."""


@dataclass(frozen=True, slots=True)
class Asking:
    """A comparison to be reckoned. key : the same for the same job, prices and piece."""

    key: str
    view: View
    job: KeptJob
    piece: str


def asking(site: Site, job: KeptJob, view: View, piece: str) -> Asking:
    """The comparison of a job's variants. Raises FileError for prices that cannot be read."""
    prices = prices_for(view.opened, folder=folder_of(site, job))
    words = f"{sorted(view.opened.hashes.items())} {prices} {piece}"
    return Asking(f"alternatives {job.id} {digest(words.encode())}", view, job, piece)


def compared(site: Site, asked: Asking, again: bool = False) -> Task:
    """The comparison reckoned beside the page; its value is a `Comparison`."""

    def work(task: Task) -> Comparison:
        prices = prices_for(asked.view.opened, folder=folder_of(site, asked.job))
        return alternatives(
            asked.view.opened, None, asked.piece, prices, BUDGET_S, text=asked.view.text, progress=task.hear
        )

    return site.reckoner.ask(asked.key, work, again)


def adopt(site: Site, job: KeptJob, version: int, number: int) -> KeptJob:
    """The job with the entries of that variant set for good; undo takes it back.

    Raises NoSuchPage, Stale, FileError.
    """
    variants = site.desk.look(job, flat=False).opened.job.variants
    if not 0 <= number < len(variants):
        raise NoSuchPage("That variant is not there any more.")
    return keep_changes(site, job, version, variants[number].changes)


def add_variant(site: Site, job: KeptJob, version: int, form: Mapping[str, str]) -> KeptJob:
    """A `[[variant]]` more. form : name, buildup, and of `LAYERS` what is different. Raises FileError, Stale."""
    view = site.desk.look(job, flat=False)
    buildup = form.get("buildup", "")
    if buildup not in view.sketch.job.buildups:
        raise NoSuchPage(said("This job has no build-up {buildup}.", buildup=repr(buildup[:40])))
    given = {key: form.get(key, "").strip() for key in LAYERS}
    written = view.source.data["buildup"][buildup]
    changes = {
        key_path(("buildup", buildup, *key.split("."))): "" if new == NONE else new
        for key, new in given.items()
        if new and (new != NONE or key in written)
    }
    if not changes:
        raise FileError([Complaint(Place(key="variant"), "something that is different", "nothing")])
    if len(view.opened.job.variants) >= MOST_VARIANTS:
        raise FileError(
            [
                Complaint(
                    Place(key="variant"),
                    said("at most {most} variants", most=MOST_VARIANTS),
                    "one more",
                )
            ]
        )
    name = (
        " ".join(form.get("name", "").split())
        or f"{buildup}: {', '.join(new or NONE for new in changes.values())}"
    )
    _check_name(view, name)
    text = table_text(
        "variant", {"name": name[:80], "changes": {path: value_of(new) for path, new in changes.items()}}
    )
    return keep_text(site, job, version, f"{job.text.rstrip()}\n\n{text}")


def _check_name(view: View, name: str) -> None:
    if any(one.name == name for one in view.opened.job.variants):
        raise FileError([Complaint(Place(key="name"), "a name no other variant has", repr(name))])


def remove_variant(site: Site, job: KeptJob, version: int, number: int) -> KeptJob:
    """The job without that variant."""
    variants = site.desk.look(job, flat=False).opened.job.variants
    if not 0 <= number < len(variants):
        raise NoSuchPage("That variant is not there any more.")
    return keep_changes(site, job, version, [Change(f"variant[{number}]", "", "")])


def brief_for(view: View, use: str) -> Brief | None:
    """The brief of a named use, or of a piece as `OF_PIECE` and its name; else that of the job, else none.

    Raises MissingWord.
    """
    if use.startswith(OF_PIECE):
        return dict(own_briefs(view)).get(use.removeprefix(OF_PIECE))
    return named_brief(use) if use else view.opened.job.brief


def own_briefs(view: View) -> tuple[tuple[str, Brief], ...]:
    """Pieces that have a brief of their own, by name."""
    return tuple((one.name, one.brief) for one in view.opened.job.pieces if one.brief is not None)


def chosen(site: Site, job: KeptJob, view: View, brief: Brief, again: bool = False) -> Task:
    """What the brief leaves over, reckoned beside the page; its value is `Chosen`."""

    def work(task: Task) -> Chosen:
        return choose(brief, view.opened.catalogue, view.opened.job)

    key = f"choice {job.id} {digest(f'{sorted(view.opened.hashes.items())} {brief}'.encode())}"
    return site.reckoner.ask(key, work, again)
