"""A drawing read back from its SVG, in mm of the piece, by a reader that knows nothing of the writer."""

import re
from dataclasses import dataclass
from xml.etree import ElementTree

from evenface.drawings.scene import Scene

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Way:
    """One path: its corner points, the radii of its arcs, whether it is closed."""

    points: tuple[tuple[float, float], ...]
    radii: tuple[float, ...]
    closed: bool

    @property
    def box(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def ways_of(svg: str, scene: Scene, layer: str) -> list[Way]:
    """The paths of one layer, put back from paper to piece."""
    root = ElementTree.fromstring(svg)
    groups = [g for g in root.iter(f"{SVG}g") if g.get("data-layer") == layer]
    return [_way(path.attrib["d"], scene) for group in groups for path in group.iter(f"{SVG}path")]


def _way(d: str, scene: Scene) -> Way:
    points, radii = [], []
    for letter, figures in re.findall(r"([MLA])([^MLAZ]*)", d):
        numbers = [float(one) for one in figures.split()]
        if letter == "A":
            assert numbers[0] == numbers[1]
            radii.append(numbers[0] / scene.scale)
        x, y = numbers[-2:]
        points.append((scene.bounds[0] + x / scene.scale, scene.bounds[3] - y / scene.scale))
    return Way(tuple(points), tuple(radii), d.rstrip().endswith("Z"))


def letterings(svg: str) -> list[str]:
    """All texts of an SVG."""
    return ["".join(one.itertext()) for one in ElementTree.fromstring(svg).iter(f"{SVG}text")]
