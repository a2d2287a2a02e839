"""The form of a kind of piece, read field by field: what each takes, what holds without it, what it is called."""

from collections.abc import Iterator, Mapping
from dataclasses import MISSING, dataclass, fields, is_dataclass
from types import NoneType, UnionType
from typing import Annotated, Any, Final, Literal, Union, get_args, get_origin, get_type_hints

from evenface.interfaces.web.entries import CHOICE, FIGURE, FLAG, LENGTH, TEXT, WHOLE
from evenface.piece.fields import Size, SizeOrNone, Spot

_LENGTHS: Final = (Size, SizeOrNone, Spot)
_PLAIN: Final[Mapping[Any, str]] = {bool: FLAG, int: WHOLE, float: FIGURE, str: TEXT}
_SHORT: Final = ("kind", "every", "material")
"""Of a table that may be written short, as one word or figure: the key that stands for it."""

NAMES: Final[Mapping[str, str]] = {
    "buildup": "build-up", "sides": "build-up of the sides", "left": "left", "right": "right", "top": "top",
    "bottom": "bottom", "shelves": "shelves", "dividers": "dividers", "top_at": "top meets the sides",
    "bottom_at": "bottom meets the sides", "joint": "joint", "shelf_joint": "joint of the shelves",
    "back": "back", "fronts": "fronts", "drawer": "drawer boxes", "drawers": "build-up of drawer fronts",
    "grip": "grip", "scribe": "strips at the wall", "plinth": "plinth", "legs": "legs",
    "hanging_rail": "hanging rail", "inside": "inside", "run": "pattern runs on in",
    "shelf_setback": "shelves behind the front", "one_sheet": "pair from one sheet", "bay": "bay", "row": "row",
    "what": "what", "height": "height", "width": "width", "count": "count", "name": "name", "growth": "growth",
    "heights": "height of front", "hinge": "hinges", "grain": "grain", "shelf_below": "fixed shelf below",
    "load": "load", "lie": "lie", "gap": "gap", "beside": "wall beside", "stand_off": "air behind the fronts",
    "shy": "shy", "cup": "edge to hinge cup", "how": "how", "depth": "depth", "inset": "inset", "play": "play",
    "cutout": "cut-out", "wood": "wood", "size": "size", "radius": "radius", "when": "let in",
    "cutter": "cutter", "diameter": "diameter", "hollow": "depth of the hollow", "from_edge": "from the edge",
    "up": "from below", "thickness": "thickness", "clearance": "clearance", "above": "air above",
    "below": "air below", "runner": "runner", "length": "length", "groove": "groove", "cut": "cut",
    "bottom_wood": "wood of the bottom", "bottom_thickness": "thickness of the bottom", "setback": "setback",
    "over": "over", "opening": "opening", "every": "every", "kind": "kind", "frame": "frame", "seat": "seat",
    "rail_width": "width of the rails", "ledge": "ledge", "lip": "lip", "arris": "broken edge",
    "room_behind": "room behind", "walls": "walls", "lining": "lining", "fingers": "fingers",
    "divider": "divider", "side_thickness": "thickness of the sides", "facing": "facing", "glue": "glue",
    "direction": "direction", "corner": "corner", "number": "number", "half_pins": "half pins",
    "starts": "lowest finger", "fit": "fit", "way": "way", "clear": "clear width", "held": "held",
    "overhang": "overhang", "apron": "apron", "supports": "supports", "fixing": "fixing", "seats": "seats",
    "front": "front", "rear": "rear", "ends": "ends", "bearers": "bearers", "slot": "slot", "fixed": "fixed",
    "bearer_height": "height of the bearers", "haunch": "haunch", "screwed": "screwed", "arms": "with arms",
    "even": "load over the whole", "edge": "edge", "doors": "door", "ceiling": "ceiling", "edging": "edging",
    "section": "section", "order": "order", "proud": "proud", "broken_edge": "broken edge", "sealed": "sealed",
    "corners": "corners", "chamfer": "chamfer", "construction": "built as", "profile": "profile",
    "shape": "shape", "insert": "insert", "at": "middle", "through": "through", "service": "service",
    "along": "along the edge", "limit": "limit of bow", "gauge": "gauge", "seams": "seam", "edges": "edge",
    "allowances": "allowances", "proud_under": "edging proud, under", "proud_flush": "edging proud, flush",
    "inner_radius": "inner radius", "front_left": "front left", "front_right": "front right",
    "rear_left": "rear left", "rear_right": "rear right", "lining_width": "width of the lining",
    "reserve": "reserve", "hand": "hand", "strip": "strip", "flush": "flush", "floor": "left below",
    "wall": "left beside", "face": "face", "from": "from", "scooped": "scooped", "stop": "stops before the end",
    "pieces": "pieces", "notch": "notch", "fixings": "fixings", "hinges": "hinges", "mm": "limit",
    "wet": "wet", "returned": "edging goes round", "turned": "turned, degrees", "brief": "what it must bear",
    "end": "at the ends", "carrier": "carrier", "path": "path",
}  # fmt: skip
"""What the keys of a piece are called at the bench; of any other the key itself is read out."""
_AXES: Final[Mapping[tuple[str, str], tuple[str, ...]]] = {
    ("carcase", "size"): ("width", "height", "depth"),
    ("carcase", "opening"): ("width", "height", "depth"),
    ("top on a base", "size"): ("width", "height", "depth"),
    ("drawer", "opening"): ("width", "height", "depth"),
    ("framed panel", "size"): ("width", "height"),
    ("lined box", "size"): ("width", "depth", "height"),
    ("lined box", "inside"): ("width", "depth", "height"),
    ("", "size"): ("length", "width"),
    ("", "at"): ("from the left", "from the front"),
}


