"""What a new piece may be: for each sort its few figures, and the piece they make as a job file says it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from evenface.interfaces.web.written import table_text

LENGTH, WHOLE, CHOICE, TEXT = "length", "whole", "choice", "text"

BACK: Final = "back"
"""The build-up of thin board for backs and the bottoms of drawers."""

type Given = Mapping[str, Any]
"""Figures by their key: lengths as numbers or texts with a unit, whole numbers, words."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One figure of a form. usual : what stands in it at first. choices : the words there are, of a choice."""

    key: str
    label: str
    usual: str = ""
    kind: str = LENGTH
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pattern:
    """A sort of piece. kind : of the job file. write : from the figures and the name of a build-up to TOML.

    edging : whether its build-up gets solid wood round it. thin : whether it needs a thin board besides, `BACK`.
    """

    name: str
    title: str
    about: str
    fields: tuple[Asked, ...]
    write: Callable[[Given, str], str]
    kind: str = "panels"
    edging: bool = True
    thin: bool = False


def _panel(use: str, **more: Any) -> Callable[[Given, str], str]:
    def write(given: Given, buildup: str) -> str:
        size = [given["length"], given["width"]]
        entries: dict[str, Any] = {
            "name": given.get("part", use),
            "use": use,
            "buildup": buildup,
            "size": size,
        } | more
        if given.get("count", 1) != 1:
            entries["count"] = given["count"]
        if given.get("radius"):
            entries["corners"] = {"radius": given["radius"]}
        if given.get("round"):
            entries["profile"] = [{"shape": "round-over", "radius": given["round"]}]
        piece = table_text("piece", {"name": given["name"]})
        return f"{piece}\n{table_text('piece.panel', entries, indent='  ')}"

    return write


def _cupboard(given: Given, buildup: str) -> str:
    size = [given["length"], given["height"], given["depth"]]
    text = table_text("piece", {"kind": "carcase", "name": given["name"], "size": size, "sides": buildup})
    text += "\n" + table_text("piece.back", {"buildup": BACK}, many=False, indent="  ")
    if given["front"] != "open":
        text += "\n" + table_text("piece.fronts", {"buildup": buildup, "lie": "overlay"}, False, "  ")
    if given["front"] == "drawers":
        boxes = {"wood": "birch", "bottom": BACK, "groove": 5}
        text += "\n" + table_text("piece.drawer", boxes, False, "  ")
    row: dict[str, Any] = {"what": given["front"]}
    if given["front"] == "drawers":
        row["count"] = max(1, given["shelves"])
    elif given["shelves"]:
        row["shelves"] = given["shelves"]
    text += "\n" + table_text("piece.bay", {"count": given["bays"]}, indent="  ")
    return text + table_text("piece.bay.row", row, indent="    ")


def _drawer(given: Given, buildup: str) -> str:
    opening = [given["length"], given["height"], given["depth"]]
    piece = {"kind": "drawer", "name": given["name"], "count": given["count"], "opening": opening}
    text = table_text("piece", piece)
    if given["front"] != "no front":
        text += "\n" + table_text("piece.front", {"buildup": buildup, "lie": given["front"]}, False, "  ")
    box = {"wood": given["wood"], "thickness": given["thickness"], "bottom": BACK}
    return text + "\n" + table_text("piece.drawer", box, False, "  ")


def _framed(given: Given, buildup: str) -> str:
    frame = {"wood": given["wood"], "width": given["frame"], "thickness": given["thickness"]}
    size = [given["length"], given["width"]]
    return table_text(
        "piece",
        {"kind": "framed panel", "name": given["name"], "size": size, "buildup": buildup, "frame": frame},
    )


def _box(given: Given, buildup: str) -> str:
    size = [given["length"], given["width"], given["height"]]
    text = table_text(
        "piece", {"kind": "lined box", "name": given["name"], "count": given["count"], "size": size}
    )
    walls = {"wood": given["wood"], "thickness": given["thickness"]}
    text += "\n" + table_text("piece.walls", walls, False, "  ")
    lining = {"facing": given["lining"], "glue": "pva-d3"}
    text += "\n" + table_text("piece.lining", lining, False, "  ")
    text += "\n" + table_text("piece.fingers", {"number": 5}, False, "  ")
    return text + "\n" + table_text("piece.bottom", {"buildup": buildup, "groove": 5}, False, "  ")


