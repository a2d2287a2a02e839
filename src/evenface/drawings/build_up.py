"""The layers of a panel through its thickness, enlarged, with their names and thicknesses."""

from collections.abc import Iterator
from typing import Final

from evenface.construction import BuiltPanel
from evenface.drawings.boards import GRAINED, board_areas, sheet_areas
from evenface.drawings.callouts import column
from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import Draft, figure
from evenface.drawings.scene import Area, Fill, Path, Scene, Stroke
from evenface.piece.records import Role, Side
from evenface.shape.ring import Ring
from evenface.words import ENGLISH, Manner, Said, said

ENLARGED: Final = (10.0, 8.0, 5.0, 4.0, 3.0, 2.0, 1.0)
HIGHEST_MM: Final = 50.0
WIDE_MM: Final = 42.0


def build_up_of(panel: BuiltPanel, manner: Manner = ENGLISH, scale: float | None = None) -> Scene:
    """The build-up cut along the length of the panel, as many times enlarged as goes into 50 mm."""
    fits = (one for one in ENLARGED if panel.thickness_mm * one <= HIGHEST_MM)
    draft = Draft(scale or next(fits, 1.0), manner)
    wide = draft.paper(WIDE_MM)
    carrier = panel.carrier
    draft.add(*board_areas(carrier, lambda a, b: _strip(a, b, wide), Side.LEFT))
    draft.add(Path(_strip(carrier.z0_mm, carrier.z1_mm, wide), True, Stroke.VISIBLE, "carrier"))
    labels = [((0.8 * wide, (carrier.z0_mm + carrier.z1_mm) / 2), _carrier_words(draft, panel))]
    for face in panel.faces:
        ring = _strip(face.z0_mm, face.z1_mm, wide)
        draft.add(*sheet_areas(face, ring, Side.LEFT), Path(ring, True, Stroke.FINE, "facing"))
        labels.append((
            (0.8 * wide, (face.z0_mm + face.z1_mm) / 2),
            _layer_words(draft, face.material.title, face.thickness.nominal),
        ))  # fmt: skip
        if face.glue_line_mm:
            low = carrier.z1_mm if face.role is Role.FACE else face.z1_mm
            draft.add(Area((_strip(low, low + face.glue_line_mm, wide),), Fill.GLUE))
            middle = (0.8 * wide, low + face.glue_line_mm / 2)
            labels.append((middle, _layer_words(draft, panel.glue.title, face.glue_line_mm)))
    column(draft, wide + draft.paper(9.0), labels)
    top = panel.thickness_mm
    total = Span(0.0, top, figure(top, manner), (0.0, 0.0))
    draft.add(*chain([total], Beside.LEFT, 0.0, draft.scale))
    return draft.scene(said("{name}: build-up, enlarged", name=panel.name), *_notes(panel))


def _strip(z0: float, z1: float, wide: float) -> Ring:
    return ((0.0, z0, 0.0), (wide, z0, 0.0), (wide, z1, 0.0), (0.0, z1, 0.0))


def _layer_words(draft: Draft, title: str, thickness_mm: float) -> str:
    return draft.words(said("{title} · {thick:mm2}", title=title, thick=thickness_mm))


def _carrier_words(draft: Draft, panel: BuiltPanel) -> str:
    words = _layer_words(draft, panel.carrier.material.title, panel.carrier.thickness.nominal)
    plies = panel.carrier.material.plies
    return f"{words} · {draft.words(said('{n:count} plies', n=plies))}" if plies else words


def _notes(panel: BuiltPanel) -> Iterator[Said]:
    turned = round(panel.carrier.direction_deg / 90.0) % 2
    if panel.carrier.material.board in GRAINED:
        yield said("cut along the length; the carrier's grain runs across it" if turned else
                   "cut along the length; the carrier's grain runs along it")  # fmt: skip
    else:
        yield said("cut along the length")
