"""The sheet of each panel in the packet: drawings, sizes and reasons; panels of a piece that are alike share one."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from html import escape

from evenface.documents.display import FIT_MM, called, size
from evenface.documents.pictures import HIGHEST_MM, WIDEST_MM, Picture, Pictures
from evenface.documents.setting import plain, table_data
from evenface.documents.size_tables import edging_ladder, gathered_reasons, sheet_ladder
from evenface.drawings.scene import MARGIN_MM, SMALL_MM, text_width_mm
from evenface.parts import Part
from evenface.words import Manner, figure, said, say

_ROOT = re.compile(r"<svg [^>]*>")
_CAPTION = re.compile(rf'font-size="{SMALL_MM}" text-anchor="start"[^>]*>([^<]*)')
_FIGURE = re.compile(r"-?[0-9]+\.[0-9]+")
BUILD_UP = "-build-up"
"""How the name of that drawing ends; it is drawn for the first panel of each build-up only."""
SECTION = "-section-"
"""What stands in the name of a section through an edge, which shows the layers too."""


def panel_pages(
    parts: Sequence[Part],
    titles: Mapping[str, str],
    pictures: Pictures,
    manner: Manner,
    stands: Mapping[str, str] | None = None,
) -> Iterator[dict[str, object]]:
    """One sheet for each panel, in their order; one for all of a piece that have the same sizes for the same reasons.

    Where their drawings differ, as those of a left and a right door do, each is there once with the names it is for.
    stands : how a part stands in its piece, in words, by its id.
    """
    made = {part.id: _panel(part, titles, manner) for part in parts}
    alike: dict[str, list[Part]] = {}
    for part in parts:
        alike.setdefault(_all_but_name(part, made[part.id], pictures, manner), []).append(part)
    for together in alike.values():
        first, *others = together
        page = made[first.id]
        page["pictures"] = [picture_data(one) for one in _drawn(together, pictures, manner)]
        page["stands"] = _standing(together, stands or {})
        if others:
            of_each = say(said("{count:count} of each", count=first.count), manner)
            page["ids"] = [part.id for part in together]
            page["heading"] = plain(f"{first.piece}: {called((part.name for part in together), manner)}")
            page["facts"] = [
                [manner.translate("number"), ", ".join(part.id for part in together)],
                [manner.translate("count"), of_each],
                *_facts(first, manner)[2:],
            ]
        yield page


def _drawn(together: Sequence[Part], pictures: Pictures, manner: Manner) -> Iterator[Picture]:
    """The plans of these panels, each once, edges and grips of the first, its build-up where no edge shows it."""
    plans: dict[str, tuple[Picture, list[str]]] = {}
    rest: dict[str, Picture] = {}
    for part in together:
        drawn = pictures.panels.get(part.id, ())
        apart = any(SECTION in one.name for one in drawn)
        for number, one in enumerate(drawn):
            if apart and one.name.endswith(BUILD_UP):
                continue
            shown = one.svg.replace(escape(manner.name(part.name)), "")
            if number == 0:
                same = _FIGURE.sub(_nearly, _ROOT.sub("", shown))
                plans.setdefault(same, (one, []))[1].append(manner.name(part.name))
            else:
                rest.setdefault(one.name.rsplit("-", 1)[-1] if one.name.endswith(BUILD_UP) else shown, one)
    for one, names in plans.values():
        yield _called(one, names)
    yield from rest.values()


def _called(plan: Picture, names: Sequence[str]) -> Picture:
    """The same drawing with all the names it is for, as wide as its title needs."""
    svg = plan.svg.replace(f"{escape(names[0])}:", f"{escape(', '.join(names))}:")
    longest = max((len(text) for text in _CAPTION.findall(svg)), default=0)
    wide = max(plan.width_mm, text_width_mm("x" * longest, SMALL_MM) + 2 * MARGIN_MM)
    if wide > WIDEST_MM:  # the heading of the sheet has them all
        return plan
    root = re.sub(
        r'(width="|viewBox="0 0 )[0-9.]+', lambda found: f"{found[1]}{wide:.4f}", _ROOT.findall(svg)[0]
    )
    return replace(plan, svg=_ROOT.sub(lambda _: root, svg, count=1), width_mm=wide)


def _nearly(found: re.Match[str]) -> str:
    """A coordinate without what the order of a sum leaves in its last figures."""
    return f"{float(found[0]):.2f}"


def _standing(together: Sequence[Part], stands: Mapping[str, str]) -> list[str]:
    """How they stand, those that stand alike together."""
    told: dict[str, list[str]] = {}
    for part in together:
        if part.id in stands:
            told.setdefault(stands[part.id], []).append(part.id)
    return [plain(f"{', '.join(ids)}: {how}" if len(together) > 1 else how) for how, ids in told.items()]


def build_ups(parts: Sequence[Part], pictures: Pictures) -> Iterator[Picture]:
    """Build-ups of panels whose edges show their layers already: those stand together, behind the sheets."""
    for part in parts:
        drawn = pictures.panels.get(part.id, ())
        if any(SECTION in one.name for one in drawn):
            yield from (one for one in drawn if one.name.endswith(BUILD_UP))


def picture_data(picture: Picture) -> dict[str, object]:
    """A picture too large for the page is made to fit, and then says that its scale is not true."""
    shrink = min(1.0, WIDEST_MM / picture.width_mm, 2 * HIGHEST_MM / picture.height_mm)
    return {
        "title": plain(picture.title),
        "scale": "not to scale",
        "shrunk": shrink < 1.0,
        "svg": picture.svg,
        "width": picture.width_mm * shrink,
        "height": picture.height_mm * shrink,
    }


def _panel(part: Part, titles: Mapping[str, str], manner: Manner) -> dict[str, object]:
    return {
        "heading": plain(f"{part.piece}: {manner.name(part.name)}"),
        "ids": [part.id],
        "facts": _facts(part, manner),
        "sheets": table_data(sheet_ladder(part, titles, manner)),
        "edging": table_data(edging_ladder(part, titles, manner)),
        "reasons": [
            [plain(layer).capitalize(), [plain(sentence) for sentence in sentences]]
            for layer, sentences in gathered_reasons(part, manner)
        ],
    }


def _facts(part: Part, manner: Manner) -> list[list[str]]:
    word = manner.translate
    return [
        [word("number"), part.id],
        [word("count"), str(part.count)],
        [word("finished"), f"{size(part.finished_mm, FIT_MM, manner)} {word(manner.system)}"],
        [word("mass of one"), f"{figure(part.mass_kg, 1, manner)} kg"],
    ]


def _all_but_name(part: Part, page: Mapping[str, object], pictures: Pictures, manner: Manner) -> str:
    """What panels on one sheet share: all that is told of them, and every drawing but their plans."""
    drawn = [
        one.svg.replace(escape(manner.name(part.name)), "")
        for one in pictures.panels.get(part.id, ())[1:]
        if not one.name.endswith(BUILD_UP)
    ]
    told = (page["sheets"], page["edging"], page["reasons"], part.count, part.mass_kg, part.finished_mm)
    return repr((part.id.split(".")[0], told, drawn))
