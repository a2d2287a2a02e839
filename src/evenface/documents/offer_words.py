"""What a client has to know of the pieces, in plain words with this job's own numbers.

Nothing here is a promise the maker did not make: limits are those of the job, else the trade's usual ones; what
is reckoned is called reckoned.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from evenface.behaviour import Behaviour, Bend, Direction
from evenface.checks.flat_limits import held_against, limit_for
from evenface.construction import BuiltPanel, Construction, Edging
from evenface.documents.flat_tables import rows_of
from evenface.documents.money_text import MONTHS
from evenface.piece.price_records import PriceTable
from evenface.piece.records import Meeting, Role
from evenface.pricing import Group, Price
from evenface.result import Sketch
from evenface.words import Said, listed, said
from evenface.workplan import Work

USUAL_SIZE_MM: Final = 1.0
"""COMMON PRACTICE: what outside sizes are kept to, where the maker names nothing."""
HELD: Final = ("screwed", "groove")

_BOARDS: Final[Mapping[str, str]] = {
    "plywood": "Plywood is thin sheets of wood glued crosswise: strong, light, and steady in both directions.",
    "mdf": "MDF is wood fibre pressed to an even, heavy board without grain.",
    "particleboard": "Particleboard is wood chips pressed to a board: even, heavy, steady as long as it is kept dry.",
    "blockboard": "Blockboard is strips of wood between crosswise sheets: light and stiff for its thickness.",
}
_FACINGS: Final[Mapping[str, str]] = {
    "hpl": "High-pressure laminate is paper hardened with resin under great pressure: a thin, hard, closed surface "
    "that is wiped clean.",
    "linoleum": "Linoleum is linseed oil, resin and ground cork on paper: matt, warm to the hand, quiet to write on. "
    "It takes on a patina, and dents under sharp feet.",
}


def what_is_what(constructions: Sequence[Construction]) -> tuple[Said, ...]:
    """One sentence or two on each kind of material of the job."""
    panels = [panel for one in constructions for panel in one.panels]
    boards = dict.fromkeys(panel.carrier.material.board for panel in panels)
    faced = any(panel.carrier.material.faced for panel in panels)
    families = dict.fromkeys(face.material.family for panel in panels for face in panel.faces)
    told = [said(_BOARDS[board]) for board in boards if board in _BOARDS]
    if faced:
        told.append(said("The boards of the carcase come with a thin coloured surface from the mill."))
    told += [said(_FACINGS[family]) for family in families if family in _FACINGS]
    if any(len(panel.faces) == 2 for panel in panels) and all(len(panel.faces) != 1 for panel in panels):
        told.append(
            said("Both faces of a panel are covered, for a facing on one alone would pull it crooked.")
        )
    if any(panel.edgings for panel in panels):
        told.append(
            said(
                "The edges are solid wood. It is a grown material: its colour and figure differ from sample to "
                "piece, and light changes it in the first months."
            )
        )
    return tuple(told)


def made_of(panel: BuiltPanel, finish: str) -> tuple[Said, Said, Said]:
    """Board, faces and edges of a panel, each in a few words."""
    face, back = panel.face(Role.FACE), panel.face(Role.BACK)
    if face is not None and back is not None and face.material.name == back.material.name:
        faces = said("{face}, both faces", face=face.material.title)
    elif face is None and back is None:
        faces = said("coloured at the mill") if panel.carrier.material.faced else said("bare")
    else:
        words = (said("bare"), said("bare"))
        faces = said(
            "{face} above, {back} below",
            face=said("{title}", title=face.material.title) if face is not None else words[0],
            back=said("{title}", title=back.material.title) if back is not None else words[1],
        )
    return said("{board}", board=panel.carrier.material.title), faces, _edges(panel, finish)


def _edges(panel: BuiltPanel, finish: str) -> Said:
    if not panel.edgings:
        return said("none")
    groups: dict[tuple[str, float, str], list[str]] = defaultdict(list)
    for edging in panel.edgings:
        groups[edging.wood.title, round(edging.width_mm, 1), _seen(edging, panel)].append(edging.side.value)
    told = [
        said(
            "{wood}, {width:mm}, {seen:word}{sides}",
            wood=wood,
            width=width,
            seen=seen,
            sides=said("") if len(sides) == 4 else said(" ({sides})", sides=_sides(sides)),
        )
        for (wood, width, seen), sides in groups.items()
    ]
    whole = told[0]
    for one in told[1:]:
        whole = said("{first}; {then}", first=whole, then=one)
    return said("{edges}; {finish}", edges=whole, finish=finish[:1].lower() + finish[1:]) if finish else whole


def _sides(sides: Sequence[str]) -> Said:
    return listed(said("{side:word}", side=one) for one in sides)


def _seen(edging: Edging, panel: BuiltPanel) -> str:
    if panel.face(Role.FACE) is None:
        return "level with the board"
    return "seen from above" if edging.meets(Role.FACE) is Meeting.FLUSH else "under the facing"


# --- tolerances ---------------------------------------------------------------------------------------


def tolerances(sketch: Sketch, table: PriceTable) -> tuple[Said, ...]:
    """How near to size and how flat, with what is reckoned through the year."""
    size = table.terms.size_tolerance_mm
    told = [
        said(
            "Outside sizes are kept to ±{size:mm}. Sizes in the drawings are those of the finished piece.",
            size=size if size is not None else USUAL_SIZE_MM,
        ),
        *_flat(sketch),
    ]
    return tuple(told)


def _flat(sketch: Sketch) -> Iterator[Said]:
    rows = rows_of(sketch)
    groups: dict[tuple[float, float], list[tuple[BuiltPanel, Behaviour]]] = defaultdict(list)
    for panel, behaviour in rows:
        limit = limit_for(panel, Direction.BOW)
        groups[limit.mm, limit.gauge_mm].append((panel, behaviour))
    for (mm, gauge), members in groups.items():
        yield said(
            "{parts}: hollow or round by no more than {mm:mm} along a straightedge of {gauge:mm}, in proportion on "
            "a shorter part.",
            parts=_names([panel for panel, _ in members]) if len(groups) > 1 else said("Every panel"),
            mm=mm,
            gauge=gauge,
        )
    doors = [(panel, behaviour) for panel, behaviour in rows if panel.panel.use in ("door", "front")]
    for mm, members_of in _twists(doors).items():
        yield said(
            "{parts}: one corner out of the plane of the other three by no more than {mm:mm}.",
            parts=_names(members_of),
            mm=mm,
        )
    if any(behaviour.held in HELD for _, behaviour in rows):
        yield said(
            "Parts that are screwed on or let into a groove are held flat by what they are fixed to: for them this "
            "counts once they are fixed."
        )
    yield from _reckoned(rows)


def _twists(rows: Sequence[tuple[BuiltPanel, Behaviour]]) -> dict[float, list[BuiltPanel]]:
    found: dict[float, list[BuiltPanel]] = defaultdict(list)
    for panel, _ in rows:
        found[limit_for(panel, Direction.TWIST).mm].append(panel)
    return found


def _reckoned(rows: Sequence[tuple[BuiltPanel, Behaviour]]) -> Iterator[Said]:
    """The free part that comes nearest to its limit, and every one that may pass it."""
    found: list[tuple[BuiltPanel, Bend, float, float]] = []
    for panel, behaviour in rows:
        if behaviour.held not in HELD:
            for direction in (Direction.BOW, Direction.CUP):
                bend = behaviour.bend(direction)
                found.append((panel, bend, *held_against(bend, limit_for(panel, direction))))
    over: dict[tuple[str, str], tuple[BuiltPanel, Bend, float, float]] = {}
    for panel, bend, rise, allowed in found:
        name = (panel.piece, panel.name)
        if rise > allowed and (name not in over or rise / allowed > over[name][2] / over[name][3]):
            over[name] = (panel, bend, rise, allowed)
    for panel, bend, rise, _ in over.values():
        yield said(
            "{part} may go beyond this: up to {rise:mm} in {month:word}, as far as it can be reckoned. We tell you "
            "so that you can choose another build-up before we begin.",
            part=_name(panel),
            rise=rise,
            month=MONTHS[bend.month - 1],
        )
    if found and not over:
        panel, bend, rise, _ = max(found, key=lambda one: one[2] / one[3])
        yield said(
            "Reckoned through the year, {part} comes nearest to this, with up to {rise:mm} in {month:word}.",
            part=_name(panel),
            rise=rise,
            month=MONTHS[bend.month - 1],
        )


def _names(panels: Sequence[BuiltPanel]) -> Said:
    """Parts by piece: "Glaze cupboard: left door, right door"; all of a job of many are not named."""
    pieces: dict[str, list[str]] = defaultdict(list)
    for panel in panels:
        pieces[panel.piece].append(panel.name)
    return listed(
        (
            said("{piece}: {names}", piece=piece, names=listed(dict.fromkeys(names)))
            for piece, names in pieces.items()
        ),
        "; ",
    )


def _name(panel: BuiltPanel) -> Said:
    return said("{part} ({piece})", part=panel.name, piece=panel.piece)


# --- what is left out ---------------------------------------------------------------------------------


def brought(table: PriceTable, price: Price) -> bool:
    """Whether the price covers bringing the pieces: their transport, or the hours of it."""
    return table.delivery is not None or _hours_of(price, Work.DELIVER)


def set_up(price: Price) -> bool:
    """Whether the price covers hours where the pieces will stand."""
    return _hours_of(price, Work.FIT_ON_SITE)


def _hours_of(price: Price, work: Work) -> bool:
    return any(line.work is work and line.group is Group.LABOUR and line.quantity > 0 for line in price.lines)


def not_included(sketch: Sketch, table: PriceTable, price: Price) -> tuple[Said, ...]:
    """What the price does not cover: the maker's own list, and what the job itself shows.

    What stands as hours in the price is never said to be left out.
    """
    own = [said("{what}", what=one) for one in table.terms.not_included]
    told = own or [said("Taking away old furniture and its disposal.")]
    if not own and not set_up(price):
        told.insert(0, said("Fixing to walls and floors, and scribing to walls that are not straight."))
    if not brought(table, price):
        told.append(said("Delivery and carrying in: it is fetched at the workshop."))
    services = dict.fromkeys(
        cutout.service
        for one in sketch.constructions
        for panel in one.panels
        for cutout in panel.panel.cutouts
        if cutout.service != "none"
    )
    return (*told, *(said(_SERVICES[service]) for service in services if service in _SERVICES))


_SERVICES: Final[Mapping[str, str]] = {
    "water": "Basin, tap, waste and their connection: this is work for a licensed plumber.",
    "gas": "Gas hob and its connection: this is work for a licensed fitter.",
    "electricity": "Electrical parts and their connection: this is work for a licensed electrician.",
}
