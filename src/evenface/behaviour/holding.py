"""What the fixings of a held part must carry, so that it lies flat instead of bowing."""

import numpy as np

FREE = ("free", "hinged")


def fixings_in_a_row(how: str, fixings: int) -> tuple[int, int]:
    """Fixings along the length and rows beside each other: screws stand in two rows, a groove holds in one.

    Fewer than six screws, or an unknown number, are taken as both ends and the middle of each row.
    """
    if how == "groove":
        return 3, 1
    return max(3, fixings // 2), 2


def force_at_fixing(
    stiffness_n_mm: float, curvature_per_mm: float, length_mm: float, width_mm: float, how: str, fixings: int
) -> float:
    """Greatest force at one fixing of a strip held flat by evenly spaced fixings along its length. [N]

    stiffness_n_mm : in bending, per mm of width. Beam on rigid supports whose free shape is an even curve
    (three-moment equation); it stays a little wavy between them. Elastic: wood creeps and the force fades.
    With three fixings in one row it is 48·EI·δ/L³, δ the bow. Raises ValueError for fewer than three.
    """
    along, rows = fixings_in_a_row(how, fixings)
    spacing = length_mm / (along - 1)
    inner = along - 2
    left = 4.0 * np.eye(inner) + np.eye(inner, k=1) + np.eye(inner, k=-1)
    moments = np.zeros(along)
    moments[1:-1] = np.linalg.solve(left, np.full(inner, 6.0 * stiffness_n_mm * curvature_per_mm))
    slope = np.diff(moments) / spacing
    reactions = np.diff(np.concatenate([[0.0], slope, [0.0]]))
    return float(np.max(np.abs(reactions))) * width_mm / rows
