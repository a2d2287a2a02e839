"""What is known of one board, facing, wood, glue or finish.

Every figure is a `Value`: number, 90 % range, unit, status, source. Lengths in mm, moduli in MPa, humidity
and moisture content as fractions. For sheets the first direction ("along") is the face grain of a board,
the machine (sanding) direction of a laminate, the length of a roll.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Final, Literal

from evenface.evidence import Value
from evenface.materials import quantities as q
from evenface.materials.supply import Supply, one_of

type Board = Literal["plywood", "mdf", "particleboard", "blockboard", "compact", "solid"]
type Family = Literal[
    "hpl", "hpl_backer", "continuous_laminate", "melamine", "linoleum", "paper", "veneer", "compact"
]
type GlueKind = Literal[
    "pva", "contact_solvent", "contact_water", "urea", "polyurethane", "hot_melt", "hide", "epoxy"
]
type Units = Mapping[str, str]

BOARDS: Final = ("plywood", "mdf", "particleboard", "blockboard", "compact", "solid")
FAMILIES: Final = (
    "hpl",
    "hpl_backer",
    "continuous_laminate",
    "melamine",
    "linoleum",
    "paper",
    "veneer",
    "compact",
)
LAMINATES: Final = ("hpl", "hpl_backer", "continuous_laminate", "compact")
GLUE_KINDS: Final = (
    "pva",
    "contact_solvent",
    "contact_water",
    "urea",
    "polyurethane",
    "hot_melt",
    "hide",
    "epoxy",
)
WATER_CLASSES: Final = ("", "D1", "D2", "D3", "D4")

_NAME: Final = re.compile(r"[a-z0-9]+(?:[.-][a-z0-9]+)*")
_MAY_BE_ZERO: Final = frozenset({"water_share", "press_time", "pressure", "closed_time", "poisson"})
_MAY_BE_NEGATIVE: Final = frozenset({"least_temperature"})


@dataclass(frozen=True, slots=True)
class Carrier:
    """A board to be faced.

    thickness : true thickness of a batch, mm; its range is what a sheet named `nominal_mm` may measure.
    modulus_along, modulus_across : in bending, MPa. stretch_along, stretch_across : in pure tension in the
        plane, where it is known to differ; None means take the bending figure.
    expansion_along, expansion_across : strain per unit of relative humidity, mean of 35 to 65 %.
    thickness_movement : strain of the thickness per unit of moisture content, or None.
    resistance_dry, resistance_wet : vapour resistance factor µ, dry and wet cup.
    storage : moisture content per unit of relative humidity, 30 to 65 %.
    plies : number of plies, 0 when not layered. faced : True for a board that comes with its faces on.
    disagreement : what the sources do not agree about in using it under a facing, empty when they do; where
        they differ about a figure, its range and source say so.
    Raises ValueError for a wrong unit, a figure that is not above zero, an unknown kind of board.
    """

    name: str
    title: str
    board: Board
    nominal_mm: float
    thickness: Value
    density: Value
    modulus_along: Value
    modulus_across: Value
    shear_modulus: Value
    poisson: Value
    expansion_along: Value
    expansion_across: Value
    resistance_dry: Value
    resistance_wet: Value
    storage: Value
    supplies: tuple[Supply, ...]
    source: str
    plies: int = 0
    faced: bool = False
    stretch_along: Value | None = None
    stretch_across: Value | None = None
    thickness_movement: Value | None = None
    cautions: tuple[str, ...] = ()
    disagreement: str = ""

    UNITS: ClassVar[Units] = {
        "thickness": q.MM,
        "density": q.DENSITY,
        "modulus_along": q.STRESS,
        "modulus_across": q.STRESS,
        "shear_modulus": q.STRESS,
        "poisson": q.RATIO,
        "expansion_along": q.PER_HUMIDITY,
        "expansion_across": q.PER_HUMIDITY,
        "resistance_dry": q.RATIO,
        "resistance_wet": q.RATIO,
        "storage": q.STORAGE,
        "stretch_along": q.STRESS,
        "stretch_across": q.STRESS,
        "thickness_movement": q.PER_MOISTURE,
    }

    def __post_init__(self) -> None:
        _check(self, self.name, self.title, self.source)
        one_of("board", self.board, BOARDS)
        if not 0.0 < self.nominal_mm <= 200.0:
            raise ValueError(f"expected a nominal thickness up to 200 mm, was given {self.nominal_mm}")
        if self.plies < 0:
            raise ValueError(f"expected a number of plies, was given {self.plies}")

    def with_thickness(self, thickness_mm: float, spread_mm: float = 0.0) -> "Carrier":
        """The same board with the thickness measured on the batch at hand, mm ± spread."""
        return replace(self, thickness=self.thickness.measured(thickness_mm, spread_mm))


@dataclass(frozen=True, slots=True)
class Facing:
    """A sheet glued to a face of a carrier: the face itself or the sheet that balances it.

    grade : of laminates "horizontal", "vertical", "postforming", "backer"; otherwise "".
    decorative : False for a sheet meant for unseen sides.
    sold_thicknesses_mm : the thicknesses its family and grade is sold in.
    vapour_sd : thickness of the layer of still air that resists vapour as much, m.
    inner_radius_stop, inner_radius_weigh : inner corners of cut-outs below these break, or may break, mm.
    bend_radius_along, bend_radius_across : smallest radius bent cold about a line along, or across, the
        machine direction; form_radius_* the same with heat, mm.
    Raises ValueError for a wrong unit, a figure that is not above zero, an unknown family.
    """

    name: str
    title: str
    family: Family
    grade: str
    decorative: bool
    thickness: Value
    sold_thicknesses_mm: tuple[float, ...]
    density: Value
    modulus_along: Value
    modulus_across: Value
    shear_modulus: Value
    poisson: Value
    expansion_along: Value
    expansion_across: Value
    vapour_sd: Value
    storage: Value
    supplies: tuple[Supply, ...]
    source: str
    inner_radius_stop: Value | None = None
    inner_radius_weigh: Value | None = None
    bend_radius_along: Value | None = None
    bend_radius_across: Value | None = None
    form_radius_along: Value | None = None
    form_radius_across: Value | None = None
    cautions: tuple[str, ...] = ()
    disagreement: str = ""

    UNITS: ClassVar[Units] = {
        "thickness": q.MM,
        "density": q.DENSITY,
        "modulus_along": q.STRESS,
        "modulus_across": q.STRESS,
        "shear_modulus": q.STRESS,
        "poisson": q.RATIO,
        "expansion_along": q.PER_HUMIDITY,
        "expansion_across": q.PER_HUMIDITY,
        "vapour_sd": q.METRE,
        "storage": q.STORAGE,
        "inner_radius_stop": q.MM,
        "inner_radius_weigh": q.MM,
        "bend_radius_along": q.MM,
        "bend_radius_across": q.MM,
        "form_radius_along": q.MM,
        "form_radius_across": q.MM,
    }

    def __post_init__(self) -> None:
        _check(self, self.name, self.title, self.source)
        one_of("family", self.family, FAMILIES)
        if not all(0.0 < thickness <= 50.0 for thickness in self.sold_thicknesses_mm):
            raise ValueError(f"expected thicknesses up to 50 mm, was given {self.sold_thicknesses_mm}")

    @property
    def is_laminate(self) -> bool:
        """Whether it is a resin-bonded sheet, which moves, chips and cracks as laminates do."""
        return self.family in LAMINATES

    def with_thickness(self, thickness_mm: float, spread_mm: float = 0.0) -> "Facing":
        """The same facing with the thickness measured on the sheet at hand, mm ± spread."""
        return replace(self, thickness=self.thickness.measured(thickness_mm, spread_mm))


@dataclass(frozen=True, slots=True)
class Wood:
    """A solid wood, for edgings, inserts and boards.

    modulus_along, modulus_radial, modulus_tangential : E_L, E_R, E_T at 12 % moisture content, MPa.
    shear_lr, shear_lt : G_LR, G_LT, MPa. poisson_lr, poisson_lt : first index = direction of the load.
    movement_radial, movement_tangential, movement_along : strain per unit of moisture content, 6 to 14 %.
    shrinkage_radial, shrinkage_tangential : green to oven dry, as a fraction of the green size, or None.
    fibre_saturation : moisture content, fraction.
    storage : moisture content per unit of relative humidity, 30 to 65 %.
    resistance_dry, resistance_wet : vapour resistance factor µ, dry and wet cup.
    tension_across : strength across the grain, MPa, or None where nothing is known.
    Raises ValueError for a wrong unit or a figure that is not above zero.
    """

    name: str
    title: str
    botanical: str
    hardwood: bool
    density: Value
    modulus_along: Value
    modulus_radial: Value
    modulus_tangential: Value
    shear_lr: Value
    shear_lt: Value
    poisson_lr: Value
    poisson_lt: Value
    movement_radial: Value
    movement_tangential: Value
    movement_along: Value
    fibre_saturation: Value
    resistance_dry: Value
    resistance_wet: Value
    storage: Value
    supplies: tuple[Supply, ...]
    source: str
    shrinkage_radial: Value | None = None
    shrinkage_tangential: Value | None = None
    tension_across: Value | None = None
    cautions: tuple[str, ...] = ()
    disagreement: str = ""

    UNITS: ClassVar[Units] = {
        "density": q.DENSITY,
        "modulus_along": q.STRESS,
        "modulus_radial": q.STRESS,
        "modulus_tangential": q.STRESS,
        "shear_lr": q.STRESS,
        "shear_lt": q.STRESS,
        "poisson_lr": q.RATIO,
        "poisson_lt": q.RATIO,
        "movement_radial": q.PER_MOISTURE,
        "movement_tangential": q.PER_MOISTURE,
        "movement_along": q.PER_MOISTURE,
        "fibre_saturation": q.RATIO,
        "resistance_dry": q.RATIO,
        "resistance_wet": q.RATIO,
        "storage": q.STORAGE,
        "shrinkage_radial": q.RATIO,
        "shrinkage_tangential": q.RATIO,
        "tension_across": q.STRESS,
    }

    def __post_init__(self) -> None:
        _check(self, self.name, self.title, self.source)


@dataclass(frozen=True, slots=True)
class Glue:
    """An adhesive as it is used in the shop at 20 °C.

    water_class : "D1" to "D4", or "" where it is not classed.
    spread : wet, on one glued surface and in one coat, g/m². sides : 1 or 2 surfaces spread. coats : each.
    water_share : share of the wet spread that is water, fraction.
    open_time, closed_time, press_time : minutes. pressure : on a facing, pressure_wood : solid wood, N/mm².
    rigid : False where the glue line creeps and slips (contact glues).
    softens_at : temperature at which the joint begins to give, °C, or None where nothing is known.
    Raises ValueError for a wrong unit, a negative figure, an unknown kind or class.
    """

    name: str
    title: str
    kind: GlueKind
    water_class: str
    spread: Value
    sides: int
    coats: int
    water_share: Value
    open_time: Value
    least_temperature: Value
    rigid: bool
    source: str
    closed_time: Value | None = None
    press_time: Value | None = None
    pressure: Value | None = None
    pressure_wood: Value | None = None
    softens_at: Value | None = None
    cautions: tuple[str, ...] = ()
    disagreement: str = ""

    UNITS: ClassVar[Units] = {
        "spread": q.SPREAD,
        "water_share": q.RATIO,
        "open_time": q.MINUTES,
        "least_temperature": q.CELSIUS,
        "closed_time": q.MINUTES,
        "press_time": q.MINUTES,
        "pressure": q.STRESS,
        "pressure_wood": q.STRESS,
        "softens_at": q.CELSIUS,
    }

    def __post_init__(self) -> None:
        _check(self, self.name, self.title, self.source)
        one_of("kind", self.kind, GLUE_KINDS)
        one_of("water_class", self.water_class, WATER_CLASSES)
        if self.sides not in (1, 2) or not 1 <= self.coats <= 4:
            raise ValueError(f"expected 1 or 2 sides and 1 to 4 coats, was given {self.sides}, {self.coats}")


@dataclass(frozen=True, slots=True)
class Finish:
    """A surface finish for wood and for bare faces of a carrier.

    vapour_sd : thickness of the layer of still air that resists vapour as much as the dry film, m.
    Raises ValueError for a wrong unit or a figure that is not above zero.
    """

    name: str
    title: str
    vapour_sd: Value
    source: str
    cautions: tuple[str, ...] = ()
    disagreement: str = ""

    UNITS: ClassVar[Units] = {"vapour_sd": q.METRE}

    def __post_init__(self) -> None:
        _check(self, self.name, self.title, self.source)


type Record = Carrier | Facing | Wood | Glue | Finish


def values_of(record: Record) -> dict[str, Value]:
    """The figures of a record by the name of their field, without those that are not known."""
    return {name: value for name in record.UNITS if (value := getattr(record, name)) is not None}


def _check(record: Record, name: str, title: str, source: str) -> None:
    if not _NAME.fullmatch(name):
        raise ValueError(f"expected a name of small letters, digits and hyphens, was given {name!r}")
    if not title or not source:
        raise ValueError(f"{name}: expected a title and a source")
    for key, value in values_of(record).items():
        if value.unit != record.UNITS[key]:
            raise ValueError(f"{name}: expected {key} in {record.UNITS[key]}, was given {value.unit!r}")
        if key in _MAY_BE_NEGATIVE or (key in _MAY_BE_ZERO and value.low == 0.0):
            continue
        if value.low <= 0.0:
            raise ValueError(f"{name}: expected {key} above 0, was given {value.low} {value.unit}")
