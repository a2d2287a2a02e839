"""What the program says for real: every paper and page of the examples in a language, and what that lacks."""

import contextlib
import re
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from typer.testing import CliRunner

from evenface.interfaces.command_line import app
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.languages import sentences_of
from evenface.store import JobStore

EXAMPLES = Path(__file__).parents[2] / "examples"
HOME = "http://127.0.0.1:8000"
JOBS = ("glaze-room", "wall-cupboard", "drawer-pedestal", "notice-panel", "lined-tray", "glazing-desk")
COMMANDS = (
    ("plan", "{job}", "--out", "{out}", "--seconds", "0.5"),
    ("steps", "{job}", "--out", "{out}", "--start", "2027-01-11"),
    ("templates", "{job}", "--out", "{out}"),
    ("flat", "{job}"),
    ("price", "{job}"),
    ("offer", "{job}", "--out", "{out}", "--anyway"),
)


_NAMED = re.compile(r'(\b(?:name|client|contact|piece|panel|run|insert)\s*=\s*|^\s*when\s*=\s*)"([^"\n]+)"')
_LIKE = re.compile(r'(^\s*like\s*=\s*)"([^"\n]+)"')
_BUILT = re.compile(r'(\b(?:buildup|bottom|top|sides|shelves|dividers|left|right|like)\s*=\s*)"([^"\n]+)"')
_BUILDUP = re.compile(r"\bbuildup\.(\w+)")


def made_up(folder: Path) -> Path:
    """The examples with a word of no language for every name the maker wrote: what is English then is the tool's."""
    place = folder / "made-up"
    shutil.copytree(EXAMPLES, place)
    for file in place.glob("*.toml"):
        file.write_text("".join(_made_up(file.read_text(encoding="utf-8"))), encoding="utf-8")
    return place


def _made_up(text: str) -> Iterator[str]:
    names: dict[str, str] = {}
    buildups = {
        name: f"Zy{chr(97 + number)}" for number, name in enumerate(dict.fromkeys(_BUILDUP.findall(text)))
    }

    def renamed(found: re.Match[str]) -> str:
        return f'{found[1]}"{names.setdefault(found[2], _word(len(names)))}"'

    def built(found: re.Match[str]) -> str:
        return f'{found[1]}"{buildups.get(found[2], found[2])}"'

    table = ""
    for line in text.splitlines(keepends=True):
        heading = re.match(r"\s*\[+([^\]]+)\]", line)
        table = heading[1] if heading else table
        made = _BUILDUP.sub(lambda found: f"buildup.{buildups[found[1]]}", _NAMED.sub(renamed, line))
        yield (
            _LIKE.sub(renamed, made)
            if table.startswith("piece") and _LIKE.match(made)
            else _BUILT.sub(built, made)
        )


def _word(number: int) -> str:
    return f"Zq{chr(97 + number // 26)}{chr(97 + number % 26)}"


ONCE = (
    ("offer", "{job}", "--out", "{out}", "--anyway", "--paper", "confirmation"),
    ("offer", "{job}", "--out", "{out}", "--anyway", "--paper", "delivery-note"),
    ("change", "{job}", "{job}", "--out", "{out}"),
    ("cutting", "{job}", "--list", "saw", "--seconds", "0.5"),
    ("cutting", "{job}", "--list", "merchant", "--seconds", "0.5"),
    ("cutting", "{job}", "--list", "sizes", "--seconds", "0.5"),
    ("limit", "oak"),
    ("choose", "--for", "wet bench"),
    ("choose", "--explain", "--out", "{out}"),
    ("materials",),
    ("materials", "hpl-0.8"),
    ("rack", "list"),
)
"""What is said of the first example alone, or of none."""


class Recording(dict[str, str]):
    """A catalogue that remembers what it was asked for in vain."""

    def __init__(self, known: Mapping[str, str]) -> None:
        super().__init__(known)
        self.lacked: dict[str, str] = {}
        self.place = ""

    def get(self, text: str, otherwise: str = "") -> str:  # type: ignore[override]
        """The translation; what there is none for is remembered with the place it was asked at."""
        if text not in self:
            self.lacked.setdefault(text, self.place)
        return super().get(text, otherwise)


@contextlib.contextmanager
def recording(language: str, patch: pytest.MonkeyPatch) -> Iterator[Recording]:
    """Everything said within is said in that language, and what it lacks is remembered."""
    record = Recording(sentences_of(language))
    patch.setattr("evenface.languages.catalogue.sentences_of", lambda _: record)
    patch.setenv("EVENFACE_LANGUAGE", language)
    yield record


def speak_papers(
    record: Recording, folder: Path, names: tuple[str, ...] = JOBS, examples: Path = EXAMPLES
) -> dict[str, str]:
    """Run the commands on the examples; gives what each printed. Papers lie under `out` of the folder."""
    place = folder / "jobs"
    shutil.copytree(examples, place)
    printed = {}
    for number, name in enumerate(names):
        for command in (*COMMANDS, *(ONCE if number == 0 else ())):
            record.place = f"{command[0]} {name}"
            out = folder / "out" / name / command[0]
            words = [word.format(job=place / f"{name}.toml", out=out) for word in command]
            told = CliRunner().invoke(app, words)
            if told.exception is not None and not isinstance(told.exception, SystemExit):
                raise told.exception
            printed[record.place] = told.output
    return printed


def speak_pages(
    record: Recording, folder: Path, language: str, names: tuple[str, ...] = JOBS, examples: Path = EXAMPLES
) -> dict[str, str]:
    """Ask for every page that links lead to; gives the text of each."""
    from browser.walk import links_in, name_of

    store = JobStore(folder / "home")
    pages: dict[str, str] = {}
    with contextlib.closing(store):
        client = TestClient(build_app(store, Planner(0.2)), base_url=HOME, headers={"Origin": HOME})
        client.cookies.set("evenface_language", language)
        for name in names:
            job = store.add(name, (examples / f"{name}.toml").read_text(encoding="utf-8"))
            waiting = ["/", f"/jobs/{job.id}"]
            while waiting:
                address = waiting.pop(0)
                key = f"{name}: {name_of(address)}"
                if key in pages:
                    continue
                record.place = key
                for headers in ({}, {"X-Live": "1"}):
                    answer = client.get(address, headers=headers)
                    if answer.status_code == 200 and "text/html" in answer.headers["content-type"]:
                        pages[key] = pages.get(key, "") + answer.text
                        waiting += [one for one in links_in(answer.text) if one not in pages]
                pages.setdefault(key, "")
    return pages
