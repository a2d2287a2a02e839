"""Job files read, and every way of getting one wrong: one clear complaint each, never a traceback."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenface.construction.kinds import KINDS
from evenface.errors import EvenfaceError, FileError
from evenface.materials import load_catalogue
from evenface.piece import open_job, read_job, read_made
from evenface.piece.records import CornerAt, Ends, Job, Meeting, Order, Panel, Role, Side

KNOWN = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Glaze room"
[buildup.usual]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
edging = { wood = "ash", width = 14 }
"""
PANEL = """\
[[piece]]
name = "Bench"
  [[piece.panel]]
  name = "top"
  buildup = "usual"
  size = [1800, 650]
"""
TINY = HEAD + PANEL


def read(text: str, folder: Path | None = None) -> Job:
    return read_job(text, "job.toml", KNOWN, KINDS, folder)


def panels_of(job: Job, number: int) -> tuple[Panel, ...]:
    description = job.pieces[number].description
    assert isinstance(description, tuple)
    return description


def panel_of(text: str) -> Panel:
    job = read(text)
    return panels_of(job, 0)[0]


def complaints(text: str) -> list[str]:
    with pytest.raises(FileError) as caught:
        read(text)
    return [str(complaint) for complaint in caught.value.complaints]


def refusal(text: str) -> str | None:
    """What the reader says against a text; None when it takes it. Any other exception is a failure."""
    try:
        read(text)
    except EvenfaceError as error:
        return str(error)
    return None


# --- what is read -------------------------------------------------------------------------------------


def test_a_panel_takes_the_edging_of_its_build_up_on_all_four_edges() -> None:
    panel = panel_of(TINY)
    assert [(edge.side, edge.wood, edge.width_mm) for edge in panel.edges] == [
        (side, "ash", 14.0) for side in Side
    ]
    assert {(edge.top, edge.bottom, edge.order) for edge in panel.edges} == {
        (Meeting.UNDER, Meeting.UNDER, Order.EDGING_FIRST)
    }


def test_edges_chooses_and_the_innermost_edging_has_the_last_word() -> None:
    panel = panel_of(
        TINY
        + 'edges = ["left", "front"]\n'
        + 'edging = { section = "flush", bottom = "under", order = "facing first", '
        + 'front = { width = "3/4 in", top = "under" } }\n'
    )
    front, left = panel.edges
    assert (front.side, front.width_mm, front.top, front.bottom) == (
        Side.FRONT,
        19.05,
        Meeting.UNDER,
        Meeting.UNDER,
    )
    assert (left.side, left.width_mm, left.top, left.bottom) == (
        Side.LEFT,
        14.0,
        Meeting.FLUSH,
        Meeting.UNDER,
    )
    assert front.order is left.order is Order.FACING_FIRST


def test_corners_speak_for_all_four_and_one_by_one() -> None:
    panel = panel_of(
        TINY + 'corners = { radius = 60, rear_left = { radius = 0, ends = "butt", through = "rear" } }\n'
    )
    by_name = {corner.at.value: corner for corner in panel.corners}
    assert by_name["front right"].size_mm == 60
    assert by_name["rear left"].shape == "square"
    assert (by_name["rear left"].ends, by_name["rear left"].through) == (Ends.BUTT, Side.REAR)


def test_like_takes_over_another_panel_and_changes_what_it_says() -> None:
    text = TINY + '[[piece.panel]]\nname = "second"\nlike = "top"\nsize = [900, 400]\n'
    job = read(text)
    first, second = panels_of(job, 0)
    assert (second.buildup, second.length_mm, second.edges[0].width_mm) == ("usual", 900.0, 14.0)
    assert first.length_mm == 1800.0


def test_build_ups_may_be_like_another() -> None:
    job = read(
        TINY
        + '[buildup.lino]\nlike = "usual"\nface = { material = "linoleum-2", thickness = 2.1, turned = true }\n'
    )
    face = next(layer for layer in job.buildups["lino"].layers if layer.role is Role.FACE)
    assert (face.material, face.thickness_mm, face.direction_deg) == ("linoleum-2", 2.1, 90.0)
    assert job.buildups["lino"].glue == "pva-d3"


