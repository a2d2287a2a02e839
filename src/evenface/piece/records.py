"""What the maker asked for: the job and everything written in it, as frozen records.

Every record carries `origin`, its key path in the job file (`piece[0].panel[1].corners`), so that a
finding, an error or a remedy can point to the line it speaks of. Lengths are in mm, angles in degrees,
humidities are fractions.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Final

from evenface.piece.bench_records import MeasuredFlat, Reading
from evenface.piece.brief_records import Alternative, Brief
from evenface.piece.calendar_records import USUAL_CALENDAR, Done, ShopCalendar
from evenface.piece.cutting_records import PLAIN_BOARD, USUAL_CUTTING, Cutting, RoughBoard
from evenface.piece.order_moves import CornersWhen, Move
from evenface.piece.panel_records import (
    Allowances,
    BuildUp,
    Corner,
    CornerAt,
    Cutout,
    Edge,
    Ends,
    FlatnessLimit,
    Grip,
    Hold,
    Insert,
    Layer,
    Meeting,
    Notch,
    Order,
    Panel,
    Profile,
    Role,
    Side,
)
from evenface.piece.price_records import NO_PRICES, PriceTable

__all__ = [
    "NOTHING_MADE",
    "Allowances",
    "BuildUp",
    "Corner",
    "CornerAt",
    "Cutout",
    "Edge",
    "Ends",
    "FlatnessLimit",
    "Grip",
    "Hold",
    "Insert",
    "Job",
    "Layer",
    "Made",
    "MadeSize",
    "Meeting",
    "Notch",
    "Order",
    "Panel",
    "Piece",
    "Profile",
    "Role",
    "Saw",
    "Shop",
    "Side",
    "Spoiled",
    "StockItem",
]


@dataclass(frozen=True, slots=True)
class Piece:
    """One object of the order. description : the kind's own record, read by the kind's reader.

    brief : what this piece must bear, in place of the job's.
    """

    name: str
    kind: str
    count: int
    description: object
    origin: str = ""
    brief: Brief | None = None


@dataclass(frozen=True, slots=True)
class Saw:
    """How sheets are cut: kerf, edge trim of a sheet, guillotine stages (None: any number)."""

    kerf_mm: float = 3.2
    trim_mm: float = 10.0
    stages: int | None = 3
    first_cut: str = "any"
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Shop:
    """Tools at hand, as measured, for what is routed along a template.

    bush_mm : outside of the guide bush. cutter_mm : straight cutter. bearing_mm : of a bearing that guides
    instead of the bush, None for the bush. small_bush_mm : second bush, to cut recess and insert from one
    template. cutters_mm : other straight cutters at hand. reach_mm : how far a cutter reaches, None for not
    judged. template_mm : thickness of template board. base_mm : across the router's base.
    """

    bush_mm: float = 30.0
    cutter_mm: float = 12.0
    bearing_mm: float | None = None
    small_bush_mm: float | None = None
    cutters_mm: tuple[float, ...] = ()
    reach_mm: float | None = None
    template_mm: float = 12.0
    base_mm: float = 150.0
    origin: str = "shop"


@dataclass(frozen=True, slots=True)
class StockItem:
    """Stock the maker can buy or has: replaces the catalogue's sizes of that material.

    copies : how many there are; None for as many as wanted. codes : of pieces that lie in the rack, as many as
    copies; empty for what is bought.
    """

    material: str
    length_mm: float | None
    width_mm: float
    copies: int | None = None
    price: Decimal | None = None
    form: str = "sheet"
    batch: str = ""
    origin: str = ""
    board: RoughBoard = PLAIN_BOARD
    codes: tuple[str, ...] = ()

    def stock_id(self, material: str, number: int) -> str:
        """What a layout of that material calls it: by its first code, or by its number in the list."""
        return f"{material} {self.codes[0]}" if self.codes else f"{material} #{number}"


@dataclass(frozen=True, slots=True)
class Job:
    """The whole order.

    place, room : where it will stand, for the climate. humidity : own monthly means of the room, January
    to December, as fractions. shop_humidity : relative humidity of the workshop at bonding.
    corners : when corners under a facing that lies over the edging are shaped.
    texts : where each key path stands in the file, as (line, column).
    """

    format: int
    name: str
    buildups: Mapping[str, BuildUp]
    pieces: tuple[Piece, ...]
    client: str = ""
    due: str = ""
    place: str = ""
    room: str = ""
    humidity: tuple[float, ...] = ()
    temperature_c: tuple[float, ...] = ()
    logger: str = ""
    shop_humidity: float = 0.5
    bonding_month: int = 9
    currency: str = ""
    allowances: Allowances = field(default_factory=Allowances)
    saw: Saw = field(default_factory=Saw)
    cutting: Cutting = USUAL_CUTTING
    shop: Shop = field(default_factory=Shop)
    stock: tuple[StockItem, ...] = ()
    price: PriceTable = NO_PRICES
    brief: Brief | None = None
    variants: tuple[Alternative, ...] = ()
    calendar: ShopCalendar = USUAL_CALENDAR
    moves: tuple[Move, ...] = ()
    corners: CornersWhen = "before facing"
    texts: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    file: str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class MadeSize:
    """A size as it came out at the bench: that layer is cut and locked.

    length_mm, width_mm : measured; for edging the length and its width in plan. None: not measured.
    opening : measured is the opening a facing is to be fitted into, not the facing itself.
    """

    piece: str
    panel: str
    role: Role
    side: Side | None = None
    length_mm: float | None = None
    width_mm: float | None = None
    opening: bool = False
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Spoiled:
    """A part of which so many have to be made again."""

    piece: str
    panel: str
    role: Role
    side: Side | None = None
    count: int = 1
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Made:
    """What has happened at the bench, kept beside the job: measured batches and parts already cut.

    thicknesses : measured thickness by material, overriding the catalogue.
    """

    thicknesses: Mapping[str, float] = field(default_factory=dict)
    sizes: tuple[MadeSize, ...] = ()
    humidities: Mapping[str, float] = field(default_factory=dict)
    file: str = ""
    spoiled: tuple[Spoiled, ...] = ()
    done: tuple[Done, ...] = ()
    moisture: tuple[Reading, ...] = ()
    flat: tuple[MeasuredFlat, ...] = ()


NOTHING_MADE: Final = Made()
