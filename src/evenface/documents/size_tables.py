"""The size ladder of a part as tables: sheets, strips of edging, and the reason of every step."""

from collections.abc import Mapping, Sequence
from typing import Final

from evenface.documents.display import DASH, FIT_MM, degrees, length, sentence, size
from evenface.documents.tables import Table, table
from evenface.parts import LayerSizes, Part, Size
from evenface.piece.records import Role
from evenface.words import ENGLISH, Manner, figure, say

SHEETS_NOTE: Final = (
    "Net: in the finished piece. Cut: what the saw is set to. Blank: what is glued on and trimmed. Keep to: how far "
    "off it may come out."
)
EDGING_NOTE: Final = (
    "Rough: length × width × height of the stick before planing. Angles: between the cut and the strip."
)
BOARDS_NOTE: Final = (
    "Planed: width and thickness finished, both ends still long. Laid on: a sheet glued to the board before it is cut "
    "to length. Rough: length × width × thickness before planing. Drawings show the board lying with its show face up, "
    "a lined one with its lining up and its lower edge towards you."
)

WOODEN: Final = (Role.EDGING, Role.CORNER, Role.INSERT, Role.LINING, Role.BOARD)
"""Layers that are planed from solid wood rather than cut from a sheet."""


def layer_word(layer: LayerSizes, manner: Manner = ENGLISH) -> str:
    """ "carrier", "face", "edging front": how a layer is called on paper."""
    word = manner.translate(layer.role.value)
    for more in (manner.translate(layer.side.value) if layer.side else "", manner.name(layer.name)):
        word += f" {more}" if more else ""
    return word


