"""Wood let into a panel: does it fit into the board, keep clear of the rest, and lie still under the facing?"""

from collections.abc import Iterator
from itertools import combinations
from math import radians

from evenface.checks.question import Asked
from evenface.checks.wood_moves import movement_across
from evenface.construction import BuiltInsert, BuiltPanel
from evenface.construction.notches import notches_of
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Role
from evenface.shape.outline import Outline
from evenface.shape.reserve import reserve_inside, reserve_outside
from evenface.words import Said, said

APART = rule("insert-apart")
FLOOR = rule("insert-floor")
UNDER = rule("edging-width-under")


def check_inserts(asked: Asked) -> Iterator[Finding]:
    """Findings `insert.cannot_be_made`, `.too_deep`, `.thin_floor`, `.in_edging`, `.wall`, `.overlap`, `.near`,
    `.thin_between` and `.wide_under`."""
    panel = asked.panel
    for insert in panel.inserts:
        if insert.fault:
            yield _stop(
                insert, "insert.cannot_be_made", said("It cannot be made: {why:word}.", why=insert.fault)
            )
            continue
        yield from _depth(insert)
        yield from _in_carrier(panel, insert)
        yield from _under_facing(asked, insert)
    yield from _neighbours(panel)


def _stop(insert: BuiltInsert, code: str, message: Said) -> Finding:
    return Finding(
        code=code,
        severity=Severity.STOP,
        origin=insert.asked.origin,
        at=insert.asked.name,
        message=message,
        source="geometry of the panel",
    )


def _depth(insert: BuiltInsert) -> Iterator[Finding]:
    if insert.through:
        return
    floor = insert.ground_mm - insert.height_mm
    if floor >= FLOOR.nominal - 1e-9:
        return
    out = floor <= 1e-9
    most = insert.ground_mm - FLOOR.nominal
    path = f"{insert.asked.origin}.depth"
    yield Finding(
        code="insert.too_deep" if out else "insert.thin_floor",
        severity=Severity.STOP if out else Severity.WEIGH,
        origin=insert.asked.origin,
        at=insert.asked.name,
        value=certain(floor),
        limit=FLOOR.nominal,
        unit="mm",
        message=said(
            "The recess for {name} goes through the board, which is {ground:mm} thick there."
            if out
            else "Under the recess for {name} {floor:mm} of the board's {ground:mm} are left.",
            name=insert.asked.name,
            floor=floor,
            ground=insert.ground_mm,
        ),
        source=FLOOR.source,
        weakest=FLOOR.status,
        remedies=(
            *(
                (
                    Remedy(
                        "insert.shallower",
                        said("Make it {depth:mm} deep.", depth=most),
                        (Change(path, f"{insert.asked.depth_mm:g}", f"{most:g}"),),
                        certain(FLOOR.nominal),
                    ),
                )
                if most > 0
                else ()
            ),
            Remedy(
                "insert.through",
                said("Let it go right through."),
                (Change(f"{insert.asked.origin}.through", "false", "true"),),
            ),
        ),
    )


def _in_carrier(panel: BuiltPanel, insert: BuiltInsert) -> Iterator[Finding]:
    carrier = panel.carrier_outline
    if carrier is None:
        return
    wall = reserve_inside(insert.asked.outline.outer, carrier.outer).reserve_mm
    if wall >= APART.nominal - 1e-9:
        return
    out = wall < -1e-9
    yield Finding(
        code="insert.in_edging" if out else "insert.wall",
        severity=Severity.STOP if out else Severity.WEIGH,
        origin=insert.asked.origin,
        at=insert.asked.name,
        value=certain(wall),
        limit=0.0 if out else APART.nominal,
        unit="mm",
        message=said(
            "{name} reaches {out:mm} out of the board."
            if out
            else "Between {name} and the side of the board {out:mm} are left.",
            name=insert.asked.name,
            out=abs(wall),
        ),
        why=said("A thin wall of board breaks out when the recess is cut."),
        source=APART.source,
        weakest=APART.status,
        remedies=(
            Remedy(
                "insert.move",
                said("Move it {more:mm} inwards.", more=APART.nominal - wall),
                (),
                certain(APART.nominal),
            ),
        ),
    )


