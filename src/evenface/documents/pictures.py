"""The drawings of a job, each at a scale that is true on its paper, with a safe name for its file."""

import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from evenface.behaviour import Behaviour
from evenface.checks.flat_limits import limit_for, over_the_part
from evenface.construction import BuiltPanel, Construction
from evenface.documents.flat_tables import rows_of
from evenface.documents.setting import shortened
from evenface.drawings import (
    Scene,
    build_up_of,
    distinct_sides,
    marked_out,
    plan_of,
    section_of,
    sheet_of,
    to_svg,
    whole_scenes,
    worked_board_of,
)
from evenface.drawings.flat_chart import flat_chart_of
from evenface.drawings.grip_section import grip_sections_of
from evenface.drawings.plan import crowd_mm
from evenface.result import Result, Sketch
from evenface.words import ENGLISH, Manner, Own

WIDEST_MM: Final = 170.0
HIGHEST_MM: Final = 118.0
PLAN_MM: Final = 100.0
"""A plan is no higher, so that sections, sizes and their reasons stand on the same page."""
HALF_MM: Final = 86.0
"""Two drawings no wider than this stand side by side."""
PAPER_MM: Final = (WIDEST_MM, HIGHEST_MM)
SCALES: Final = (1.0, 0.5, 0.2, 0.1, 0.05, 0.02)
"""1:1 to 1:50: the scales every rule of a workshop carries."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing ready to be printed. width_mm, height_mm : on the paper. name : of its file."""

    name: str
    title: str
    svg: str
    width_mm: float
    height_mm: float
    scale: str


@dataclass(frozen=True, slots=True)
class Pictures:
    """Drawings by the id of their part, and by (number of the layout, number of the sheet) from 0.

    years : flatness through the year by the id of its part; of parts that bend alike only the first.
    wholes : of whole pieces, by the number of the piece from 1; loose panels have none. boards : of boards of solid
    wood with something worked into them, by the id of their part. marked : worked parts with the place of every hole
    and hollow, by the number of the piece.
    """

    panels: Mapping[str, tuple[Picture, ...]] = field(default_factory=dict)
    sheets: Mapping[tuple[int, int], tuple[Picture, ...]] = field(default_factory=dict)
    years: Mapping[str, tuple[Picture, ...]] = field(default_factory=dict)
    wholes: Mapping[int, tuple[Picture, ...]] = field(default_factory=dict)
    boards: Mapping[str, tuple[Picture, ...]] = field(default_factory=dict)
    marked: Mapping[int, tuple[Picture, ...]] = field(default_factory=dict)

    def __iter__(self) -> Iterator[Picture]:
        for drawn in (self.panels, self.sheets, self.years, self.wholes, self.boards, self.marked):
            for group in drawn.values():
                yield from group


def picture_of(scene: Scene, name: str) -> Picture:
    """The scene as a picture."""
    return Picture(name, scene.title, to_svg(scene), scene.width_mm, scene.height_mm, scene.scale_text)


def slug(*words: str) -> str:
    """A name every file system takes: small letters, digits and hyphens, at most 60 signs."""
    text = unicodedata.normalize("NFKD", " ".join(words)).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", text).strip("-")[:60].strip("-") or "drawing"


def unique(names: Iterable[str]) -> list[str]:
    """The same names, with a number behind those that would stand twice."""
    taken: set[str] = set()
    given = []
    for name in names:
        candidate, number = name, 2
        while candidate in taken:
            candidate, number = f"{name}-{number}", number + 1
        taken.add(candidate)
        given.append(candidate)
    return given


def pictures_of(result: Result, manner: Manner = ENGLISH) -> Pictures:
    """Every drawing of the job: of the panels in the order of the parts, then of the sheets."""
    panels = [panel for construction in result.sketch.constructions for panel in construction.panels]
    shown = [
        panel.panel.buildup not in {other.panel.buildup for other in panels[:n]}
        for n, panel in enumerate(panels)
    ]
    scenes = [list(panel_scenes(panel, manner, first)) for panel, first in zip(panels, shown, strict=True)]
    names = iter(
        unique(
            slug(panel.piece, panel.name, kind)
            for panel, made in zip(panels, scenes, strict=True)
            for kind, _ in made
        )
    )
    return Pictures(
        panels={
            part.id: tuple(picture_of(scene, next(names)) for _, scene in made)
            for part, made in zip(result.sketch.parts, scenes, strict=True)
        },
        sheets=sheet_pictures(result, manner),
        years=year_pictures(result, manner),
        wholes=whole_pictures(result, manner),
        boards=board_pictures(result, manner),
        marked=marked_pictures(result, manner),
    )


ON_PAPER: Final = ("front", "plan", "side", "section", "apart")


def whole_pictures(result: Result, manner: Manner = ENGLISH) -> dict[int, tuple[Picture, ...]]:
    """Views, section and the piece taken apart, of every piece whose parts stand somewhere.

    The plan stands below the front; side and section, which are often narrow, stand beside each other.
    """
    made: dict[int, tuple[Picture, ...]] = {}
    for number, construction in enumerate(result.sketch.constructions, start=1):
        piece = construction.piece
        called = replace(construction, piece=replace(piece, name=Own(shortened(piece.name, 40))))
        scenes = whole_scenes(called, part_ids(result.sketch, number), manner, SCALES)
        if scenes:
            made[number] = tuple(
                picture_of(scene, slug("whole", str(number), kind, piece.name))
                for kind, scene in sorted(scenes, key=lambda one: ON_PAPER.index(one[0]))
            )
    return made