def test_every_record_carries_the_key_path_that_stands_in_the_file() -> None:
    text = TINY + "edging = { front = { width = 20 } }\ncorners = { radius = 10 }\n"
    panel = panel_of(text)
    places = read(text).texts
    assert panel.origin == "piece[0].panel[0]"
    assert places[panel.edges[0].origin]
    assert places[panel.corners[0].origin]
    assert panel.edges[0].origin == "piece[0].panel[0].edging.front"


def test_cutouts_and_inserts_lie_where_their_centre_is() -> None:
    panel = panel_of(
        TINY
        + 'cutout = [{ name = "basin", at = [1200, 325], size = [480, 380], radius = 20 }]\n'
        + 'insert = [{ name = "grip", at = [100, 50], diameter = 60, wood = "oak", depth = 12 }]\n'
    )
    assert panel.cutouts[0].outline.bounds == pytest.approx((960, 135, 1440, 515))
    assert panel.inserts[0].outline.bounds == pytest.approx((70, 20, 130, 80))


def test_tables_may_stand_in_any_order() -> None:
    tables = [PANEL, "[saw]\nkerf = 2.4\n", "[allowances]\noverhang = { every = 5, front = 3 }\n"]
    one = read(HEAD + "".join(tables))
    other = read(HEAD.replace("[buildup.usual]", tables[1] + "[buildup.usual]") + tables[2] + tables[0])
    assert (one.pieces, one.saw, one.allowances) == (other.pieces, other.saw, other.allowances)


def test_made_file_locks_sizes_and_measured_thickness() -> None:
    made = read_made(
        "format = 1\n[thickness]\nbirch-ply-18 = 17.6\n"
        '[[cut]]\npiece = "Bench"\npanel = "top"\nlayer = "edging"\nedge = "front"\nwidth = "14.2 mm"\n'
        '[[opening]]\npiece = "Bench"\npanel = "top"\nlength = 1771.5\n',
        "job.made.toml",
    )
    assert made.thicknesses == {"birch-ply-18": 17.6}
    assert [(size.role, size.side, size.width_mm, size.opening) for size in made.sizes] == [
        (Role.EDGING, Side.FRONT, 14.2, False),
        (Role.FACE, None, None, True),
    ]


# --- what goes wrong -----------------------------------------------------------------------------------

