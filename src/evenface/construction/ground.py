"""What a piece is built on: the job, the catalogue, what is measured; build-ups with their thicknesses."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from evenface.construction.allowances import GLUE_LINE
from evenface.construction.levels import Levels, stack_levels
from evenface.construction.placed import BuildUpSizes
from evenface.evidence import Value
from evenface.materials import Carrier, Facing, Glue, Wood
from evenface.piece.records import NOTHING_MADE, BuildUp, Job, Layer, Made, Piece, Role


class Materials(Protocol):
    """What construction asks of the catalogue; each call raises MissingWord for an unknown name."""

    def carrier(self, name: str) -> Carrier: ...
    def facing(self, name: str) -> Facing: ...
    def wood(self, name: str) -> Wood: ...
    def glue(self, name: str) -> Glue: ...


@dataclass(frozen=True, slots=True)
class Layered:
    """A build-up with its materials found and measured thicknesses put in."""

    carrier_layer: Layer
    carrier: Carrier
    carrier_mm: Value
    sheets: dict[Role, tuple[Layer, Facing, Value]]
    levels: Levels


def layered(buildup: BuildUp, materials: Materials, made: Made) -> Layered:
    """A build-up resolved. ValueError when it has no carrier, MissingWord for an unknown material."""
    layer = _layer(buildup, Role.CARRIER)
    if layer is None:
        raise ValueError(f"build-up {buildup.name!r} has no carrier")
    carrier, carrier_mm = _carrier(materials, layer, made)
    sheets = dict(_sheets(materials, buildup, made))
    levels = stack_levels(
        carrier_mm.nominal,
        sheets[Role.FACE][2].nominal if Role.FACE in sheets else None,
        sheets[Role.BACK][2].nominal if Role.BACK in sheets else None,
        GLUE_LINE.nominal,
    )
    return Layered(layer, carrier, carrier_mm, sheets, levels)


@dataclass(frozen=True, slots=True)
class Ground:
    """What a kind builds a piece on."""

    job: Job
    piece: Piece
    materials: Materials
    made: Made = NOTHING_MADE

    def sizes_of(self, buildup: str) -> BuildUpSizes:
        """Thicknesses of a build-up of the job. KeyError for an unknown one."""
        found = layered(self.job.buildups[buildup], self.materials, self.made)
        return BuildUpSizes(
            thickness_mm=found.levels.total_mm,
            carrier_mm=found.levels.carrier_mm,
            face_mm=found.levels.face_mm,
            back_mm=found.levels.back_mm,
            carrier=found.carrier_mm,
            carrier_z0_mm=found.levels.carrier_bottom_mm,
        )

    def thickness_mm(self, buildup: str) -> float:
        """Thickness over everything. [mm]"""
        return self.sizes_of(buildup).thickness_mm


def _layer(buildup: BuildUp, role: Role) -> Layer | None:
    return next((layer for layer in buildup.layers if layer.role is role), None)


def _carrier(materials: Materials, layer: Layer, made: Made) -> tuple[Carrier, Value]:
    carrier = materials.carrier(layer.material)
    measured = made.thicknesses.get(layer.material)
    if measured is not None:
        carrier = carrier.with_thickness(measured)
    elif layer.thickness_mm is not None:
        carrier = carrier.with_thickness(layer.thickness_mm)
    return carrier, carrier.thickness


def _sheets(
    materials: Materials, buildup: BuildUp, made: Made
) -> Iterator[tuple[Role, tuple[Layer, Facing, Value]]]:
    for role in (Role.FACE, Role.BACK):
        layer = _layer(buildup, role)
        if layer is None:
            continue
        facing = materials.facing(layer.material)
        measured = made.thicknesses.get(layer.material, layer.thickness_mm)
        if measured is not None:
            facing = facing.with_thickness(measured)
        yield role, (layer, facing, facing.thickness)
