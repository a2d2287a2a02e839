"""Entries set in a text: what is asked for changes, and not a byte beside it.

The texts are put together from pieces of known meaning, so that the expected text is known without asking
the writer; the standard library's reader is the judge of what the result says.
"""

import copy
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
import tomlrt
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.errors import FileError
from evenface.finding import Change
from evenface.piece.editing import apply_changes, value_of
from evenface.toml_places import Step, key_path

EXAMPLES = Path(__file__).parents[2] / "examples"

JOB = """\
# A desk and a bench.
format = 1   # first

[buildup.desk]   # linoleum
face    = "linoleum-2"
carrier = { material = 'blockboard-22', thickness = 21.8 }  # measured
"odd key.1" = 0x1F
edging  = { wood = "oak",  width = 12 }

[[piece]]
name = "Desk"

  # the top
  [[piece.panel]]
  name    = "top"
  size    = [1500,
             700]          # over the edging
  profile = { shape = "round-over", radius = 4 }
  corners.radius = 20

    [[piece.panel.cutout]]
    name = "inkwell"
    at   = [100, 80]

[buildup.bench]
face = "hpl-0.8"
carrier = "birch-ply-18"   # as labelled

[[piece]]
name  = "Bench"
[[piece.panel]]
name  = "top"
size  = [ 1800, 650 ]
profile = [{ shape = "chamfer", height = 2 }]
cutout = [{ name = "basin", at = [1200, 325] }, { name = "tap" }]
# the end
"""


def change(text: str, path: str, new: str) -> str:
    return apply_changes(text, [Change(path, "", new)])


def refusal(path: str, new: str = "1", text: str = JOB) -> str:
    with pytest.raises(FileError) as fault:
        change(text, path, new)
    (complaint,) = fault.value.complaints
    assert complaint.place.key in (path, ascii(path))
    return str(complaint)


# --- single edits, with the whole expected text ---------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "new", "before", "after"),
    [
        ("format", "2", "format = 1   #", "format = 2   #"),
        ("buildup.desk.carrier.thickness", "22.05", "thickness = 21.8 }", "thickness = 22.05 }"),
        ('buildup.desk."odd key.1"', "7", "= 0x1F", "= 7"),
        ("buildup.desk.edging.wood", "cherry", 'wood = "oak",  width', 'wood = "cherry",  width'),
        ("piece[0].panel[0].size[1]", "640", "   700]  ", "   640]  "),
        ("piece[0].panel[0].corners.radius", "24.5", "radius = 20", "radius = 24.5"),
        ("piece[0].panel[0].cutout[0].at[0]", "3/4 in", "at   = [100,", 'at   = ["3/4 in",'),
        ("piece[1].panel[0].cutout[1].name", 'a "tap"', 'name = "tap"', 'name = "a \\"tap\\""'),
        ("piece[1].name", "true", '"Bench"', "true"),
        # one entry written short or in full
        ("buildup.desk.carrier", "mdf-22", "'blockboard-22'", '"mdf-22"'),
        (
            "buildup.bench.carrier.thickness",
            "17.6",
            'carrier = "birch-ply-18"',
            'carrier = { material = "birch-ply-18", thickness = 17.6 }',
        ),
        # one profile, as a table or as a list of one
        ("piece[0].panel[0].profile[0].radius", "3", "radius = 4 }", "radius = 3 }"),
        ("piece[1].panel[0].profile.height", "3", "height = 2 }", "height = 3 }"),
        # new entries
        (
            "buildup.desk.edging.order",
            "facing first",
            "width = 12 }",
            'width = 12,  order = "facing first" }',
        ),
        ("piece[1].panel[0].size[2]", "9", "650 ]", "650, 9 ]"),
        ("piece[1].panel[0].cutout[2].name", "x", '"tap" }]', '"tap" }, { name = "x" }]'),
        ("piece[0].count", "3", 'name = "Desk"\n', 'name = "Desk"\ncount = 3\n'),
        (
            "piece[1].panel[0].corners.front_left.radius",
            "60",
            '"tap" }]\n',
            '"tap" }]\ncorners = { front_left = { radius = 60 } }\n',
        ),
        # entries taken out
        ("buildup.desk.edging.width", "", ",  width = 12 }", " }"),
        ("piece[1].panel[0].cutout[1]", "", ', { name = "tap" }]', "]"),
        ("format", "", "format = 1   # first\n", ""),
    ],
)
def test_one_entry_changes_and_nothing_else(path: str, new: str, before: str, after: str) -> None:
    assert JOB.count(before) == 1
    assert change(JOB, path, new) == JOB.replace(before, after)


