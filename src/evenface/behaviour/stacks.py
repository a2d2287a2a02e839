"""A built panel as a stack of numbers, and which of them are uncertain by how much."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from evenface.behaviour.spreads import varied_humidity, varied_properties
from evenface.construction import BuiltPanel, CarrierLayer, FaceLayer
from evenface.evidence import Status, weakest
from evenface.materials import Carrier, Facing, Finish, values_of
from evenface.mechanics import GlueWater, SoftGlue, Stack, Varied
from evenface.piece.records import NOTHING_MADE, Job, Made, Role

AIR_FILM_M = 0.01
"""Still air at a face, as a thickness of air that resists vapour as much (about 1 / 25 m/h of exchange)."""
SOFT_SHEAR_MPA = 0.5
SOFT_LINE_MM = 0.1
"""A contact glue under a load that lasts: shear modulus and film, from memory (0.2 to 2 MPa)."""
WET_DEPTH_MM = 3.0
"""How deep the water of a glue spreads into a board within the press time; 2 to 5 mm, an estimate."""
FAR_OUT = 2.2
"""Times the half width of a 90 % range: beyond it no draw of the band comes."""
PAPER_SHARE = 0.9
"""Of the vapour resistance of a board that comes faced, so much lies in its two papers; an estimate."""

type Layer = FaceLayer | CarrierLayer


@dataclass(frozen=True, slots=True)
class Stacked:
    """Numbers of a panel: the stack bottom to top, humidity at bonding of each layer, what is uncertain.

    size_mm : given only where a soft glue line makes the curvature depend on it.
    key : equal for panels that behave alike.
    """

    stack: Stack
    humidity_at_bonding: tuple[float, ...]
    varied: tuple[Varied, ...]
    weakest: Status
    key: bytes
    soft_glue: tuple[SoftGlue, ...] = ()
    size_mm: tuple[float, float] | None = None
    glue_water: tuple[GlueWater, ...] = field(default=())


def stacked(job: Job, panel: BuiltPanel, made: Made = NOTHING_MADE, finish: Finish | None = None) -> Stacked:
    """The panel as the mechanics take it. `finish` lies on its bare faces and slows vapour there."""
    layers = layers_of(panel)
    rows = [_row(layer) for layer in layers]
    films = {side: _film(panel, side, finish) for side in (Role.BACK, Role.FACE)}
    paper = _paper(panel)
    stack = Stack(
        thickness_mm=np.array([row[0] for row in rows]),
        E1_MPa=np.array([row[1] for row in rows]),
        E2_MPa=np.array([row[2] for row in rows]),
        nu12=np.array([row[3] for row in rows]),
        G12_MPa=np.array([row[4] for row in rows]),
        angle_deg=np.array([layer.direction_deg for layer in layers]),
        expansion_1=np.array([row[5] for row in rows]),
        expansion_2=np.array([row[6] for row in rows]),
        vapour_resistance=np.array([row[7] for row in rows]),
        storage_kg_m3=np.array([row[8] for row in rows]),
        film_bottom_m=np.asarray(AIR_FILM_M + films[Role.BACK] + paper),
        film_top_m=np.asarray(AIR_FILM_M + films[Role.FACE] + paper),
    )
    bonding, known = humidities_at_bonding(job, panel, made)
    varied = (
        *varied_properties(layers, rows),
        *varied_humidity(layers, bonding, known),
        *_varied_films(films, finish),
        *_varied_paper(panel, paper),
    )
    statuses = [value.status for layer in layers for value in values_of(layer.material).values()]
    statuses += [finish.vapour_sd.status] if finish and any(films.values()) else []
    soft, water = _glue_lines(panel, len(layers))
    size = (panel.length_mm, panel.width_mm) if soft else None
    parts = [np.asarray(getattr(stack, name), dtype=np.float64) for name in Stack.__dataclass_fields__]
    key = _bytes(parts) + repr((bonding, varied, soft, water, size)).encode()
    return Stacked(stack, bonding, varied, weakest(statuses), key, soft, size, water)


def _bytes(arrays: list[NDArray[np.float64]]) -> bytes:
    return b"".join(np.ascontiguousarray(array).tobytes() for array in arrays)


def layers_of(panel: BuiltPanel) -> tuple[Layer, ...]:
    """Back, carrier and face, as far as they are there, bottom to top."""
    found: tuple[Layer | None, ...] = (panel.face(Role.BACK), panel.carrier, panel.face(Role.FACE))
    return tuple(layer for layer in found if layer is not None)


def humidities_at_bonding(
    job: Job, panel: BuiltPanel, made: Made = NOTHING_MADE
) -> tuple[tuple[float, ...], tuple[bool, ...]]:
    """Humidity each layer is in balance with when glued, bottom to top, and whether somebody gave it.

    Measured on the batch, else written for the layer, else for the build-up, else the shop's.
    """
    buildup = job.buildups.get(panel.panel.buildup)
    usual = buildup.bonding_humidity if buildup and buildup.bonding_humidity is not None else None
    found, known = [], []
    for layer in layers_of(panel):
        own = made.humidities.get(layer.material.name, layer.humidity_at_bonding)
        found.append(own if own is not None else usual if usual is not None else job.shop_humidity)
        known.append(own is not None)
    return tuple(found), tuple(known)


def resistance_factor(material: Carrier | Facing, thickness_mm: float) -> float:
    """Vapour resistance factor µ between dry and wet cup, or from the sheet's own s_d. [-]"""
    if isinstance(material, Carrier):
        inside = 1.0 - PAPER_SHARE if material.faced else 1.0
        return inside * _between_cups(material)
    return material.vapour_sd.nominal * 1000.0 / thickness_mm


