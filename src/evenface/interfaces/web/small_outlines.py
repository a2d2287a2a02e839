"""Every part of a job as a small outline, all to one scale, so that a list can be read by shape and size."""

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from evenface.construction import BuiltPanel
from evenface.drawings.hatch import flattened
from evenface.drawings.outlines import finished_outline

WIDE_PX: Final = 132.0
HIGH_PX: Final = 60.0
LEAST_PX: Final = 4.0
STEP_DEG: Final = 15.0


def small_outlines(panels: Sequence[BuiltPanel]) -> list[Markup]:
    """An outline of each panel with its cut-outs, front edge below; the largest fills the space there is."""
    scale = min(
        WIDE_PX / max((one.length_mm for one in panels), default=1.0),
        HIGH_PX / max((one.width_mm for one in panels), default=1.0),
    )
    return [_drawn(one, scale) for one in panels]


def _drawn(panel: BuiltPanel, scale: float) -> Markup:
    wide, high = (max(one * scale, LEAST_PX) for one in (panel.length_mm, panel.width_mm))
    rings = []
    cut_outs = [ring for one in panel.panel.cutouts for ring in one.outline.rings]
    for ring in (*finished_outline(panel).rings, *cut_outs):
        points = (
            f"{x / panel.length_mm * wide:.1f} {high - y / panel.width_mm * high:.1f}"
            for x, y in flattened(ring, STEP_DEG)
        )
        rings.append(f"M{'L'.join(points)}Z")
    box = f"-1 -1 {wide + 2:.1f} {high + 2:.1f}"
    path = f'<path d="{"".join(rings)}" fill-rule="evenodd"/>'
    size = f'width="{wide + 2:.0f}" height="{high + 2:.0f}"'
    return Markup(f'<svg class="small" viewBox="{box}" {size} aria-hidden="true">{path}</svg>')
