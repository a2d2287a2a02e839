"""A piece in three dimensions, for programs and for the page that shows it: triangles, and bows by month."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated, Final

from pydantic import BaseModel, Field

from evenface.behaviour import Behaviour
from evenface.construction import Construction
from evenface.construction.placed import Placement, Point
from evenface.documents.flat_tables import rows_of
from evenface.drawings.solid import Body, SolidPart, SolidPiece, solid_of
from evenface.drawings.solid_mesh import Line
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.words import said

_PIECE: Final = "/jobs/{job}/pieces/{piece}"
_DIGITS: Final = 3
"""Coordinates are told to a thousandth of a millimetre."""
Three = Annotated[list[float], Field(min_length=3, max_length=3)]


class ColourAnswer(BaseModel):
    """A tone as #rrggbb and what it stands for."""

    tone: str
    title: str


class BodyAnswer(BaseModel):
    """One layer, strip or insert of a part, closed, in the part's own coordinates."""

    role: str
    colour: Annotated[str, Field(description="A key of `colours`.")]
    leaves: Annotated[Three, Field(description="How far it goes when a loose panel is taken apart.")]
    positions: Annotated[list[float], Field(description="x, y, z of one point after the other.")]
    triangles: Annotated[
        list[int], Field(description="Three numbers of points each; outwards counter-clockwise.")
    ]
    lines: Annotated[
        list[float], Field(description="Edges to draw: x, y, z of both ends, one after another.")
    ]
    covered: Annotated[list[float], Field(description="Edges under other layers, seen when they are apart.")]


class SolidPartAnswer(BaseModel):
    """A part: x along its length, y along its width, z towards its show face."""

    number: str
    name: str
    size: Annotated[Three, Field(description="Length, width, thickness.")]
    bodies: list[BodyAnswer]


class PlacedAnswer(BaseModel):
    """Where a part stands: its corner, its axes in the piece, and where it goes when all is taken apart."""

    part: Annotated[int, Field(description="Its place in `parts`, from 0.")]
    label: str
    at: Three
    x: Three
    y: Three
    z: Three
    apart: Three


class SolidAnswer(BaseModel):
    """A piece in triangles: x to the right, y to the rear, z up. Loose panels lie side by side."""

    name: str
    loose: bool
    low: Three
    high: Three
    colours: dict[str, ColourAnswer]
    parts: list[SolidPartAnswer]
    placed: list[PlacedAnswer]


class BowAnswer(BaseModel):
    """Rise of the middle of a part that lies free, January to December; positive domes the show face."""

    number: str
    along: Annotated[list[float], Field(description="Over its length; empty for a board.")]
    across: Annotated[list[float], Field(description="Over its width; empty for a board.")]


def solid(site: Site, call: Call) -> SolidAnswer:
    """The piece in triangles."""
    view = site.desk.look(call.job(site), flat=False)
    return _answer(solid_piece(view, piece_of(view, call.path["piece"])))


def bows(site: Site, call: Call) -> list[BowAnswer]:
    """Bow of every part by month, in the order of its parts."""
    view = site.desk.look(call.job(site))
    known = solid_piece(view, piece_of(view, call.path["piece"]))
    return [
        BowAnswer(number=one.number, along=_rounded(one.along_mm), across=_rounded(one.across_mm))
        for one in known.parts
    ]


def piece_of(view: View, given: str) -> Construction:
    """The piece of that number, from 1. Raises NoSuchPage."""
    number = int(given) if given.isascii() and given.isdigit() and len(given) < 6 else 0
    if not 1 <= number <= len(view.sketch.constructions):
        raise NoSuchPage(said("This job has no piece {piece}.", piece=repr(given[:20])))
    return view.sketch.constructions[number - 1]


def solid_piece(view: View, construction: Construction) -> SolidPiece:
    """The piece in triangles, its parts numbered as on labels; with bows where the flatness is known."""
    return solid_of(construction, part_numbers(view, construction), _behaviours(view, construction))


def part_numbers(view: View, construction: Construction) -> dict[str, str]:
    """The numbers of the parts of a piece by their names."""
    return {part.name: part.id for part in view.sketch.all_parts if part.piece == construction.piece.name}


def _behaviours(view: View, construction: Construction) -> Mapping[str, Behaviour]:
    mine = {id(panel) for panel in construction.panels}
    return {panel.name: known for panel, known in rows_of(view.sketch) if id(panel) in mine}


def _answer(known: SolidPiece) -> SolidAnswer:
    return SolidAnswer(
        name=known.name, loose=known.loose, low=_rounded(known.low), high=_rounded(known.high),
        colours={key: ColourAnswer(tone=one.tone, title=one.title) for key, one in known.colours.items()},
        parts=[_part(one) for one in known.parts],
        placed=[_placed(number, one) for number, one in known.placed],
    )  # fmt: skip


def _part(one: SolidPart) -> SolidPartAnswer:
    return SolidPartAnswer(
        number=one.number,
        name=one.name,
        size=_rounded(one.size_mm),
        bodies=[_body(body) for body in one.bodies],
    )


def _body(one: Body) -> BodyAnswer:
    positions: list[float] = []
    triangles: list[int] = []
    lines: list[float] = []
    covered: list[float] = []
    for mesh in one.meshes:
        first = len(positions) // 3
        positions += (round(value, _DIGITS) for point in mesh.points for value in point)
        triangles += (number + first for triangle in mesh.triangles for number in triangle)
        lines += _flat(mesh.lines)
        covered += _flat(mesh.covered)
    return BodyAnswer(
        role=one.role.value, colour=one.colour, leaves=list(one.leaves), positions=positions, triangles=triangles,
        lines=lines, covered=covered,
    )  # fmt: skip


def _flat(lines: Sequence[Line]) -> Iterator[float]:
    return (round(value, _DIGITS) for line in lines for point in line for value in point)


def _placed(number: int, one: Placement) -> PlacedAnswer:
    return PlacedAnswer(
        part=number, label=one.label, at=_rounded(one.at), x=list(one.x_axis.vector), y=list(one.y_axis.vector),
        z=list(one.z_axis.vector), apart=_rounded(one.apart),
    )  # fmt: skip


def _rounded(values: Point | tuple[float, ...]) -> list[float]:
    return [round(value, _DIGITS) for value in values]


OPERATIONS: Final = (
    Operation("GET", f"{_PIECE}/solid", "readSolid", "A piece in triangles", solid, SolidAnswer),
    Operation("GET", f"{_PIECE}/bows", "readBows", "Bow of the parts of a piece by month", bows, list[BowAnswer]),
)  # fmt: skip
