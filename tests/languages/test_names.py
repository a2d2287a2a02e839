"""Names in Swedish: those a kind gives are put into words, those the maker wrote stay, and keys stay keys."""

import json
import pickle
import tomllib
from pathlib import Path

import pytest

from evenface.behaviour import Direction
from evenface.choice import Verdict
from evenface.documents.display import called, cited, placed, places, where
from evenface.documents.result_json import findings_text
from evenface.documents.size_tables import parts_table
from evenface.evidence import Status, certain
from evenface.finding import Finding, Severity
from evenface.job.opening import open_with_all
from evenface.job.sketch import sketch
from evenface.languages import manner_for, sentences_of
from evenface.materials.rules import rules
from evenface.piece.records import CornerAt, Meeting, Order, Role, Side
from evenface.pricing import Group
from evenface.words import Own, Said, said, say
from evenface.workplan.records import Work
from evenface.workplan.rules import Rule
from evenface.workplan.schedule.verify import Fault

EXAMPLES = Path(__file__).parents[2] / "examples"
DATA = Path(__file__).parents[2] / "src" / "evenface"
SWEDISH = manner_for("sv")
JOBS = sorted(one.stem for one in EXAMPLES.glob("*.toml") if one.stem != "prices")


@pytest.fixture(scope="module", params=JOBS)
def drafted(request):
    return sketch(open_with_all(EXAMPLES / f"{request.param}.toml", None))


def names_in(sentence):
    """Plain texts a sentence would put in as names."""
    for field, value in sentence.values.items():
        if isinstance(value, Said):
            yield from names_in(value)
        elif isinstance(value, str) and f"{{{field}}}" in sentence.template:
            yield value


def names_of(drafted):
    """Every name that is shown of a job, wherever it comes from."""
    for part in drafted.all_parts:
        yield from (part.name, *(layer.name for layer in part.layers))
    for one in drafted.constructions:
        stands = one.arranged
        yield from (placement.label for placement in stands.placements)
        yield from (joint.name for joint in stands.joints)
        yield from (gap.name for gap in stands.gaps)
        yield from (given.name for given in stands.given)
        for chain in stands.chains:
            yield from (chain.name, *(member for member, _ in chain.members))
        for worked in stands.worked:
            yield from names_in(worked.said)
    for finding in drafted.findings:
        yield finding.part
        for told in (finding.message, finding.why, *(remedy.message for remedy in finding.remedies)):
            yield from names_in(told)


def test_every_name_a_kind_gives_has_its_swedish(drafted):
    shown = {
        name: SWEDISH.name(name)
        for name in names_of(drafted)
        if name.isascii() and any(map(str.isalpha, name))
    }
    left = [name for name, told in shown.items() if told == name and not isinstance(name, Own)]
    assert left == []


def test_every_place_and_source_of_a_finding_has_its_swedish(drafted):
    ats = {one.at for one in drafted.findings if one.at and not isinstance(one.at, Own)}
    assert [at for at in ats if placed(at, SWEDISH) == at] == []
    assert [
        one.source for one in drafted.findings if one.source and cited(one.source, SWEDISH) == one.source
    ] == []


def sources_written():
    """What the tables of materials, rules, rooms and places say their figures rest on."""
    for file in DATA.rglob("*.toml"):
        found = []
        tables = tomllib.loads(file.read_text(encoding="utf-8"))
        walk = [tables]
        while walk:
            one = walk.pop()
            if isinstance(one, dict):
                named = one.get("sources")
                found += named.values() if isinstance(named, dict) else ()
                found += [one["source"]] if " " in str(one.get("source", "")) else []
                walk += one.values()
            elif isinstance(one, list):
                walk += one
        yield from (str(text) for text in found)
    yield from (one.source for one in rules().values())


def test_every_source_of_a_figure_is_said():
    known = sentences_of("sv")
    assert len(set(sources_written())) > 150
    assert [one for one in dict.fromkeys(sources_written()) if one not in known] == []


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("left door 2", "vänster lucka 2"),
        ("drawer side left 11", "vänster lådsida 11"),
        ("fixed shelf 1.2 left", "fast hyllplan 1.2 vänster"),
        ("bay 1, 2 from above", "fack 1, nr 2 uppifrån"),
        ("leg front left & rear right", "främre vänster ben & bakre höger"),
        ("loose shelf 1 & 3", "löst hyllplan 1 & 3"),
        ("grip wood recess", "ursparning för greppets trä"),
        ("ash 22 × 23.5", "Ask 22 × 23,5"),
        ("European oak", "Ek"),
        ("Ottoline's 3rd bench", "Ottoline's 3rd bench"),
        ("", ""),
    ],
)
def test_a_name_is_read_by_its_pattern(name, told):
    assert SWEDISH.name(name) == told
    assert manner_for("en").name(name) == name


