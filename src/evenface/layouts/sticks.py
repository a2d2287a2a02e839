"""Wood in sticks: edgings, corner pieces, inserts and linings gathered by wood and section.

A stick is planed to one section over its whole length and then cut up. A section a little smaller than
another is planed from the larger one, so that fewer settings of the planer and fewer odd rests are left.
Pieces too short to be machined by themselves are held together in bundles, cut apart last.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil
from typing import Final

from evenface.layouts.board_demand import SNIPE_MM, Wanted, board_demand, is_rough
from evenface.layouts.records import Blank, Demand, Inside, Saw, Section
from evenface.layouts.stock_records import StockSize
from evenface.materials.rules import rule
from evenface.parts import LayerSizes, Part
from evenface.piece.records import Job, Panel, Role, StockItem
from evenface.units import grid_down, grid_up

STICK_ROLES: Final = (Role.EDGING, Role.CORNER, Role.INSERT, Role.LINING, Role.BOARD)
STEP: Final = 50
"""Sections are rounded up to half a millimetre."""
SERVES_WITHIN: Final = 200
"""COMMON PRACTICE: up to 2 mm more, and a fifth, are planed off rather than set up anew."""
USUAL_LENGTHS_MM: Final = (2500.0, 3000.0, 3500.0, 4000.0, 4500.0, 5000.0, 5500.0)
"""COMMON PRACTICE: lengths of sawn boards, where the stock list names none. The shortest that does is taken."""
SAFE_LENGTH: Final = rule("blank-safe-length")


def stick_demands(job: Job, parts: Sequence[Part]) -> tuple[Demand, ...]:
    """One demand for each wood and section, largest section first; pieces already cut are left out.

    Sticks have the lengths of the job's stock list under the name of the wood (form "stick" or "board");
    where it names none, of a usual sawn length. Boards described by thickness or faults make one demand a wood.
    """
    by_wood: dict[str, list[Wanted]] = defaultdict(list)
    for part in parts:
        for number, layer in enumerate(part.layers):
            if layer.role in STICK_ROLES and not layer.locked and layer.blank_mm[0] > 0:
                by_wood[layer.material] += _wanted(part, number, layer)
    panels = [one for piece in job.pieces for one in _panels(piece.description)]
    named = {panel.origin: panel.same_sheet for panel in panels if panel.same_sheet}
    sets = {part.id: named[part.origin] for part in parts if part.origin in named}
    demands: list[Demand] = []
    for wood, wanted in by_wood.items():
        rough = [item for item in job.stock if item.material == wood and is_rough(item)]
        demands += [board_demand(job, wood, wanted, rough, sets)] if rough else _of_wood(job, wood, wanted)
    return tuple(demands)


def _panels(description: object) -> list[Panel]:
    """The panels of a piece that is written out panel by panel."""
    written = description if isinstance(description, tuple) else ()
    return [one for one in written if isinstance(one, Panel)]


def _wanted(part: Part, number: int, layer: LayerSizes) -> list[Wanted]:
    what = layer.name or layer.role.value
    side = f" {layer.side.value}" if layer.side is not None else ""
    length, width, height = (grid_up(size) for size in layer.blank_mm)
    one = Wanted(
        f"{part.id} {what}{side} {number}",
        part.id,
        layer.role.value,
        length,
        _stepped(width),
        _stepped(height),
    )
    return [one] * (part.count * layer.count)


def _stepped(size: int) -> int:
    return max(1, ceil(size / STEP)) * STEP


def _of_wood(job: Job, wood: str, wanted: Sequence[Wanted]) -> Iterator[Demand]:
    kerf = grid_up(job.saw.kerf_mm)
    own = [item for item in job.stock if item.material == wood and item.length_mm is not None]
    taken: set[str] = set()
    for section, pieces in sections(wood, wanted):
        blanks = bundled(pieces, grid_up(SAFE_LENGTH.nominal), kerf)
        stock = _own_stock(section, own, taken)
        if all(item.codes for item in own):  # what is not in the rack is bought
            stock = (*stock, _usual(section, max(blank.length for blank in blanks)))
        elif not stock:
            stock = (_usual(section, max(blank.length for blank in blanks)),)
        yield Demand(
            section.title,
            tuple(replace(blank, thickness=section.height) for blank in blanks),
            stock,
            Saw(kerf=kerf, first_cut="across", least_offcut=(1, 30_000)),
            section,
            aims=job.cutting.aims,
        )


def sections(wood: str, wanted: Sequence[Wanted]) -> Iterator[tuple[Section, list[Wanted]]]:
    """Pieces by the section they are planed to; a smaller section goes with the larger one that serves it."""
    groups: dict[tuple[int, int], list[Wanted]] = {}
    for width, height in sorted(
        {(w.width, w.height) for w in wanted}, key=lambda size: (-size[0] * size[1], size)
    ):
        home = next((size for size in groups if _serves(size, (width, height))), (width, height))
        groups.setdefault(home, []).extend(w for w in wanted if (w.width, w.height) == (width, height))
    for (width, height), pieces in groups.items():
        yield Section(wood, width, height), pieces


def _serves(larger: tuple[int, int], smaller: tuple[int, int]) -> bool:
    return all(
        0 <= big - small <= min(SERVES_WITHIN, small // 5) for big, small in zip(larger, smaller, strict=True)
    )


def bundled(pieces: Sequence[Wanted], safe: int, kerf: int) -> tuple[Blank, ...]:
    """Blanks of the pieces; those shorter than `safe` held together in bundles at least that long."""
    long = Counter(piece for piece in pieces if piece.length >= safe)
    short = sorted((piece for piece in pieces if piece.length < safe), key=lambda p: (-p.length, p.id))
    blanks = [
        Blank(piece.id, piece.part, piece.layer, piece.length, _thick(piece), count)
        for piece, count in long.items()
    ]
    bundles = Counter(tuple(bundle) for bundle in _bundles(short, safe, kerf))
    for number, (bundle, count) in enumerate(bundles.items(), start=1):
        blanks.append(_bundle_blank(number, bundle, count, safe, kerf))
    return tuple(blanks)


def _thick(piece: Wanted) -> int:
    return max(1, piece.width)


def _bundles(short: Sequence[Wanted], safe: int, kerf: int) -> Iterator[list[Wanted]]:
    """One after another until the bundle is long enough; the last may have to be made longer."""
    held: list[Wanted] = []
    for piece in short:
        held.append(piece)
        if _run(held, kerf) >= safe:
            yield held
            held = []
    if held:
        yield held


def _run(held: Sequence[Wanted], kerf: int) -> int:
    return sum(piece.length for piece in held) + kerf * (len(held) - 1)


def _bundle_blank(number: int, bundle: Sequence[Wanted], count: int, safe: int, kerf: int) -> Blank:
    inside, at = [], 0
    for piece in bundle:
        inside.append(Inside(piece.part, piece.layer, at, piece.length))
        at += piece.length + kerf
    parts = ", ".join(dict.fromkeys(piece.part for piece in bundle))
    return Blank(
        id=f"bundle {number}",
        part=parts,
        layer=bundle[0].layer,
        length=max(safe, _run(bundle, kerf)),
        width=_thick(bundle[0]),
        count=count,
        inside=tuple(inside),
    )


def _own_stock(section: Section, own: Sequence[StockItem], taken: set[str]) -> tuple[StockSize, ...]:
    """What the stock list has for this section; so many of a kind are kept for the first that needs them."""
    found: list[StockSize] = []
    for item in own:
        stick = item.form == "stick"
        if grid_down(item.width_mm) < section.width or item.origin in taken:
            continue
        thick = grid_down(item.board.thickness_mm or 0.0)
        if stick and 0 < thick < section.height:
            continue
        limited = item.copies is not None and stick
        if limited:
            taken.add(item.origin)
        found.append(
            StockSize(
                id=item.stock_id(section.title, len(found) + 1),
                material=section.title,
                form="stick",
                length=grid_down(item.length_mm or 0.0),
                copies=item.copies if limited else None,
                price=item.price if stick else None,
                trim=grid_up(SNIPE_MM),
                thickness=thick if stick else 0,
                offcut=bool(item.codes),
            )
        )
    return tuple(found)


def _usual(section: Section, longest: int) -> StockSize:
    need = longest + 2 * grid_up(SNIPE_MM)
    lengths = [grid_down(length) for length in USUAL_LENGTHS_MM]
    length = next((length for length in lengths if length >= need), lengths[-1])
    return StockSize(f"{section.title} #1", section.title, "stick", length, trim=grid_up(SNIPE_MM))