def test_a_new_table_gets_a_header_where_its_neighbours_have_one() -> None:
    added = change(JOB, "buildup.shelf.face", "hpl-0.8")
    assert '\n[buildup.shelf]\nface = "hpl-0.8"\n' in added
    assert change(JOB, "saw.kerf", "2.8").count("[saw]\nkerf = 2.8\n") == 1


def test_an_entry_that_says_so_already_keeps_its_signs() -> None:
    text = "radius = 60.0\ncount = 0x10\nname = 'a'\n"
    asked = [Change("radius", "", "60"), Change("count", "", "16"), Change("name", "", "a")]
    assert apply_changes(text, asked) == text
    assert change("wet = 1\n", "wet", "true") == "wet = true\n"


def test_changes_build_on_each_other() -> None:
    asked = [
        Change("piece[1].panel[0].edging.wood", "", "ash"),
        Change("piece[1].panel[0].edging.width", "", "14"),
        Change("piece[1].panel[0].cutout[0]", "", ""),
        Change("piece[1].panel[0].cutout[0].name", "tap", "spout"),
    ]
    panel = tomllib.loads(apply_changes(JOB, asked))["piece"][1]["panel"][0]
    assert panel["edging"] == {"wood": "ash", "width": 14}
    assert panel["cutout"] == [{"name": "spout"}]


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_line_endings_and_a_missing_last_one_are_kept(ending: str) -> None:
    text = ending.join(["# a", "[saw]", "kerf = 3   # b", "[job]", "name = 'x'"])
    assert change(text, "saw.kerf", "4") == text.replace("= 3", "= 4")
    assert change(text, "saw.trim", "9") == text.replace(f"# b{ending}", f"# b{ending}trim = 9{ending}")


def test_words_and_numbers() -> None:
    assert [value_of(word) for word in ("20", "-3", "21.8", "1e3", "true", "false")] == [
        20, -3, 21.8, 1000.0, True, False,
    ]  # fmt: skip
    assert isinstance(value_of("20"), int)
    assert isinstance(value_of("1e3"), float)
    for word in (
        "50 %",
        "3/4 in",
        "nan",
        "inf",
        "1e999",
        "007",
        "1_000",
        "٣",
        "True",
        ".5",
        "2027-03-12",
        " ",
    ):
        assert value_of(word) == word


# --- what cannot be set ---------------------------------------------------------------------------------


def test_a_path_that_leads_nowhere_names_itself_and_the_nearest_key() -> None:
    assert "'piece'" in refusal("pieces[0].name")
    assert "'panel'" in refusal("piece[0].panle[0].name")
    assert "'width'" in refusal("buildup.desk.edging.widht", "")
    assert "line 14" in refusal("piece[0].panel[4].name")
    assert "0 to 1" in refusal("piece[0].panel[4].name")


