"""The rack: what lies in it, and everything that can be done with it. Whatever was done can be undone."""

import os
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import sqlalchemy as sa

from evenface.errors import parts_of
from evenface.store.rack_base import address_of, open_engine, reading
from evenface.store.rack_codes import code_text, read_code
from evenface.store.rack_family import check_family, check_rests, children_in, rest_of
from evenface.store.rack_log import Doing, actions_in, areas_by_log, doing, item_in, undo_last
from evenface.store.rack_records import (
    ALWAYS_CORRECTABLE,
    CORRECTABLE,
    STATES,
    Action,
    Balance,
    Left,
    NoSuchItem,
    RackError,
    RackItem,
    Taken,
)
from evenface.store.rack_tables import ACTION, ITEM, item_of
from evenface.store.schema import data_folder
from evenface.words import said

type Reservation = tuple[RackItem, tuple[Left, ...]]
"""An item as it was seen, with the rests the plan leaves of it."""


class Rack:
    """The rack of one workshop; several programs and people may use it at once.

    Whoever changes an item hands it over as it was seen: Taken when it is no longer so.
    """

    def __init__(self, folder: Path | None = None, address: str = "", person: str | None = None) -> None:
        """folder : data folder, by default the usual one. address : of the database, by default that of the folder.

        person : who stands in the log, by default who is logged in. Raises RackError.
        """
        self.folder = data_folder() if folder is None else folder
        self.person = _person() if person is None else person
        self.engine = open_engine(address or address_of(self.folder))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let the database go; what was written stands."""
        self.engine.dispose()

    # --- looking ------------------------------------------------------------------------------------

    def items(
        self, material: str = "", states: Iterable[str] = STATES, job: str = "", form: str = ""
    ) -> tuple[RackItem, ...]:
        """Items by material, place and size. job : what is reserved for it. Empty for all."""
        question = sa.select(ITEM).where(ITEM.c.state.in_(tuple(states)))
        for column, wanted in ((ITEM.c.material, material), (ITEM.c.reserved_for, job), (ITEM.c.form, form)):
            if wanted:
                question = question.where(column == wanted)
        with reading(self.engine) as base:
            found = [item_of(row) for row in base.execute(question).mappings()]
        return tuple(sorted(found, key=_as_listed))

    def open_to(self, job: str) -> tuple[RackItem, ...]:
        """What a plan of this job may use: free, or reserved for it."""
        return tuple(
            item
            for item in self.items(states=("free", "reserved"))
            if item.state == "free" or item.reserved_for == job
        )

    def find(self, code: str) -> RackItem:
        """The item of a code as typed or scanned. Raises NoSuchItem."""
        try:
            kept = read_code(code)
        except ValueError as problem:
            raise NoSuchItem(
                said(
                    "expected {expected:word}, was given {given:word}. Look at the label again.",
                    expected=parts_of(problem)[0],
                    given=parts_of(problem)[1],
                )
            ) from problem
        with reading(self.engine) as base:
            return item_in(base, kept)

    def rests_of(self, item: RackItem) -> tuple[RackItem, ...]:
        """What was cut from it and booked in."""
        with reading(self.engine) as base:
            return children_in(base, item.code)

    def log(self, most: int | None = 20) -> tuple[Action, ...]:
        """What was done, the newest first."""
        with reading(self.engine) as base:
            return actions_in(base, sa.true(), most)

    def balance(self, material: str = "") -> Balance:
        """What became of everything received: the log on one side, the items on the other."""
        question = sa.select(ITEM).where(ITEM.c.material == material) if material else sa.select(ITEM)
        with reading(self.engine) as base:
            received, count, rests = areas_by_log(base, material)
            items = [item_of(row) for row in base.execute(question).mappings()]
        area = {state: sum(item.area for item in items if item.state == state) for state in STATES}
        counts = {state: sum(item.state == state for item in items) for state in STATES}
        cut_off = sum(item.area for item in items if item.parent)
        return Balance(
            received,
            area["free"],
            area["reserved"],
            area["cut"] - cut_off,
            area["spoiled"],
            count,
            rests,
            counts,
        )

    # --- doing --------------------------------------------------------------------------------------

    def receive(self, items: Sequence[RackItem], note: str = "") -> tuple[RackItem, ...]:
        """Book new stock in, in one action. Raises RackError for what is not new and free."""
        if not items:
            raise RackError("expected at least one item to book in, was given none")
        for item in items:
            if item.state != "free" or item.parent:
                raise RackError("expected new stock that is free and was cut from nothing")
        with doing(self.engine, "receive", self.person, note=note) as this:
            return tuple(this.book_in(item) for item in items)

    def correct(self, seen: RackItem, note: str = "", **changed: Any) -> RackItem:
        """Put figures right that were booked in wrongly or have changed, such as place or moisture."""
        if not changed.keys() <= set(CORRECTABLE):
            raise RackError(
                said(
                    "expected only fields of {words}; was given {given}",
                    words=", ".join(CORRECTABLE),
                    given=", ".join(sorted(changed.keys() - set(CORRECTABLE))),
                )
            )
        with doing(self.engine, "correct", self.person, note=note) as this:
            return _corrected(this, seen, changed)

    def bring_in(self, new: Sequence[RackItem], changed: Sequence[tuple[RackItem, RackItem]]) -> Action:
        """An import in one action: new items as they are, known ones (as seen, as they should be) corrected."""
        with doing(self.engine, "import", self.person) as this:
            for item in sorted(new, key=lambda one: one.parent != ""):
                check_rests(item, item.planned)
                this.book_in(item)
            for seen, wanted in changed:
                fields = {name: getattr(wanted, name) for name in CORRECTABLE if name != "photo"}
                _corrected(
                    this, seen, {name: new for name, new in fields.items() if new != getattr(seen, name)}
                )
            for item in new:
                if item.parent:
                    check_family(this.base, item.parent)
            return actions_in(this.base, ACTION.c.number == this.number)[0]

    def reserve(
        self, job: str, wanted: Sequence[Reservation], instead: bool = False, note: str = ""
    ) -> tuple[RackItem, ...]:
        """Reserve items for a job, all or none, in one action. Raises Taken when somebody was quicker.

        instead : release what else is reserved for the job, as a new plan does.
        """
        if not job:
            raise RackError("expected the name of a job to reserve for, was given none")
        codes = {item.code for item, _ in wanted}
        with doing(self.engine, "reserve", self.person, job, note) as this:
            for item, rests in sorted(wanted, key=lambda one: one[0].code):
                _usable(item, job)
                check_rests(item, rests)
                this.change(item, state="reserved", reserved_for=job, planned=tuple(rests))
            if instead:
                for item in _reserved(this.base, job):
                    if item.code not in codes:
                        this.change(item, state="free", reserved_for="", planned=())
            return tuple(this.item(code) for code in sorted(codes))

    def release(self, seen: Sequence[RackItem], note: str = "") -> tuple[RackItem, ...]:
        """Put reserved items back among the free ones."""
        for item in seen:
            if item.state != "reserved":
                raise RackError(
                    said(
                        "expected a reserved item; {code} is {state:word}",
                        code=code_text(item.code),
                        state=item.state,
                    )
                )
        with doing(self.engine, "release", self.person, note=note) as this:
            return tuple(this.change(item, state="free", reserved_for="", planned=()) for item in seen)

    def cut(
        self,
        seen: RackItem,
        rests: Sequence[Left] | None = None,
        job: str = "",
        place: str = "",
        note: str = "",
    ) -> tuple[RackItem, ...]:
        """Book an item out as cut and its rests in, in one action; gives the rests, with their codes.

        rests : None takes those of the plan it was reserved for. job : that it was cut for; needed where it is
        reserved. place : where the rests lie. Raises Taken, RackError.
        """
        _usable(seen, job)
        left = seen.planned if rests is None else tuple(rests)
        check_rests(seen, left)
        with doing(self.engine, "cut", self.person, job, note) as this:
            this.change(seen, state="cut", reserved_for="", planned=())
            return tuple(this.book_in(rest_of(seen, one, date.today(), place or seen.place)) for one in left)

    def spoil(self, seen: RackItem, note: str = "") -> RackItem:
        """Strike an item that nothing can be made of any more."""
        if seen.state not in ("free", "reserved"):
            raise RackError(
                said(
                    "expected an item that is free or reserved; {code} is {state:word}",
                    code=code_text(seen.code),
                    state=seen.state,
                )
            )
        with doing(self.engine, "spoil", self.person, seen.reserved_for, note) as this:
            return this.change(seen, state="spoiled", reserved_for="", planned=())

    def undo(self, whose: str | None = None) -> Action:
        """Take the last action back that stands, of everybody or of one person; everything is as it was before.

        Raises RackError when there is none, or when somebody changed one of its items since.
        """
        return undo_last(self.engine, self.person, whose, check_family)


def _corrected(this: Doing, seen: RackItem, changed: Mapping[str, Any]) -> RackItem:
    settled = sorted(name for name in changed if name not in ALWAYS_CORRECTABLE)
    if seen.state in ("cut", "spoiled") and settled:
        raise RackError(
            said(
                "{code} is {state:word}: expected to correct only {words}, was given {given}. Undo the cut first.",
                code=code_text(seen.code),
                state=seen.state,
                words=", ".join(ALWAYS_CORRECTABLE),
                given=", ".join(settled),
            )
        )
    made = this.change(seen, **changed)
    if made.planned:
        check_rests(made, made.planned)
    if made.parent:
        check_family(this.base, made.parent)
    return made


def _usable(item: RackItem, job: str) -> None:
    """Raises Taken for an item that this job may not use."""
    code = code_text(item.code)
    if item.state == "reserved" and item.reserved_for != job:
        raise Taken(
            said(
                "{code} is reserved for {job}. Name that job, or take another.",
                code=code,
                job=item.reserved_for,
            )
        )
    if item.state in ("cut", "spoiled"):
        raise Taken(said("{code} is {state:word}; it cannot be used any more.", code=code, state=item.state))


def _reserved(base: sa.Connection, job: str) -> list[RackItem]:
    rows = base.execute(sa.select(ITEM).where(ITEM.c.reserved_for == job).order_by(ITEM.c.code)).mappings()
    return [item_of(row) for row in rows]


def _as_listed(item: RackItem) -> tuple[str, str, str, int, int, str]:
    return item.material, item.form, item.place, -item.length, -item.width, item.code


def _person() -> str:
    """Who is at the machine, for the log; nobody where the system does not say."""
    named = os.environ.get("EVENFACE_PERSON", "").strip()
    if named:
        return named[:80]
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
