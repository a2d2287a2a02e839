"""Papers that go to a client: letterhead, blocks of text, tables, pictures, fields to sign."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date

from evenface.documents.money_text import day_text
from evenface.documents.pictures import HIGHEST_MM, WIDEST_MM, Picture
from evenface.documents.setting import BREAK, plain, set_pdf, set_pictures, shortened, table_data
from evenface.documents.tables import Table
from evenface.piece.price_records import Maker
from evenface.words import ENGLISH, Manner, Said, say

TEMPLATE = "letter.typ"
LONGEST_LINE = 60
type Block = dict[str, object]


@dataclass(frozen=True, slots=True)
class Letterhead:
    """Who writes to whom about what. number : of the paper, "0007". draft : a mark on every page."""

    job: str
    number: str
    day: date
    maker: Maker = field(default_factory=Maker)
    client: str = ""
    client_address: tuple[str, ...] = ()
    locale: str = ""
    draft: bool = False


def letter_pdf(title: str, head: Letterhead, blocks: Iterable[Block], manner: Manner = ENGLISH) -> bytes:
    """The paper as PDF; the same input gives the same bytes."""
    return set_pdf(TEMPLATE, letter_data(title, head, blocks, manner), manner.language)


def letter_pngs(
    title: str, head: Letterhead, blocks: Iterable[Block], manner: Manner = ENGLISH
) -> list[bytes]:
    """The same as one PNG a page, for a screen."""
    return set_pictures(TEMPLATE, letter_data(title, head, blocks, manner))


def letter_data(title: str, head: Letterhead, blocks: Iterable[Block], manner: Manner) -> dict[str, object]:
    """What the template sets: finished strings only."""
    word = manner.translate
    maker = head.maker
    foot = [
        maker.name,
        *([f"{word('tax number')} {maker.tax_number}"] if maker.tax_number else []),
        maker.contact,
    ]
    return {
        "title": plain(word(title)),
        "job": plain(head.job),
        "short_job": shortened(plain(head.job), 60),
        "maker": [_to_copy(line) for line in (maker.name, *maker.address, maker.contact) if line],
        "client": [plain(line) for line in (head.client, *head.client_address) if line],
        "facts": [[word("number"), head.number], [word("date"), day_text(head.day, manner)]],
        "foot": "  ·  ".join(_to_copy(line) for line in foot if line),
        "words": {"page": word("page"), "of": word("of"), "draft": word("DRAFT")},
        "draft": head.draft,
        "date": [head.day.year, head.day.month, head.day.day],
        "blocks": list(blocks),
    }


def heading(text: str, manner: Manner) -> Block:
    return {"kind": "heading", "text": plain(manner.translate(text))}


def paragraph(text: Said, manner: Manner) -> Block:
    return {"kind": "paragraph", "text": plain(_sentence(text, manner))}


def bullets(lines: Sequence[Said], manner: Manner) -> Block:
    return {"kind": "list", "lines": [plain(_sentence(line, manner)) for line in lines]}


def rows(made: Table, size: float = 9.0) -> Block:
    """A table; `size` of its lettering in points."""
    return {"kind": "table", "table": table_data(made), "size": size}


def sums(lines: Sequence[tuple[str, str, bool]], note: str = "") -> Block:
    """Amounts under each other, flush right; True sets a line in bold under a rule."""
    return {
        "kind": "sums",
        "lines": [[plain(a), plain(b), bold] for a, b, bold in lines],
        "note": plain(note),
    }


def pictures(given: Iterable[Picture]) -> Block:
    return {"kind": "pictures", "pictures": [_picture(one) for one in given]}


def sign(labels: Sequence[str], manner: Manner) -> Block:
    """Fields to be signed, side by side."""
    return {"kind": "sign", "labels": [plain(manner.translate(label)) for label in labels]}


def ticks(lines: Sequence[str], manner: Manner) -> Block:
    """Boxes to tick, each with its words; after a colon there is room to write."""
    return {"kind": "ticks", "lines": [plain(manner.translate(line)) for line in lines]}


def new_page() -> Block:
    return {"kind": "page"}


def _to_copy(line: str) -> str:
    """An address that can be copied out of the page: nothing hidden in it, as long as it fits on a line."""
    return plain(line) if len(line) > LONGEST_LINE else plain(line).replace(BREAK, "")


def _picture(picture: Picture) -> Block:
    shrink = min(1.0, WIDEST_MM / picture.width_mm, 2 * HIGHEST_MM / picture.height_mm)
    return {
        "title": plain(picture.title),
        "svg": picture.svg,
        "width": picture.width_mm * shrink,
        "height": picture.height_mm * shrink,
        "shrunk": shrink < 1.0,
    }


def _sentence(text: Said, manner: Manner) -> str:
    words = kept_together(say(text, manner))
    return words[:1].upper() + words[1:]


def kept_together(text: str) -> str:
    """The text with its units held to their numbers."""
    for unit in ("mm", "%", "in", "tum"):
        text = re.sub(rf"(\d) {unit}(?![a-z])", f"\\1\u00a0{unit}", text)
    return text