def test_a_name_the_maker_wrote_is_shown_as_it_was_written():
    assert SWEDISH.name(Own("back")) == "back"
    assert say(said("{name} of {other}", name=Own("top"), other="top"), SWEDISH) == "top of toppskiva"
    assert say(said("{at:word}", at=Own("front")), SWEDISH) == "front"
    assert called((Own("back"), "back", ""), SWEDISH) == "back, rygg"
    assert Own("back") == "back"
    assert {Own("back"): 1}["back"] == 1
    assert json.dumps(Own("back")) == '"back"'
    assert isinstance(pickle.loads(pickle.dumps(Own("back"))), Own)


def test_one_word_of_the_maker_and_of_a_kind_are_told_apart(tmp_path):
    """A loose panel the maker called "top" keeps that name; the top of a desk has its Swedish one."""
    text = (EXAMPLES / "glazing-desk.toml").read_text(encoding="utf-8")
    build = next(iter(tomllib.loads(text)["buildup"]))
    text += (
        f'\n[[piece]]\nname = "leg"\n[[piece.panel]]\nname = "top"\nbuildup = "{build}"\nsize = [600, 400]\n'
        f'[[piece.panel.cutout]]\nname = "groove"\nat = [300, 200]\nsize = [80, 60]\nradius = 10\n'
    )
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    drafted = sketch(open_with_all(file, None), with_band=False)
    rows = {(row[1], row[2]) for row in parts_table(drafted.all_parts, SWEDISH).rows}
    assert ("leg", "top") in rows
    assert {part for piece, part in rows if piece != "leg"} >= {"toppskiva", "ben"}
    assert {part.name for part in drafted.all_parts} >= {"top", "leg"}  # the keys are the same


WORDS_SHOWN = (
    Work,
    Rule,
    Fault,
    Role,
    Side,
    CornerAt,
    Direction,
    Severity,
    Status,
    Group,
    Verdict,
    Meeting,
    Order,
)


@pytest.mark.parametrize("words", WORDS_SHOWN, ids=lambda one: one.__name__)
def test_every_word_of_a_list_is_known(words):
    """Whatever the examples say of it: a breach, a kind of work, an edge."""
    assert [one.value for one in words if one.value not in sentences_of("sv")] == []


def finding(**more):
    return Finding(code="x", severity=Severity.NOTE, message=said("It is so."), **more)


def test_places_are_whole_in_swedish():
    assert placed("front, left, right", SWEDISH) == "framkant, vänster, höger"
    assert placed("front, rear, left and right", SWEDISH) == "framkant, bakkant, vänster och höger"
    assert placed("drawer 3", SWEDISH) == "låda 3"
    assert placed(Own("drawer 3"), SWEDISH) == "drawer 3"
    one, other = (
        finding(piece="Skåp", part="left door", at="carrier"),
        finding(piece="Skåp", part="shelf", at="carrier"),
    )
    assert where(one, SWEDISH) == "Skåp, vänster lucka, bärskiva"
    assert places((one, other), SWEDISH) == "Skåp, vänster lucka, hyllplan (bärskiva)"
    assert where(one) == "Skåp, left door, carrier"
    assert places((one, other)) == "Skåp, left door, shelf (carrier)"


def test_sources_one_behind_the_other_are_said_one_by_one():
    two = "Published design target: 0.02 in per ft, about span / 600; common practice"
    assert cited(two, SWEDISH) == (
        "Publicerat konstruktionsmål: 0,02 tum per fot, ungefär spännvidden / 600; branschpraxis"
    )
    assert cited("Holzapfel 1998; common practice", SWEDISH) == "Holzapfel 1998; branschpraxis"
    assert cited("Holzapfel 1998", SWEDISH) == "Holzapfel 1998"
    assert cited(two) == two


def test_data_keep_their_english():
    one = finding(
        piece="Skåp",
        part="left door",
        at="front, left",
        source="common practice",
        value=certain(1.0),
        unit="mm",
    )
    written = json.loads(findings_text((one,)))["findings"][0]
    assert (written["part"], written["at"], written["source"]) == (
        "left door",
        "front, left",
        "common practice",
    )