@pytest.mark.parametrize(
    ("path", "new"),
    [
        ("", "1"),
        ("piece[", "1"),
        ("piece.name", "x"),
        ("format.first", "1"),
        ("format[0]", "1"),
        ("buildup[0].face", "x"),
        ("buildup.desk", "x"),
        ("piece", "x"),
        ("piece[0].panel[0].size", "800"),
        ("piece[0].panel[0].size[3]", "1"),
        ("piece[0].panel[0].size[2].name", "1"),
        ("piece[2]", "x"),
        ("piece[1].panel[0].cutout[2]", "x"),
        ("piece[0].panel[0].insert[0].wood", "oak"),
        ("piece[0].panel[0].count", ""),
        ("piece[0].name", "lone \ud800"),
        ("piece[0].lone\ud800", "1"),
        (".".join("a" * 21), "1"),
    ],
)
def test_what_cannot_be_set_is_refused(path: str, new: str) -> None:
    refusal(path, new)


def test_every_refusal_is_told_and_names_its_file() -> None:
    with pytest.raises(FileError) as fault:
        apply_changes(
            JOB, [Change("pieces[0].name", "", "x"), Change("piece[9].name", "", "x")], "glaze.toml"
        )
    assert [complaint.place.file for complaint in fault.value.complaints] == ["glaze.toml"] * 2


def test_a_text_that_is_no_toml_is_refused() -> None:
    with pytest.raises(FileError, match="line 2"):
        change("a = 1\nb = = 2\n", "a", "2")
    with pytest.raises(FileError):
        change("a." * 50_000 + "a = 1\n", "a", "2")


# --- laws -----------------------------------------------------------------------------------------------

KEYS = st.sampled_from(["name", "width", "odd key", "a.b", "x-1", "ö", 'qu"ote', "7"])
COMMENTS = st.sampled_from(["", "# note", "#[saw]", "# x = [1, {", '# "', "#\ttab  "])
SPACES = st.sampled_from(["", " ", "   ", "\t"])
SCALARS = st.sampled_from(
    ["1", "-0.50", "0x1f", "1_000", "true", '"a # b"', "'c:\\d'", "1979-05-27", "inf", '"\\u00e9"',
     '"""two\nlines"""', "'''x = 1\n[t]'''"]
)  # fmt: skip
NEW = st.one_of(
    st.integers(-(10**9), 10**9).map(str),
    st.floats(0.001, 1e6).map(lambda number: f"{number:.3f}"),
    st.sampled_from(["true", "false", "50 %", "3/4 in", "birch-ply-18", "ö", "[x]", "# no", "a = 1"]),
)


@dataclass
class Draft:
    """A text under way, with the span of every single value, and of the lines of every pair, by key path."""

    text: str
    spans: dict[str, tuple[int, int]]
    lines: dict[str, tuple[int, int]] = field(default_factory=dict)

    def value(self, path: tuple[Step, ...], draw: Any, depth: int = 0) -> None:
        kind = draw(st.sampled_from(["one", "one", "list", "table"])) if depth < 2 else "one"
        if kind == "one":
            written = draw(SCALARS)
            self.spans[key_path(path)] = (len(self.text), len(self.text) + len(written))
            self.text += written
        elif kind == "list":
            self._list(path, draw, depth)
        else:
            self._table(path, draw, depth)

    def _list(self, path: tuple[Step, ...], draw: Any, depth: int) -> None:
        self.text += "["
        for number in range(draw(st.integers(0, 3))):
            self.text += draw(st.sampled_from(["", " ", "\n  ", "  # in the list ]\n "]))
            self.value((*path, number), draw, depth + 1)
            self.text += draw(SPACES) + ","
        self.text += "]"

    def _table(self, path: tuple[Step, ...], draw: Any, depth: int) -> None:
        self.text += "{" + draw(SPACES)
        for number, key in enumerate(draw(st.lists(KEYS, max_size=3, unique=True))):
            self.text += ", " if number else ""
            self.text += f"{key_path((key,))}{draw(SPACES)}={draw(SPACES)}"
            self.value((*path, key), draw, depth + 1)
        self.text += draw(SPACES) + "}"

    def pairs(self, path: tuple[Step, ...], draw: Any) -> None:
        for key in draw(st.lists(KEYS, max_size=4, unique=True)):
            comment = draw(COMMENTS)
            self.text += f"{comment}\n" if comment else draw(st.sampled_from(["", "\n"]))
            start = len(self.text)
            self.text += f"{draw(SPACES)}{key_path((key,))}{draw(SPACES)}={draw(SPACES)}"
            self.value((*path, key), draw)
            self.text += f"{draw(SPACES)}{draw(COMMENTS)}\n"
            self.lines[key_path((*path, key))] = start, len(self.text)


