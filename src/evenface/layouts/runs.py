"""Matched runs: fronts whose faces are cut in their order from one strip of one sheet, so that the pattern goes on.

The faces of a run are one blank in the demand and are cut apart last, one kerf between neighbours. From one front
to the next the pattern is hidden or laid bare where the gap is and lost where saw and overhang are: what is lost in
the gap (with the edging on both sides of it where the face stops at the edging) less what the kerf and both
overhangs take out of the sheet. At 0 the pattern goes on as if it ran behind the gap.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from evenface.construction import BuiltPanel, Construction
from evenface.construction.placed import Point
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.records import Blank, Inside
from evenface.layouts.stock_records import Axis, StockSize
from evenface.layouts.strips import fits
from evenface.materials.rules import rule
from evenface.parts import LayerSizes, Part
from evenface.piece.records import Role, Side
from evenface.units import from_grid
from evenface.words import said

GAP: Final = rule("front-gap")
MOST_OVERHANG_MM: Final = 3.0
"""COMMON PRACTICE: 2 to 3 mm at the joints of a run; with more, neighbours lose a visible strip of pattern."""
SAME: Final = 5
"""Sizes of a run that differ by no more (0.05 mm) are taken as equal."""

type Sides = tuple[Side, Side]
"""The sides of a panel that meet its neighbours: of the one before, of the one after."""


class Member(NamedTuple):
    """A face of a run: its part, layer, panel, the blank it would be by itself, and where its copies stand.

    boxes : lower and upper corner of each copy in the piece, mm; none for loose panels.
    """

    part: Part
    layer: LayerSizes
    panel: BuiltPanel
    blank: Blank
    boxes: tuple[tuple[Point, Point], ...] = ()

    @property
    def beside(self) -> int:
        """How many stand beside each other in one copy of the run."""
        return max(1, self.panel.panel.count)

    @property
    def copies(self) -> int:
        """How often the run is made."""
        return max(1, self.panel.count // self.beside)


def gathered(
    members: Sequence[Member], stock: Sequence[StockSize], kerf: int
) -> tuple[tuple[Blank, ...], tuple[Finding, ...]]:
    """The faces of one material and its runs: a blank a run, or the faces one by one where it fits no stock."""
    runs: dict[tuple[str, str], list[Member]] = defaultdict(list)
    for member in members:
        runs[member.part.piece, member.panel.panel.run].append(member)
    blanks: list[Blank] = []
    findings: list[Finding] = []
    for (_, run), faces in runs.items():
        whole = _combined(run, faces, faces[0].copies, kerf)
        if sum(face.beside for face in faces) < 2:
            blanks += [face.blank for face in faces]
        elif any(fits(whole, size) for size in stock):
            blanks.append(whole)
            findings += _on_the_joints(run, faces, whole.parted, kerf)
        else:
            blanks += [face.blank for face in faces]
            findings.append(_too_long(run, whole, stock))
    return tuple(blanks), tuple(findings)


def run_members(
    parts: Sequence[Part],
    panels: Sequence[BuiltPanel],
    blanks: Mapping[tuple[str, str], Blank],
    constructions: Sequence[Construction] = (),
) -> dict[str, list[Member]]:
    """Faces that belong to a run, by their material, in the order of the job.

    blanks : of the sheet layers, by part and role. A panel is known by its place in the job (`origin`).
    constructions : the pieces, for how far fronts stand from each other in them.
    """
    stands = {
        panel.origin: boxes_of(panel, whole)
        for whole in constructions
        for panel in whole.panels
        if panel.origin
    }
    built = {panel.origin: panel for panel in panels if panel.panel.run}
    found: dict[str, list[Member]] = defaultdict(list)
    for part in parts:
        panel = built.get(part.origin) if part.origin else None
        face = part.layer(Role.FACE)
        if panel is None or face is None or face.locked or (part.id, Role.FACE.value) not in blanks:
            continue
        found[face.material].append(
            Member(part, face, panel, blanks[part.id, Role.FACE.value], stands.get(panel.origin, ()))
        )
    return found


def _combined(run: str, faces: Sequence[Member], count: int, kerf: int) -> Blank:
    """All faces of one copy of the run as one blank, in order, a kerf between neighbours."""
    parted = _parted([face.blank for face in faces])
    inside: list[Inside] = []
    at = 0
    for face in faces:
        size = face.blank.width if parted == "along" else face.blank.length
        for _ in range(face.beside):
            inside.append(Inside(face.part.id, face.layer.role.value, at, size))
            at += size + kerf
    run_size = at - kerf
    return Blank(
        id=f"run {run} {faces[0].part.id}",
        part=", ".join(dict.fromkeys(face.part.id for face in faces)),
        layer=Role.FACE.value,
        length=max(face.blank.length for face in faces) if parted == "along" else run_size,
        width=run_size if parted == "along" else max(face.blank.width for face in faces),
        count=count,
        inside=tuple(inside),
        parted=parted,
        run=run,
        same_batch=next((face.blank.same_batch for face in faces if face.blank.same_batch), ""),
        batch=next((face.blank.batch for face in faces if face.blank.batch is not None), None),
    )


def _parted(blanks: Sequence[Blank]) -> Axis:
    """Side by side across the pattern where all are equally long, else one after another along it."""
    lengths, widths = [blank.length for blank in blanks], [blank.width for blank in blanks]
    if max(lengths) - min(lengths) <= SAME:
        return "along"
    if max(widths) - min(widths) <= SAME:
        return "across"
    side_by_side = max(lengths) * sum(widths)
    return "along" if side_by_side <= max(widths) * sum(lengths) else "across"


def _meeting_sides(face: Member, parted: Axis) -> Sides:
    """Which sides of the panel face its neighbours."""
    turned = face.layer.direction_deg % 180 == 90
    return (Side.FRONT, Side.REAR) if (parted == "along") is not turned else (Side.LEFT, Side.RIGHT)


def _bare_edging(face: Member, side: Side) -> float:
    """Width of edging seen beside the face there; 0 where the face lies over the edging."""
    at = 0 if side in (Side.LEFT, Side.RIGHT) else 1
    flush = face.part.finished_mm[at] - face.layer.net_mm[at] > 0.05
    return face.panel.edging_width_mm(side) if flush else 0.0


def boxes_of(panel: BuiltPanel, whole: Construction) -> tuple[tuple[Point, Point], ...]:
    """Where each copy of a panel stands in its piece; empty for loose panels."""
    return tuple(
        placement.box(panel.length_mm, panel.width_mm, panel.thickness_mm)
        for placement in whole.arranged.placements
        if placement.part == panel.name
    )


def gap_mm(before: Member, after: Member, number: int = 0) -> float:
    """Between two neighbours as they stand in their piece, the usual gap between loose ones. [mm]

    number : which copy of `before`, where both are copies of one panel.
    """
    one_panel = before.panel is after.panel
    places = before.boxes[number : number + 1], after.boxes[number + 1 if one_panel else 0 :][:1]
    if not all(places):
        return GAP.nominal
    (low, high), (other_low, other_high) = places[0][0], places[1][0]
    return max(max(other_low[n] - high[n], low[n] - other_high[n]) for n in range(3))


def pattern_lost_mm(
    before: Member, after: Member, parted: Axis, kerf_mm: float, between_mm: float = GAP.nominal
) -> float:
    """(gap + edging bare on both sides) − (kerf + both overhangs): > 0 hidden, < 0 cut away. [mm]"""
    leaving, meeting = _meeting_sides(before, parted)[1], _meeting_sides(after, parted)[0]
    seen = between_mm + _bare_edging(before, leaving) + _bare_edging(after, meeting)
    cut = kerf_mm + _overhang(before, leaving) + _overhang(after, meeting)
    return seen - cut


def _overhang(face: Member, side: Side) -> float:
    return 0.0 if face.layer.fitted else face.panel.allowances.overhang_mm.get(side, 0.0)


def _on_the_joints(run: str, faces: Sequence[Member], parted: Axis, kerf: int) -> list[Finding]:
    row = [(face, number) for face in faces for number in range(face.beside)]
    joints = [(before, after) for (before, _), (after, _) in pairwise(row)]
    gaps = [gap_mm(before, after, number) for (before, number), (after, _) in pairwise(row)]
    lost = [
        pattern_lost_mm(before, after, parted, from_grid(kerf), gap)
        for (before, after), gap in zip(joints, gaps, strict=True)
    ]
    worst = max(range(len(joints)), key=lambda at: abs(lost[at]))
    findings = [_lost(run, joints[worst], lost[worst], gaps[worst])]
    over = [
        (_overhang(face, side), face)
        for before, after in joints
        for face, side in (
            (before, _meeting_sides(before, parted)[1]),
            (after, _meeting_sides(after, parted)[0]),
        )
    ]
    most, face = max(over, key=lambda pair: pair[0])
    if most > MOST_OVERHANG_MM:
        findings.append(_overhang_found(run, face, most))
    return findings


def _lost(run: str, joint: tuple[Member, Member], lost_mm: float, between_mm: float) -> Finding:
    return Finding(
        code="layout.run_pattern",
        severity=Severity.NOTE,
        part=joint[1].part.id,
        at=Role.FACE.value,
        value=certain(lost_mm),
        unit="mm",
        message=said(
            "In the run {run} the pattern jumps by {lost:mm} at most from one front to the next, {way:word}.",
            run=run,
            lost=abs(lost_mm),
            way="hidden in the gap" if lost_mm >= 0 else "cut away",
        ),
        why=said("Reckoned with {gap:mm} between the fronts.", gap=between_mm),
        source="layouts",
    )


def _overhang_found(run: str, face: Member, overhang_mm: float) -> Finding:
    return Finding(
        code="layout.run_overhang",
        severity=Severity.WEIGH,
        part=face.part.id,
        at=Role.FACE.value,
        value=certain(overhang_mm),
        limit=MOST_OVERHANG_MM,
        unit="mm",
        message=said(
            "In the run {run} a face stands {overhang:mm} over its edge before trimming: twice that of the pattern "
            "is lost between neighbours.",
            run=run,
            overhang=overhang_mm,
        ),
        source="layouts",
        remedies=(
            Remedy(
                "layout.less_overhang", said("Leave 2 to 3 mm where the fronts meet, and trim with care.")
            ),
        ),
    )


def _too_long(run: str, blank: Blank, stock: Sequence[StockSize]) -> Finding:
    longest = max(from_grid(size.usable_length) for size in stock)
    widest = max(from_grid(size.usable_width) for size in stock)
    over = max(from_grid(blank.length) - longest, from_grid(blank.width) - widest)
    return Finding(
        code="layout.run_too_long",
        severity=Severity.STOP,
        part=blank.inside[0].part,
        at=blank.layer,
        value=certain(over),
        limit=0.0,
        unit="mm",
        message=said(
            "The run {run} needs {length:mm} × {width:mm} in one piece and goes on no sheet: {longest:mm} × "
            "{widest:mm} is left of the largest. Its fronts are laid out one by one and will not match.",
            run=run,
            length=from_grid(blank.length),
            width=from_grid(blank.width),
            longest=longest,
            widest=widest,
        ),
        source="sizes of supply",
        remedies=(Remedy("layout.split_run", said("Buy a larger sheet, or make two runs of it.")),),
    )