def _table(given: Given, buildup: str) -> str:
    size = [given["length"], given["height"], given["depth"]]
    top = {"kind": "top on a base", "name": given["name"], "size": size, "buildup": buildup}
    if given.get("radius"):
        top["corners"] = {"radius": given["radius"]}
    text = table_text("piece", top)
    text += "\n" + table_text("piece.legs", {"wood": given["wood"], "size": given["leg"]}, False, "  ")
    apron = {"wood": given["wood"], "thickness": 24, "height": given["apron"]}
    return text + "\n" + table_text("piece.apron", apron, False, "  ")


_SIZE: Final = (Asked("length", "Length", "1200"), Asked("width", "Width", "600"))
_COUNT: Final = Asked("count", "How many", "1", WHOLE)
_WOODS: Final = ("ash", "oak", "beech", "birch", "maple", "walnut", "cherry", "pine")
_WOOD: Final = Asked("wood", "Wood", "ash", CHOICE, _WOODS)

PATTERNS: Final = {
    one.name: one
    for one in (
        Pattern(
            "top", "A top", "Table, bench or desk top, without what it lies on.",
            (*_SIZE, Asked("radius", "Corner radius", "0"), Asked("round", "Round-over of the edge", "0"), _COUNT),
            _panel("top"),
        ),
        Pattern(
            "shelf", "A shelf", "Edged in front, bare on the other sides.",
            (Asked("length", "Length", "800"), Asked("width", "Depth", "250"), _COUNT),
            _panel("shelf", edges=["front"]),
        ),
        Pattern(
            "panel", "A panel", "Any flat part, edged all round.",
            (*_SIZE, Asked("radius", "Corner radius", "0"), _COUNT), _panel("panel"),
        ),
        Pattern(
            "door", "A door or front", "Edged all round, one face to the room.",
            (Asked("length", "Height", "720"), Asked("width", "Width", "450"), _COUNT), _panel("door"),
        ),
        Pattern(
            "cupboard", "A cupboard", "Sides, top, bottom, back, with doors, drawers or open.",
            (
                Asked("length", "Width", "900"), Asked("height", "Height", "720"), Asked("depth", "Depth", "340"),
                Asked("bays", "Bays side by side", "1", WHOLE),
                Asked("front", "In front", "doors", CHOICE, ("doors", "door", "drawers", "open")),
                Asked("shelves", "Shelves, or drawers, a bay", "2", WHOLE),
            ),
            _cupboard, "carcase", thin=True,
        ),
        Pattern(
            "drawer", "A drawer", "A box of solid wood for an opening that is there already.",
            (
                Asked("length", "Opening, width", "480"), Asked("height", "Opening, height", "120"),
                Asked("depth", "Opening, depth", "520"),
                Asked("front", "Its front", "inset", CHOICE, ("inset", "overlay", "no front")),
                _WOOD, Asked("thickness", "Sides of the box, thickness", "13"), _COUNT,
            ),
            _drawer, "drawer", thin=True,
        ),
        Pattern(
            "framed", "A panel in a frame", "Lies loose in a frame of solid wood.",
            (
                Asked("length", "Width over the frame", "1200"), Asked("width", "Height over the frame", "800"),
                _WOOD, Asked("frame", "Frame, width", "50"), Asked("thickness", "Frame, thickness", "28"),
            ),
            _framed, "framed panel", edging=False,
        ),
        Pattern(
            "box", "A lined box", "Finger-jointed walls of solid wood, lined inside.",
            (
                Asked("length", "Width outside", "420"), Asked("width", "Depth outside", "300"),
                Asked("height", "Height outside", "84"), _WOOD, Asked("thickness", "Walls, thickness", "12"),
                Asked("lining", "Lining", "linoleum-2", CHOICE, ("linoleum-2", "hpl-0.8", "hpl-vertical-0.7")), _COUNT,
            ),
            _box, "lined box", edging=False,
        ),
        Pattern(
            "table", "A table or desk", "A top on legs and aprons of solid wood.",
            (
                Asked("length", "Width", "1640"), Asked("depth", "Depth", "720"), Asked("height", "Height", "745"),
                Asked("radius", "Corner radius of the top", "10"), _WOOD, Asked("leg", "Legs, thickness", "55"),
                Asked("apron", "Apron, height", "80"),
            ),
            _table, "top on a base",
        ),
    )
}  # fmt: skip
"""Every pattern by its name; those of a kind that is not there are not offered."""