WRONG = [
    (TINY.replace("buildup = ", "bildup = "), ["line 14", "'bildup'", "Did you mean 'buildup'"]),
    (TINY.replace("width = 14", "widht = 14"), ["line 9", "'widht'", "'width'"]),
    (TINY.replace('"ash"', '"ahs"'), ["line 9", "'ahs'", "'ash'"]),
    (TINY.replace('"birch-ply-18"', '"birch-ply-17"'), ["line 7", "birch-ply-17", "birch-ply-1"]),
    (TINY.replace('buildup = "usual"', 'buildup = "usul"'), ["line 14", "'usul'", "'usual'"]),
    (TINY.replace("[1800, 650]", "[-1800, 650]"), ["line 15", "size[0]", "above 0", "-1800"]),
    (TINY.replace("[1800, 650]", "[0, 650]"), ["line 15", "above 0"]),
    (TINY.replace("[1800, 650]", "[nan, 650]"), ["line 15", "nan"]),
    (TINY.replace("[1800, 650]", "[inf, 650]"), ["line 15", "inf"]),
    (TINY.replace("[1800, 650]", "[true, 650]"), ["line 15", "True"]),
    (TINY.replace("[1800, 650]", "[25000, 650]"), ["line 15", "20 m", "25 m"]),
    (TINY.replace("[1800, 650]", '["1800 kg", 650]'), ["line 15", "1800 kg"]),
    (TINY.replace("[1800, 650]", "[1800]"), ["line 15", "size"]),
    (TINY.replace("[1800, 650]", "[" + "9" * 5000 + ", 650]"), ["job.toml"]),
    (TINY.replace("  size = [1800, 650]\n", ""), ["'size'", "cannot be left out"]),
    (TINY + 'edges = ["front", "back"]\n', ["line 16", "'back'", "front, rear, left, right"]),
    (TINY + 'edges = ["front", "front"]\n', ["line 16", "each edge once"]),
    (TINY + 'edges = ["front"]\nedging = { left = { width = 3 } }\n', ["line 17", "left", "edged"]),
    (TINY + "corners = { radius = 5, chamfer = 5 }\n", ["line 16", "radius and chamfer"]),
    (TINY + 'corners = { front_left = { through = "rear" } }\n', ["line 16", "front or left"]),
    (TINY + "corners = { front_left = { inner_radius = 5 } }\n", ["front_left.inner_radius", "a notch"]),
    (TINY + "corners = { rear_left = { notch = [9, 9], radius = 5 } }\n", ["radius and notch"]),
    (TINY + 'cutout = { name = "pipe", edge = "rear", size = [60, 30] }\n', ["along, the middle"]),
    (TINY + 'cutout = { name = "pipe", edge = "rear", along = 80 }\n', ["[along the edge, into the panel]"]),
    (
        TINY + 'cutout = { name = "pipe", edge = "rear", along = 80, size = [60, 30], radius = 31 }\n',
        ["at most 30 mm"],
    ),
    (
        TINY + 'cutout = { name = "pipe", edge = "rear", along = 80, size = [60, 30], depth = 9 }\n',
        ["cutout.depth", "beside edge"],
    ),
    (
        TINY + 'cutout = { name = "pipe", along = 80, at = [80, 80], size = [60, 30] }\n',
        ["cutout.along", "makes it a notch"],
    ),
    (
        TINY
        + "outline = { points = [[0, 0], [1800, 0], [1800, 650], [0, 650]] }\n"
        + 'cutout = { name = "pipe", edge = "rear", along = 80, size = [60, 30] }\n',
        ["Draw the notch in the outline itself"],
    ),
    (
        TINY + 'outline = { points = [[0, 0], [9, 0], [9, 9]], sides = ["front"] }\n',
        ["outline.sides", "one side for each point"],
    ),
    (TINY + 'grip = { name = "g", depth = 9, path = [[1, 1]], edge = "rear" }\n', ['from = "edge"']),
    (TINY + 'like = "top"\n', ["circle", "top → top"]),
    (
        TINY + '[[piece.panel]]\nname = "top"\nbuildup = "usual"\nsize = [1, 1]\n',
        ["line 17", "a second time"],
    ),
    (TINY + PANEL, ["a second time", "'Bench'"]),
    (TINY.replace('name = "Bench"', 'name = "Bench"\nkind = "panel"'), ["'panel'", "Did you mean 'panels'"]),
    (TINY.replace('name = "Bench"', 'name = "Bench"\ncount = 1.5'), ["count", "whole number", "1.5"]),
    (TINY.replace('name = "Glaze room"', 'name = "Glaze room"\nplace = "copenhaguen"'), ["copenhagen"]),
    (TINY.replace('name = "Glaze room"', 'name = "Glaze room"\nshop_humidity = 55'), ["55", "fraction"]),
    (TINY.replace("format = 1", "format = 2"), ["line 1", "newer"]),
    (TINY.replace("format = 1\n", ""), ["format = 1"]),
    (TINY.replace("format = 1", "format = true"), ["format = 1"]),
    (TINY.replace('name = "Bench"', "name = "), ["line 11", "TOML"]),
    (TINY + "x" + ".x" * 40 + " = 1\n", ["20 dots"]),
    (TINY + '[[stock]]\nmaterial = "hpl-0.8"\n', ["stock[0]", "size"]),
    (TINY + 'outline = { file = "../shape.dxf" }\n', ["own folder"]),
    (TINY + 'outline = { file = "shape.dxf" }\n', ["own folder"]),
    (TINY + "outline = { points = [[0, 0], [10, 10], [10, 0], [0, 10]] }\n", ["line 16", "cross"]),
    (
        TINY + 'grip = [{ name = "g", insert = "none", depth = 9, path = [[1, 2]] }]\n',
        ["line 16", "insert of this panel"],
    ),
    (
        TINY.replace('name = "Glaze room"', 'name = "Glaze room"\nshop_humidity = 0x' + "f" * 8000),
        ["shop_humidity", "far too many digits"],
    ),
    (
        TINY.replace('name = "Bench"', 'name = "Bench"\nkind = 0x' + "f" * 8000),
        ["kind", "far too many digits"],
    ),
    (TINY + "like = 0x" + "f" * 8000 + "\n", ["like", "far too many digits"]),
    (TINY.replace('name = "Glaze room"', "name = 0x" + "f" * 8000), ["job.name", "far too many digits"]),
    (
        TINY.replace('name = "Glaze room"', 'name = "Glaze room"\ndue = "soonish"'),
        ["job.due", "a date such as"],
    ),
    (TINY.replace('name = "Glaze room"', 'name = "Glaze room"\ncurrency = "money"'), ["three letters"]),
    (TINY.replace('name = "Glaze room"', 'name = "Glaze room"\ntemperature = 900'), ["from -60 to 60"]),
    (
        TINY.replace('name = "Glaze room"', 'name = "Glaze room"\nclient = "a\\u0007b"'),
        ["job.client", "printable"],
    ),
    (TINY.replace('name = "Glaze room"', 'name = "Glaze room"\nhumidity = [0.5, 0.5]'), ["twelve values"]),
    (HEAD + "piece = []\n", ["at least one [[piece]]"]),
    (HEAD + '[[piece]]\nname = "Empty"\n', ["at least one [[piece.panel]]"]),
    (
        TINY + 'cutout = { name = "hole", at = [9, 9], size = [5, 5], diameter = 5 }\n',
        ["size or diameter", "both"],
    ),
    (TINY + 'profile = { shape = "round-over" }\n', ["radius of the round-over"]),
    (TINY + 'profile = { shape = "bevel under", height = 4 }\n', ["depth of the bevel under"]),
    (TINY + 'profile = { shape = "free" }\n', ["curve of the free"]),
    (TINY + 'profile = { shape = "free", curve = [[1]] }\n', ["points [z, depth]"]),
    (TINY + 'profile = { shape = "cove", radius = 3, edges = [] }\n', ["at least one edge"]),
    (TINY + "outline = { points = [[0, 0], [1e9, 0], [0, 1e9]] }\n", ["within 20 m"]),
    (
        TINY.replace('edging = { wood = "ash", width = 14 }\n', "") + 'edges = ["front"]\n',
        ["line 15", "none that says"],
    ),
    ("", ["format = 1"]),
    ("piece = 3\nformat = 1\n", ["piece"]),
]


