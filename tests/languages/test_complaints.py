"""What is wrong with a file or an entry: English word for word as ever, and whole in the reader's language."""

import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from piece import test_reader as slips

from evenface.construction.kinds import KINDS
from evenface.errors import (
    Complaint,
    EvenfaceError,
    FileError,
    MissingWord,
    Place,
    Unreadable,
    told_at_entry,
    told_of,
    told_of_value,
)
from evenface.finding import Change
from evenface.languages import manner_for, sentences_of
from evenface.materials import load_catalogue
from evenface.piece import read_job, read_made
from evenface.piece.editing import apply_changes
from evenface.piece.source_text import decoded, document_of
from evenface.piece.toml_faults import _TEMPLATES, toml_fault
from evenface.words import Said, said

SWEDISH = manner_for("sv")
KNOWN = load_catalogue()
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
VALUES = (
    "-1",
    "0",
    "1e400",
    "true",
    '"x"',
    "[]",
    "{}",
    "[[]]",
    "1979-05-27",
    '"3 mm"',
    "[1, 2, 3]",
    "1e9",
    "1.5",
)
TOML_FAULTS = (
    "a = ", 'a = "x', "a = [1,", "= 1", "[a", "[[a]", "a = 1\na = 2", "a = 01", "a = 2020-13-01", "a b", '"a\n',
    'a = "\\q"', "a = tru", "[a]\n[a]", "a=1\n[a.b]", "a = 1 2", "a.b=1\na=2", "x = 1e", "[a]\nb=1\n[[a]]", "\0",
    "a = '''x", 'a = """x', "a = 99:99:99", "a = -", "a = {b=1,,}", "a = {b 1}", "a = [1 2]", "a = 1__0", "a = '\n'",
)  # fmt: skip
TYPED = re.compile(
    r"""['"\[({0-9+-].*|True|False|None|inf|nan|datetime\..*|.* → .*|[a-z0-9]+(-[a-z0-9.]+)+""", re.DOTALL
)
"""What stands in a complaint as it was typed."""
ENGLISH = re.compile(
    r"\b(a|an|the|of|or|and|such|with|without|one|expected|given|nothing|neither|both|number|length|line|column|"
    r"known|did|you|mean|it|at|least|most|below|above|is|was|not|than|cannot)\b",
    re.IGNORECASE,
)


def slips_of(text: str, file: str = "job.toml") -> tuple[Complaint, ...]:
    try:
        read_job(text, file, KNOWN, KINDS)
    except FileError as fault:
        return fault.complaints
    return ()


def faulty_texts() -> Iterator[str]:
    yield from (text for text, _ in slips.WRONG)
    yield from TOML_FAULTS
    for example in EXAMPLES:
        lines = example.read_text(encoding="utf-8").splitlines()
        for number, line in enumerate(lines):
            if re.match(r"\s*\w+ = ", line):
                value = VALUES[number % len(VALUES)]
                yield "\n".join([*lines[:number], f"{line.split('=')[0]}= {value}", *lines[number + 1 :]])


def untranslated(sentence: str | Said, typed: bool) -> Iterator[str]:
    """Templates of a sentence that have no Swedish; plain words that are typed are none."""
    known = sentences_of("sv")
    if isinstance(sentence, str):
        if sentence and sentence not in known and not (typed and TYPED.fullmatch(sentence)):
            yield sentence
        return
    fields = [(name, spec) for _, name, spec, _ in string.Formatter().parse(sentence.template) if name]
    if sentence.template not in known and re.search(
        "[A-Za-z]{2}", re.sub(r"\{[^}]*\}", "", sentence.template)
    ):
        yield sentence.template
    for name, spec in fields:
        value = sentence.values[name]
        if isinstance(value, Said):
            yield from untranslated(value, typed)
        elif spec == "word" and str(value) not in known:
            yield str(value)


@pytest.fixture(scope="module")
def found() -> list[Complaint]:
    """Every complaint of many faulty files, each once."""
    return list(dict.fromkeys(one for text in faulty_texts() for one in slips_of(text)))


def test_every_complaint_of_a_faulty_file_is_whole_in_swedish(found):
    assert len(found) > 200
    left: dict[str, str] = {}
    for one in found:
        for part, typed in ((one.expected, False), (one.given, True), (one.hint, False)):
            for words in untranslated(part, typed):
                left.setdefault(words, str(one))
    assert not left, f"{len(left)}: {list(left.items())[:20]}"


def test_nothing_of_the_english_frame_is_left(found):
    for one in found:
        spoken = told_of(Complaint(Place("jobb.toml", 3, 4), one.expected, one.given, one.hint), SWEDISH)
        assert spoken.startswith("jobb.toml, rad 3, kolumn 4: väntade ")
        assert "; fick " in spoken
        assert spoken != str(one)


