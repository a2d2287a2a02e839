"""The steps of one panel, put on paper one by one: what every step of it shares."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final

from evenface.construction import Edging
from evenface.piece.order_moves import CornersWhen
from evenface.piece.records import Corner, CornerAt, Role, Side
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.durations import usual_minutes
from evenface.workplan.machining import cut_by_knife
from evenface.workplan.records import After, PanelToMake, Step, Wait, Work
from evenface.workplan.safety import cautions_of
from evenface.workplan.sayings import SAYINGS, title_of
from evenface.workplan.settings import settings_of

CONDITION_ID: Final = "all-01"
BY_HAND: Final = (said("knife"), said("steel rule"))


@dataclass(slots=True)
class PanelWriter:
    """Steps of one panel as they are written, and what is known while they are."""

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
        settings: tuple[Said, ...] = (),
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
            tools=BY_HAND if work is Work.CUT_FACING and cut_by_knife(panel) else told.tools,
            settings=(*settings, *settings_of(work, panel, feature, self.to_make.sizes, self.to_make.worked)),
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

    def _dry(self, done: Iterable[str]) -> list[After]:
        """After all of these, glue given its time."""
        wait = {step.id: step.wait.most_h for step in self.made if step.wait is not None}
        return [After(one, wait.get(one, 0.0)) for one in done]


def shaped(to_make: PanelToMake) -> tuple[Corner, ...]:
    return tuple(c for c in to_make.panel.panel.corners if c.shape != "square" and c.size_mm > 0.0)


def why_wait(wet: bool) -> Said:
    if wet:
        return said("Glue water swells the joint; flushed too soon it sinks later and shows.")
    return said("The glue has to hold before the part is worked.")


def _longest(after: Iterable[After]) -> tuple[After, ...]:
    """Each step once, with its longest wait."""
    found: dict[str, float] = {}
    for one in after:
        found[one.id] = max(one.wait_h, found.get(one.id, 0.0))
    return tuple(After(step, wait) for step, wait in found.items())