@pytest.mark.parametrize(("text", "words"), WRONG, ids=range(len(WRONG)))
def test_each_slip_is_named_with_its_place_and_what_would_be_right(text: str, words: list[str]) -> None:
    told = "\n".join(complaints(text))
    assert all(word in told for word in words), told


def test_all_complaints_of_a_file_come_at_once_in_its_order() -> None:
    told = complaints(TINY.replace('"ash"', '"ahs"').replace('"hpl-0.8"', '"hpl-8"').replace("650", "-650"))
    # the negative size keeps its panel from being composed, the rest is still looked at
    assert len(told) >= 4
    assert [line.split("line ")[1].split(" ")[0] for line in told] == sorted(
        (line.split("line ")[1].split(" ")[0] for line in told), key=lambda number: int(number.rstrip(","))
    )


def test_one_slip_hides_no_other() -> None:
    text = TINY.replace('name = "Glaze room"', 'nam = "Glaze room"').replace('"pva-d3"', '"pva-d9"')
    told = "\n".join(complaints(text + "edges = [1]\n"))
    assert all(word in told for word in ("'nam'", "pva-d9", "edges[0]"))


def test_a_faulty_panel_is_complained_of_once() -> None:
    assert len(complaints(TINY.replace("1800", "-1800"))) == 1


