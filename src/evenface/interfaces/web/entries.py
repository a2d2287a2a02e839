"""The entries of a part as fields of a form, and what was typed into them as changes of the job."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import combinations
from typing import Any, Final

from evenface.construction import BuiltPanel
from evenface.errors import FileError, Unreadable, one_of, told_at_entry, told_of_value
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.listed import list_changes, words_in
from evenface.piece.fields import LONGEST_TEXT
from evenface.piece.like import resolve_likes
from evenface.toml_places import key_path, split_path
from evenface.units import length_text, number_text, read_length
from evenface.words import Manner, said

LENGTH: Final = "length"
WHOLE: Final = "whole"
CHOICE: Final = "choice"
FLAG: Final = "flag"
FIGURE: Final = "figure"
EDGES: Final = "edges"
LIST: Final = "list"
TEXT: Final = "text"
YES_NO: Final = {"yes": "true", "no": "false"}
_FIGURES: Final = (
    ("at[0]", "from the left"), ("at[1]", "from the front"), ("size[0]", "length"), ("size[1]", "width"),
    ("diameter", "diameter"), ("radius", "radius"), ("depth", "depth"), ("along", "along the edge"),
)  # fmt: skip
"""Figures of a cut-out or grip, as they are called at the bench."""
_NEEDED: Final = ("buildup", "shape", "carrier", "glue")
"""Entries that cannot be left out."""


SIDES: Final = ("front", "rear", "left", "right")
ALL_ROUND: Final = "all round"
_EDGED: Final = (*(", ".join(some) for number in range(1, 5) for some in combinations(SIDES, number)), "none")
"""Every choice of edges that get solid wood."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One field. path : its key path in the job. value : as it is shown; empty when the file says nothing.

    usual : what holds when it is empty. choices : for a choice, the words there are.
    shared : the name of the part whose entry it is, where this part is `like` another. needed : it cannot be left out.
    holds : of a list, what it holds. whose : what of several alike it belongs to; stands after the label.
    words : how each choice is said, where not by its own word. unset : what is said of it while nothing is chosen.
    """

    path: str
    label: str
    value: str
    kind: str = LENGTH
    usual: str = ""
    choices: tuple[str, ...] = ()
    shared: str = ""
    needed: bool = False
    holds: "Held | None" = None
    whose: str = ""
    words: tuple[str, ...] = ()
    unset: str = "as usual"

    @property
    def id(self) -> str:
        """A name for the page, free of signs that mean something there."""
        return "".join(sign if sign.isalnum() else "-" for sign in self.path).strip("-")


@dataclass(frozen=True, slots=True)
class Held:
    """What a list holds. kind : of each word. between : what stands between them in the field.

    check : raises ValueError for words that cannot be. bare : one word stands there without a list around it.
    """

    kind: str = TEXT
    between: str = ", "
    check: Callable[[list[str]], object] | None = None
    bare: bool = False


def entries_of(view: View, panel: BuiltPanel, manner: Manner, resolved: Any = None) -> tuple[Entry, ...]:
    """The fields of a part: size, count, build-up, edging, corners, profiles.

    resolved : the job's tables with every `like` filled in, where they are at hand.
    """
    return tuple(_Form(view, panel, manner, resolved or resolve_likes(view.source, [])).entries())


class _Form:
    def __init__(self, view: View, panel: BuiltPanel, manner: Manner, resolved: Any) -> None:
        self.written: Any = view.source.data
        self.resolved = resolved
        self.view, self.panel, self.manner, self.at = view, panel, manner, panel.origin
        self.steps = split_path(self.at)

    def entries(self) -> Iterator[Entry]:
        catalogue = self.view.opened.catalogue
        yield from self.sizes()
        yield self.entry("count", "Count", WHOLE, usual="1")
        buildups = tuple(self.view.sketch.job.buildups)
        yield replace(self.entry("buildup", "Build-up", CHOICE, choices=buildups), words=buildups)
        yield self.entry("use", "Use", CHOICE, "panel", ("top", "shelf", "door", "front", "side", "panel"))
        yield from self.layers()
        yield self.entry("edging.wood", "Edging wood", CHOICE, self.usual("wood"), catalogue.names("wood"))
        yield self.entry("edging.width", "Edging width", usual=self.usual("width_mm"))
        yield self.entry("edging.section", "Section", CHOICE, self.usual("top"), ("under", "flush"))
        yield self.edged()
        orders = ("edging first", "facing first")
        yield self.entry("edging.order", "Order", CHOICE, self.usual("order"), orders)
        yield self.entry("corners.radius", "Corner radius", usual="0")
        built = ("rounded", "clipped", "block", "ring", "strips")
        yield self.entry("corners.construction", "Corner built as", CHOICE, "rounded", built)
        yield from self.profiles()
        yield from self.features()

    def sizes(self) -> Iterator[Entry]:
        at, shared = self.owner("size")
        for number, label in enumerate(("Length", "Width")):
            path = f"{at}.size[{number}]"
            yield Entry(path, label, self.shown(found(self.written, path), LENGTH), LENGTH, shared=shared)

    def edged(self) -> Entry:
        """Which edges get solid wood, as one choice."""
        at, shared = self.owner("edges")
        path = f"{at}.edges"
        written = found(self.written, path)
        here = (
            ", ".join(one for one in SIDES if one in written) or "none" if isinstance(written, list) else ""
        )
        built = {str(edge.side) for edge in self.panel.panel.edges}
        usual = ", ".join(one for one in SIDES if one in built) or "none"
        return Entry(path, "Edged", here, EDGES, ALL_ROUND if usual == _EDGED[-2] else usual, _EDGED, shared)

    def profiles(self) -> Iterator[Entry]:
        if not self.panel.panel.profiles:
            return
        at, shared = self.owner("profile")
        shapes = ("round-over", "chamfer", "bevel under", "cove", "thumbnail", "stepped", "free")
        for number, profile in enumerate(self.panel.panel.profiles):
            name = self.manner.translate("Profile")
            name += f" {number + 1}" if len(self.panel.panel.profiles) > 1 else ""
            rows: list[tuple[str, str, str, tuple[str, ...]]] = [("shape", "shape", CHOICE, shapes)]
            given = (
                ("radius", profile.radius_mm),
                ("height", profile.height_mm),
                ("depth", profile.depth_mm),
            )
            rows += [(key, key, LENGTH, ()) for key, length in given if length is not None]
            for key, word, kind, choices in rows:
                path = f"{at}.profile[{number}].{key}"
                value = found(self.written, path)
                if value is None:  # the only profile may be written without a list
                    value = found(self.written, f"{at}.profile.{key}")
                shown, needed = self.shown(value, kind), key in _NEEDED
                yield Entry(
                    path, f"{name}, {self.manner.translate(word)}", shown, kind, "", choices, shared, needed
                )

    def features(self) -> Iterator[Entry]:
        """Cut-outs and grips that are written, by the figures they have."""
        for key, word in (("cutout", "Cut-out"), ("grip", "Grip")):
            at, shared = self.owner(key)
            written = found(self.written, f"{at}.{key}")
            many = written if isinstance(written, list) else []
            for number, one in enumerate(many):
                name = str(one.get("name", number + 1)) if isinstance(one, dict) else ""
                for figure, label in _FIGURES:
                    path = f"{at}.{key}[{number}].{figure}"
                    value = found(self.written, path)
                    if value is not None:
                        shown = self.shown(value, LENGTH)
                        yield Entry(
                            path,
                            f"{self.manner.translate(word)} {name}, {self.manner.translate(label)}",
                            shown,
                            LENGTH,
                            shared=shared,
                        )

    def layers(self) -> Iterator[Entry]:
        """What the part is built of; it is the build-up's and changes every part built so."""
        catalogue, name = self.view.opened.catalogue, self.panel.panel.buildup
        facings = catalogue.names("facing")
        rows = [
            ("face", "Facing", facings, "nothing"),
            ("back", "Facing below or behind", facings, "nothing"),
            ("carrier", "Carrier", catalogue.names("carrier"), ""),
            ("glue", "Glue", catalogue.names("glue"), ""),
        ]
        for key, label, choices, usual in rows:
            path = key_path(("buildup", name, key))
            value = found(self.resolved, path)
            value = value.get("material") if isinstance(value, dict) else value
            shared, needed = f"{self.manner.translate('build-up')} {name}", key in _NEEDED
            yield Entry(path, label, self.shown(value, CHOICE), CHOICE, usual, choices, shared, needed)

    def entry(
        self, key: str, label: str, kind: str = LENGTH, usual: str = "", choices: tuple[str, ...] = ()
    ) -> Entry:
        path = f"{self.at}.{key}"
        value = found(self.resolved, path)
        return Entry(path, label, self.shown(value, kind), kind, usual, choices, needed=key in _NEEDED)

    def owner(self, key: str) -> tuple[str, str]:
        """The path of the panel that writes a list itself, up the chain of `like`, and its name if another."""
        at, name = self.at, ""
        for _ in range(40):
            table = found(self.written, at)
            if not isinstance(table, dict) or key in table or "like" not in table:
                break
            places = _panel_places(self.written, at, str(table["like"]))
            if not places:
                break
            at, name = places[0], str(table["like"])
        return at, name

    def usual(self, name: str) -> str:
        """What the edges have in fact, each value once."""
        values = dict.fromkeys(getattr(edge, name) for edge in self.panel.panel.edges)
        return ", ".join(self.shown(one if name == "width_mm" else str(one), LENGTH) for one in values)

    def shown(self, value: object, kind: str) -> str:
        return shown_value(value, kind, self.manner)


