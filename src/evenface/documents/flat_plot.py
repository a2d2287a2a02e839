"""The chart of a part through the year as a file: SVG as drawn, PNG set from it."""

from pathlib import PurePath

from evenface.behaviour import Behaviour
from evenface.construction import BuiltPanel
from evenface.documents.pictures import picture_of, year_scene
from evenface.documents.setting import set_pictures
from evenface.errors import Complaint, FileError, Place
from evenface.words import ENGLISH, Manner

PLOT_DOTS_PER_INCH = 200.0


def plot_bytes(panel: BuiltPanel, behaviour: Behaviour, name: str, manner: Manner = ENGLISH) -> bytes:
    """The file's content by the ending of its name. FileError for any but .svg and .png."""
    form = PurePath(name).suffix.lower()
    if form not in (".svg", ".png"):
        raise FileError([Complaint(Place(key="--plot"), "a file that ends in .svg or .png", repr(name))])
    picture = picture_of(year_scene(panel, behaviour, manner), "year")
    if form == ".svg":
        return picture.svg.encode()
    data = {"svg": picture.svg, "width": picture.width_mm, "height": picture.height_mm}
    return set_pictures("picture.typ", data, PLOT_DOTS_PER_INCH)[0]