def test_a_chain_of_likes_too_long_to_follow_is_a_complaint() -> None:
    links = (f'[[piece.panel]]\nname = "p{n}"\nlike = "p{n + 1}"\n' for n in range(3000))
    told = complaints(TINY + "".join(links) + '[[piece.panel]]\nname = "p3000"\nlike = "top"\n')
    assert any("likes in a row" in line for line in told)
    assert len(told) <= 51


def test_like_reaches_a_panel_of_another_piece_when_its_name_stands_once() -> None:
    other = '[[piece]]\nname = "Second"\n[[piece.panel]]\nname = "leaf"\nlike = "top"\ncount = 2\n'
    job = read(TINY + other)
    (leaf,) = panels_of(job, 1)
    assert (leaf.length_mm, leaf.count) == (1800.0, 2)
    twice = TINY + PANEL.replace("Bench", "Third") + other
    assert any("stands once" in line for line in complaints(twice))


def test_a_build_up_whose_name_needs_quotes_keeps_a_path_that_can_be_followed() -> None:
    job = read(TINY.replace("buildup.usual", 'buildup."my bench"').replace('"usual"', '"my bench"'))
    assert job.buildups["my bench"].origin == 'buildup."my bench"'
    assert job.texts[job.buildups["my bench"].layers[0].origin]


@pytest.mark.parametrize(
    ("entry", "word"),
    [
        ('layer = "edging"\nwidth = 3', "an edge, for edging alone"),
        ('layer = "carrier"\nedge = "front"\nwidth = 3', "an edge, for edging alone"),
        ('layer = "carrier"', "neither"),
        (
            'layer = "carrier"\nlength = 3\n[[cut]]\npiece = "Bench"\npanel = "top"\nlayer = "carrier"\nwidth = 4',
            "each layer once",
        ),
        (
            'layer = "carrier"\nlength = 3\n[[cut]]\npiece = "Bank"\npanel = "top"\nlayer = "face"\nwidth = 4',
            "Known: Bench",
        ),
        (
            'layer = "carrier"\nlength = 3\n[[cut]]\npiece = "Bench"\npanel = "tip"\nlayer = "face"\nwidth = 4',
            "'top'",
        ),
        ('layer = "carrier"\nlength = 3\n[thickness]\nbirch-ply-19 = 18', "birch-ply-"),
    ],
)
def test_a_made_file_is_held_against_the_job(entry: str, word: str) -> None:
    text = f'format = 1\n[[cut]]\npiece = "Bench"\npanel = "top"\n{entry}\n'
    with pytest.raises(FileError, match=word.replace("[", r"\[")):
        read_made(text, "job.made.toml", read(TINY), KNOWN)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs pipes that have a name")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    with pytest.raises(FileError, match="a pipe"):
        open_job(tmp_path / "pipe.toml", KNOWN, KINDS)


def test_a_circle_of_likes_names_the_chain() -> None:
    text = TINY + (
        '[[piece.panel]]\nname = "a"\nlike = "b"\n[[piece.panel]]\nname = "b"\nlike = "c"\n'
        '[[piece.panel]]\nname = "c"\nlike = "a"\n'
    )
    assert any("a → b → c → a" in line for line in complaints(text))


def test_a_file_that_cannot_be_read_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="nothing of that name"):
        open_job(tmp_path / "none.toml", KNOWN, KINDS)
    with pytest.raises(FileError, match="a folder"):
        open_job(tmp_path, KNOWN, KINDS)
    bad = tmp_path / "bad.toml"
    bad.write_bytes(b'format = 1\nname = "\xff"\n')
    with pytest.raises(FileError, match=r"line 2.*UTF-8.*0xff"):
        open_job(bad, KNOWN, KINDS)
    big = tmp_path / "big.toml"
    with big.open("wb") as file:
        file.truncate(2_000_001)
    with pytest.raises(FileError, match="2 MB"):
        open_job(big, KNOWN, KINDS)