def shown_value(value: object, kind: str, manner: Manner) -> str:
    """A value of the job file as its field shows it; empty where it is none of one word."""
    if kind == FLAG and isinstance(value, bool):
        return "yes" if value else "no"
    if value is None or isinstance(value, dict | list | bool):
        return ""
    if isinstance(value, datetime):
        return value.isoformat(" ", "minutes")
    if isinstance(value, int | float):
        inch = manner.system == "inch" and kind == LENGTH
        return length_text(value, "inch") if inch else number_text(value, 4)
    return str(value)


type Wishes = dict[str, list[Change]]
"""What was typed as changes of the job, by the key path of its entry."""


def changes_of(
    entries: Sequence[Entry], typed: Mapping[str, str], manner: Manner
) -> tuple[Wishes, dict[str, str]]:
    """What was typed as changes, and by key path the reason where it cannot be one."""
    wishes: Wishes = {}
    reasons: dict[str, str] = {}
    for entry in entries:
        new = typed.get(entry.path, entry.value).strip()
        if new == entry.value:
            continue
        try:
            wishes[entry.path] = _changes(entry, new, manner)
        except ValueError as problem:
            reasons[entry.path] = told_of_value(problem, manner)
    return {path: changes for path, changes in wishes.items() if changes}, reasons


