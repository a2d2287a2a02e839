"""Gather every text of the source that a reader may see, and say which a catalogue lacks.

    .venv/bin/python tools/gather_texts.py sv            # how many are missing, and where they stand
    .venv/bin/python tools/gather_texts.py sv --po NAME  # the missing ones as an empty catalogue to fill in

Texts are found where they are said: the first word of `said`, `Said`, `translate` and `t`, titles of tables
and columns. Words that reach the reader through a name (a table of words) are found by the tests instead, which
speak through every paper and page of the examples.
"""

import sys
from pathlib import Path

from evenface.languages import sentences_of
from evenface.languages.gathering import texts_of

SOURCE = Path(__file__).parents[1] / "src" / "evenface"


def main(words: list[str]) -> int:
    """Exit code 1 when something is missing."""
    language = words[0] if words else "sv"
    known = sentences_of(language)
    missing = {text: place for text, place in texts_of(SOURCE).items() if text not in known}
    if "--po" in words:
        write(missing, SOURCE / "languages" / language / f"{words[words.index('--po') + 1]}.po")
    else:
        for text, place in missing.items():
            print(f"{place}: {text!r}")
    print(f"{len(missing)} missing, {len(known)} known", file=sys.stderr)
    return 1 if missing else 0


def write(missing: dict[str, str], file: Path) -> None:
    """A catalogue of texts without their translation."""
    from babel.messages.catalog import Catalog
    from babel.messages.pofile import write_po

    made = Catalog(locale=file.parent.name, fuzzy=False)
    for text, place in missing.items():
        made.add(text, locations=[(place, None)])
    with file.open("wb") as opened:
        write_po(opened, made, width=0, omit_header=False, include_lineno=False)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
