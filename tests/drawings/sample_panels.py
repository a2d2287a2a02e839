"""Panels to draw: a small catalogue of our own and panels built by construction from it."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from evenface.construction import BuiltPanel
from evenface.construction.build import build_panel
from evenface.errors import MissingWord
from evenface.evidence import Status, Value
from evenface.materials.records import Carrier, Facing, Glue, Wood
from evenface.piece.records import (
    BuildUp,
    Corner,
    CornerAt,
    Cutout,
    Edge,
    Job,
    Layer,
    Meeting,
    Order,
    Panel,
    Piece,
    Role,
    Side,
)
from evenface.shape.outline import Outline


def figures(record: type, **given: float) -> dict[str, Any]:
    """Every figure of a kind of record: 1 in its unit unless given (their worth does not matter here)."""
    return {
        name: Value(
            given.get(name, 1.0), given.get(name, 1.0), given.get(name, 1.0), unit, Status.MEMORY, "sample"
        )
        for name, unit in record.UNITS.items()  # type: ignore[attr-defined]
    }


def carrier(name: str, title: str, board: str, mm: float, plies: int = 0) -> Carrier:
    fields = figures(Carrier, thickness=mm, density=650.0)
    return Carrier(name, title, board, mm, supplies=(), source="sample", plies=plies, **fields)  # type: ignore[arg-type]


def facing(name: str, title: str, family: str, mm: float) -> Facing:
    fields = figures(Facing, thickness=mm, density=1400.0)
    return Facing(
        name, title, family, "", True, sold_thicknesses_mm=(mm,), supplies=(), source="sample", **fields
    )  # type: ignore[arg-type]


class Shelf:
    """The catalogue of these tests."""

    def __init__(self) -> None:
        wood = {
            name: Wood(name, name, "", True, supplies=(), source="sample", **figures(Wood, density=680.0))
            for name in ("ash", "oak")
        }
        glue = Glue(
            "pva-d3", "PVA D3", "pva", "D3", sides=1, coats=1, rigid=True, source="sample", **figures(Glue)
        )
        boards = (
            carrier("birch-ply-18", "birch plywood 18", "plywood", 18.0, 13),
            carrier("mdf-16", "MDF 16", "mdf", 16.0),
            carrier("particleboard-19", "particleboard 19", "particleboard", 19.0),
            carrier("blockboard-22", "blockboard 22", "blockboard", 22.0),
            carrier("compact-12", "compact laminate 12", "compact", 12.0),
            carrier("solid-20", "solid ash 20", "solid", 20.0),
        )
        sheets = (
            facing("hpl-0.8", "HPL, horizontal grade, 0.8", "hpl", 0.8),
            facing("linoleum-2", "furniture linoleum 2", "linoleum", 2.0),
            facing("veneer-0.6", "oak veneer 0.6", "veneer", 0.6),
            facing("paper-0.3", "balancing paper 0.3", "paper", 0.3),
        )
        self._known: dict[str, dict[str, Any]] = {
            "carrier": {one.name: one for one in boards},
            "facing": {one.name: one for one in sheets},
            "wood": wood,
            "glue": {glue.name: glue},
        }

    def _get(self, kind: str, name: str) -> Any:
        if name not in self._known[kind]:
            raise MissingWord(kind, name, list(self._known[kind]))
        return self._known[kind][name]

    def carrier(self, name: str) -> Carrier:
        return self._get("carrier", name)  # type: ignore[no-any-return]

    def facing(self, name: str) -> Facing:
        return self._get("facing", name)  # type: ignore[no-any-return]

    def wood(self, name: str) -> Wood:
        return self._get("wood", name)  # type: ignore[no-any-return]

    def glue(self, name: str) -> Glue:
        return self._get("glue", name)  # type: ignore[no-any-return]


SHELF = Shelf()


def built(
    panel: Panel,
    face: str = "hpl-0.8",
    core: str = "birch-ply-18",
    back: str = "hpl-0.8",
    turned: float = 0.0,
) -> BuiltPanel:
    """The panel built with that build-up; an empty name leaves the sheet away."""
    layers = [Layer(Role.BACK, back)] if back else []
    layers.append(Layer(Role.CARRIER, core))
    if face:
        layers.append(Layer(Role.FACE, face, direction_deg=turned))
    job = Job(1, "Glaze room", {"b": BuildUp("b", tuple(layers), "pva-d3")}, ())
    piece = Piece("bench", "panel", 1, (panel,))
    return build_panel(job, piece, replace(panel, buildup="b"), SHELF)[0]


def edges(
    widths: Sequence[float],
    top: Meeting = Meeting.UNDER,
    bottom: Meeting = Meeting.UNDER,
    order: Order = Order.EDGING_FIRST,
) -> tuple[Edge, ...]:
    """Ash edging on front, rear, left, right; 0 leaves a side bare."""
    return tuple(
        Edge(side, "ash", width, top=top, bottom=bottom, order=order)
        for side, width in zip(Side, widths, strict=True)
        if width
    )


def rounded(radius: float, shape: str = "radius") -> tuple[Corner, ...]:
    return tuple(Corner(at, shape, radius) for at in CornerAt)


def box(x: float, y: float, length: float, width: float, radius: float = 0.0) -> Outline:
    from evenface.shape.build import rounded_rectangle

    return rounded_rectangle(length, width, radius).moved(x, y)


def bench() -> BuiltPanel:
    """The glazing bench: R 60 all round, a basin and a drain."""
    cutouts = (
        Cutout("basin", box(1100, 150, 480, 380, 20)),
        Cutout("drain", box(300, 280, 60, 60, 30)),
    )
    return built(
        Panel("top", 1, 1800, 650, "b", edges=edges((14,) * 4), corners=rounded(60), cutouts=cutouts)
    )