def marked_pictures(result: Result, manner: Manner = ENGLISH) -> dict[int, tuple[Picture, ...]]:
    """Every worked part as it stands in its piece, except boards whose joints are drawn with them."""
    made: dict[int, tuple[Picture, ...]] = {}
    for number, construction in enumerate(result.sketch.constructions, start=1):
        drawn = []
        for name, part in part_ids(result.sketch, number).items():
            board = any(one.name == name for one in construction.boards)
            if board and not bored(construction, name):
                continue
            scenes = marked_out(construction, name, part, manner)
            drawn += [
                picture_of(scene, slug("marked", part, str(n), construction.piece.name, name))
                for n, scene in enumerate(scenes, start=1)
            ]
        if drawn:
            made[number] = tuple(sorted(drawn, key=lambda one: one.width_mm > HALF_MM))  # two in a row
    return made


def bored(construction: Construction, name: str) -> bool:
    """Whether all that is worked into the part is holes and grooves, which are marked out as it stands."""
    worked = [one for one in construction.arranged.worked if one.part == name]
    return any(one.centres for one in worked) and {one.kind for one in worked if not one.centres} <= {
        "groove"
    }


def board_pictures(result: Result, manner: Manner = ENGLISH) -> dict[str, tuple[Picture, ...]]:
    """Every board of solid wood into which something is worked, lying with its show face up."""
    made: dict[str, tuple[Picture, ...]] = {}
    for number, construction in enumerate(result.sketch.constructions, start=1):
        ids = part_ids(result.sketch, number)
        for board in construction.boards:
            part = ids[board.name]
            if bored(construction, board.name) and marked_out(construction, board.name, part):
                continue
            scenes = worked_board_of(construction, board, part, manner, scales=SCALES)
            if scenes:
                made[part] = tuple(
                    picture_of(scene, slug("board", part, what, board.piece, board.name))
                    for scene, what in zip(scenes, ("", "2", "3", "4"), strict=False)
                )
    return made


def part_ids(sketch: Sketch, number: int) -> dict[str, str]:
    """The ids of the parts of the piece of that number, from 1, by their names."""
    return {part.name: part.id for part in sketch.all_parts if part.id.split(".")[0] == str(number)}


def year_pictures(result: Result, manner: Manner = ENGLISH) -> dict[str, tuple[Picture, ...]]:
    """Bow and cup through the year with their limits, once for parts that bend alike."""
    rows = zip(result.sketch.parts, rows_of(result.sketch), strict=False)
    distinct = {
        tuple((bend.gauge_mm, bend.year, bend.worst) for bend in behaviour.bends): (part.id, panel, behaviour)
        for part, (panel, behaviour) in reversed([*rows])
    }
    made: dict[str, tuple[Picture, ...]] = {}
    for part, panel, behaviour in reversed(distinct.values()):
        name = slug(part, behaviour.piece, behaviour.part, "year")
        made[part] = (picture_of(year_scene(panel, behaviour, manner), name),)
    return made


def year_scene(panel: BuiltPanel, behaviour: Behaviour, manner: Manner = ENGLISH) -> Scene:
    """The chart of one part with its limits."""
    limits = {
        bend.direction: over_the_part(bend, limit_for(panel, bend.direction)) for bend in behaviour.bends
    }
    return flat_chart_of(
        replace(behaviour, part=Own(shortened(manner.name(behaviour.part), 40))), manner, limits
    )


def sheet_pictures(result: Result, manner: Manner = ENGLISH) -> dict[tuple[int, int], tuple[Picture, ...]]:
    """Every sheet of every layout, at the largest usual scale that fits the page."""
    places = [
        (number, index) for number, layout in enumerate(result.layouts) for index in range(len(layout.sheets))
    ]
    names = unique(
        slug("layout", result.layouts[number].material, str(index + 1)) for number, index in places
    )
    return {
        (number, index): (
            picture_of(sheet_of(result.layouts[number], index, manner, paper_mm=PAPER_MM), name),
        )
        for (number, index), name in zip(places, names, strict=True)
    }


def panel_scenes(
    panel: BuiltPanel, manner: Manner = ENGLISH, with_build_up: bool = True
) -> Iterator[tuple[str, Scene]]:
    """Plan at the largest usual scale that fits its page, each distinct edge and grip 1:1, and the build-up.

    A long name is shortened in them.
    """
    panel = replace(panel, name=Own(shortened(manner.name(panel.name), 40)))
    higher = crowd_mm(panel, manner)
    yield "plan", at_usual_scale(lambda scale: plan_of(panel, manner, scale, PAPER_MM), panel, higher)
    for sides in distinct_sides(panel):
        yield f"section {sides[0].value}", section_of(panel, sides[0], manner, also=sides[1:])
    for name, scene in grip_sections_of(panel, manner):
        yield f"grip {name}", scene
    if with_build_up:  # once for each build-up is enough
        yield "build-up", build_up_of(panel, manner)


def at_usual_scale(draw: Callable[[float], Scene], panel: BuiltPanel, higher_mm: float = 0.0) -> Scene:
    """The scene at the largest usual scale that fits the page, else the smallest. higher_mm : what it may be higher."""
    for scale in SCALES:
        if panel.length_mm * scale > WIDEST_MM - 12 or panel.width_mm * scale > PLAN_MM - 12:
            continue
        scene = draw(scale)
        if scene.width_mm <= WIDEST_MM and scene.height_mm <= PLAN_MM + higher_mm:
            return scene
    return draw(SCALES[-1])