@st.composite
def drafts(draw: Any) -> Draft:
    """Tables and lists of tables in any order, with comments and spaces anywhere, LF or CRLF."""
    draft = Draft("", {})
    draft.pairs((), draw)
    heads = draw(st.permutations(["buildup.bench", "saw", "piece", "piece", "buildup.desk", "stock"]))
    counts = {"piece": 0, "stock": 0}
    for head in heads:
        draft.text += f"{draw(COMMENTS)}\n{draw(SPACES)}"
        if head not in counts:
            draft.text += f"[{head}]  {draw(COMMENTS)}\n"
            draft.pairs(tuple(head.split(".")), draw)
            continue
        path: tuple[Step, ...] = (head, counts[head])
        counts[head] += 1
        draft.text += f"[[{head}]]\n"
        draft.pairs(path, draw)
        for number in range(draw(st.integers(0, 2)) if head == "piece" else 0):
            draft.text += f"  [[{head}.panel]] {draw(COMMENTS)}\n"
            draft.pairs((*path, "panel", number), draw)
    draft.text += draw(COMMENTS)
    return with_returns(draft) if draw(st.booleans()) else draft


def with_returns(draft: Draft) -> Draft:
    """The same with CR LF at every line end."""

    def moved(spans: dict[str, tuple[int, int]]) -> dict[str, tuple[int, int]]:
        return {
            path: (start + draft.text.count("\n", 0, start), end + draft.text.count("\n", 0, end))
            for path, (start, end) in spans.items()
        }

    return Draft(draft.text.replace("\n", "\r\n"), moved(draft.spans), moved(draft.lines))


def written(new: str) -> str:
    """A value as TOML, for the plain words these laws use."""
    value = value_of(new)
    if isinstance(value, bool):
        return new
    return f'"{new}"' if isinstance(value, str) else repr(value)


@settings(max_examples=150, deadline=None)
@given(drafts(), st.data(), NEW)
def test_setting_an_entry_leaves_every_other_byte(draft: Draft, data: st.DataObject, new: str) -> None:
    if not draft.spans:
        return
    path = data.draw(st.sampled_from(sorted(draft.spans)))
    start, end = draft.spans[path]
    old = draft.text[start:end]
    expected = draft.text[:start] + written(new) + draft.text[end:]
    result = change(draft.text, path, new)
    said = tomllib.loads(f"x = {old}")["x"]
    if said == value_of(new) and isinstance(said, bool) == isinstance(value_of(new), bool):
        assert result == draft.text
    else:
        assert result == expected


def spots(value: Any, path: tuple[Step, ...] = ()) -> list[tuple[Step, ...]]:
    """The path of every entry, tables and lists too."""
    if isinstance(value, dict):
        inner = [spot for key, one in value.items() for spot in spots(one, (*path, key))]
    elif isinstance(value, list):
        inner = [spot for number, one in enumerate(value) for spot in spots(one, (*path, number))]
    else:
        inner = []
    return [path, *inner] if path else inner


def holder_of(data: Any, path: tuple[Step, ...]) -> Any:
    for step in path[:-1]:
        data = data[step]
    return data


def is_part_of(short: str, long: str) -> bool:
    """Whether the signs of `short` stand in `long` in that order."""
    rest = iter(long)
    return all(sign in rest for sign in short)


