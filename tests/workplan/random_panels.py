"""Panels of every section, order and furnishing, for tests of the order of work."""

from itertools import product

import jobs_by_hand as by_hand
from hypothesis import strategies as st

from evenface.piece.records import (
    BuildUp,
    Corner,
    CornerAt,
    Cutout,
    Edge,
    Ends,
    Grip,
    Insert,
    Meeting,
    Order,
    Panel,
    Profile,
    Side,
)
from evenface.shape.outline import Outline
from evenface.workplan import PanelToMake


class Drawn(tuple):
    """Panels drawn at random, told by what was asked for: a built panel with all its materials fills pages."""

    def __repr__(self) -> str:
        return "; ".join(_told(one.panel) for one in self)


def _told(built) -> str:
    edges = [f"{e.side} {e.top}/{e.bottom} {e.order}" for e in built.edgings]
    corners = [f"{c.at} {c.shape} {c.construction} {c.ends}" for c in built.panel.corners]
    inserts = [f"{i.name} {i.when} {i.depth_mm}" for i in built.panel.inserts]
    sheets = [f"{face.role} {face.material.name}" for face in built.faces]
    rest = [len(built.panel.profiles), len(built.panel.grips), len(built.panel.cutouts)]
    return f"{built.glue.name} {built.edging_glue.name} {sheets} {edges} {corners} {inserts} {rest}"


MEETINGS = tuple(product(Meeting, repeat=2))
LINOLEUM, HPL = "linoleum-2", "hpl-0.8"


def made(*panels: Panel, glue: str = "pva-d3", edging_glue: str = "", **sheets: str | None):
    """These panels built, each with a part id."""
    build_up = BuildUp("usual", by_hand.layers(**sheets), glue, edging_glue, origin="buildup.usual")
    order = by_hand.job(*panels, buildups={"usual": build_up})
    built, _ = by_hand.built(order)
    return tuple(PanelToMake(f"1.{number}", one) for number, one in enumerate(built, start=1))


def box(x: float, y: float, length_mm: float, width_mm: float) -> Outline:
    return Outline(
        (
            (
                (
                    (x, y, 0.0),
                    (x + length_mm, y, 0.0),
                    (x + length_mm, y + width_mm, 0.0),
                    (x, y + width_mm, 0.0),
                )
            ),
        )
    )


def insert(name: str, when: str, x: float, depth_mm: float | None = 9.0, face: str = "top") -> Insert:
    return Insert(name, box(x, 200.0, 120.0, 40.0), "ash", face, depth_mm, when=when)


def cutout(name: str = "basin") -> Cutout:
    return Cutout(name, box(400.0, 150.0, 240.0, 180.0), wet=True, service="water", inner_radius_mm=10.0)


def grip(name: str, in_: str) -> Grip:
    return Grip(name, in_, "ball", 20.0, 8.0, ((120.0, 220.0), (180.0, 220.0)))


@st.composite
def edges(draw: st.DrawFn) -> tuple[Edge, ...]:
    sides = draw(st.lists(st.sampled_from(list(Side)), unique=True))
    out = []
    for side in sides:
        top, bottom = draw(st.sampled_from(MEETINGS))
        order = draw(st.sampled_from(list(Order)))
        out.append(by_hand.edge(side, top=top, bottom=bottom, order=order))
    return tuple(out)


@st.composite
def corners(draw: st.DrawFn) -> tuple[Corner, ...]:
    kinds = ("square", "radius", "chamfer")
    built = ("rounded", "clipped", "block", "ring", "strips")
    return tuple(
        Corner(
            at,
            draw(st.sampled_from(kinds)),
            30.0,
            draw(st.sampled_from(built)),
            ends=draw(st.sampled_from((Ends.AUTO, Ends.BUTT))),
        )
        for at in CornerAt
    )


@st.composite
def panels(draw: st.DrawFn) -> Panel:
    edged = draw(edges())
    whens = draw(st.lists(st.sampled_from(("before facing", "after facing")), max_size=2))
    inserts = tuple(
        insert(f"insert {n}", when, 60.0 + 300.0 * n, draw(st.sampled_from((None, 9.0))))
        for n, when in enumerate(whens)
    )
    profiled = tuple(edge.side for edge in edged) if draw(st.booleans()) else ()
    return by_hand.panel(
        *edged,
        corners=draw(corners()) if draw(st.booleans()) else (),
        profiles=(Profile(profiled, "round-over", radius_mm=3.0),) if profiled else (),
        inserts=inserts,
        grips=(grip("grip", "insert 0"),) if inserts and draw(st.booleans()) else (),
        cutouts=(cutout(),) if draw(st.booleans()) else (),
    )


@st.composite
def jobs(draw: st.DrawFn) -> tuple[PanelToMake, ...]:
    sheet = st.sampled_from((None, HPL, LINOLEUM))
    glue = st.sampled_from(("pva-d3", "contact-solvent", "contact-water", "urea", "polyurethane", "epoxy"))
    return made(draw(panels()), face=draw(sheet), back=draw(sheet), glue=draw(glue), edging_glue=draw(glue))
