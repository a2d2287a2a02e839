"""What a cut leaves: the rests of an item as items of their own, and whether they can have come out of it."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import ROUND_DOWN, Decimal
from itertools import combinations

import sqlalchemy as sa

from evenface.store.rack_codes import code_text
from evenface.store.rack_log import item_in
from evenface.store.rack_records import Form, Left, RackError, RackItem
from evenface.store.rack_tables import ITEM, item_of
from evenface.words import said

_COIN = Decimal("0.01")


def rest_of(parent: RackItem, left: Left, day: date, place: str = "", code: str = "") -> RackItem:
    """A rest as an item: grain, batch, thickness and moisture of what it was cut from, its share of the price.

    Price and value go by area, rounded down to the hundredth.
    """
    share = Decimal(left.length * left.width) / Decimal(parent.area)
    return replace(
        parent,
        form=_form(parent, left),
        length=left.length,
        width=left.width,
        code=code,
        place=place,
        price=_part(parent.price, share),
        value=_part(parent.value, share),
        received=day,
        defects=(),
        photo="",
        notes=f"Look for faults: {code_text(parent.code)} had some." if parent.defects else "",
        state="free",
        reserved_for="",
        parent=parent.code,
        planned=(),
        last_action=0,
    )


def _form(parent: RackItem, left: Left) -> Form:
    if parent.form in ("board", "stick"):
        return parent.form
    return "roll" if parent.form == "roll" and left.width == parent.width else "offcut"


def _part(money: Decimal | None, share: Decimal) -> Decimal | None:
    return None if money is None else (money * share).quantize(_COIN, ROUND_DOWN)


def children_in(base: sa.Connection, code: str) -> tuple[RackItem, ...]:
    """What was cut from the item and booked in."""
    rows = base.execute(sa.select(ITEM).where(ITEM.c.parent == code).order_by(ITEM.c.code)).mappings()
    return tuple(item_of(row) for row in rows)


def check_family(base: sa.Connection, code: str) -> None:
    """Raises RackError when what was booked in of the item cannot have come out of it."""
    children = children_in(base, code)
    if not children:
        return
    parent = item_in(base, code)
    if parent.state != "cut":
        raise RackError(
            said(
                "{code} has rests in the rack, but is {state:word}: expected it to be cut.",
                code=code_text(code),
                state=parent.state,
            )
        )
    for child in children:
        if child.material != parent.material:
            raise RackError(
                said(
                    "{code}: expected {material} like {parent}, from which it was cut, was given {other}",
                    code=code_text(child.code),
                    material=parent.material,
                    parent=code_text(code),
                    other=child.material,
                )
            )
    check_rests(parent, [Left(child.length, child.width) for child in children])


def check_rests(parent: RackItem, rests: Sequence[Left]) -> None:
    """Raises RackError when rests are larger than the item, or do not fit it beside one another."""
    whole = f"{_size(parent)} of {code_text(parent.code)}" if parent.code else _size(parent)
    for rest in rests:
        if rest.length < 1 or rest.width < 1 or rest.length > parent.length or rest.width > parent.width:
            raise RackError(
                said(
                    "expected a rest that lies inside {whole} (length along its length), was given {rest}",
                    whole=whole,
                    rest=_size(rest),
                )
            )
    if sum(rest.length * rest.width for rest in rests) > parent.area:
        raise RackError(
            said("expected rests that are together no larger than {whole}; they are", whole=whole)
        )
    for one, other in combinations(rests, 2):
        if one.length + other.length > parent.length and one.width + other.width > parent.width:
            raise RackError(
                said(
                    "expected rests that fit beside one another into {whole}; {one} and {other} do not",
                    whole=whole,
                    one=_size(one),
                    other=_size(other),
                )
            )


def _size(what: RackItem | Left) -> str:
    return f"{what.length / 100:g} × {what.width / 100:g} mm"
