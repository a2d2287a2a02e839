"""Tables of the rack as SQLAlchemy sees them, and the way between a row and a record.

Money and dates stand as text and sizes as whole numbers, so that SQLite and PostgreSQL give back the very same.
"""

import json
from collections.abc import Mapping
from dataclasses import fields
from datetime import date
from decimal import Decimal
from typing import Any, Final

import sqlalchemy as sa

from evenface.store.rack_records import Change, Defect, Left, RackItem

tables: Final = sa.MetaData()

ACTION: Final = sa.Table(
    "rack_action",
    tables,
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("kind", sa.Text, nullable=False),
    sa.Column("at", sa.Text, nullable=False),
    sa.Column("person", sa.Text, nullable=False, server_default=""),
    sa.Column("job", sa.Text, nullable=False, server_default=""),
    sa.Column("note", sa.Text, nullable=False, server_default=""),
    sa.Column("undoes", sa.Integer, sa.ForeignKey("rack_action.number"), unique=True),
    sqlite_autoincrement=True,
)
CHANGE: Final = sa.Table(
    "rack_change",
    tables,
    sa.Column("action", sa.Integer, sa.ForeignKey("rack_action.number"), primary_key=True),
    sa.Column("place", sa.Integer, primary_key=True),
    sa.Column("code", sa.Text, nullable=False),
    sa.Column("before", sa.Text),
    sa.Column("after", sa.Text),
    sa.Index("rack_change_code", "code"),
)
ITEM: Final = sa.Table(
    "rack_item",
    tables,
    sa.Column("code", sa.Text, primary_key=True),
    sa.Column("form", sa.Text, nullable=False),
    sa.Column("material", sa.Text, nullable=False),
    sa.Column("length", sa.BigInteger, nullable=False),
    sa.Column("width", sa.BigInteger, nullable=False),
    sa.Column("thickness", sa.BigInteger),
    sa.Column("batch", sa.Text, nullable=False, server_default=""),
    sa.Column("grain", sa.Text, nullable=False, server_default="along"),
    sa.Column("moisture", sa.Double),
    sa.Column("moisture_on", sa.Text),
    sa.Column("place", sa.Text, nullable=False, server_default=""),
    sa.Column("price", sa.Text),
    sa.Column("currency", sa.Text, nullable=False, server_default=""),
    sa.Column("received", sa.Text),
    sa.Column("notes", sa.Text, nullable=False, server_default=""),
    sa.Column("state", sa.Text, nullable=False, server_default="free"),
    sa.Column("reserved_for", sa.Text, nullable=False, server_default=""),
    sa.Column("parent", sa.Text, nullable=False, server_default=""),
    sa.Column("last_action", sa.Integer, sa.ForeignKey("rack_action.number"), nullable=False),
    sa.Column("value", sa.Text),
    sa.Column("least", sa.Text),
    sa.Column("faces", sa.Text, nullable=False, server_default="both"),
    sa.Column("defects", sa.Text, nullable=False, server_default="[]"),
    sa.Column("photo", sa.Text, nullable=False, server_default=""),
    sa.Column("planned", sa.Text, nullable=False, server_default="[]"),
    sa.Index("rack_item_use", "material", "state"),
    sa.Index("rack_item_parent", "parent"),
)
IN_ORDER: Final = (ACTION, CHANGE, ITEM)
"""Each after those it refers to."""


def row_of(item: RackItem) -> dict[str, Any]:
    """What stands in the table, and in the log as JSON."""
    row: dict[str, Any] = {field.name: getattr(item, field.name) for field in fields(item)}
    for name in ("moisture_on", "received"):
        row[name] = row[name] and row[name].isoformat()
    for name in ("price", "value"):
        row[name] = None if row[name] is None else str(row[name])
    row["least"] = None if item.least is None else json.dumps(item.least)
    row["planned"] = json.dumps([[rest.length, rest.width] for rest in item.planned])
    row["defects"] = json.dumps([[d.x, d.y, d.length, d.width, d.kind] for d in item.defects])
    return row


def item_of(row: Mapping[str, Any] | sa.RowMapping) -> RackItem:
    """The record of a row; what an earlier shape did not know yet has its usual value."""
    given: dict[str, Any] = {field.name: row[field.name] for field in fields(RackItem) if field.name in row}
    for name in ("moisture_on", "received"):
        given[name] = date.fromisoformat(given[name]) if given.get(name) else None
    for name in ("price", "value"):
        given[name] = None if given.get(name) is None else Decimal(given[name])
    least = given.get("least")
    given["least"] = None if least is None else tuple(json.loads(least))
    given["planned"] = tuple(Left(*rest) for rest in json.loads(given.get("planned") or "[]"))
    given["defects"] = tuple(Defect(*one) for one in json.loads(given.get("defects") or "[]"))
    return RackItem(**given)


def change_of(row: Mapping[str, Any] | sa.RowMapping) -> Change:
    """The record of a line of the log."""
    before, after = row["before"], row["after"]
    return Change(row["code"], before and json.loads(before), after and json.loads(after))


def text_of(row: Mapping[str, Any] | None) -> str | None:
    """A row as it is kept in the log."""
    return None if row is None else json.dumps(row, ensure_ascii=False, sort_keys=True)
