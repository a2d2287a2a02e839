"""The steps of one panel, in the order that wood, glue and facing allow.

The rule of the house: all woodwork that can be done before the facing is done before it.
"""

from dataclasses import dataclass

from evenface.piece.records import Meeting, Role, Side
from evenface.workplan import glue_times as times
from evenface.workplan.board_steps import bored, cleared, cut, sentences
from evenface.workplan.panel_wood import FACES, WoodWriter, glued_later, insert_roles
from evenface.workplan.panel_writer import CONDITION_ID, shaped, why_wait
from evenface.workplan.records import After, Step, Wait, Work

__all__ = ["CONDITION_ID", "PanelDeriver", "glued_later", "insert_roles"]


@dataclass(slots=True)
class PanelDeriver(WoodWriter):
    """Writes the steps of one panel, one group of work after the other."""

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

    def _cut_and_mill(self) -> None:
        panel = self.to_make.panel
        begin = [After(CONDITION_ID)]
        area = panel.length_mm * panel.width_mm
        self.cut = self.add(Work.CUT_CARRIER, begin, area_mm2=area)
        self.blanks = ""
        if (
            self.roles and not self._let_in()
        ):  # what is let in between edgings is cut when these are on and measured
            self.blanks = self.add(Work.CUT_FACING, begin, self.roles, area_mm2=area)
        if panel.edgings:
            length = sum(edging.outer_length_mm for edging in panel.edgings)
            sides = tuple(edging.side for edging in panel.edgings)
            lain = [self._conditioned(Role.EDGING)]  # what is milled before it has lain moves after it
            self.milled = self.add(Work.MILL_EDGING, lain, sides=sides, length_mm=length)

    def _let_in(self) -> bool:
        return any(edging.meets(role) is Meeting.FLUSH for edging in self.first for role in self.roles)

    def _shaped_first(self) -> bool:
        if not self.roles:
            return True
        over = all(e.meets(role) is Meeting.UNDER for e in self.first for role in self.roles)
        return self.corners == "before facing" and over and not self.later

    def _shape(self, done: list[str]) -> list[str]:
        if not shaped(self.to_make):
            return done
        return [*done, self.add(Work.SHAPE_CORNERS, self._dry(done))]

    def _face(self, done: list[str]) -> list[str]:
        panel = self.to_make.panel
        area = panel.length_mm * panel.width_mm
        before = self._dry(done)
        self.blanks = self.blanks or self.add(Work.CUT_FACING, before, self.roles, area_mm2=area)
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
            wait=Wait("glue", times.press_h(panel.glue), rest, why_wait(False)),
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
        worked = self.to_make.worked
        for work, places in ((Work.CLEAR_JOINT, cleared(worked)), (Work.CUT_JOINT, cut(worked))):
            if places:
                long = len(places) * self.to_make.panel.length_mm
                done = [
                    *done,
                    self.add(work, self._dry(done), length_mm=long, settings=sentences(places)),
                ]
        if self.to_make.panel.edgings or panel.inserts:
            length = sum(edging.outer_length_mm for edging in self.to_make.panel.edgings)
            cure = Wait("finish", times.FINISH_H.nominal, times.FINISH_H.high, why_wait(False))
            one = self.add(Work.FINISH, self._dry(done), wait=cure, length_mm=length)
            done = [one]
            last = [After(one, times.FINISH_H.nominal)]
        else:
            last = self._dry(done)
        if self.to_make.drilled:
            self.add(Work.DRILL, last, settings=sentences(bored(worked)))