@dataclass(frozen=True, slots=True)
class Sort:
    """What a field takes: a value of that kind, a table of that form, a list of such; of none, a table of any words.

    kind : of an `Entry`, empty for tables and lists. items : what the entries of a list take, the last for the rest.
    """

    kind: str = ""
    choices: tuple[str, ...] = ()
    form: type[Any] | None = None
    items: tuple["Sort", ...] = ()


@dataclass(frozen=True, slots=True)
class Slot:
    """One field of a form. key : as it is written. usual : its default, None where there is none of one word."""

    key: str
    sort: Sort
    usual: object = None
    needed: bool = False

    def item(self, number: int) -> Sort:
        """What the entry of that number takes, of a list."""
        return self.sort.items[min(number, len(self.sort.items) - 1)]


_READ: Final[dict[type[Any], tuple[Slot, ...]]] = {}
"""Forms read before; there are no more of them than are written in the program."""


def slots_of(form: type[Any]) -> tuple[Slot, ...]:
    """The fields of a form in the order they are written there."""
    if form not in _READ:
        _READ[form] = tuple(_slots(form))
    return _READ[form]


def _slots(form: type[Any]) -> Iterator[Slot]:
    hints = get_type_hints(form, include_extras=True)
    for one in fields(form):
        needed = one.default is MISSING and one.default_factory is MISSING
        default = one.default if one.default is not MISSING else None
        if one.default_factory is not MISSING:
            default = one.default_factory()
        yield Slot(one.name.rstrip("_"), _sort(hints[one.name]), default, needed)


def short_of(form: type[Any]) -> Slot | None:
    """The field that a bare value in the place of the table stands for."""
    return next((slot for slot in slots_of(form) if slot.key in _SHORT), None)


def needed_of(form: type[Any]) -> Slot | None:
    """The one field without which the table cannot be; None where there are several, or none."""
    needed = [slot for slot in slots_of(form) if slot.needed]
    return needed[0] if len(needed) == 1 else None


def axes_of(kind: str, key: str, deep: bool) -> tuple[str, ...]:
    """What the entries of a list of sizes are called. deep : in a table of the piece, not in the piece itself."""
    return _AXES.get(("" if deep else kind, key), ())


def _sort(annotation: Any) -> Sort:
    if annotation in _LENGTHS:
        return Sort(LENGTH)
    origin, given = get_origin(annotation), get_args(annotation)
    sort = Sort("" if origin is dict else _PLAIN.get(annotation, TEXT))
    if origin is Annotated:
        sort = _sort(given[0])
    elif origin in (Union, UnionType):  # of a list or a word, the list
        sort = max((_sort(one) for one in given if one is not NoneType), key=lambda one: len(one.items))
    elif origin is Literal:
        sort = Sort(CHOICE, tuple(str(one) for one in given if one != ""))
    elif origin is tuple:
        sort = Sort(items=tuple(_sort(one) for one in given if one is not ...))
    elif is_dataclass(annotation) and isinstance(annotation, type):
        sort = Sort(form=annotation)
    return sort