def _changes(entry: Entry, new: str, manner: Manner) -> list[Change]:
    if entry.kind == EDGES:
        return _edge_changes(entry, new)
    if entry.kind == LIST:
        return _list_changes(entry, entry.holds or Held(), new, manner)
    return [Change(entry.path, entry.value, _as_written(entry, new, manner))]


def _list_changes(entry: Entry, held: Held, new: str, manner: Manner) -> list[Change]:
    was, now = words_in(entry.value, held.between), words_in(new, held.between)
    if entry.needed and not now:
        raise ValueError("expected a value: this one cannot be left out")
    one = replace(entry, kind=held.kind, needed=True)
    before = dict(zip(was, was, strict=True))
    written = [before.get(word) or _as_written(one, word, manner) for word in now]
    if held.check is not None and written:
        held.check(written)
    return list_changes(entry.path, was, written, held.bare)


def _as_written(entry: Entry, new: str, manner: Manner) -> str:
    if new == "":
        if entry.needed or entry.path.endswith("]"):
            raise ValueError("expected a value: this one cannot be left out")
        return ""
    if entry.kind in (CHOICE, FLAG):
        return _chosen(entry, new)
    if entry.kind in (TEXT, FIGURE):
        return _one_line(new) if entry.kind == TEXT else _figure(new)
    if entry.kind == WHOLE:
        if not (new.isascii() and new.isdigit() and len(new) < 7):
            raise Unreadable("a whole number", repr(new[:40]))
        return new
    length = read_length(new)
    bare = all(sign.isdigit() or sign in "+-−.,/ " for sign in new)
    if not bare:
        return new
    return f"{new} in" if manner.system == "inch" else number_text(length, 4)


