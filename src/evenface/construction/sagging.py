"""Sag of a built panel that spans between two supports along its length: board, facings and edging as one section.

Loads lie evenly and last; creep by the range the sources give. Trust it while the span is ten times the thickness
and more. Glue lines that slip (contact glue) let facings help less than reckoned.
"""

from collections.abc import Callable
from typing import Final

from evenface.construction.records import BuiltPanel
from evenface.evidence import Band, Status, Value, weakest
from evenface.mechanics.sag import Held, sag_under_even_load, section

CREEP: Final = {
    "plywood": (0.4, 0.5, 0.6),
    "blockboard": (0.4, 0.5, 0.6),
    "solid": (0.4, 0.5, 0.6),
    "mdf": (1.0, 1.5, 2.0),
    "particleboard": (1.0, 1.5, 2.0),
}
"""Half as much again for wood and plywood over years (read), once to twice more for fibre and chips (memory)."""
USUAL_CREEP: Final = (0.5, 1.0, 2.0)
FACING_CREEP: Final = (0.3, 0.5, 1.0)
"""Estimate, no source seen: a pressed laminate creeps less than the chips and fibres under it."""
N_PER_KG: Final = 9.81
ENDS: Final[tuple[Callable[[Value], float], ...]] = (
    lambda value: value.high,
    lambda value: value.nominal,
    lambda value: value.low,
)
"""The stiff end of a figure, its usual value, its soft end."""

type Bar = tuple[float, float, float, Value, tuple[float, float, float]]
"""Width, height, height of its middle [mm], modulus along the span, creep stiff, usual and soft."""


def creep_of(board: str) -> tuple[float, float, float]:
    """Creep factors of a kind of board, least first."""
    return CREEP.get(board, USUAL_CREEP)


def bars_of(panel: BuiltPanel) -> tuple[Bar, ...]:
    """The cross-section of a panel seen along its length."""
    carrier = panel.carrier
    turned = carrier.direction_deg % 180.0 == 90.0
    board = carrier.material
    creep = creep_of(str(board.board))
    modulus = board.modulus_across if turned else board.modulus_along
    bars: list[Bar] = [
        (
            carrier.rectangle.width_mm,
            carrier.z1_mm - carrier.z0_mm,
            (carrier.z0_mm + carrier.z1_mm) / 2,
            modulus,
            creep,
        )
    ]
    for face in panel.faces:
        across = face.direction_deg % 180.0 == 90.0
        sheet = face.material.modulus_across if across else face.material.modulus_along
        bars.append(
            (
                face.rectangle.width_mm,
                face.thickness.nominal,
                (face.z0_mm + face.z1_mm) / 2,
                sheet,
                FACING_CREEP,
            )
        )
    bars += [
        (
            edging.width_mm,
            edging.height_mm,
            (edging.z0_mm + edging.z1_mm) / 2,
            edging.wood.modulus_along,
            CREEP["solid"],
        )
        for edging in panel.edgings
        if edging.side.runs_along_length
    ]
    return tuple(bars)


def stiffness_of(bars: tuple[Bar, ...]) -> tuple[float, float, float]:
    """Lasting bending stiffness of the section: stiff, usual, soft. [N·mm²]"""
    stiff, usual, soft = (
        float(
            section(
                [b for b, *_ in bars], [h for _, h, *_ in bars], [z for _, _, z, *_ in bars],
                [pick(modulus) for *_, modulus, _ in bars], [creep[n] for *_, creep in bars],
            ).stiffness
        )
        for n, pick in enumerate(ENDS)
    )  # fmt: skip
    return stiff, usual, soft


def status_of(bars: tuple[Bar, ...]) -> Status:
    """The weakest figure behind a section; creep is from memory for some boards."""
    return weakest([modulus.status for *_, modulus, _ in bars] + [Status.MEMORY])


def sag_mm(
    line_load: float, span_mm: float, stiffness: tuple[float, float, float], fixed_ends: bool = False
) -> Band:
    """Sag in the middle of a span under an even load in N/mm. [mm]

    fixed_ends : ends let in and glued. Real ones lie between held and resting, so the low end is the held one.
    """
    low, middle, high = (float(sag_under_even_load(line_load, span_mm, one)) for one in stiffness)
    if fixed_ends:
        low = float(sag_under_even_load(line_load, span_mm, stiffness[0], Held.FIXED))
    return Band(low, middle, high)
