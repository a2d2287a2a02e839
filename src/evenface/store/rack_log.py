"""One action on the rack: its line in the log, every item it changes, and the way back."""

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import Any

import sqlalchemy as sa

from evenface.store.rack_base import writing
from evenface.store.rack_codes import code_text, new_code
from evenface.store.rack_records import Action, Kind, NoSuchItem, RackError, RackItem, Taken
from evenface.store.rack_tables import ACTION, CHANGE, ITEM, change_of, item_of, row_of, text_of
from evenface.words import Said, said


@dataclass
class Doing:
    """An action while it is done: every change goes through it, into the item and into the log together."""

    base: sa.Connection
    number: int
    written: int = field(default=0)

    def item(self, code: str) -> RackItem:
        """The item as it stands now. Raises NoSuchItem."""
        return item_in(self.base, code)

    def book_in(self, item: RackItem) -> RackItem:
        """A new item, with a code of its own where it has none."""
        made = replace(item, code=item.code or self._free_code(), last_action=self.number)
        if item.code and self._has(item.code):
            raise RackError(
                said("{code} is in the rack already; correct it instead.", code=code_text(item.code))
            )
        row = row_of(made)
        self.base.execute(sa.insert(ITEM).values(row))
        self._write(made.code, None, row)
        return made

    def change(self, seen: RackItem, **changed: Any) -> RackItem:
        """The item with these fields changed, if it still is as it was seen. Raises Taken, NoSuchItem."""
        made = replace(seen, **changed, last_action=self.number)
        row = row_of(made)
        condition = (ITEM.c.code == seen.code) & (ITEM.c.last_action == seen.last_action)
        if self.base.execute(sa.update(ITEM).where(condition).values(row)).rowcount != 1:
            raise Taken(self._who_was_quicker(seen))
        self._write(seen.code, row_of(seen), row)
        return made

    def restore(
        self, code: str, undone: int, before: dict[str, Any] | None, after: dict[str, Any] | None
    ) -> None:
        """The item as it was before that action; nothing else may have changed it since."""
        condition = (ITEM.c.code == code) & (ITEM.c.last_action == undone)
        row = None if before is None else row_of(item_of(before))
        statement = sa.delete(ITEM) if row is None else sa.update(ITEM).values(row)
        if self.base.execute(statement.where(condition)).rowcount != 1:
            raise RackError(self._changed_since(code, undone))
        self._write(code, after, row)

    def _write(self, code: str, before: dict[str, Any] | None, after: dict[str, Any] | None) -> None:
        self.base.execute(
            sa.insert(CHANGE).values(
                action=self.number,
                place=self.written,
                code=code,
                before=text_of(before),
                after=text_of(after),
            )
        )
        self.written += 1

    def _has(self, code: str) -> bool:
        return self.base.execute(sa.select(ITEM.c.code).where(ITEM.c.code == code)).first() is not None

    def _free_code(self) -> str:
        """A code that no item has and none ever had: labels of what was undone may still lie about."""
        while True:
            code = new_code()
            known = sa.select(CHANGE.c.code).where(CHANGE.c.code == code)
            if not self._has(code) and self.base.execute(known).first() is None:
                return code

    def _who_was_quicker(self, seen: RackItem) -> Said:
        now = self.item(seen.code)
        last = action_in(self.base, now.last_action)
        who = said("{person}" if last.person else "{person:word}", person=last.person or "somebody")
        code = code_text(seen.code)
        if now.state == "reserved":
            return said(
                "{code} was reserved for {job} by {who} meanwhile. Nothing was changed; plan anew.",
                code=code,
                job=now.reserved_for,
                who=who,
            )
        if now.state in ("cut", "spoiled"):
            return said(
                "{code} was booked out as {state:word} by {who} meanwhile. Nothing was changed; plan anew.",
                code=code,
                state=now.state,
                who=who,
            )
        return said(
            "{code} was changed by {who} meanwhile ({kind}). Nothing was changed now; look at it again.",
            code=code,
            who=who,
            kind=last.kind,
        )

    def _changed_since(self, code: str, undone: int) -> Said:
        now = self.item(code)
        last = action_in(self.base, now.last_action)
        return said(
            "Action {undone} cannot be undone: {code} was changed after it by {who} (action {number}, {kind}). "
            "Undo that one first.",
            undone=undone,
            code=code_text(code),
            who=said("{person}" if last.person else "{person:word}", person=last.person or "somebody"),
            number=last.number,
            kind=last.kind,
        )