def _edge_changes(entry: Entry, new: str) -> list[Change]:
    """A list of edges in the place of another: what is too much goes, the rest is set word by word."""
    if not new:
        return [Change(entry.path, entry.value, "")]
    chosen = _chosen(entry, new)
    was = [] if entry.value in ("", "none") else entry.value.split(", ")
    now = [] if chosen == "none" else chosen.split(", ")
    if not now and not entry.value:  # a list that is empty has to be begun
        first = f"{entry.path}[0]"
        return [Change(first, "", SIDES[0]), Change(first, SIDES[0], "")]
    gone = [Change(f"{entry.path}[{at}]", was[at], "") for at in reversed(range(len(now), len(was)))]
    return gone + [Change(f"{entry.path}[{at}]", "", one) for at, one in enumerate(now)]


def _chosen(entry: Entry, new: str) -> str:
    if new not in entry.choices:
        raise Unreadable(one_of(entry.choices), repr(new[:40]))
    return YES_NO[new] if entry.kind == FLAG else new


def _one_line(new: str) -> str:
    if len(new) > LONGEST_TEXT or not new.isprintable():
        raise Unreadable(said("a line of at most {most} signs", most=LONGEST_TEXT), repr(new[:40]))
    return new


def _figure(new: str) -> str:
    try:
        number = float(new.replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        raise Unreadable("a number", repr(new[:40])) from None
    if not abs(number) < 1e9:
        raise Unreadable("a plain number", repr(new[:40]))
    return number_text(number, 4)


def reasons_for(entries: Sequence[Entry], error: FileError, manner: Manner) -> dict[str, str]:
    """The complaints of a text by the entry they belong to; the rest under the empty path."""
    told: dict[str, str] = {}
    for complaint in error.complaints:
        key = complaint.place.key
        near = [
            e.path for e in entries if key and (e.path == key or e.path.startswith((f"{key}.", f"{key}[")))
        ]
        mine = key if key in near else near[0] if len(near) == 1 else ""
        short = told_at_entry(complaint, manner)
        told[mine] = f"{told[mine]} {short}" if mine in told else short
    return told


def found(data: Any, path: str) -> Any:
    """What stands at a key path; None where nothing does."""
    for step in split_path(path):
        inside = isinstance(data, dict) and step in data
        if not inside and not (isinstance(data, list) and isinstance(step, int) and step < len(data)):
            return None
        data = data[step]
    return data


def _panel_places(data: Any, at: str, name: str) -> list[str]:
    """Where panels of that name stand, those of the same piece first."""
    found = []
    for number, piece in enumerate(data.get("piece", [])):
        for place, panel in enumerate(piece.get("panel", [])):
            if isinstance(panel, dict) and panel.get("name") == name:
                found.append(f"piece[{number}].panel[{place}]")
    mine = at.rsplit(".", 1)[0] + "."
    return sorted((one for one in found if one != at), key=lambda one: not one.startswith(mine))
