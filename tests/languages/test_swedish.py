"""Swedish: nothing is left in English, no value is lost on the way, numbers read as they do there."""

import os
import re
from pathlib import Path
from string import Formatter

import pytest
from languages.left_in_english import MADE_UP, english_in, pieces_of
from languages.recorded import JOBS, made_up, recording, speak_pages, speak_papers
from pypdf import PdfReader
from starlette.testclient import TestClient

from evenface.interfaces.web.app import build_app
from evenface.languages import LANGUAGES, UnknownLanguage, manner_for, sentences_of
from evenface.languages.catalogue import names_of
from evenface.languages.gathering import bare, texts_of
from evenface.store import JobStore
from evenface.words import said, say

SOURCE = Path(__file__).parents[2] / "src" / "evenface"
SWEDISH = manner_for("sv")
SPOKEN = ("glaze-room", "lined-tray")
"""Examples whose every paper and page is spoken through; EVENFACE_SPEAK_ALL=1 takes all of them."""
NAMES = re.compile(
    r"[a-z0-9]+(-[a-z0-9.]+)+|[a-z_]+(\.[a-z_]+)+|[\d\s.,×x:%–-]*|(mm|m|kg|h|l|N|cm|m²|m³|°C|in)|R|Ø|kg/m²|D[1-4]|A[34]|Letter|CSV|PDF|SVG|DXF|XLSX|PVA|MDF|HPL|urea|hide|epoxy"
)
"""Keys of materials, figures, and words that are the same in both languages."""


def fields(template):
    return sorted((name, spec) for _, name, spec, _ in Formatter().parse(template) if name is not None)


@pytest.fixture(scope="module")
def spoken(tmp_path_factory):
    """What was lacked while every paper and page of the examples was spoken, the text of each page, and the papers."""
    folder = tmp_path_factory.mktemp("spoken")
    names = [SPOKEN] if not os.environ.get("EVENFACE_SPEAK_ALL") else []
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EVENFACE_HOME", str(folder / "data"))
        examples = made_up(folder)
        with recording("sv", patch) as record:
            speak_papers(record, folder, *(names or [JOBS]), examples)
            pages = speak_pages(record, folder, "sv", *(names or [JOBS]), examples)
    return record.lacked, pages, folder / "out"


def test_every_text_of_the_source_has_its_translation():
    known = sentences_of("sv")
    missing = {
        text: place
        for text, place in texts_of(SOURCE).items()
        if text not in known and not NAMES.fullmatch(text)
    }
    assert not missing, f"{len(missing)} texts have no Swedish; the first: {list(missing.items())[:5]}"


def test_no_translation_loses_or_invents_a_value():
    wrong = [text for text, told in sentences_of("sv").items() if fields(text) != fields(told)]
    assert wrong == []


def test_no_translation_is_left_over():
    """Sentences that nothing says any more are taken out; short words may be put together of others."""
    source = "\n".join(
        file.read_text(encoding="utf-8")
        for kind in ("*.py", "*.html", "*.toml")
        for file in SOURCE.rglob(kind)
    )
    plain = re.sub(r"\\(.)", r"\1", source)
    gone = [text for text in sentences_of("sv") if text not in plain and '"' not in text and len(text) > 60]
    joined = re.sub(r'"\s*\n\s*f?"', "", plain)
    assert [text for text in gone if text not in joined] == []


def test_every_paper_and_page_is_spoken_in_it(spoken):
    found, pages, _ = spoken
    assert len(pages) > 20
    known = sentences_of("sv")
    already = {told.lower() for told in (*known.values(), *names_of("sv").values())}
    lacked = {
        text: place
        for text, place in found.items()
        if re.search("[A-Za-z]", bare(text))
        and not MADE_UP.search(text)
        and not NAMES.fullmatch(text)
        and SWEDISH.name(text) == text
        and not any(
            all(piece.strip().lower() in already for piece in text.split(mark) if piece.strip())
            for text in (text, re.sub(r"( \d+)+\b", "", text))
            for mark in (",", ":")
        )  # a title put together from what was said
        and not any(all(piece in known for piece in text.split(mark)) for mark in ("; ", ", "))  # one by one
        and not re.search("[åäöÅÄÖ]", text)  # put together of what was said already
    }
    assert not lacked, f"{len(lacked)} texts were said in English; the first: {list(lacked.items())[:30]}"


def test_no_word_of_english_is_left_on_a_page(spoken):
    _, pages, _ = spoken
    texts = {piece: place for place, page in pages.items() for piece in pieces_of(page)}
    left = {text: (place, found) for text, place in texts.items() if (found := english_in(text))}
    assert not left, f"{len(left)}: {list(left.items())[:20]}"


def test_no_word_of_english_is_left_on_paper(spoken):
    _, _, papers = spoken
    drawings = [*papers.rglob("*.svg")]
    assert len(drawings) > 40
    texts = {piece: file.name for file in drawings for piece in pieces_of(file.read_text(encoding="utf-8"))}
    for file in papers.rglob("packet.pdf"):
        texts |= {
            line: file.name for page in PdfReader(file).pages for line in page.extract_text().splitlines()
        }
    left = {text: (place, found) for text, place in texts.items() if (found := english_in(text))}
    assert not left, f"{len(left)}: {list(left.items())[:20]}"


def test_numbers_and_lengths_have_a_comma():
    assert say(said("{width:mm}", width=12.5), SWEDISH) == "12,5 mm"
    assert say(said("{share:percent}", share=0.075), SWEDISH) == "7,5 %"
    assert say(said("{number}", number=0.25), SWEDISH) == "0,25"
    assert say(said("{width:mm}", width=12.7), manner_for("sv", "inch")) == "1/2 tum"


def test_a_language_nobody_speaks_is_refused_and_names_those_there_are():
    with pytest.raises(UnknownLanguage, match="en, sv"):
        manner_for("xx")
    assert set(LANGUAGES) == {"en", "sv"}


def test_a_reader_whose_browser_wishes_swedish_gets_it_and_may_change(tmp_path):
    store = JobStore(tmp_path)
    home = "http://127.0.0.1:8000"
    client = TestClient(build_app(store), base_url=home, headers={"Origin": home}, follow_redirects=False)
    assert '<html lang="sv">' in client.get("/", headers={"Accept-Language": "sv-SE,sv;q=0.9"}).text
    assert '<html lang="en">' in client.get("/", headers={"Accept-Language": "fr"}).text
    client.post("/language", data={"language": "sv", "back": "/"})
    assert '<html lang="sv">' in client.get("/").text
    client.post("/language", data={"language": "en", "back": "/"})
    assert '<html lang="en">' in client.get("/", headers={"Accept-Language": "sv"}).text
    store.close()


def test_materials_have_their_swedish_names_and_other_texts_stay_as_they_are():
    assert say(said("{title}", title="Birch plywood 6.5 mm"), SWEDISH) == "Björkplywood 6,5 mm"
    assert say(said("{title}", title="Ottoline's bench"), SWEDISH) == "Ottoline's bench"
    assert SWEDISH.name("High-pressure laminate, vertical, 0.7 mm") == "Högtryckslaminat, vertikalt, 0,7 mm"


def test_words_that_no_example_says_are_known_too():
    """Stops, and the way a face bows: the examples have no stop, so speaking through them finds neither."""
    said_in = {word: SWEDISH.translate(word) for word in ("stop", "stops", "domed", "hollow", "in")}
    assert said_in == {
        "stop": "stopp", "stops": "stopp", "domed": "kullrig", "hollow": "ihålig", "in": "tum",
    }  # fmt: skip