@contextmanager
def doing(engine: sa.Engine, kind: Kind, person: str, job: str = "", note: str = "") -> Iterator[Doing]:
    """A new action: whole when the block ends, gone when it raises."""
    with writing(engine) as base:
        yield begun(base, kind, person, job, note)


def begun(
    base: sa.Connection, kind: Kind, person: str, job: str = "", note: str = "", undoes: int | None = None
) -> Doing:
    """A new line in the log."""
    at = datetime.now(UTC).isoformat(timespec="seconds")
    made = base.execute(
        sa.insert(ACTION).values(kind=kind, at=at, person=person, job=job, note=note, undoes=undoes)
    )
    key = made.inserted_primary_key
    assert key is not None  # an INSERT of one row gives its key
    return Doing(base, int(key[0]))


def undo_last(
    engine: sa.Engine, person: str, whose: str | None, check: Callable[[sa.Connection, str], None]
) -> Action:
    """Take the last standing action back, of everybody or of one person. Raises RackError when there is none.

    check : asked about every item that has rests among what is restored.
    """
    with writing(engine) as base:
        number = _last_standing(base, whose)
        if number is None:
            raise RackError(
                said("There is nothing to undo of {whose}.", whose=whose)
                if whose
                else "There is nothing to undo."
            )
        undone = action_in(base, number)
        this = begun(base, "undo", person, undone.job, undone.note, undoes=number)
        for change in reversed(undone.changes):
            this.restore(
                change.code,
                number,
                None if change.before is None else dict(change.before),
                None if change.after is None else dict(change.after),
            )
        parents = {str(change.before["parent"]) for change in undone.changes if change.before is not None}
        for parent in sorted(parents - {""}):
            check(base, parent)
        return undone


def _last_standing(base: sa.Connection, whose: str | None) -> int | None:
    later = ACTION.alias("later")
    standing = ~sa.exists().where(later.c.undoes == ACTION.c.number)
    question = sa.select(sa.func.max(ACTION.c.number)).where(ACTION.c.kind != "undo", standing)
    if whose is not None:
        question = question.where(ACTION.c.person == whose)
    found: int | None = base.execute(question).scalar()
    return found


def item_in(base: sa.Connection, code: str) -> RackItem:
    """The item of that code. Raises NoSuchItem."""
    row = base.execute(sa.select(ITEM).where(ITEM.c.code == code)).mappings().first()
    if row is None:
        raise NoSuchItem(said("Nothing in the rack has the code {code}.", code=code_text(code)))
    return item_of(row)


def action_in(base: sa.Connection, number: int) -> Action:
    """One line of the log with its changes."""
    return actions_in(base, ACTION.c.number == number)[0]


def actions_in(
    base: sa.Connection, which: sa.ColumnElement[bool], most: int | None = None
) -> tuple[Action, ...]:
    """Lines of the log, the newest first."""
    later = ACTION.alias("later")
    undone = sa.exists().where(later.c.undoes == ACTION.c.number).label("undone")
    question = sa.select(ACTION, undone).where(which).order_by(ACTION.c.number.desc()).limit(most)
    rows = base.execute(question).mappings().all()
    numbers = [row["number"] for row in rows]
    changes: dict[int, list[Any]] = {number: [] for number in numbers}
    asked = sa.select(CHANGE).where(CHANGE.c.action.in_(numbers)).order_by(CHANGE.c.action, CHANGE.c.place)
    for row in base.execute(asked).mappings():
        changes[row["action"]].append(change_of(row))
    return tuple(
        Action(
            row["number"],
            row["kind"],
            row["at"],
            row["person"],
            row["job"],
            row["note"],
            row["undoes"],
            bool(row["undone"]),
            tuple(changes[row["number"]]),
        )
        for row in rows
    )


def areas_by_log(base: sa.Connection, material: str) -> tuple[int, int, int]:
    """What the log says was received and what booked in as a rest: area and number received, number of rests."""
    area = count = rests = 0
    for row in base.execute(sa.select(CHANGE.c.before, CHANGE.c.after)):
        for text, sign in ((row.before, -1), (row.after, 1)):
            item = json.loads(text) if text is not None else None
            if item is None or (material and item["material"] != material):
                continue
            if item["parent"]:
                rests += sign
            else:
                area += sign * item["length"] * item["width"]
                count += sign
    return area, count, rests