def sheet_ladder(part: Part, titles: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """Carrier, face and back, in the order they lie: net, cut and blank, in mm."""
    rows = [
        (
            layer_word(layer, manner),
            titles.get(layer.material, layer.material),
            str(part.count * layer.count),
            length(layer.net_mm[2], FIT_MM, manner),
            f"{length(layer.net_mm[0], FIT_MM, manner)} × {length(layer.net_mm[1], FIT_MM, manner)}",
            _shown(layer.cut_mm, manner),
            _shown(layer.blank_mm, manner),
            _kept_to(layer, manner),
        )
        for layer in reversed(part.layers)
        if layer.role not in WOODEN
    ]
    headings = ("Layer, top first", "Material", ">Pieces", ">Thick", ">Net", ">Cut", ">Blank", ">Keep to")
    return table("Sheets", headings, rows, manner.translate(SHEETS_NOTE), manner)


def edging_ladder(part: Part, titles: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """Edging and other pieces of wood: outside and inside length, section, height as glued on, ends, rough stick."""
    rows = [
        (
            layer_word(layer, manner).removeprefix(manner.translate("edging") + " "),
            titles.get(layer.material, layer.material),
            str(part.count * layer.count),
            length(layer.net_mm[0], FIT_MM, manner),
            DASH if layer.inner_mm is None else length(layer.inner_mm, FIT_MM, manner),
            length(layer.net_mm[1], FIT_MM, manner),
            length(layer.net_mm[2], FIT_MM, manner),
            size(layer.blank_mm, FIT_MM, manner) + _remark(layer, manner),
            _ends(layer, manner),
            DASH if layer.bought_mm is None else size(layer.bought_mm, manner=manner),
        )
        for layer in part.layers
        if layer.role in WOODEN
    ]
    headings = (
        "Edge",
        "Wood",
        ">Pieces",
        ">Outside",
        ">Inside",
        ">Width",
        ">Height",
        ">As glued on",
        ">Angles",
        ">Rough",
    )
    return table("Edging", headings, rows, manner.translate(EDGING_NOTE), manner)


def boards_table(parts: Sequence[Part], titles: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """Boards of solid wood and what is glued to them: finished, as cut or laid on, and rough."""
    rows = [
        (
            part.id,
            f"{part.piece}: {manner.name(part.name)}"
            + (f", {manner.name(layer.name)}" if layer.role not in WOODEN else ""),
            titles.get(layer.material, layer.material),
            str(part.count * layer.count),
            size(layer.net_mm, FIT_MM, manner),
            size(layer.blank_mm, FIT_MM, manner),
            DASH if layer.bought_mm is None else size(layer.bought_mm, manner=manner),
        )
        for part in parts
        for layer in part.layers
    ]
    headings = (">No.", "Board", "Of", ">Pieces", ">Finished", ">Planed, or laid on", ">Rough")
    return table("Boards", headings, rows, manner.translate(BOARDS_NOTE), manner)


def reasons(part: Part, manner: Manner = ENGLISH) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """For each layer its name and the sentences that lead from finished to blank."""
    told = []
    for layer in part.layers:
        sentences = [sentence(reason, manner) for reason in layer.reasons]
        if layer.depends_on and not layer.locked:
            first = "; ".join(say(what, manner) for what in layer.depends_on)
            sentences.append(f"{manner.translate('Measure first')}: {first}.")
        if sentences:
            told.append((layer_word(layer, manner), tuple(sentences)))
    return tuple(told)


def gathered_reasons(part: Part, manner: Manner = ENGLISH) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The same for paper: layers of which the same is said told together, and what is true of every edging once."""
    told = dict(reasons(part, manner))
    edgings = {layer_word(one, manner): one for one in part.layers if one.role is Role.EDGING and one.side}
    of_all = [told[word] for word in edgings if word in told]
    shared = (
        tuple(one for one in of_all[0] if all(one in other for other in of_all)) if len(of_all) > 1 else ()
    )
    groups: dict[tuple[str, ...], list[str]] = {}
    for word, sentences in told.items():
        own = tuple(one for one in sentences if one not in shared) if word in edgings else sentences
        if own:
            groups.setdefault(own, []).append(word)
    gathered = [(", ".join(words), own) for own, words in groups.items()]
    if shared:
        sides = ", ".join(manner.translate(one.side.value) for one in edgings.values() if one.side)
        last = max(
            (n for n, (words, _) in enumerate(gathered) if words.split(", ")[0] in edgings), default=-1
        )
        at = last + 1 if last >= 0 else len(gathered)
        gathered.insert(at, (f"{manner.translate(Role.EDGING.value)} {sides}", shared))
    return tuple(gathered)


def parts_table(parts: Sequence[Part], manner: Manner = ENGLISH) -> Table:
    """Every part of the job with its finished size, count and mass."""
    rows = [
        (
            part.id,
            part.piece,
            part.name,
            str(part.count),
            size(part.finished_mm, FIT_MM, manner),
            figure(part.mass_kg, 1, manner),
        )
        for part in parts
    ]
    headings = ("No.", "Piece", "Part", ">Count", ">Finished", ">kg each")
    return table("Parts", headings, rows, manner=manner)


def _shown(size_mm: Size, manner: Manner) -> str:
    """As the fence of the layouts and the cards say it."""
    return f"{length(size_mm[0], FIT_MM, manner)} × {length(size_mm[1], FIT_MM, manner)}"


def _remark(layer: LayerSizes, manner: Manner) -> str:
    return f" ({manner.translate('already cut')})" if layer.locked else ""


def _kept_to(layer: LayerSizes, manner: Manner) -> str:
    if layer.locked:
        return manner.translate("already cut")
    within = f"± {figure(layer.tolerance_mm, 1, manner)}" + (" mm" if manner.system == "inch" else "")
    return f"{manner.translate('scribe')}, {within}" if layer.fitted else within


def _ends(layer: LayerSizes, manner: Manner) -> str:
    if layer.angles_deg == (90.0, 90.0):
        return manner.translate("square")
    return " / ".join(degrees(angle, manner) for angle in layer.angles_deg)
