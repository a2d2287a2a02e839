"""Papers after the offer: order confirmation, change order, delivery note."""

from collections.abc import Iterator
from typing import Final

from evenface.documents.display import DASH, called, size
from evenface.documents.letters import Block, bullets, heading, letter_pdf, paragraph, rows, sign, sums, ticks
from evenface.documents.money_text import day_text, locale_for, money_text, number
from evenface.documents.offer import Offered, alike_parts, pieces_table, price_blocks
from evenface.documents.tables import Table, table
from evenface.piece.records import Role
from evenface.pricing.changes import Changed, PartChange
from evenface.words import ENGLISH, Manner, Own, Said, figure, said, say

ONE_PERSON_KG: Final = 25.0
"""Trade reference, from memory: what one person lifts close to the body."""


def confirmation_pdf(offered: Offered, offer_number: str = "", manner: Manner = ENGLISH) -> bytes:
    """The order confirmation: what is made, the price, the payments, the day."""
    return letter_pdf(
        "Order confirmation", offered.head, confirmation_blocks(offered, offer_number, manner), manner
    )


def confirmation_blocks(offered: Offered, offer_number: str, manner: Manner = ENGLISH) -> Iterator[Block]:
    """offer_number : of the offer that is confirmed, empty where none is named."""
    by_offer = (
        said("as offered under number {number}", number=offer_number)
        if offer_number
        else said("as listed here")
    )
    yield paragraph(
        said("Thank you for your order. We make the pieces {as_offered}.", as_offered=by_offer), manner
    )
    yield heading("What we make", manner)
    yield rows(pieces_table(offered, manner))
    yield heading("Price", manner)
    yield from price_blocks(offered, manner)
    yield heading("When", manner)
    if offered.ready is not None and offered.begin is not None:
        told = said(
            "We begin on {begin}; the pieces are ready on {day}.",
            begin=day_text(offered.begin, manner),
            day=day_text(offered.ready, manner),
        )
    else:
        told = said("We write to you as soon as the day is fixed.")
    yield paragraph(told, manner)
    yield heading("From here on", manner)
    yield bullets(
        [
            said("We begin once the drawings and samples are approved and the first payment has come."),
            said("A change is written down with its price and its day, and made once both have signed it."),
        ],
        manner,
    )
    yield sign(("place and date", "for the maker"), manner)


# --- changes ------------------------------------------------------------------------------------------


def change_pdf(changed: Changed, offered: Offered, order_number: str = "", manner: Manner = ENGLISH) -> bytes:
    """The change order: what changes in sizes, price and day, to be signed by both."""
    return letter_pdf(
        "Change order", offered.head, change_blocks(changed, offered, order_number, manner), manner
    )


def change_blocks(
    changed: Changed, offered: Offered, order_number: str = "", manner: Manner = ENGLISH
) -> Iterator[Block]:
    """offered : the new version. order_number : of the order that is changed."""
    told = (
        said("changes to order {number}", number=order_number)
        if order_number
        else said("changes to your order")
    )
    yield paragraph(said("Here are the {told}. Everything else stays as ordered.", told=told), manner)
    yield heading("What changes", manner)
    if changed.parts:
        yield rows(changes_table(changed, manner))
    else:
        yield paragraph(said("No part changes in size, number, material or shape."), manner)
    yield heading("Price", manner)
    yield from _change_sums(changed, locale_for(offered.head.locale, manner), manner)
    yield heading("Day", manner)
    yield paragraph(_days(changed, manner), manner)
    yield paragraph(
        said("We make the change once both have signed it. Until then we go on with what is ordered."), manner
    )
    yield sign(("place and date", "for the maker", "the client"), manner)


def changes_table(changed: Changed, manner: Manner = ENGLISH) -> Table:
    """Each part that changes: what, its size and number before and now."""
    cells = [
        (
            f"{one.piece}: {manner.name(one.part)}",
            ", ".join(say(what, manner) for what in one.what),
            _size(one, old=True, manner=manner),
            _size(one, old=False, manner=manner),
        )
        for one in changed.parts
    ]
    return table("", ("Part", "What changes", ">Ordered", ">Now"), cells, manner=manner)


def _size(one: PartChange, old: bool, manner: Manner) -> str:
    found, count = (one.old_mm, one.old_count) if old else (one.new_mm, one.new_count)
    if found is None:
        return DASH
    return size(found, manner=manner) if count == 1 else f"{count} × ({size(found, manner=manner)})"


