"""Steps of a whole piece, put on paper one by one: what every step of it shares."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final

from evenface.construction.placed import Fitting
from evenface.words import Said, Spoken, said
from evenface.workplan.machining import wood_lines
from evenface.workplan.piece_mass import masses_kg
from evenface.workplan.records import After, Minutes, PieceToMake, Step, Wait, Work
from evenface.workplan.safety import CLIMBING, HEAVY, TIPPING, cautions_of_place, cautions_of_wood
from evenface.workplan.sayings import SAYINGS
from evenface.workplan.seams import Node

ONE_MAN_KG: Final = 25.0
LOW_MM: Final = 800.0
"""COMMON PRACTICE: nobody climbs to fix what is lower than a worktop, and it does not fall on anybody."""


@dataclass(slots=True)
class WholeWriter:
    """Steps of one piece as they are written. done : what must be before the next step."""

    piece: PieceToMake
    done: list[After]
    made: list[Step] = field(default_factory=list)

    def _add(
        self,
        work: Work,
        nodes: Iterable[Node],
        minutes: Minutes,
        before: Sequence[After] | None = None,
        name: Spoken = "",
        settings: tuple[Said, ...] = (),
        wait: Wait | None = None,
        joints: tuple[int, ...] = (),
        dry: tuple[int, ...] = (),
        people: int = 1,
    ) -> Step:
        told, piece = SAYINGS[work], self.piece
        nodes = sorted(nodes, key=lambda node: (list(piece.ids).index(node[0]), node[1]))
        parts = tuple(dict.fromkeys(piece.ids[node[0]] for node in nodes))
        mass = masses_kg(piece, nodes)
        step = Step(
            id=f"{piece.number}-{len(self.made) + 1:02}",
            work=work,
            part="",
            parts=parts,
            piece=piece.name,
            title=said("{work:word}: {name}", work=work.value, name=name or piece.name),
            why=told.why,
            after=tuple(self.done if before is None else before),
            hand_minutes=minutes,
            tools=told.tools,
            settings=(*settings, *wood_lines(work)),
            check=told.check,
            cautions=(*self._cautions(work), *((said(HEAVY, mass=mass),) if _lifted(work, mass) else ())),
            undo_risk=told.undo,
            people=max(people, 2 if _lifted(work, mass) else 1),
            occupies=told.occupies,
            wait=wait,
            joints=joints,
            dry=dry,
        )
        self.made.append(step)
        if before is None:
            self.done = [After(step.id)]
        return step

    def _cautions(self, work: Work) -> tuple[Said, ...]:
        panels = [one.panel for one in self.piece.panels]
        told = (*cautions_of_place(work, panels), *cautions_of_wood(work, self.piece.glue))
        if work is Work.FIT_ON_SITE and self.piece.arranged.size_mm is not None:
            return tuple(one for one in told if one not in self._needless())
        return told

    def _needless(self) -> tuple[Said, ...]:
        """What a piece that stands low and holds no drawers does not ask for where it is put."""
        arranged = self.piece.arranged
        high = arranged.size_mm is not None and arranged.size_mm[2] >= LOW_MM
        names = [one.name for one in arranged.fittings]
        on_wall = any(name.startswith("wall") for name in names)
        drawers = any("runner" in name for name in names)
        return (
            *(() if high or on_wall else (CLIMBING,)),
            *(() if high or drawers else (TIPPING,)),
        )


def _lifted(work: Work, mass: float) -> bool:
    """Whether two people are wanted because the piece has to be lifted as a whole."""
    return work in (Work.PACK, Work.DELIVER, Work.FIT_ON_SITE) and mass > ONE_MAN_KG


def names_of(nodes: Iterable[Node]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name, _ in sorted(nodes)))


def bought(fittings: Iterable[Fitting], number: int = 0) -> tuple[Said, ...]:
    """What is screwed on. number : of it here, where a fitting is counted for several parts together."""
    counts: dict[tuple[str, Said], int] = {}
    for one in fittings:
        counts[one.name, one.size] = counts.get((one.name, one.size), 0) + one.count
    return tuple(
        said("{count:count} × {name:word}, {size}", count=number or count, name=name, size=size)
        for (name, size), count in counts.items()
    )