@settings(max_examples=100, deadline=None)
@given(drafts(), st.data())
def test_taking_an_entry_out_takes_only_that(draft: Draft, data: st.DataObject) -> None:
    plain = tomllib.loads(draft.text)
    path = data.draw(st.sampled_from(spots(plain)))
    result = change(draft.text, key_path(path), "")
    edited = copy.deepcopy(plain)
    del holder_of(edited, path)[path[-1]]
    tables = isinstance(holder_of(tomlrt.loads(draft.text), path), tomlrt.AoT)
    if tables and not holder_of(edited, path):  # the last of its tables takes the key along
        del holder_of(edited, path[:-1])[path[-2]]
    assert tomllib.loads(result) == edited
    if key_path(path) in draft.lines:
        start, end = draft.lines[key_path(path)]
        assert result == draft.text[:start] + draft.text[end:]


@settings(max_examples=100, deadline=None)
@given(drafts(), st.data(), st.lists(st.sampled_from(["fresh", "new one", "z"]), min_size=1, max_size=3), NEW)
def test_a_new_entry_is_there_and_all_else_too(
    draft: Draft, data: st.DataObject, keys: list[str], new: str
) -> None:
    plain = tomllib.loads(draft.text)
    tables: list[tuple[Step, ...]] = [(), *spots(plain)]
    tables = [path for path in tables if isinstance(holder_of(plain, (*path, "")), dict)]
    path = (*data.draw(st.sampled_from(tables)), *keys)
    result = change(draft.text, key_path(path), new)
    edited: Any = copy.deepcopy(plain)
    holder = edited
    for step in path[:-1]:
        holder = holder.setdefault(step, {}) if isinstance(holder, dict) else holder[step]
    holder[path[-1]] = value_of(new)
    assert tomllib.loads(result) == edited
    assert is_part_of(draft.text, result)


@settings(max_examples=100, deadline=None)
@given(drafts(), st.text(max_size=30), st.text(max_size=12))
def test_any_path_and_word_gives_a_text_that_reads_or_a_refusal(draft: Draft, path: str, new: str) -> None:
    try:
        result = change(draft.text, path, new)
    except FileError:
        return
    tomllib.loads(result)


@pytest.mark.parametrize("name", ["one-shelf.toml", "glaze-room.toml"])
def test_every_value_of_the_examples_can_be_set_and_set_back(name: str) -> None:
    text = (EXAMPLES / name).read_text(encoding="utf-8")
    plain = tomllib.loads(text)
    there, back = [], []
    for path in spots(plain):
        value = holder_of(plain, path)[path[-1]]
        if not isinstance(value, dict | list):
            said = str(value).lower() if isinstance(value, bool) else str(value)
            there.append(Change(key_path(path), said, "other"))
            back.append(Change(key_path(path), "other", said))
    assert len(there) > 12
    changed = apply_changes(text, there)
    assert changed.count('"other"') == len(there)
    assert changed.count("#") == text.count("#")
    assert apply_changes(changed, back) == text


def test_the_last_table_of_a_list_takes_its_key_along_so_that_one_may_come_again():
    text = '# head\nformat = 1\n\n[[variant]]\nname = "a"\n\n[[variant]]\nname = "b"\n\n[shop]\nbush = 30\n'
    one = apply_changes(text, [Change("variant[0]", "", "")])
    assert tomllib.loads(one)["variant"] == [{"name": "b"}]
    none = apply_changes(one, [Change("variant[0]", "", "")])
    assert "variant" not in none
    assert tomllib.loads(none + '\n[[variant]]\nname = "c"\n')["variant"] == [{"name": "c"}]
    assert "# head" in none
    assert "bush = 30" in none


def test_an_array_of_values_stays_though_empty():
    text = 'edges = ["front"]\n'
    assert tomllib.loads(apply_changes(text, [Change("edges[0]", "", "")])) == {"edges": []}