def test_the_mark_some_editors_put_at_the_head_is_passed_over(tmp_path: Path) -> None:
    marked = tmp_path / "job.toml"
    marked.write_text(TINY, encoding="utf-8-sig")
    assert open_job(marked, KNOWN, KINDS).name == "Glaze room"


@given(st.binary(max_size=300))
def test_no_bytes_bring_it_down(raw: bytes) -> None:
    from evenface.piece.source_text import decoded

    with pytest.raises(EvenfaceError):
        read(decoded(raw, "job.toml"))


VALUES = st.sampled_from(
    [
        "-1",
        "0",
        "1e400",
        "nan",
        "true",
        '"x"',
        "[]",
        "{}",
        "[[]]",
        "1979-05-27",
        '"3 mm"',
        "[1, 2, 3]",
        "{ a = 1 }",
        "9" * 4400,
    ]
)


@given(st.integers(0, 14), VALUES)
def test_no_wrong_value_anywhere_brings_it_down(line: int, value: str) -> None:
    lines = TINY.splitlines()
    if "=" not in lines[line]:
        return
    lines[line] = lines[line].split("=")[0] + "= " + value
    told = refusal("\n".join(lines))
    assert told is None or len(told) < 5000


KEYS = st.sampled_from(
    [
        "edges",
        "edging",
        "corners",
        "profile",
        "cutout",
        "insert",
        "grip",
        "allowances",
        "hold",
        "limit",
        "outline",
        "count",
        "use",
        "like",
        "climate",
        "span",
    ]
)


@given(KEYS, VALUES)
def test_no_wrong_entry_of_a_panel_brings_it_down(key: str, value: str) -> None:
    told = refusal(TINY + f"{key} = {value}\n")
    assert told is None or "job.toml" in told


@pytest.mark.parametrize("name", ["one-shelf.toml", "glaze-room.toml"])
def test_the_examples_read(name: str) -> None:
    job = open_job(Path(__file__).parents[2] / "examples" / name, KNOWN, KINDS)
    assert job.pieces


def test_the_sides_of_an_outline_follow_it_when_it_is_turned() -> None:
    points = [[0, 0], [0, 650], [1800, 650], [1800, 0]]  # clockwise
    text = TINY + f'outline = {{ points = {points}, sides = ["left", "rear", "right", "front"] }}\n'
    top = panel_of(text)
    assert top.outline is not None
    assert top.outline.outer[:2] == ((0, 0, 0), (1800, 0, 0))
    assert top.outline_sides == (Side.FRONT, Side.RIGHT, Side.REAR, Side.LEFT)


def test_notches_and_fixings_as_written_come_into_the_panel() -> None:
    text = TINY + (
        "corners = { radius = 20, front_left = { notch = [80, 55], inner_radius = 8, returned = true } }\n"
        'cutout = [{ name = "pipe", edge = "rear", along = 700, size = [90, 60], radius = 10, wet = true },\n'
        '  { name = "drain", at = [400, 300], diameter = 50 }]\n'
        'hold = { how = "screwed", fixings = 6, from_edge = { every = 40, rear = 15 } }\n'
    )
    top = panel_of(text)
    corner = next(one for one in top.corners if one.at is CornerAt.FRONT_LEFT)
    assert (corner.shape, corner.notch_mm, corner.inner_radius_mm, corner.returned) == (
        "notch",
        (80, 55),
        8,
        True,
    )
    assert {one.shape for one in top.corners} == {"notch", "radius"}
    (pipe,) = top.notches
    assert (pipe.side, pipe.along_mm, pipe.length_mm, pipe.depth_mm) == (Side.REAR, 700, 90, 60)
    assert pipe.wet
    assert [one.name for one in top.cutouts] == ["drain"]
    assert dict(top.hold.from_edge_mm) == {Side.FRONT: 40, Side.REAR: 15, Side.LEFT: 40, Side.RIGHT: 40}
