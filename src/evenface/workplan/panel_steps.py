"""The steps of one panel, one group of work after the other."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal

from evenface.construction import Edging, EndKind
from evenface.piece.records import Corner, CornerAt, Insert, Meeting, Order, Role, Side
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.durations import usual_minutes
from evenface.workplan.records import After, PanelToMake, Step, Wait, Work
from evenface.workplan.safety import cautions_of
from evenface.workplan.sayings import SAYINGS, title_of
from evenface.workplan.settings import settings_of

type CornersWhen = Literal["before facing", "after facing"]

FACES: Final = (Role.FACE, Role.BACK)
CONDITION_ID: Final = "all-01"


def glued_later(edging: Edging, roles: Iterable[Role]) -> bool:
    """Whether an edging goes on after the facings: never when one of them has to lie over it."""
    meets = [edging.meets(role) for role in roles]
    return edging.order is Order.FACING_FIRST and bool(meets) and Meeting.UNDER not in meets


@dataclass(slots=True)
class PanelDeriver:
    """Writes the steps of one panel, one group of work after the other."""

    to_make: PanelToMake
    lain_h: float
    corners: CornersWhen
    made: list[Step] = field(default_factory=list)
    glued: dict[Side, str] = field(default_factory=dict)
    long: set[tuple[Side, CornerAt]] = field(default_factory=set)
    roles: tuple[Role, ...] = ()
    first: tuple[Edging, ...] = ()
    later: tuple[Edging, ...] = ()
    cut: str = ""
    blanks: str = ""
    milled: str = ""

    def steps(self) -> list[Step]:
        """All steps of the panel; the last one ends it."""
        panel = self.to_make.panel
        self.roles = tuple(role for role in FACES if panel.face(role) is not None)
        self.later = tuple(e for e in panel.edgings if glued_later(e, self.roles))
        self.first = tuple(e for e in panel.edgings if e not in self.later)
        self._cut_and_mill()
        done = self._edge(self.first, [self.cut])
        done = self._corner_pieces(done, bool(self.first) or not self.later)
        done = self._flush(done)
        done = self._inserts("before facing", done)
        shaped_first = self._shaped_first()
        if shaped_first:
            done = self._shape(done)
        if self.roles:
            done = self._face(done)
            done = self._edge(self.later, done)
            done = self._corner_pieces(done, bool(self.later) and not self.first)
            done = self._level(done)
            done = self._inserts("after facing", done)
        if not shaped_first:
            done = self._shape(done)
        self._end(done)
        return self.made

    def add(
        self,
        work: Work,
        after: Iterable[After],
        roles: tuple[Role, ...] = (),
        sides: tuple[Side, ...] = (),
        corners: tuple[CornerAt, ...] = (),
        feature: str = "",
        wait: Wait | None = None,
        length_mm: float = 0.0,
        area_mm2: float = 0.0,
    ) -> str:
        panel = self.to_make.panel
        told = SAYINGS[work]
        step = Step(
            id=f"{self.to_make.part}-{len(self.made) + 1:02}",
            work=work,
            part=self.to_make.part,
            parts=(self.to_make.part,),
            piece=panel.piece,
            title=title_of(work, roles, sides, corners, feature),
            why=told.why,
            after=_longest(after),
            hand_minutes=usual_minutes(work, panel.count, length_mm / 1000.0, area_mm2 / 1e6),
            tools=told.tools,
            settings=settings_of(work, panel, feature, self.to_make.sizes),
            check=told.check,
            cautions=cautions_of(work, panel),
            undo_risk=told.undo,
            people=2 if work is Work.BOND and panel.length_mm * panel.width_mm > 1.0e6 else 1,
            occupies=told.occupies,
            wait=wait,
            roles=roles,
            sides=sides,
            corners=corners,
            feature=feature,
        )
        self.made.append(step)
        return step.id

    def _conditioned(self, joint: Role) -> After:
        return After(CONDITION_ID, max(0.0, times.conditioning_h(joint) - self.lain_h))

    def _cut_and_mill(self) -> None:
        panel = self.to_make.panel
        begin = [After(CONDITION_ID)]
        area = panel.length_mm * panel.width_mm
        self.cut = self.add(Work.CUT_CARRIER, begin, area_mm2=area)
        self.blanks = self.add(Work.CUT_FACING, begin, self.roles, area_mm2=area) if self.roles else ""
        if panel.edgings:
            length = sum(edging.outer_length_mm for edging in panel.edgings)
            sides = tuple(edging.side for edging in panel.edgings)
            self.milled = self.add(Work.MILL_EDGING, begin, sides=sides, length_mm=length)

    def _edge(self, edgings: Sequence[Edging], done: list[str]) -> list[str]:
        """One side at a time: what stops against a neighbour first, what runs past it last."""
        last: list[After] = []
        out = list(done)
        for edging in sorted(edgings, key=_runs_past):
            last = self._trim_ends(_hidden(edging, self.long), done, last)
            one = self._glue(edging, done, last)
            last = [After(one, times.press_h(self.to_make.panel.edging_glue))]
            out.append(one)
        ends = tuple((side, at) for side, at in self.long if self._may_trim(side, at))
        return [*out, *(one.id for one in self._trim_ends(ends, done, last) if one not in last)]

    def _glue(self, edging: Edging, done: list[str], last: list[After]) -> str:
        glue = self.to_make.panel.edging_glue
        press = times.press_h(glue)
        before = [*self._dry(done), After(self.milled), self._conditioned(Role.EDGING), *last]
        wait = Wait("glue", press, times.flush_wait_h(glue), _why_wait(times.is_wet(glue)))
        one = self.add(
            Work.GLUE_EDGING, before, sides=(edging.side,), wait=wait, length_mm=edging.outer_length_mm
        )
        self.long |= {
            (edging.side, end.at)
            for end in (edging.start, edging.end)
            if end.kind in (EndKind.FREE, EndKind.THROUGH)
            or (end.kind is EndKind.BETWEEN and _neighbour(edging.side, end.at) not in self.glued)
        }
        self.glued[edging.side] = one
        return one

    def _trim_ends(
        self, ends: Iterable[tuple[Side, CornerAt]], done: list[str], last: list[After]
    ) -> list[After]:
        """A step that trims these ends, or what came last where there are none."""
        ends = sorted(ends)
        if not ends:
            return last
        press = times.press_h(self.to_make.panel.edging_glue)
        before = [*self._dry(done), *last, *(After(self.glued[side], press) for side, _ in ends)]
        corners = tuple(at for at in CornerAt if any(at is where for _, where in ends))
        self.long -= set(ends)
        return [After(self.add(Work.TRIM_ENDS, before, corners=corners))]

    def _may_trim(self, side: Side, at: CornerAt) -> bool:
        """An end that runs past its neighbour waits for it; one that stops against it must not."""
        edging, other = self.to_make.panel.edging(side), _neighbour(side, at)
        stops = edging is not None and any(
            end.at is at and end.kind is EndKind.BETWEEN for end in (edging.start, edging.end)
        )
        return stops or other in self.glued or self.to_make.panel.edging(other) is None

    def _corner_pieces(self, done: list[str], now: bool) -> list[str]:
        names = [c for c in _shaped(self.to_make) if c.construction in ("block", "ring", "strips")]
        if not names or not now:
            return done
        glue = self.to_make.panel.edging_glue
        press = times.press_h(glue)
        before = [*(After(one, press) for one in done), self._conditioned(Role.EDGING)]
        wait = Wait("glue", press, times.flush_wait_h(glue), _why_wait(times.is_wet(glue)))
        return [*done, self.add(Work.GLUE_CORNERS, before, wait=wait)]

    def _flush(self, done: list[str]) -> list[str]:
        """Down to the carrier, on each face where nothing stands level with a sheet."""
        out = list(done)
        for role in FACES:
            low = [e for e in self.first if role not in self.roles or e.meets(role) is Meeting.UNDER]
            if low:
                length = sum(edging.outer_length_mm for edging in low)
                sides = tuple(edging.side for edging in low)
                before = self._dry(done)
                out.append(self.add(Work.FLUSH_EDGING, before, (role,), sides, length_mm=length))
        return out

    def _inserts(self, when: str, done: list[str]) -> list[str]:
        out = list(done)
        wet = self.to_make.panel.edging_glue
        wait = Wait("glue", times.press_h(wet), times.flush_wait_h(wet), _why_wait(times.is_wet(wet)))
        for insert in self.to_make.panel.panel.inserts:
            if (insert.when if self.roles else "before facing") != when:
                continue
            roles = insert_roles(insert)
            recess = self.add(Work.ROUT_RECESS, [*self._dry(out)], roles, feature=insert.name)
            glue = self.add(
                Work.GLUE_INSERT,
                [After(recess), self._conditioned(Role.EDGING)],
                roles,
                feature=insert.name,
                wait=wait,
            )
            flushed = After(glue, wait.most_h)
            out.append(self.add(Work.FLUSH_INSERT, [flushed], roles, feature=insert.name))
        return out

    def _dry(self, done: Iterable[str]) -> list[After]:
        """After all of these, glue given its time."""
        wait = {step.id: step.wait.most_h for step in self.made if step.wait is not None}
        return [After(one, wait.get(one, 0.0)) for one in done]

    def _shaped_first(self) -> bool:
        if not self.roles:
            return True
        over = all(e.meets(role) is Meeting.UNDER for e in self.first for role in self.roles)
        return self.corners == "before facing" and over and not self.later

    def _shape(self, done: list[str]) -> list[str]:
        if not _shaped(self.to_make):
            return done
        return [*done, self.add(Work.SHAPE_CORNERS, self._dry(done))]

    def _face(self, done: list[str]) -> list[str]:
        panel = self.to_make.panel
        area = panel.length_mm * panel.width_mm
        before = self._dry(done)
        fitted = {
            role: tuple(e.side for e in self.first if e.meets(role) is Meeting.FLUSH) for role in self.roles
        }
        fits = [
            After(self.add(Work.FIT_FACING, [*before, After(self.blanks)], (role,), sides))
            for role, sides in fitted.items()
            if sides
        ]
        lain = self._conditioned(Role.FACE)  # surfaces are cleaned right before bonding, not days before
        clean = [*before, *fits, After(self.blanks), lain]
        ready = self.add(Work.PREPARE, clean, self.roles, area_mm2=area)
        rest = times.facing_wait_h(panel)
        bond = self.add(
            Work.BOND,
            [After(ready), lain],
            self.roles,
            wait=Wait("glue", times.press_h(panel.glue), rest, _why_wait(False)),
            area_mm2=area * len(self.roles),
        )
        trimmed = tuple(role for role in self.roles if len(fitted[role]) < len(Side))
        if not trimmed:
            return [bond]
        length = 2.0 * (panel.length_mm + panel.width_mm)
        return [self.add(Work.TRIM, [After(bond, rest)], trimmed, length_mm=length)]

    def _level(self, done: list[str]) -> list[str]:
        out = list(done)
        before = self._dry(done)
        for role in self.roles:
            level = [e for e in self.to_make.panel.edgings if e.meets(role) is Meeting.FLUSH]
            if level:
                length = sum(edging.outer_length_mm for edging in level)
                sides = tuple(edging.side for edging in level)
                out.append(self.add(Work.LEVEL, before, (role,), sides, length_mm=length))
        for role in FACES:
            bare = tuple(e.side for e in self.later) if role not in self.roles else ()
            if bare:
                out.append(self.add(Work.FLUSH_EDGING, before, (role,), bare))
        return out

    def _end(self, done: list[str]) -> None:
        panel = self.to_make.panel.panel
        if panel.profiles:
            sides = tuple(side for side in Side if any(side in p.sides for p in panel.profiles))
            done = [*done, self.add(Work.PROFILE, self._dry(done), sides=sides)]
        for cutout in panel.cutouts:
            done = [*done, self.add(Work.ROUT_CUTOUT, self._dry(done), feature=cutout.name)]
        for grip in panel.grips:
            done = [*done, self.add(Work.ROUT_GRIP, self._dry(done), feature=grip.name)]
        if self.to_make.panel.edgings or panel.inserts:
            length = sum(edging.outer_length_mm for edging in self.to_make.panel.edgings)
            cure = Wait("finish", times.FINISH_H.nominal, times.FINISH_H.high, _why_wait(False))
            one = self.add(Work.FINISH, self._dry(done), wait=cure, length_mm=length)
            done = [one]
            last = [After(one, times.FINISH_H.nominal)]
        else:
            last = self._dry(done)
        self.add(Work.DRILL, last)


def insert_roles(insert: Insert) -> tuple[Role, ...]:
    """The faces at which an insert shows."""
    if insert.depth_mm is None:
        return FACES
    return (Role.FACE,) if insert.face == "top" else (Role.BACK,)


def _shaped(to_make: PanelToMake) -> tuple[Corner, ...]:
    return tuple(c for c in to_make.panel.panel.corners if c.shape != "square" and c.size_mm > 0.0)


def _runs_past(edging: Edging) -> int:
    order: Mapping[EndKind, int] = {EndKind.BETWEEN: 0, EndKind.SHORT: 0, EndKind.THROUGH: 2}
    return sum(order.get(end.kind, 1) for end in (edging.start, edging.end))


def _neighbour(side: Side, at: CornerAt) -> Side:
    """The other edge of that corner."""
    return at.along_width if side is at.along_length else at.along_length


def _hidden(edging: Edging, long: Iterable[tuple[Side, CornerAt]]) -> tuple[tuple[Side, CornerAt], ...]:
    """Ends left long that this edging is about to run past."""
    past = [end.at for end in (edging.start, edging.end) if end.kind is EndKind.THROUGH]
    return tuple((side, at) for side, at in long if at in past and side is not edging.side)


def _why_wait(wet: bool) -> Said:
    if wet:
        return said("Glue water swells the joint; flushed too soon it sinks later and shows.")
    return said("The glue has to hold before the part is worked.")


def _longest(after: Iterable[After]) -> tuple[After, ...]:
    """Each step once, with its longest wait."""
    found: dict[str, float] = {}
    for one in after:
        found[one.id] = max(one.wait_h, found.get(one.id, 0.0))
    return tuple(After(step, wait) for step, wait in found.items())
