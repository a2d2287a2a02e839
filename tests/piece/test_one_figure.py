"""A figure typed anew without reading the file again: byte for byte and place for place what reading it would give."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.finding import Change
from evenface.piece.editing import apply_changes
from evenface.piece.one_figure import retyped
from evenface.piece.source_text import parse
from evenface.toml_places import split_path

EXAMPLES = {one.stem: one.read_text(encoding="utf-8") for one in Path("examples").resolve().glob("*.toml")}
PLACES = [
    (name, path)
    for name, text in sorted(EXAMPLES.items())
    for path in sorted(parse(text, name).found)
    if path
]
figures = st.one_of(
    st.integers(-3, 10**7).map(str),
    st.decimals(-9, 9999, places=3, allow_nan=False).map(str),
    st.sampled_from(
        ["1800.0", "-0", "+5", "1e3", "0.5", ".5", "7.", "1_000", "true", "", "18 mm", "60", "inf"]
    ),
)


@given(st.sampled_from(PLACES), figures)
@settings(max_examples=150)
def test_the_same_as_reading_it_again_or_nothing(place, new):
    name, path = place
    text, change = EXAMPLES[name], Change(path, "", new)
    quick = retyped(parse(text, name), text, change)
    if quick is None:
        return
    slow = apply_changes(text, [change], name)
    assert quick[0] == slow
    read = parse(slow, name)
    assert (quick[1].file, quick[1].data, dict(quick[1].found)) == (read.file, read.data, dict(read.found))
    assert repr(quick[1].data) == repr(read.data)  # 1 is no 1.0 here


def test_every_figure_of_the_examples_can_be_typed_so():
    taken = 0
    for name, text in EXAMPLES.items():
        source = parse(text, name)
        for path in source.found:
            value = source.data
            for step in split_path(path):
                value = value[step]
            if isinstance(value, int | float) and not isinstance(value, bool):
                assert retyped(source, text, Change(path, "", "1234.5")) is not None, path
                taken += 1
    assert taken > 300


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("a = 0x1F\n", "a"),
        ("a = 1_000\n", "a"),
        ("a = 1e3\n", "a"),
        ("a = 1979-05-27\n", "a"),
        ("a = true\n", "a"),
        ('a = "12"\n', "a"),
        ("a = 12\n", "b"),
        ("a = 12\n", ""),
        ("a = [1, 2]\n", "a"),
        ("a = [1, 2]\n", "a[2]"),
        ("\ufeffa = 12\n", "a"),
    ],
)
def test_what_is_not_plainly_a_figure_is_left_to_the_reader(text, path):
    assert retyped(parse(text, "x"), text, Change(path, "", "13")) is None


def test_comments_endings_and_what_stands_behind_are_kept():
    text = "a = { b = 1, c = 22 } # of d\r\nd = [3,\n  4] # end"
    source = parse(text, "x")
    for path, new, wanted in (
        ("a.b", "1000", "a = { b = 1000, c = 22 } # of d\r\nd = [3,\n  4] # end"),
        ("a.c", "2.5", "a = { b = 1, c = 2.5 } # of d\r\nd = [3,\n  4] # end"),
        ("d[1]", "-44", "a = { b = 1, c = 22 } # of d\r\nd = [3,\n  -44] # end"),
    ):
        made = retyped(source, text, Change(path, "", new))
        assert made is not None
        assert made[0] == wanted
        again = parse(wanted, "x")
        assert (made[1].data, dict(made[1].found)) == (again.data, dict(again.found))
    assert source == parse(text, "x"), "what it was made from is left as it was"
