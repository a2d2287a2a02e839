"""A profile, cut-out or grip more on a part, written into its table; the rest of the file stays as it is."""

import re
from collections.abc import Mapping
from typing import Any, Final

from evenface.errors import Complaint, FileError, Place
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.keeping import keep_changes, keep_text
from evenface.interfaces.web.patterns import CHOICE, TEXT, Asked, Given
from evenface.interfaces.web.site import NoSuchPage, NotAsThingsStand, Site
from evenface.interfaces.web.starting import read_fields
from evenface.interfaces.web.tables_added import add_table
from evenface.piece.editing import edited
from evenface.store import KeptJob
from evenface.words import ENGLISH, Manner, said

_PANEL: Final = re.compile(r"piece\[(\d+)\]\.panel\[(\d+)\]")
_EDGES: Final = ("all", "front", "rear", "left", "right")
FEATURES: Final[Mapping[str, tuple[str, tuple[Asked, ...]]]] = {
    "profile": (
        "A profile",
        (
            Asked("shape", "Shape", "round-over", CHOICE, ("round-over", "chamfer", "cove", "bevel under")),
            Asked("edge", "Edges", "all", CHOICE, _EDGES),
            Asked("figure", "Radius; of a chamfer or bevel its height", "3"),
            Asked("depth", "Depth of a chamfer or bevel", "3"),
        ),
    ),
    "cutout": (
        "A cut-out",
        (
            Asked("name", "Name", "cut-out", TEXT),
            Asked("x", "Middle, from the left", "300"), Asked("y", "Middle, from the front", "300"),
            Asked("long", "Length", "100"), Asked("wide", "Width", "60"), Asked("radius", "Corner radius", "10"),
        ),
    ),
    "grip": (
        "A grip routed into the face",
        (
            Asked("name", "Name", "grip", TEXT),
            Asked("x", "Middle, from the left", "300"), Asked("y", "Middle, from the front", "60"),
            Asked("long", "Length of the hollow", "90"), Asked("depth", "Depth", "8"),
            Asked("diameter", "Cutter", "25"),
        ),
    ),
}  # fmt: skip
"""What can be added to a part, with its few figures."""
_CALLED: Final[Mapping[str, str]] = {"profile": "Profile", "cutout": "Cut-out", "grip": "Grip"}
"""How each is called where it stands on a part."""


def add_feature(
    site: Site, job: KeptJob, version: int, origin: str, form: Mapping[str, str], manner: Manner
) -> KeptJob:
    """The job with a feature more on the panel written at `origin`. form : what, and the figures of `FEATURES`.

    Raises NoSuchPage, Stale, FileError for figures that cannot be.
    """
    what = form.get("what", "")
    if what not in FEATURES:
        raise NoSuchPage(said("There is nothing called {what} to add to a part.", what=repr(what[:40])))
    given, reasons = read_fields(FEATURES[what][1], form, manner)
    if reasons:
        raise FileError(
            [Complaint(Place(key=key), why, form.get(key, "")[:40]) for key, why in reasons.items()]
        )
    view = site.desk.look(job, flat=False)
    return keep_text(site, job, version, _with_feature(view, origin, what, _table_of(what, given)))


def remove_feature(site: Site, job: KeptJob, version: int, path: str) -> KeptJob:
    """The job without that feature, by its key path. Raises NoSuchPage, Stale, FileError."""
    if path not in features_of(site.desk.look(job, flat=False), path.rpartition(".")[0]):
        raise NoSuchPage("That is not there any more.")
    return keep_changes(site, job, version, [Change(path, "", "")])


def features_of(view: View, origin: str, manner: Manner = ENGLISH) -> dict[str, str]:
    """Key path and name of every profile, cut-out and grip that stands in the panel's own table."""
    panel = _written(view.source.data, origin)
    found: dict[str, str] = {}
    for key, title in _CALLED.items():
        written = panel.get(key) if panel is not None else None
        if isinstance(written, Mapping):
            found[f"{origin}.{key}"] = _named(title, written, manner)
        elif isinstance(written, list):
            found |= {f"{origin}.{key}[{at}]": _named(title, one, manner) for at, one in enumerate(written)}
    return found


def _named(title: str, written: Any, manner: Manner) -> str:
    name, shape = (
        (written.get("name", ""), written.get("shape", "")) if isinstance(written, Mapping) else ("", "")
    )
    return f"{manner.translate(title)} {name or manner.translate(shape)}".strip()


def _table_of(what: str, given: Given) -> dict[str, Any]:
    if what == "profile":
        rounded = given["shape"] in ("round-over", "cove")
        table: dict[str, Any] = {"shape": given["shape"]}
        if given["edge"] != "all":
            table["edges"] = [given["edge"]]
        return table | (
            {"radius": given["figure"]} if rounded else {"height": given["figure"], "depth": given["depth"]}
        )
    if what == "cutout":
        table = {
            "name": given["name"],
            "at": [given["x"], given["y"]],
            "size": [given["long"], given["wide"]],
        }
        return table | ({"radius": given["radius"]} if given["radius"] else {})
    if not all(isinstance(given[key], float) for key in ("x", "long")):
        raise FileError(
            [Complaint(Place(key="x"), "plain numbers in mm for place and length", "another unit")]
        )
    half = max(given["long"] - 1.0, 0.0) / 2
    path = [[given["x"] - half, given["y"]], [given["x"] + half, given["y"]]]
    return {"name": given["name"], "depth": given["depth"], "diameter": given["diameter"], "path": path}


def _with_feature(view: View, origin: str, key: str, table: dict[str, Any]) -> str:
    found = _PANEL.fullmatch(origin)
    panel = _written(view.source.data, origin)
    if found is None or panel is None:
        raise NoSuchPage("That part does not stand in the job by itself.")
    if key not in panel and "like" in panel:
        raise NotAsThingsStand(
            said("This part is like {part}: add it there, and both have it.", part=repr(panel["like"]))
        )
    piece, number = int(found[1]), int(found[2])

    def edit(document: Any) -> None:
        add_table(document["piece"][piece]["panel"][number], key, table)

    return edited(view.text, edit)


def _written(data: Any, origin: str) -> Mapping[str, Any] | None:
    found = _PANEL.fullmatch(origin)
    try:
        panel = data["piece"][int(found[1])]["panel"][int(found[2])] if found else None
    except (KeyError, IndexError, TypeError):
        return None
    return panel if isinstance(panel, Mapping) else None
