"""A small glaze-room job, built by hand, with everything the papers can show."""

from dataclasses import replace

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.evidence import Band, Status, Value, certain
from evenface.finding import Change, Finding, Remedy, Severity, gravest_first
from evenface.layouts.records import Bought, Cut, Layout, Offcut, Placed, Sheet
from evenface.materials.records import Carrier, Facing, Glue, Wood
from evenface.materials.supply import Supply
from evenface.parts import parts_of
from evenface.piece.records import (
    NOTHING_MADE,
    BuildUp,
    Corner,
    CornerAt,
    Edge,
    Job,
    Layer,
    Meeting,
    Panel,
    Piece,
    Role,
    Side,
)
from evenface.result import BuyingRow, Result, Sketch
from evenface.words import said


def figure(nominal, unit, share=0.1):
    return Value(
        nominal, nominal * (1 - share), nominal * (1 + share), unit, Status.PRACTICE, "own reckoning"
    )


SUPPLY = Supply("sheet", 2500.0, 1250.0, 18.0, "piece", Status.PRACTICE, "common practice")


def filled(record, /, **known):
    """A record with an ordinary figure for whatever is not named."""
    needed = [name for name in record.UNITS if record.__dataclass_fields__[name].default is not None]
    return record(**{name: figure(1.0, record.UNITS[name]) for name in needed} | known)


class Shelf:
    """A handful of materials: what construction asks of the catalogue."""

    def carrier(self, name):
        return filled(
            Carrier,
            name=name,
            title="Birch plywood 18 mm",
            board="plywood",
            nominal_mm=18.0,
            thickness=Value(17.8, 17.1, 18.1, "mm", Status.READ, "a standard"),
            density=figure(680.0, "kg/m³"),
            supplies=(SUPPLY,),
            source="own reckoning",
        )

    def facing(self, name):
        return filled(
            Facing,
            name=name,
            title="High-pressure laminate 0.8 mm",
            family="hpl",
            grade="horizontal",
            decorative=True,
            thickness=figure(0.8, "mm", 0.05),
            sold_thicknesses_mm=(0.8,),
            density=figure(1400.0, "kg/m³"),
            supplies=(SUPPLY,),
            source="own reckoning",
        )

    def wood(self, name):
        return filled(
            Wood,
            name=name,
            title="Ash",
            botanical="Fraxinus excelsior",
            hardwood=True,
            density=figure(690.0, "kg/m³"),
            supplies=(),
            source="own reckoning",
        )

    def glue(self, name):
        return filled(
            Glue,
            name=name,
            title="White glue",
            kind="pva",
            water_class="D3",
            sides=1,
            coats=1,
            rigid=True,
            source="own reckoning",
        )


def edging(*sides, width=14.0, **more):
    return tuple(Edge(side, "ash", width, **more) for side in sides)


def build_ups():
    sheets = (Layer(Role.BACK, "hpl-backer"), Layer(Role.CARRIER, "birch-ply"), Layer(Role.FACE, "hpl"))
    return {"bench": BuildUp("bench", sheets, "pva")}


def job_of(*pieces, name="Glaze room", client="Kiln & Clay, the pottery by the quay"):
    return Job(
        1, name, build_ups(), pieces, client=client, place="by the sea", due="March", file="/x/job.toml"
    )


BENCH = Panel(
    "top",
    1,
    1800.0,
    650.0,
    "bench",
    "top",
    edges=edging(Side.FRONT, Side.LEFT, Side.RIGHT),
    corners=(Corner(CornerAt.FRONT_LEFT, "radius", 30.0), Corner(CornerAt.FRONT_RIGHT, "radius", 30.0)),
)
DOOR = Panel(
    "door",
    6,
    715.0,
    397.25,
    "bench",
    "door",
    edges=(*edging(*Side, width=10.3, top=Meeting.FLUSH),),
)
SHELF = Panel("shelf", 2, 864.0, 300.0, "bench", "shelf", edges=edging(Side.FRONT, width=20.0))