def _change_sums(changed: Changed, locale: str, manner: Manner) -> Iterator[Block]:
    word, old, new = manner.translate, changed.old.price, changed.new.price
    sign_of = "+" if changed.total.amount > 0 else ""
    lines = [
        (word("Ordered"), money_text(old.total, locale), False),
        (word("Now"), money_text(new.total, locale), False),
        (word("Difference"), f"{sign_of}{money_text(changed.total, locale)}", True),
    ]
    taxed = new.gross is not None
    note = word("With tax.") if taxed else word("Without tax.")
    if changed.at_least:
        note += " " + word("Not everything is priced in both versions: the difference is not certain.")
    yield sums(lines, note)


def _days(changed: Changed, manner: Manner) -> Said:
    if changed.days is None or changed.new.ready is None:
        return said("The day stays open.")
    day = day_text(changed.new.ready, manner)
    if changed.days == 0:
        return said("The day stays: {day}.", day=day)
    if changed.days > 0:
        return said("Ready on {day}, {days:days} later than ordered.", day=day, days=changed.days)
    return said("Ready on {day}, {days:days} sooner than ordered.", day=day, days=-changed.days)


def price_changes_table(changed: Changed, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """For the maker: where the cost changes, by group."""
    cells = [
        (
            manner.translate(one.group.value),
            money_text(one.old, locale),
            money_text(one.new, locale),
            money_text(one.new - one.old, locale),
        )
        for one in changed.groups
    ]
    cells.append(
        (
            manner.translate("price without tax"),
            money_text(changed.old.price.net, locale),
            money_text(changed.new.price.net, locale),
            money_text(changed.net, locale),
        )
    )
    note = manner.translate("Hours: {hours} more.").format(hours=number(changed.hours, 1, locale))
    return table("What the change costs", ("For", ">Before", ">Now", ">Difference"), cells, note, manner)


# --- delivery -----------------------------------------------------------------------------------------


def delivery_pdf(offered: Offered, order_number: str = "", manner: Manner = ENGLISH) -> bytes:
    """The delivery note: what is handed over, how heavy, in what state."""
    return letter_pdf("Delivery note", offered.head, delivery_blocks(offered, order_number, manner), manner)


def delivery_blocks(offered: Offered, order_number: str = "", manner: Manner = ENGLISH) -> Iterator[Block]:
    """order_number : of the order that is delivered."""
    parts = offered.sketch.all_parts
    mass = sum(part.count * part.mass_kg for part in parts)
    heavy = [part for part in parts if part.mass_kg > ONE_PERSON_KG]
    if order_number:
        yield paragraph(said("To order {number}.", number=order_number), manner)
    yield rows(delivery_table(offered, manner))
    yield paragraph(said("In all {mass:kg}.", mass=mass), manner)
    if heavy:
        names = Own(", ".join(f"{part.piece}: {manner.name(part.name)}" for part in heavy))
        yield paragraph(said("To be carried by two: {names}.", names=names), manner)
    yield heading("Handed over", manner)
    lines = ["Complete, without damage that can be seen", "Missing or damaged:", "Flatness measured, mm:"]
    yield ticks([*lines, *_with_the_pieces(offered)], manner)
    if _linoleum(offered):
        yield paragraph(
            said(
                "Please take off film and card at once: light leaves marks on linoleum around what covers it."
            ),
            manner,
        )
    yield sign(("place, date, hour", "handed over", "received"), manner)


def delivery_table(offered: Offered, manner: Manner = ENGLISH) -> Table:
    """Every part with number, size and the mass of one."""
    cells = [
        (
            f"{alike[0].piece}: {called((part.name for part in alike), manner)}",
            str(sum(part.count for part in alike)),
            size(alike[0].finished_mm, manner=manner),
            f"{figure(alike[0].mass_kg, 1, manner)} kg",
        )
        for alike in alike_parts(offered.sketch)
    ]
    size_in = manner.translate("Size in {unit}").format(unit=manner.length_unit)
    return table("", ("Part", ">Number", f">{size_in}", ">Mass of one"), cells, manner=manner)


def _with_the_pieces(offered: Offered) -> tuple[str, ...]:
    fittings = {
        one.name: one.count * construction.piece.count
        for construction in offered.sketch.constructions
        for one in construction.arranged.fittings
    }
    listed = tuple(f"{count} × {name}" for name, count in fittings.items())
    return (*listed, "Care sheet")


def _linoleum(offered: Offered) -> bool:
    return any(
        (face := panel.face(role)) is not None and face.material.family == "linoleum"
        for construction in offered.sketch.constructions
        for panel in construction.panels
        for role in (Role.FACE, Role.BACK)
    )
