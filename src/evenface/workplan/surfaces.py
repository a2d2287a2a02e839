"""What a panel looks like at a moment: what is glued, wet, covered, proud, dusty, trimmed, finished.

The checker's own picture of the bench. It reads the construction and what the steps say they do, and knows
nothing of how an order is derived.
"""

from dataclasses import dataclass, field

from evenface.construction import BuiltPanel, Edging, End, EndKind, Worked
from evenface.piece.records import CornerAt, Insert, Meeting, Role, Side
from evenface.workplan import glue_times as times

BOTH = (Role.FACE, Role.BACK)


@dataclass(slots=True)
class Joint:
    """A glued joint: set from `set_h`, and without swelling from `firm_h`, hours on the clock."""

    set_h: float
    firm_h: float


@dataclass(slots=True)
class Surfaces:
    """The state of one panel."""

    panel: BuiltPanel
    worked: tuple[Worked, ...] = ()
    to_drill: bool = True
    carrier_cut: bool = False
    blanks_cut: bool = False
    milled: bool = False
    edged: dict[Side, Joint] = field(default_factory=dict)
    long_ends: set[tuple[Side, CornerAt]] = field(default_factory=set)
    level: set[tuple[Side, Role]] = field(default_factory=set)
    corner_pieces: Joint | None = None
    recessed: set[str] = field(default_factory=set)
    inserted: dict[str, Joint] = field(default_factory=dict)
    insert_level: set[str] = field(default_factory=set)
    fitted: dict[Role, frozenset[Side]] = field(default_factory=dict)
    clean: set[Role] = field(default_factory=set)
    bonded: dict[Role, Joint] = field(default_factory=dict)
    bonded_at_h: dict[Role, float] = field(default_factory=dict)
    trimmed: set[Role] = field(default_factory=set)
    holes: set[str] = field(default_factory=set)
    rounded: bool = False
    profiled: bool = False
    cleared: bool = False
    joints_cut: bool = False
    drilled: bool = False
    finish_dry_h: float | None = None

    @property
    def sheets(self) -> tuple[Role, ...]:
        return tuple(face.role for face in self.panel.faces)

    @property
    def to_cut(self) -> bool:
        """Whether a groove, housing or the like is to be cut into it."""
        return any(one.diameter_mm == 0.0 and "cleared" not in one.kind for one in self.worked)

    @property
    def to_clear(self) -> bool:
        """Whether its facing has to come off where a joint is."""
        return any("cleared" in one.kind for one in self.worked)

    def beside(self, side: Side, role: Role) -> bool:
        """Whether the finished edging stands beside a sheet of that face, level with it."""
        edging = self.panel.edging(side)
        return role in self.sheets and edging is not None and edging.meets(role) is Meeting.FLUSH

    def overhanging(self) -> tuple[Role, ...]:
        """Sheets that are on, or still to come, and have an untrimmed edge."""
        return tuple(
            role
            for role in self.sheets
            if role not in self.trimmed and len(self.fitted.get(role, ())) < len(Side)
        )

    def proud(self) -> tuple[str, ...]:
        """Edgings and inserts that are in place or to come and not yet level with what lies round them."""
        edges = [
            e.side.value for e in self.panel.edgings for role in BOTH if (e.side, role) not in self.level
        ]
        inserts = [one.name for one in self.panel.panel.inserts if one.name not in self.insert_level]
        return tuple(dict.fromkeys([*edges, *inserts]))

    def unset(self, hour: float) -> tuple[Joint, ...]:
        """Joints whose glue has not set at that hour."""
        joints = [*self.edged.values(), *self.inserted.values(), *self.bonded.values()]
        joints += [self.corner_pieces] if self.corner_pieces else []
        return tuple(joint for joint in joints if joint.set_h > hour + 1e-9)

    def joint(self, end_h: float) -> Joint:
        """A joint of the edging glue, closed at that hour."""
        glue = self.panel.edging_glue
        return Joint(end_h + times.press_h(glue), end_h + times.flush_wait_h(glue))

    def shaped_corners(self) -> tuple[CornerAt, ...]:
        return tuple(c.at for c in self.panel.panel.corners if c.shape != "square" and c.size_mm > 0.0)

    def needs_corner_pieces(self) -> bool:
        if any(one.construction == "clipped" and not one.fault for one in self.panel.corners):
            return True
        solid = ("block", "ring", "strips")
        shaped = self.shaped_corners()
        return any(c.at in shaped and c.construction in solid for c in self.panel.panel.corners)

    def insert(self, name: str) -> Insert | None:
        return next((one for one in self.panel.panel.inserts if one.name == name), None)

    def left_long(self, edging: Edging) -> set[tuple[Side, CornerAt]]:
        """Ends of a strip just glued on that stand out and are to be trimmed."""
        return {(edging.side, end.at) for end in (edging.start, edging.end) if self._stands_out(edging, end)}

    def _stands_out(self, edging: Edging, end: End) -> bool:
        if end.kind in (EndKind.FREE, EndKind.THROUGH):
            return True
        neighbours = {end.at.along_length, end.at.along_width} - {edging.side}
        return end.kind is EndKind.BETWEEN and not neighbours & self.edged.keys()


def shows_at(insert: Insert) -> tuple[Role, ...]:
    """The faces an insert comes out at."""
    if insert.depth_mm is None:
        return BOTH
    return (Role.FACE,) if insert.face == "top" else (Role.BACK,)
