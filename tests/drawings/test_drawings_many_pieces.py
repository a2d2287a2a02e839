"""Sheets with very many or very small pieces, sticks, turned pieces: everything can still be read."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.drawings import sheet_of
from evenface.drawings.scene import Path, Scene, Text, text_box, texts_of
from evenface.layouts.records import Bought, Cut, Layout, Offcut, Placed, Sheet


def layout(*sheets: Sheet) -> Layout:
    return Layout("birch-ply-18", sheets, Bought(len(sheets)), "fewest", len(sheets), True)


def grid(columns: int, rows: int, length: int = 244_000, width: int = 122_000) -> Sheet:
    """A sheet cut into equal pieces with a kerf of 3.2 mm, without trims."""
    kerf = 320
    long = (length - (columns - 1) * kerf) // columns
    wide = (width - (rows - 1) * kerf) // rows
    placed = tuple(
        Placed(f"{c}-{r}", f"{r + 1}.{c + 1}", c * (long + kerf), r * (wide + kerf), long, wide)
        for c in range(columns)
        for r in range(rows)
    )
    cuts = [Cut(r + 1, 1, wide, 0, length, "along", (r + 1) * wide + r * kerf, kerf) for r in range(rows - 1)]
    cuts += [
        Cut(
            rows + c + r * (columns - 1), 2, long, r * (wide + kerf), r * (wide + kerf) + wide, "across",
            (c + 1) * long + c * kerf, kerf,
        )
        for r in range(rows)
        for c in range(columns - 1)
    ]  # fmt: skip
    return Sheet("s", "sheet", length, width, 0, placed, tuple(cuts), ())


def overlaps(scene: Scene) -> list[tuple[str, str]]:
    boxes = [(text.text, text_box(text, scene.scale)) for text in texts_of(scene.primitives)]
    slack = 0.01 / scene.scale
    return [
        (a, b)
        for (a, p), (b, q) in combinations(boxes, 2)
        if p[0] < q[2] - slack and q[0] < p[2] - slack and p[1] < q[3] - slack and q[1] < p[3] - slack
    ]


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 20), st.integers(1, 14))
def test_any_number_of_pieces_stays_legible(columns: int, rows: int) -> None:
    scene = sheet_of(layout(grid(columns, rows)), 0)
    assert overlaps(scene) == []
    assert len([one for one in scene.on_layer("pieces") if isinstance(one, Path)]) == columns * rows


def test_every_cut_has_its_number_or_is_named_as_left_out() -> None:
    sheet = grid(12, 9)
    scene = sheet_of(layout(sheet), 0)
    shown = {int(text.text) for text in scene.on_layer("cuts") if isinstance(text, Text)}
    told = " ".join(text.text for text in scene.on_layer("notes") if isinstance(text, Text))
    for cut in sheet.cuts:
        assert cut.number in shown or str(cut.number) in told.split("cuts")[-1]


def test_a_turned_piece_keeps_its_own_length_and_width_in_words() -> None:
    piece = Placed("a", "1.2", 0, 0, 40_000, 60_000, turned=True)
    sheet = Sheet("s", "sheet", 244_000, 122_000, 0, (piece,), (), ())
    words = [text.text for text in texts_of(sheet_of(layout(sheet), 0).primitives)]
    assert "600 × 400" in words


def _row_of(length: int, width: int) -> list[str]:
    """Lettering of a large sheet with six such pieces in a row."""
    placed = tuple(Placed(str(n), "7.1", n * (length + 320), 0, length, width) for n in range(6))
    sheet = Sheet("s", "sheet", 305_000, 130_000, 0, placed, (), ())
    return [text.text for text in texts_of(sheet_of(layout(sheet), 0).primitives)]


def test_pieces_too_small_for_words_are_numbered_and_listed() -> None:
    words = _row_of(10_000, 6_000)
    assert words.count("(1)") == 6
    assert any(row.startswith("1: 7.1 100 × 60") for row in words)


def test_pieces_too_small_for_a_number_are_counted_under_the_sheet() -> None:
    words = _row_of(4_500, 3_000)
    assert "(1)" not in words
    assert "pieces too small to letter: 6× 7.1 45 × 30" in words


def test_a_stick_is_drawn_as_a_bar_with_lengths_only() -> None:
    placed = (Placed("a", "1.1", 0, 0, 90_000, 1), Placed("b", "1.1", 90_320, 0, 60_000, 1))
    cuts = (Cut(1, 1, 90_000, 0, 1, "across", 90_000, 320),)
    sheet = Sheet("s", "stick", 300_000, 1, 0, placed, cuts, (Offcut(150_640, 0, 149_360, 1),))
    scene = sheet_of(layout(sheet), 0)
    words = [text.text for text in texts_of(scene.primitives)]
    assert "900" in words
    assert "600" in words
    assert scene.height_mm > 9
    assert overlaps(scene) == []
