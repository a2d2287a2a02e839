"""The offer: what is made, for how much, by when, how exact, and what is not included."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Final

from evenface.documents.display import DASH, called, size
from evenface.documents.letters import (
    Block,
    Letterhead,
    bullets,
    heading,
    kept_together,
    letter_pdf,
    new_page,
    paragraph,
    pictures,
    rows,
    sign,
    sums,
)
from evenface.documents.money_text import day_text, locale_for, money_text, share_text
from evenface.documents.movement_words import movement
from evenface.documents.offer_words import brought, made_of, not_included, set_up, tolerances, what_is_what
from evenface.documents.pictures import Picture, Pictures
from evenface.documents.tables import Table, table
from evenface.parts import Part
from evenface.piece.price_records import Payment, PriceTable
from evenface.piece.records import Panel
from evenface.pricing import Price
from evenface.pricing.changes import bare
from evenface.pricing.money import split
from evenface.result import Sketch
from evenface.words import ENGLISH, Manner, Said, said, say

USUAL_VALID_DAYS: Final = 30
"""Trade reference: makers hold an offer for 30 to 60 days."""
USUAL_PAYMENTS: Final = (
    Payment(Decimal("0.4"), "with the order"),
    Payment(Decimal("0.6"), "when the pieces are ready, before they are handed over"),
)
"""Trade reference: 25 to 50 % with the order, the rest at completion."""
USUAL_WITHDRAWAL: Final = (
    "The pieces are made to your measure and choice. A right to take back an order that holds for goods from stock "
    "does not as a rule hold for them; the law where you live decides, and nothing here lessens your rights by it."
)


@dataclass(frozen=True, slots=True)
class Offered:
    """Everything an offer speaks of.

    begin, ready : first day of work and the day the pieces are then ready; None where none is named.
    finishes : of the wood, by the name of the build-up.
    """

    head: Letterhead
    sketch: Sketch
    price: Price
    table: PriceTable
    finishes: Mapping[str, str]
    begin: date | None = None
    ready: date | None = None

    @property
    def payments(self) -> tuple[Payment, ...]:
        return self.table.terms.payments or USUAL_PAYMENTS

    @property
    def valid_until(self) -> date:
        return self.head.day + timedelta(days=self.table.terms.valid_days or USUAL_VALID_DAYS)


def offer_pdf(offered: Offered, drawn: Pictures, manner: Manner = ENGLISH) -> bytes:
    """The offer with the plan of every part."""
    return letter_pdf("Offer", offered.head, offer_blocks(offered, drawn, manner), manner)


def offer_blocks(offered: Offered, drawn: Pictures, manner: Manner = ENGLISH) -> Iterator[Block]:
    """The offer from greeting to drawings."""
    terms = offered.table.terms
    yield paragraph(
        said(
            "Thank you for asking us. We offer to make what is listed here, as drawn on the last pages, at the price "
            "below."
        ),
        manner,
    )
    yield heading("What we make", manner)
    yield rows(pieces_table(offered, manner))
    yield paragraph(_included(offered), manner)
    yield heading("Price", manner)
    yield from price_blocks(offered, manner)
    yield paragraph(said("This offer holds until {day}.", day=day_text(offered.valid_until, manner)), manner)
    yield heading("When", manner)
    yield paragraph(_when(offered, manner), manner)
    yield heading("What the price does not include", manner)
    yield bullets(not_included(offered.sketch, offered.table, offered.price), manner)
    yield heading("Materials", manner)
    yield rows(materials_table(offered, manner))
    yield bullets(what_is_what(offered.sketch.constructions), manner)
    yield heading("How exact, how flat", manner)
    yield bullets(tolerances(offered.sketch, offered.table), manner)
    yield heading("Wood, air and the seasons", manner)
    yield bullets(movement(offered.sketch), manner)
    yield heading("Order and changes", manner)
    yield bullets(
        [
            said(
                "You order by signing below and on the approval sheet, where each drawing and each sample is approved."
            ),
            said(
                "A change after that is written down with its price and its day, and made once both have signed it."
            ),
            said("{text}", text=terms.withdrawal or manner.translate(USUAL_WITHDRAWAL)),
            *(said("{text}", text=note) for note in terms.notes),
        ],
        manner,
    )
    yield sign(("place and date", "for the maker", "the client: ordered as offered"), manner)
    yield from _drawings(offered.sketch, drawn, manner)


def _drawings(sketch: Sketch, drawn: Pictures, manner: Manner) -> Iterator[Block]:
    """A piece that stands as a whole in its views; else the plan of each part, one for parts that are alike."""
    yield new_page()
    whole = {
        one.piece.name: drawn.wholes[number]
        for number, one in enumerate(sketch.constructions, start=1)
        if drawn.wholes.get(number)
    }
    before = ""
    for alike in alike_parts(sketch):
        made = drawn.panels.get(alike[0].id, ())
        if alike[0].piece in whole:
            if alike[0].piece != before:
                yield heading(alike[0].piece, manner)
                front, _plan, side, *_ = whole[alike[0].piece]
                yield pictures((front, side))
                before = alike[0].piece
            continue
        if not made:
            continue
        if alike[0].piece != before:
            yield heading(alike[0].piece, manner)
            before = alike[0].piece
        if len(alike) > 1:
            yield paragraph(
                said("{parts}: alike", parts=called((part.name for part in alike), manner)), manner
            )
        yield pictures(plan_first(made)[:1])


def _included(offered: Offered) -> Said:
    """What the price covers, so that nobody has to guess."""
    table = offered.table
    more = [one.name for one in (*table.subcontract, *table.other)]
    more += ["delivery"] if brought(table, offered.price) else []
    more += ["setting level, scribing and fixing where it stands"] if set_up(offered.price) else []
    if not more:
        return said("The price covers material and work for all of it.")
    return said(
        "The price covers material and work for all of it, and besides: {more:word}.", more=", ".join(more)
    )


def _when(offered: Offered, manner: Manner) -> Said:
    due = offered.sketch.job.due
    if offered.ready is not None and offered.begin is not None:
        told = said(
            "If your order and the first payment reach us before, we begin on {begin} and are ready on {day}. A "
            "later order moves both days.",
            begin=day_text(offered.begin, manner),
            day=day_text(offered.ready, manner),
        )
    elif due:
        told = said(
            "Wanted by {day}. We confirm the day with the order.",
            day=day_text(date.fromisoformat(due), manner),
        )
    else:
        told = said("We name the day with the order.")
    return said(
        "{day} Material lies in the workshop for days before it is glued, and glue and finish need their time; "
        "neither can be hurried.",
        day=told,
    )


def price_blocks(offered: Offered, manner: Manner = ENGLISH) -> Iterator[Block]:
    """The sums and how they are paid; a price that is not whole says what is missing."""
    price, locale = offered.price, locale_for(offered.head.locale, manner)
    word = manner.translate
    lines = [(word("Price without tax"), money_text(price.net, locale), price.gross is None)]
    if price.tax is not None and price.gross is not None and price.tax_share is not None:
        rate = share_text(price.tax_share, locale)
        lines.append((word("Tax, {rate}").format(rate=rate), money_text(price.tax, locale), False))
        lines.append((word("Price"), money_text(price.gross, locale), True))
    note = ""
    if price.at_least:
        names = ", ".join(dict.fromkeys(say(one.what, manner) for one in price.missing))
        note = word("At least: these are not priced yet: {names}.").format(names=names)
    yield sums(lines, note)
    yield rows(payments_table(offered, manner))


def payments_table(offered: Offered, manner: Manner = ENGLISH) -> Table:
    """Each payment with its share and sum; they close with the price."""
    locale = locale_for(offered.head.locale, manner)
    parts = split(offered.price.total, [one.share for one in offered.payments])
    cells = [
        (
            manner.translate(one.when),
            share_text(one.share, locale),
            money_text(part, locale),
        )
        for one, part in zip(offered.payments, parts, strict=True)
    ]
    return table("", ("To be paid", ">Share", ">Sum"), cells, manner=manner)


def pieces_table(offered: Offered, manner: Manner = ENGLISH) -> Table:
    """Every part with its number and finished size, under its piece."""
    cells, before = [], ""
    for alike in alike_parts(offered.sketch):
        first = alike[0]
        cells.append(
            (
                first.piece if first.piece != before else "",
                called((part.name for part in alike), manner),
                str(sum(part.count for part in alike)),
                size(first.finished_mm, manner=manner),
            )
        )
        before = first.piece
    unit = manner.translate("Length × width × thickness in {unit}").format(unit=manner.system)
    return table("", ("Piece", "Part", ">Number", f">{unit}"), cells, manner=manner)


def alike_parts(sketch: Sketch) -> list[list[Part]]:
    """Parts in their order; neighbours of one piece that differ in nothing but the name stand together."""
    panels = {(one.piece, one.name): one.panel for made in sketch.constructions for one in made.panels}
    groups: list[list[Part]] = []
    for part in sketch.all_parts:
        last = groups[-1][-1] if groups else None
        if last is not None and _alike(part, last, panels):
            groups[-1].append(part)
        else:
            groups.append([part])
    return groups


def _alike(one: Part, other: Part, panels: Mapping[tuple[str, str], Panel]) -> bool:
    mine, theirs = panels.get((one.piece, one.name)), panels.get((other.piece, other.name))
    return (
        one.piece == other.piece
        and one.finished_mm == other.finished_mm
        and mine is not None
        and theirs is not None
        and bare(replace(mine, name="", count=1)) == bare(replace(theirs, name="", count=1))
    )


def materials_table(offered: Offered, manner: Manner = ENGLISH) -> Table:
    """Board, faces and edges in plain words; parts that are alike stand together."""
    groups: dict[tuple[str, ...], dict[str, list[str]]] = {}
    for construction in offered.sketch.constructions:
        for panel in construction.panels:
            finish = offered.finishes.get(panel.panel.buildup, "")
            key = tuple(kept_together(say(one, manner)) for one in made_of(panel, manner.translate(finish)))
            groups.setdefault(key, {}).setdefault(panel.piece, []).append(panel.name)
    for construction in offered.sketch.constructions:
        for board in construction.boards:
            solid = manner.translate("solid {wood}").format(wood=manner.name(board.wood.title))
            names = groups.setdefault((solid, DASH, DASH), {}).setdefault(board.piece, [])
            names += [board.name] if board.name not in names else []
    cells = [
        ("; ".join(f"{piece}: {called(names, manner)}" for piece, names in pieces.items()), *words)
        for words, pieces in groups.items()
    ]
    return table("", ("Part", "Board", "Faces", "Edges"), cells, manner=manner)


def plan_first(shown: Sequence[Picture]) -> list[Picture]:
    """The drawings of a part, its plan before its sections."""
    return sorted(shown, key=lambda one: not one.name.endswith("plan"))
