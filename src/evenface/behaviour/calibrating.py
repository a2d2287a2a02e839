"""From the bows of two thin test strips back to the movement of the sheet on them.

A strip cut along the sheet's machine direction and one cut across it bow in their own ways; both are measured at
one humidity and again, after a wait, at another. The two changes give the two movements; stiffness stays as the
catalogue has it, so that stiffness × movement × thickness, the pull that was really measured, comes out right.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from evenface.behaviour.stacks import AIR_FILM_M, resistance_factor
from evenface.evidence import Value
from evenface.materials import Carrier, Facing
from evenface.mechanics import Climate, Stack, Varied, first_years
from evenface.mechanics.large_bow import curvature_of_sagitta
from evenface.mechanics.sampling import drawn

type Floats = NDArray[np.float64]

BOW_SPREAD_MM = 0.3
HUMIDITY_SPREAD = 0.02
"""What a straightedge and a hygrometer may be off, 90 %."""
DRAWS = 300
SETTLED = 0.9
"""Share of the final bow from which a strip counts as settled."""


@dataclass(frozen=True, slots=True)
class Strips:
    """Two strips faced on one side: the change of bow of each from the first humidity to the second.

    bow_along_mm : of the strip along the sheet's machine direction, over `length_mm`; + is the faced side domed.
    board_mm, sheet_mm : as measured. Raises ValueError for sizes, days or humidities that cannot be.
    """

    carrier: Carrier
    facing: Facing
    length_mm: float
    bow_along_mm: float
    bow_across_mm: float
    humidity_from: float
    humidity_to: float
    days: int

    def __post_init__(self) -> None:
        if not self.length_mm >= 200.0:
            raise ValueError(f"expected strips of at least 200 mm, was given {self.length_mm:g}")
        if not 1 <= self.days <= 730:
            raise ValueError(f"expected a wait of 1 to 730 days, was given {self.days}")
        for humidity in (self.humidity_from, self.humidity_to):
            if not 0.05 <= humidity <= 0.95:
                raise ValueError(f"expected humidities from 5 to 95 %, was given {humidity:g}")
        if abs(self.humidity_to - self.humidity_from) < 0.15:
            raise ValueError("expected two humidities at least 15 % apart; salts give 33 and 75 %")
        if max(abs(self.bow_along_mm), abs(self.bow_across_mm)) > self.length_mm / 5.0:
            raise ValueError("expected bows of at most a fifth of the strip's length")


@dataclass(frozen=True, slots=True)
class Calibrated:
    """What the strips say. settled : share of the final bow that was reached."""

    along: Value
    across: Value
    pull_along_n_mm: float
    pull_across_n_mm: float
    settled: float

    @property
    def needs_longer(self) -> bool:
        """Whether the strips were measured before they had settled."""
        return self.settled < SETTLED


def calibrate(strips: Strips) -> Calibrated:
    """Movement of the sheet along and across with its 90 % range, and its pull per unit of humidity. [N/mm]"""
    stack, varied = _stack(strips), tuple(_varied(strips))
    one = np.array([strips.bow_along_mm, strips.bow_across_mm])
    middle = _movements(strips, stack, one, np.asarray(strips.humidity_to - strips.humidity_from))
    many, _, _ = drawn(stack, np.zeros(2), varied, DRAWS, 1)
    noise = np.random.default_rng(2).standard_normal((DRAWS, 3)) / 1.645
    bows = one + BOW_SPREAD_MM * noise[:, :2]
    change = strips.humidity_to - strips.humidity_from + HUMIDITY_SPREAD * np.sqrt(2.0) * noise[:, 2]
    low, high = np.percentile(_movements(strips, many, bows, change), (5.0, 95.0), axis=0)
    source = f"two test strips on {strips.carrier.name}, {strips.length_mm:g} mm, {strips.days} days"
    along, across = (
        replace(
            value.measured(float(middle[axis]), source=source),
            low=float(min(low[axis], middle[axis])),
            high=float(max(high[axis], middle[axis])),
        )
        for axis, value in enumerate((strips.facing.expansion_along, strips.facing.expansion_across))
    )
    thick = strips.facing.thickness.nominal
    return Calibrated(
        along,
        across,
        strips.facing.modulus_along.nominal * along.nominal * thick,
        strips.facing.modulus_across.nominal * across.nominal * thick,
        _settled(strips, stack),
    )


def _stack(strips: Strips) -> Stack:
    board, sheet = strips.carrier, strips.facing
    layers: tuple[Carrier | Facing, ...] = (board, sheet)
    thick = [board.thickness.nominal, sheet.thickness.nominal]
    film = np.asarray(AIR_FILM_M)
    return Stack(
        np.array(thick),
        np.array([one.modulus_along.nominal for one in layers]),
        np.array([one.modulus_across.nominal for one in layers]),
        np.array([one.poisson.nominal for one in layers]),
        np.array([one.shear_modulus.nominal for one in layers]),
        np.zeros(2),
        np.array([one.expansion_along.nominal for one in layers]),
        np.array([one.expansion_across.nominal for one in layers]),
        np.array([resistance_factor(one, size) for one, size in zip(layers, thick, strict=True)]),
        np.array([one.storage.nominal * one.density.nominal for one in layers]),
        film,
        film,
    )


def _varied(strips: Strips) -> list[Varied]:
    """The board's own properties and how vapour passes; the sheet's stiffness stays, see above."""
    board, sheet = strips.carrier, strips.facing
    sd = sheet.vapour_sd
    factor = resistance_factor(sheet, sheet.thickness.nominal)
    rows = [
        ("E1_MPa", board.modulus_along, board.modulus_along.nominal),
        ("E2_MPa", board.modulus_across, board.modulus_across.nominal),
        ("expansion_1", board.expansion_along, board.expansion_along.nominal),
        ("expansion_2", board.expansion_across, board.expansion_across.nominal),
    ]
    found = [Varied(name, name, (0,), middle, value.low, value.high) for name, value, middle in rows]
    ends = (factor * sd.low / sd.nominal, factor * sd.high / sd.nominal)
    found.append(Varied("sheet", "vapour_resistance", (1,), factor, *ends))
    return found


def _movements(strips: Strips, stack: Stack, bows: Floats, change: Floats) -> Floats:
    """Movement of the sheet along and across, (..., 2), that explains the two bows."""
    measured = np.asarray(curvature_of_sagitta(bows, strips.length_mm))
    one, two = stack.expansion_1.copy(), stack.expansion_2.copy()
    on_sheet, on_board = np.array([0.0, 1.0]), np.array([1.0, 0.0])
    nothing = np.zeros_like(one)
    along = _after(strips, replace(stack, expansion_1=nothing + on_sheet, expansion_2=np.zeros_like(two)))
    across = _after(strips, replace(stack, expansion_1=nothing, expansion_2=np.zeros_like(two) + on_sheet))
    board = _after(strips, replace(stack, expansion_1=one * on_board, expansion_2=two * on_board))
    system = np.stack([along, across], axis=-1)
    left = measured / np.asarray(change)[..., None] - board
    return np.asarray(np.linalg.solve(system, left[..., None])[..., 0])


def _after(strips: Strips, stack: Stack, days: int | None = None) -> Floats:
    """κx and κy after the wait, for a change of humidity by 1, (..., 2). [1/mm]"""
    wait = strips.days if days is None else days
    # the answer is linear: half a unit up from 25 % stands for one
    air = Climate(np.full(wait + 1, 0.75))
    told = first_years(stack, air, air, 0.25, days=wait + 1, cells=30, with_layers=False)
    return np.asarray(told.curvature_per_mm[..., -1, :2]) / 0.5


def _settled(strips: Strips, stack: Stack) -> float:
    now, later = _after(strips, stack), _after(strips, stack, 730)
    far = float(np.max(np.abs(later)))
    return 1.0 - float(np.max(np.abs(now - later))) / far if far > 0.0 else 1.0
