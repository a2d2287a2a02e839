"""Random acts on a rack, and what must hold after any of them; for the tests of laws, kills and crowds."""

import random
from decimal import Decimal

from evenface.store.rack import Rack
from evenface.store.rack_records import Left, RackError, RackItem, Taken
from evenface.store.rack_tables import item_of, row_of

MATERIALS = ("birch-ply-18", "hpl-0.8", "linoleum-2")
JOBS = ("Glaze room", "Kiln shed")
ACTS = ("receive", "correct", "reserve", "release", "cut", "spoil", "undo", "bring_in")


def new_item(chance: random.Random) -> RackItem:
    priced = chance.random() < 0.7
    return RackItem(
        chance.choice(("sheet", "rolled_sheet", "roll", "offcut")),
        chance.choice(MATERIALS),
        chance.randrange(20_000, 400_000),
        chance.randrange(10_000, 180_000),
        chance.choice((None, 1_790, 1_835)),
        grain=chance.choice(("along", "across", "none")),
        price=Decimal(chance.randrange(100_000)) / 100 if priced else None,
        currency="DKK" if priced else "",
        place=chance.choice(("", "bay 1", "bay 2")),
    )


def some_rests(item: RackItem, chance: random.Random) -> tuple[Left, ...]:
    """None to two rests, one beside the other."""
    at = chance.randrange(1, item.length) if item.length > 1 else 1
    both = (Left(at, item.width), Left(max(1, item.length - at), chance.randrange(1, item.width + 1)))
    return both[: chance.randrange(3)] if at < item.length else ()


def act(rack: Rack, what: str, chance: random.Random) -> bool:
    """Do one thing; False where there was nothing to do it with."""
    items = rack.items()
    free = [one for one in items if one.state == "free"]
    held = [one for one in items if one.state == "reserved"]
    if what == "receive":
        rack.receive([new_item(chance) for _ in range(chance.randrange(1, 4))])
    elif what == "bring_in":
        changed = [(one, _moved(one)) for one in free[:1]]
        rack.bring_in([new_item(chance)], changed)
    elif what == "undo":
        whose = chance.choice((None, rack.person))
        try:
            rack.undo(whose)
        except Taken:
            raise
        except RackError:
            return False
    elif what == "reserve" and free:
        chosen = chance.sample(free, min(len(free), chance.randrange(1, 3)))
        rack.reserve(
            chance.choice(JOBS), [(one, some_rests(one, chance)) for one in chosen], chance.random() < 0.3
        )
    elif what == "release" and held:
        rack.release([chance.choice(held)])
    elif what == "spoil" and free + held:
        rack.spoil(chance.choice(free + held))
    elif what == "correct" and free:
        one = chance.choice(free)
        try:
            rack.correct(one, width=max(1, one.width - chance.randrange(-50, 50)), notes="measured anew")
        except RackError:  # larger than what it was cut from
            return False
    elif what == "cut" and free + held:
        one = chance.choice(free + held)
        rests = some_rests(one, chance) if one.state == "free" or chance.random() < 0.5 else None
        rack.cut(one, rests, one.reserved_for)
    else:
        return False
    return True


def _moved(item: RackItem) -> RackItem:
    from dataclasses import replace

    return replace(item, place="moved" if item.place != "moved" else "moved on")


def by_code(rack: Rack) -> dict[str, dict[str, object]]:
    """What stands in the table of items, whole."""
    return {item.code: row_of(item) for item in rack.items()}


def replayed(rack: Rack) -> dict[str, dict[str, object]]:
    """What the log says the table of items must be, told from the first line on."""
    state: dict[str, dict[str, object]] = {}
    for action in reversed(rack.log(None)):
        for change in action.changes:
            before = None if change.before is None else row_of(item_of(change.before))
            assert state.get(change.code) == before, (
                f"action {action.number} did not start from what was there"
            )
            if change.after is None:
                del state[change.code]
            else:
                state[change.code] = row_of(item_of(change.after))
    return state


def sums_by_hand(rack: Rack) -> tuple[int, int]:
    """Area received, by the standing lines of the log; area in all places, with cuts less their rests."""
    received = 0
    for action in rack.log(None):
        if not action.undone and action.kind in ("receive", "import", "correct"):
            for change in action.changes:
                for row, sign in ((change.before, -1), (change.after, 1)):
                    if row is not None and not row["parent"]:
                        received += sign * int(row["length"]) * int(row["width"])
    items = rack.items()
    return received, sum(one.area for one in items) - sum(one.area for one in items if one.parent)