def _neighbours(panel: BuiltPanel) -> Iterator[Finding]:
    """Inserts against each other and against cut-outs; two on opposite faces may lie over one another."""
    for one, other in combinations(panel.inserts, 2):
        if one.z0_mm < other.z1_mm - 1e-9 and other.z0_mm < one.z1_mm - 1e-9:
            yield from _near(other, one.asked.name, one.asked.outline)
        else:
            yield from _over_one_another(one, other)
    for insert in panel.inserts:
        for cutout in panel.panel.cutouts:
            yield from _near(insert, cutout.name, cutout.outline)
        for notch in notches_of(panel):
            yield from _near(insert, notch.name, notch.outline)


def _over_one_another(one: BuiltInsert, other: BuiltInsert) -> Iterator[Finding]:
    """Let in from both faces, they share the board between them."""
    between = max(other.z0_mm - one.z1_mm, one.z0_mm - other.z1_mm)
    if between >= FLOOR.nominal - 1e-9:
        return
    if reserve_outside(one.asked.outline.outer, other.asked.outline.outer).reserve_mm >= -1e-9:
        return
    yield Finding(
        code="insert.thin_between",
        severity=Severity.WEIGH,
        origin=other.asked.origin,
        at=other.asked.name,
        value=certain(between),
        limit=FLOOR.nominal,
        unit="mm",
        message=said(
            "{name} and {other} lie over one another with {between:mm2} of board between them.",
            name=one.asked.name,
            other=other.asked.name,
            between=between,
        ),
        source=FLOOR.source,
        weakest=FLOOR.status,
        remedies=tuple(_shallower(other, FLOOR.nominal - between)),
    )


def _shallower(insert: BuiltInsert, less: float) -> Iterator[Remedy]:
    depth = insert.asked.depth_mm
    if depth is not None and depth - less > 0:
        yield Remedy(
            "insert.shallower",
            said("Make its recess {depth:mm2} deep.", depth=depth - less),
            (Change(f"{insert.asked.origin}.depth", f"{depth:g}", f"{depth - less:g}"),),
            certain(FLOOR.nominal),
        )


def _near(insert: BuiltInsert, name: str, outline: Outline) -> Iterator[Finding]:
    web = reserve_outside(insert.asked.outline.outer, outline.outer).reserve_mm
    if web >= APART.nominal - 1e-9:
        return
    over = web < -1e-9
    yield Finding(
        code="insert.overlap" if over else "insert.near",
        severity=Severity.STOP if over else Severity.WEIGH,
        origin=insert.asked.origin,
        at=insert.asked.name,
        value=certain(web),
        limit=0.0 if over else APART.nominal,
        unit="mm",
        message=said(
            "{name} and {other} run into each other."
            if over
            else "Between {name} and {other} {web:mm} of board are left.",
            name=insert.asked.name,
            other=name,
            web=web,
        ),
        source=APART.source,
        weakest=APART.status,
        remedies=(
            Remedy(
                "insert.move",
                said("Move it {more:mm} away.", more=APART.nominal - web),
                (),
                certain(APART.nominal),
            ),
        ),
    )


def _under_facing(asked: Asked, insert: BuiltInsert) -> Iterator[Finding]:
    """An insert under a facing moves as a wide edging does."""
    role = Role.FACE if insert.asked.face == "top" else Role.BACK
    if insert.asked.when != "before facing" or asked.panel.face(role) is None:
        return
    across = insert.piece.rotated(-radians(insert.asked.grain_deg)).size[1]
    if across > UNDER.high + 1e-9:
        yield _wide(asked, insert, across)


def _wide(asked: Asked, insert: BuiltInsert, across: float) -> Finding:
    moves = movement_across(asked.job, insert.wood, across)
    return Finding(
        code="insert.wide_under",
        severity=Severity.WEIGH,
        origin=insert.asked.origin,
        at=insert.asked.name,
        value=certain(across),
        limit=UNDER.high,
        unit="mm",
        message=said(
            "{name} is {across:mm} across its grain under the facing and moves {least:mm2} to {most:mm2} in a year.",
            name=insert.asked.name,
            across=across,
            least=moves.low,
            most=moves.high,
        ),
        why=said("The board beside it hardly moves, so its outline shows through a thin facing."),
        source=UNDER.source,
        weakest=UNDER.status,
        remedies=(
            Remedy(
                "insert.after",
                said("Let it in after the facing: a rim of wood shows instead."),
                (Change(f"{insert.asked.origin}.when", "before facing", "after facing"),),
            ),
        ),
    )