def test_english_is_as_ever():
    place = Place("job.toml", 3, 4, "piece[0].count")
    one = Complaint(place, "a whole number", "1.5", said("Did you mean {word}?", word="'2'"))
    assert str(one) == (
        "job.toml, line 3, column 4, piece[0].count: expected a whole number; given 1.5. Did you mean '2'?"
    )
    assert str(FileError([one, one])) == f"{one}\n{one}"
    assert str(Place()) == "the text"
    assert str(MissingWord("place", "copenhaguen", ("copenhagen", "lund"))) == (
        "no place is called 'copenhaguen'. Did you mean 'copenhagen'?"
    )
    assert str(Unreadable("a number", "'x'")) == "expected a number, was given 'x'"
    assert told_at_entry(one) == "Expected a whole number; given 1.5. Did you mean '2'?"


def test_swedish_is_whole():
    place = Place("", 3, 4, "piece[0].count")
    one = Complaint(place, "a whole number", "1.5", said("Did you mean {word}?", word="'2'"))
    assert told_of(one, SWEDISH) == (
        "texten, rad 3, kolumn 4, piece[0].count: väntade ett heltal; fick 1.5. Menade du '2'?"
    )
    assert told_of(FileError([one, one]), SWEDISH).count("väntade") == 2
    assert told_of(MissingWord("place", "luund", ("lund", "oslo")), SWEDISH) == (
        "plats: inget heter 'luund'. Menade du 'lund'?"
    )
    assert told_at_entry(one, SWEDISH) == "Väntade ett heltal; fick 1.5. Menade du '2'?"
    assert told_of_value(Unreadable("a number", "'x'"), SWEDISH) == "Väntade ett tal, fick 'x'."
    assert (
        told_of_value(ValueError("expected a length, was given nan"), SWEDISH)
        == "Väntade en längd, fick nan."
    )
    assert told_of(EvenfaceError("what nobody translated"), SWEDISH) == "what nobody translated"


@pytest.mark.parametrize(
    ("path", "new"),
    [
        ("piece[0].panle[0].count", "2"),
        ("piece[7].count", "2"),
        ("piece[0].panel", "2"),
        ("piece[0].panel[0].size", "2"),
        ("piece.count", "2"),
        ("job[0]", "2"),
        ("piece[0].name.x", "2"),
        ("piece[0].nothing", ""),
        ("", "2"),
        (".".join("a" * 60), "2"),
        ("job.name", "\ud800"),
    ],
)
def test_a_change_that_cannot_be_made_is_told_whole(path, new):
    with pytest.raises(FileError) as caught:
        apply_changes(slips.TINY, [Change(path, "", new)])
    for one in caught.value.complaints:
        for part, typed in ((one.expected, False), (one.given, True), (one.hint, False)):
            assert list(untranslated(part, typed)) == [], str(one)


def test_what_the_reader_of_toml_says_is_told_whole():
    known = sentences_of("sv")
    assert [template for template in _TEMPLATES if template not in known] == []
    for text in TOML_FAULTS:
        with pytest.raises(FileError) as caught:
            document_of(text, "job.toml")
        (one,) = caught.value.complaints
        assert isinstance(one.given, Said), str(one)
    assert toml_fault("something else") == "something else"


def test_bytes_and_made_files_are_told_whole():
    for act in (lambda: decoded(b"\xff", "job.toml"), lambda: decoded(b"x" * 2_000_001, "job.toml")):
        with pytest.raises(FileError) as caught:
            act()
        assert not ENGLISH.search(told_of(caught.value, SWEDISH))
    with pytest.raises(FileError) as caught:
        read_made(
            'format = 1\n[[cut]]\npiece = "Bench"\npanel = "top"\nlayer = "edging"\nwidth = 3\n', "m.toml"
        )
    assert not ENGLISH.search(told_of(caught.value, SWEDISH).replace("edging", "").replace("layer", ""))


@pytest.mark.parametrize(
    ("language", "told"),
    [
        ("sv", "väntade en jobbfil; fick inget med det namnet. Kontrollera stavningen och mappen."),
        ("en", "expected a job file; given nothing of that name. Check the spelling and the folder."),
    ],
)
def test_the_command_line_says_it_in_the_language_asked_for(monkeypatch, capsys, tmp_path, language, told):
    from evenface.interfaces.command_line import run

    monkeypatch.setenv("EVENFACE_LANGUAGE", "en")  # so that it is put back
    monkeypatch.setattr(
        "sys.argv", ["evenface", "--language", language, "check", str(tmp_path / "none.toml")]
    )
    with pytest.raises(SystemExit) as ended:
        run()
    assert ended.value.code == 2
    assert capsys.readouterr().err.strip().endswith(f"none.toml: {told}")