def layout_by_hand():
    """One sheet 2500 × 1250 with a 10 mm trim and a 3.2 mm kerf: two pieces, three rests, sums that close."""
    placed = (
        Placed("1.1 carrier", "1.1", 1_000, 1_000, 177_200, 63_600),
        Placed("2.1 carrier", "2.1", 1_000, 64_920, 69_440, 37_665, True),
    )
    cuts = (
        Cut(1, 0, 123_000, 0, 250_000, "along", 0, 1_000),
        Cut(2, 1, 63_600, 1_000, 249_000, "along", 64_600, 320),
        Cut(3, 2, 177_200, 1_000, 64_600, "across", 178_200, 320),
        Cut(4, 2, 69_440, 64_920, 124_000, "across", 70_440, 320),
        Cut(5, 3, 37_665, 1_000, 70_440, "along", 102_585, 320),
    )
    offcuts = (
        Offcut(178_520, 1_000, 70_480, 63_600),
        Offcut(70_760, 64_920, 178_240, 59_080),
        Offcut(1_000, 102_905, 69_440, 21_095),
    )
    sheet = Sheet("1", "sheet", 250_000, 125_000, 1_000, placed, cuts, offcuts)
    stick = Sheet("s", "stick", 300_000, 1, 0, (Placed("e", "1.1", 0, 0, 181_000, 1),), (), ())
    return (
        Layout("birch-ply", (sheet,), Bought(1, {"1": 1}, 0, sheet.area), "fewest", 1, True, checked=True),
        Layout("ash", (stick,), Bought(1, {"s": 1}), "fewest", 1, False, unplaced=(("e2", 3),)),
    )


def findings_by_hand():
    deeper = Remedy(
        "corner.wider",
        said("Make the edging {width:mm} wide.", width=20.0),
        (Change("piece[0].panel[0].edge.width", "14", "20"),),
        certain(0.0),
    )
    return gravest_first(
        (
            Finding(
                "balance.direction",
                Severity.WEIGH,
                said("Face and back run different ways."),
                "buildup.bench",
                "Glazing bench",
                "top",
                why=said("Along and across a laminate moves differently, so the two do not hold each other."),
                source="trade handbook",
                weakest=Status.MEMORY,
            ),
            Finding(
                "corner.through",
                Severity.STOP,
                said("The carrier stands {out:mm} out of the rounded corner.", out=5.05),
                "piece[0].panel[0].corners",
                "Glazing bench",
                "top",
                "front left corner",
                value=certain(5.054),
                limit=0.0,
                unit="mm",
                remedies=(deeper,),
            ),
            Finding(
                "bow.limit",
                Severity.NOTE,
                said("Bows with the seasons."),
                value=Band(-1.5, None, 2.25),
                limit=2.0,
                unit="mm",
                gauge_mm=1000.0,
                part="door",
                piece="Cupboard",
            ),
        )
    )


def result_of(*pieces, findings=None, layouts=None, **job):
    order = job_of(*pieces, **job)
    built = construct(order, Shelf(), {"panel": KINDS["panels"]})
    found = findings_by_hand() if findings is None else findings
    return Result(
        version="0.1.0",
        hashes={"job": "0f3c9a7e55", "catalogue": "77aa10b2c4"},
        seed=7,
        sketch=Sketch(order, NOTHING_MADE, built, parts_of(built), found),
        layouts=layout_by_hand() if layouts is None else layouts,
        buying=(
            BuyingRow(
                "birch-ply", "Birch plywood 18 mm", "sheet", (2500.0, 1250.0), 1.0, "sheets", said("one")
            ),
            BuyingRow(
                "ash", "Ash", "board", None, 0.0123, "m³", said("rough, with {w:percent} waste", w=0.3)
            ),
        ),
        findings=found,
        seconds=0.25,
        not_done=(("behaviour", said("No climate is given.")),),
    )


def piece(name, *panels, count=1):
    return Piece(name, "panel", count, tuple(replace(panel) for panel in panels), f"piece.{name}")


def whole_room():
    return result_of(
        piece("Glazing bench", BENCH), piece("Cupboard", DOOR, SHELF), piece("Second cupboard", DOOR)
    )