def _between_cups(board: Carrier) -> float:
    return float(np.sqrt(board.resistance_dry.nominal * board.resistance_wet.nominal))


def _paper(panel: BuiltPanel) -> float:
    """s_d of each paper of a board that comes faced. [m]"""
    board = panel.carrier
    if not board.material.faced:
        return 0.0
    return PAPER_SHARE / 2.0 * _between_cups(board.material) * board.thickness.nominal / 1000.0


def _varied_paper(panel: BuiltPanel, paper: float) -> Iterator[Varied]:
    if paper > 0.0 and not panel.faces:
        board = panel.carrier.material
        low, high = (
            AIR_FILM_M + paper * cup.nominal / _between_cups(board)
            for cup in (board.resistance_wet, board.resistance_dry)
        )
        name = f"{board.title}: vapour resistance of its faces"
        yield Varied(name, "film_bottom_m", (), AIR_FILM_M + paper, low, high, also=("film_top_m",))


def _poisson(material: Carrier | Facing) -> float:
    """Poisson's ratio, kept to what a material can have (ν²·E2 < E1) with its moduli far out in their spread."""
    along, across = material.modulus_along, material.modulus_across
    if along.nominal == across.nominal:
        return material.poisson.nominal
    softest = along.nominal * (along.low / along.nominal) ** FAR_OUT
    stiffest = across.nominal * (across.high / across.nominal) ** FAR_OUT
    return min(material.poisson.nominal, 0.95 * float(np.sqrt(softest / stiffest)))


def _row(layer: Layer) -> tuple[float, ...]:
    material, thickness = layer.material, layer.thickness.nominal
    return (
        thickness,
        material.modulus_along.nominal,
        material.modulus_across.nominal,
        _poisson(material),
        material.shear_modulus.nominal,
        material.expansion_along.nominal,
        material.expansion_across.nominal,
        resistance_factor(material, thickness),
        material.storage.nominal * material.density.nominal,
    )


def _film(panel: BuiltPanel, side: Role, finish: Finish | None) -> float:
    """The finish's s_d on a face of bare board. [m]"""
    bare = panel.face(side) is None and not panel.carrier.material.faced
    return finish.vapour_sd.nominal if finish is not None and bare else 0.0


def _varied_films(films: Mapping[Role, float], finish: Finish | None) -> Iterator[Varied]:
    for side, name in ((Role.BACK, "film_bottom_m"), (Role.FACE, "film_top_m")):
        if finish is not None and films[side] > 0.0:
            sd = finish.vapour_sd
            middle, low, high = (AIR_FILM_M + value for value in (sd.nominal, sd.low, sd.high))
            yield Varied(f"{finish.title}: vapour resistance", name, (), middle, low, high)


def _glue_lines(panel: BuiltPanel, count: int) -> tuple[tuple[SoftGlue, ...], tuple[GlueWater, ...]]:
    """Lines that give, and the water each line brings; all of it goes into the board, not into the sheet."""
    glue = panel.glue
    grams = glue.spread.nominal * glue.sides * glue.coats * glue.water_share.nominal
    deep = min(WET_DEPTH_MM, panel.carrier.thickness.nominal / 2.0)
    back = panel.face(Role.BACK) is not None
    soft, water = [], []
    for line in range(1, count):
        if not glue.rigid:
            soft.append(SoftGlue(line, SOFT_SHEAR_MPA, SOFT_LINE_MM))
        if grams > 0.0:
            under_the_board = back and line == 1
            depths = (0.0, deep) if under_the_board else (deep, 0.0)
            water.append(GlueWater(line, grams / 1000.0, *depths))
    return tuple(soft), tuple(water)
