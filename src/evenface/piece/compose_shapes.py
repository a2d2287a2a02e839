"""Outlines as the maker writes them: by centre and size, by points, or out of a drawing beside the job."""

from math import pi
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from evenface.errors import Complaint, Sentence
from evenface.piece import records as r
from evenface.piece.source_text import Source
from evenface.shape.build import bar, circle, d_shape, rounded_rectangle, slot
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.ring import as_ring, ring_area
from evenface.shape.validity import checked
from evenface.units import LONGEST_MM
from evenface.words import said

if TYPE_CHECKING:
    from evenface.piece import shape_forms as sf

SUFFIXES = (".dxf", ".svg")


class _Complains(Protocol):
    def material(self, kinds: tuple[str, ...], given: str, path: str) -> None: ...


class Shaper:
    """Makes outlines; what cannot be made is a complaint, and a small square stands in for it."""

    def __init__(self, source: Source, complaints: list[Complaint], folder: Path | None) -> None:
        self.source = source
        self.complaints = complaints
        self.folder = folder

    def inserts(
        self, composer: _Complains, forms: "tuple[sf.InsertForm, ...]", origin: str
    ) -> tuple[r.Insert, ...]:
        """The inserts of a panel."""
        made = []
        for number, form in enumerate(forms):
            path = self.source.entry(origin, number)
            composer.material(("wood",), form.wood, f"{path}.wood")
            if form.through == (form.depth is not None):
                self._complain(path, "depth, or through = true", "both or neither")
            made.append(
                r.Insert(
                    name=form.name,
                    outline=self.opening(form, path),
                    wood=form.wood,
                    face=form.face,
                    depth_mm=None if form.through else form.depth,
                    cut=form.cut,
                    grain_deg=form.grain,
                    clearance_mm=form.clearance,
                    when=form.when,
                    flush_mm=form.flush,
                    origin=path,
                )
            )
        return tuple(made)

    def cutouts(
        self, composer: _Complains, forms: "tuple[sf.CutoutForm, ...]", origin: str
    ) -> tuple[r.Cutout, ...]:
        """The cut-outs of a panel."""
        made = []
        for number, form in enumerate(forms):
            path = self.source.entry(origin, number)
            if form.edge is not None:
                continue  # a notch
            for key in ("along", "returned"):
                if getattr(form, key):
                    self._complain(
                        f"{path}.{key}", said("edge beside {key}: that makes it a notch", key=key), "none"
                    )
            if form.lining:
                composer.material(("wood",), form.lining, f"{path}.lining")
            made.append(
                r.Cutout(
                    name=form.name,
                    outline=self.opening(form, path),
                    depth_mm=form.depth,
                    wet=form.wet,
                    lining=form.lining,
                    lining_width_mm=form.lining_width,
                    service=form.service,
                    inner_radius_mm=form.radius,
                    origin=path,
                )
            )
        return tuple(made)

    def opening(self, form: "sf.OpeningForm", path: str) -> Outline:
        """The outline of an insert or cut-out, in panel coordinates."""
        if form.outline is not None:
            outline = self.free_outline(form.outline, f"{path}.outline")
            if outline.holes:
                self._complain(
                    f"{path}.outline",
                    "one line round it",
                    said("{count} holes in it", count=len(outline.holes)),
                )
            return outline
        if form.at is None:
            self._complain(path, "at = [x, y], the centre", "nothing")
            return _stand_in()
        try:
            return self._centred(form, path, form.at)
        except ShapeError as fault:
            self._complain(path, "a shape that can be cut", fault.sentence)
            return _stand_in()

    def _centred(self, form: "sf.OpeningForm", path: str, at: tuple[float, float]) -> Outline:
        if form.diameter is not None and form.size is not None:
            self._complain(path, "size or diameter", "both")
        if form.diameter is not None:
            return circle(form.diameter, at)
        if form.size is None:
            self._complain(path, "size = [length, width], or diameter", "neither")
            return _stand_in()
        length, width = form.size
        radius = form.radius or 0.0
        shape = form.shape or "rectangle"
        flat = {
            "slot": lambda: slot(length, width),
            "D": lambda: d_shape(length, width, radius),
            "bar": lambda: bar(length, width, radius),
        }.get(shape, lambda: rounded_rectangle(length, width, radius))()
        placed = flat.moved(at[0] - length / 2, at[1] - width / 2)
        return placed.rotated(form.turned * pi / 180.0, at) if form.turned else placed

    def free_outline(self, form: "sf.OutlineForm", path: str) -> Outline:
        """A free outline from points [x, y] or [x, y, bulge], or from a drawing in the job's folder."""
        try:
            if form.file:
                return self._drawn(form, path)
            if not form.points or any(len(point) not in (2, 3) for point in form.points):
                self._complain(path, "points = [[x, y], [x, y, bulge], …] or file", "neither")
                return _stand_in()
            if any(abs(number) > LONGEST_MM for point in form.points for number in point[:2]):
                self._complain(path, "points within 20 m", "one farther out")
                return _stand_in()
            return checked(Outline.of(form.points))
        except ShapeError as fault:
            self._complain(path, "an outline that closes and does not cross itself", fault.sentence)
            return _stand_in()

    def panel_outline(
        self, form: "sf.OutlineForm | None", path: str
    ) -> tuple[Outline | None, tuple[r.Cutout, ...]]:
        """The free outline of a panel, and the holes drawn in it, which are cut-outs like any other."""
        if form is None:
            return None, ()
        outline = self.free_outline(form, path)
        holes = enumerate(outline.holes, 1)
        return Outline((outline.outer,)), tuple(
            r.Cutout(f"hole {number}", Outline.of(hole), origin=path) for number, hole in holes
        )

    def sides_of(self, form: "sf.OutlineForm | None", path: str) -> tuple[r.Side, ...]:
        """The edge each stretch belongs to, in the order the outline runs: one word for each point written."""
        if form is None or not form.sides:
            return ()
        if len(form.sides) != len(form.points) or any(len(point) < 2 for point in form.points):
            self._complain(
                f"{path}.sides",
                "one side for each point, of the stretch that starts there",
                str(len(form.sides)),
            )
            return ()
        sides = tuple(r.Side(word) for word in form.sides)
        # written clockwise the outline is turned, and its last stretch comes first
        return sides[::-1] if ring_area(as_ring(form.points)) < 0 else sides

    def _drawn(self, form: "sf.OutlineForm", path: str) -> Outline:
        name = form.file or ""
        if self.folder is None or not name.lower().endswith(SUFFIXES):
            self._complain(f"{path}.file", "a .dxf or .svg file in the job's own folder", repr(name))
            return _stand_in()
        place = self.folder / name
        try:
            if place.resolve().parent != self.folder.resolve() or not place.is_file():
                self._complain(f"{path}.file", "a file in the job's own folder", repr(name))
                return _stand_in()
            data = place.read_bytes()
        except OSError as fault:
            self._complain(f"{path}.file", "a file that can be read", str(fault))
            return _stand_in()
        return self._imported(data, form, path)

    def _imported(self, data: bytes, form: "sf.OutlineForm", path: str) -> Outline:
        from evenface.shape.dxf_import import read_dxf
        from evenface.shape.svg_import import read_svg

        read = read_dxf if str(form.file).lower().endswith(".dxf") else read_svg
        try:
            return read(data, form.layer, form.unit).only
        except ModuleNotFoundError:
            self._complain(
                f"{path}.file",
                "the extra that reads drawings",
                "it is not installed",
                "pip install evenface[dxf]",
            )
            return _stand_in()

    def _complain(self, path: str, expected: Sentence, given: Sentence, hint: Sentence = "") -> None:
        self.complaints.append(Complaint(self.source.place(path), expected, given, hint))


def _stand_in() -> Outline:
    return rounded_rectangle(1.0, 1.0, 0.0)
