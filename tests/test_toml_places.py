"""Places of entries, held against the parser: a mark set at a path must come out where we said."""

import pytest
import tomlrt
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.toml_places import Step, key_path, place_of, places, split_path, too_deep

ODD = (
    """# a head
format = 1   # first
title = "a [not] = {table}"
text = \"\"\"
[[no]] = 'x' \\"""
    + '"'
    + """
# no comment
\"\"\"
raw = '''it''s' [x]'''

[buildup.bench]   # named
"odd key.1" = 3
'quoted' = [ 1, [2, 3],   # inner
   "four ] ,", ]
site.deep . er = true

[[piece]]
name = "A"
  [[piece.panel]]
  size = [1800, 650]
  edging = { width = 20, front = { width = 40, top = "flush" } }
  [[piece.panel]]
  cutout = [{ name = "b", at = [1, 2] }, { name = "c" }]
[buildup.other]
x = 1979-05-27T07:32:00Z
[[piece]]
[[piece.panel]]
size = "x"
"""
)


def leaves(value: object, path: tuple[Step, ...] = ()) -> list[tuple[Step, ...]]:
    if isinstance(value, dict):
        return [leaf for key, inner in value.items() for leaf in leaves(inner, (*path, key))]
    if isinstance(value, list):
        return [leaf for number, inner in enumerate(value) for leaf in leaves(inner, (*path, number))]
    return [path]


def seen_by_the_parser(text: str, path: tuple[Step, ...]) -> int:
    """Offset of the value at a path, from a mark set there by the parser's public functions."""
    document = tomlrt.loads(text)
    holder = document
    for step in path[:-1]:
        holder = holder[step]
    holder[path[-1]] = "MARKMARKMARK"
    return tomlrt.dumps(document).index('"MARKMARKMARK"')


def offset(text: str, place: tuple[int, int]) -> int:
    line, column = place
    return sum(len(row) + 1 for row in text.split("\n")[: line - 1]) + column - 1


def check(text: str) -> None:
    found = places(text)
    for path in leaves(tomlrt.loads(text).to_dict()):
        ours, true = offset(text, found[key_path(path)]), seen_by_the_parser(text, path)
        if isinstance(path[-1], int):
            assert ours == true, path
        else:
            between = text[ours:true]
            assert tomlrt.loads(between + "1") == {path[-1]: 1}, (path, between)


def test_an_odd_text_is_placed_as_the_parser_sees_it() -> None:
    check(ODD)


@pytest.mark.parametrize(
    ("path", "place"),
    [
        ("", (1, 1)),
        ("format", (2, 1)),
        ("buildup.bench", (10, 1)),
        ('buildup.bench."odd key.1"', (11, 1)),
        ("buildup.bench.quoted[1][1]", (12, 21)),
        ("buildup.bench.quoted[2]", (13, 4)),
        ("buildup.bench.site.deep", (14, 6)),
        ("piece", (16, 1)),
        ("piece[0].panel[0]", (18, 3)),
        ("piece[0].panel[0].edging.front.width", (20, 36)),
        ("piece[0].panel[1].cutout[1].name", (22, 44)),
        ("piece[1]", (25, 1)),
        ("piece[1].panel[0].size", (27, 1)),
    ],
)
def test_lines_and_columns_counted_by_hand(path: str, place: tuple[int, int]) -> None:
    assert places(ODD)[path] == place


def test_a_missing_entry_stands_at_the_table_around_it() -> None:
    found = places(ODD)
    assert place_of("piece[0].panel[0].buildup", found) == found["piece[0].panel[0]"]
    assert place_of("nothing.here", found) == (1, 1)


def test_windows_line_ends_keep_lines_and_columns() -> None:
    assert places(ODD.replace("\n", "\r\n")) == places(ODD)


@given(st.lists(st.one_of(st.text(max_size=6), st.integers(0, 99)), max_size=5))
@settings(max_examples=100, deadline=None)
def test_a_key_path_survives_writing_and_splitting(steps: list[Step]) -> None:
    assert split_path(key_path(tuple(steps))) == tuple(steps)


@pytest.mark.parametrize("path", ["a..b", "a[x]", 'a."open', "a b"])
def test_what_is_no_key_path_is_said_to_be_none(path: str) -> None:
    with pytest.raises(ValueError, match="expected a key path"):
        split_path(path)


@given(st.text(alphabet="[]{}=\"'#.,\\ \n\tab1é", max_size=60))
@settings(max_examples=150, deadline=None)
def test_any_text_gives_places_without_an_exception(text: str) -> None:
    found = places(text)
    try:
        document = tomlrt.loads(text)
    except tomlrt.TOMLParseError:
        return
    assert {key_path(path) for path in leaves(document.to_dict())} <= found.keys()


WORDS = st.sampled_from(["a", "b", "c-d", "é x", "1"])
VALUES = st.recursive(
    st.one_of(st.integers(-9, 9), st.booleans(), st.text(alphabet="x\"'#[]{}=,\\\n", max_size=5)),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(WORDS, inner, max_size=3)),
    max_leaves=8,
)


@given(st.dictionaries(WORDS, VALUES, max_size=4))
@settings(max_examples=60, deadline=None)
def test_random_documents_are_placed_as_the_parser_sees_them(data: dict[str, object]) -> None:
    check(tomlrt.dumps(data))


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a = 1\n" + ".".join("b" * 21) + " = 1", (2, 42)),
        ("[" + " . ".join(["x"] * 30) + "]", (1, 83)),
        (".".join("a" * 100_000) + " = 1", (1, 42)),
        ("ok.a = { " + ".".join("b" * 20) + " = 1 }", (1, 52)),
    ],
)
def test_a_key_path_of_too_many_steps_is_found_before_parsing(text: str, place: tuple[int, int]) -> None:
    assert too_deep(text) == place


@pytest.mark.parametrize(
    "text", [ODD, ".".join("b" * 20) + " = 1", 'a = "' + ".x" * 50 + '"', "# " + "a." * 50, "a..b" + "." * 30]
)
def test_dots_elsewhere_are_no_deep_path(text: str) -> None:
    assert too_deep(text) is None


def test_deep_nesting_of_lists_does_not_exhaust_the_reader() -> None:
    assert places("a = " + "[" * 50_000) != {}
