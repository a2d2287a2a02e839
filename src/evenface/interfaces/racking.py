"""What the commands of `evenface rack` do: read what was typed, ask the rack, say what became of it."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.markup import escape

from evenface.documents.rack_tables import balance_table, item_lines, items_table, log_table
from evenface.errors import Complaint, EvenfaceError, FileError, MissingWord, Place
from evenface.interfaces.screen import manner_of, show_table, tell
from evenface.materials import load_catalogue
from evenface.store.rack import Rack
from evenface.store.rack_codes import code_text
from evenface.store.rack_columns import READ, BadCell
from evenface.store.rack_keeping import keep_photo
from evenface.store.rack_records import STATES, Left, RackItem
from evenface.words import Manner, Own, said

THERE = ("free", "reserved")


def list_and_show(material: str, state: str, job: str, units: str) -> int:
    """The items, and below them what became of everything received."""
    manner = manner_of(units)
    if state not in ("", "all", *STATES):
        raise FileError(
            [
                Complaint(
                    Place(key="--state"), said("all or one of {words}", words=", ".join(STATES)), repr(state)
                )
            ]
        )
    states = STATES if state == "all" else (state,) if state else THERE
    console = Console(highlight=False)
    with Rack() as rack:
        items = rack.items(material, states, job_name(job) if job else "")
        balance = rack.balance(material)
    if items:
        show_table(console, items_table(items, manner))
    else:
        tell(console, said("Nothing of that is in the rack."))
    show_table(console, balance_table(balance, manner))
    return 0


def receive_and_show(
    cells: Mapping[str, str | None], copies: int, photo: Path | None, materials: Path | None, units: str
) -> int:
    """Book so many alike in and tell their codes."""
    manner = manner_of(units)
    known = material_names(materials)
    given = {"received": date.today(), **_read({name: cell for name, cell in cells.items() if cell})}
    if given["material"] not in known:
        raise MissingWord("material", given["material"], known)
    item = RackItem(**_dated(given))
    with Rack() as rack:
        booked = rack.receive([item] * copies)
        if photo is not None:
            booked = tuple(
                rack.correct(one, photo=keep_photo(rack.folder, one.code, photo)) for one in booked
            )
    _show(booked, manner)
    tell(Console(highlight=False), said("Print their labels with: evenface rack labels labels.pdf CODE …"))
    return 0


def correct_and_show(code: str, cells: Mapping[str, str | None], photo: Path | None, units: str) -> int:
    """Change what was typed; an empty text takes the usual value."""
    manner = manner_of(units)
    usual = {"thickness": None, "moisture": None, "price": None, "value": None, "least": None, "defects": ()}
    changed = _read({name: cell for name, cell in cells.items() if cell})
    changed |= {name: usual.get(name, "") for name, cell in cells.items() if cell == ""}
    with Rack() as rack:
        seen = rack.find(code)
        if photo is not None:
            changed["photo"] = keep_photo(rack.folder, seen.code, photo)
        if not changed:
            raise EvenfaceError("Nothing to correct: name at least one option, such as --place.")
        made = rack.correct(seen, **_dated(changed))
    _show([made], manner)
    return 0


def find_and_show(code: str, units: str) -> int:
    """Everything about one item."""
    manner = manner_of(units)
    console = Console(highlight=False)
    with Rack() as rack:
        item = rack.find(code)
        rests = rack.rests_of(item)
        folder = rack.folder
    for line in item_lines(item, rests, manner):
        console.print(escape(line))
    if item.photo:
        from evenface.store.rack_keeping import photo_place

        place = photo_place(folder, item)
        missing = said("photo: missing from the data folder")
        tell(console, said("photo: {file}", file=str(place)) if place else missing)
    return 0


def reserve_and_show(job: str, codes: Sequence[str], note: str) -> int:
    """Reserve by hand, without a plan."""
    name = job_name(job)
    with Rack() as rack:
        items = [rack.find(code) for code in codes]
        _each_once(items)
        rack.reserve(name, [(item, item.planned) for item in items], note=note)
    tell(Console(highlight=False), said("Reserved for {name}: {codes}.", name=Own(name), codes=_codes(items)))
    return 0


def release_and_show(codes: Sequence[str], note: str) -> int:
    """Free again."""
    with Rack() as rack:
        items = [rack.find(code) for code in codes]
        _each_once(items)
        rack.release(items, note)
    tell(Console(highlight=False), said("Free again: {codes}.", codes=_codes(items)))
    return 0


def cut_and_show(
    code: str, rests: Sequence[str], nothing: bool, job: str, place: str, note: str, units: str
) -> int:
    """Book out and in; the codes of the rests are what the maker needs next."""
    manner = manner_of(units)
    if rests and nothing:
        raise EvenfaceError("--rest and --nothing-left were both given: expected one of them.")
    left = None if not rests and not nothing else tuple(Left(*_pair(rest, "--rest")) for rest in rests)
    console = Console(highlight=False)
    with Rack() as rack:
        seen = rack.find(code)
        if left is None and not seen.planned:
            raise EvenfaceError(
                said(
                    "No plan says what is left of {code}: give each rest with --rest 600x400, or --nothing-left.",
                    code=code_text(seen.code),
                )
            )
        booked = rack.cut(seen, left, job_name(job) if job else "", place, note)
    tell(console, said("{code} is booked out.", code=code_text(seen.code)))
    if booked:
        _show(booked, manner)
    return 0


def spoil_and_show(code: str, note: str) -> int:
    """Strike it."""
    with Rack() as rack:
        item = rack.spoil(rack.find(code), note)
    told = said("{code} is struck. 'evenface rack undo' takes it back.", code=code_text(item.code))
    tell(Console(highlight=False), told)
    return 0


def undo_and_show(anyone: bool) -> int:
    """Say what was taken back: it may not be what was meant."""
    with Rack() as rack:
        undone = rack.undo(None if anyone else rack.person)
    codes = ", ".join(undone.codes[:6]) + (" …" if len(undone.codes) > 6 else "")
    told = said(
        "Undone: {kind:word} of {codes}, done {at} by {person}.",
        kind=undone.kind, codes=codes, at=str(undone.at), person=Own(undone.person) or said("somebody"),
    )  # fmt: skip
    tell(Console(highlight=False), told)
    return 0


def log_and_show(most: int) -> int:
    """The log, the newest first."""
    with Rack() as rack:
        actions = rack.log(most)
    show_table(Console(highlight=False), log_table(actions, manner_of("mm")))
    return 0


def job_name(job: str) -> str:
    """The name of a job given as its file or by name."""
    if not job.endswith(".toml"):
        return job.strip()
    from evenface.job.opening import open_with_all

    return open_with_all(Path(job)).job.name


def material_names(materials: Path | None) -> tuple[str, ...]:
    """Everything that can lie in a rack: boards, facings, woods."""
    own = Path("materials.toml")
    catalogue = load_catalogue(materials or (own if own.is_file() else None))
    return tuple(name for kind in ("carrier", "facing", "wood") for name in catalogue.names(kind))


def _read(cells: Mapping[str, str | None]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, cell in cells.items():
        if cell is None:
            continue
        if name == "size":
            found["length"], found["width"] = _pair(cell, "--size")
            continue
        try:
            found[name] = READ[name](cell)
        except BadCell as bad:
            raise FileError([Complaint(Place(key=f"--{name}"), bad.expected, repr(cell), bad.hint)]) from bad
    return found


def _dated(given: dict[str, Any]) -> dict[str, Any]:
    """Moisture counts from the day it was measured."""
    if "moisture" in given:
        given["moisture_on"] = None if given["moisture"] is None else date.today()
    return given


def _pair(text: str, option: str) -> tuple[int, int]:
    try:
        found: tuple[Left, ...] = READ["planned"](text)
    except BadCell as bad:
        raise FileError([Complaint(Place(key=option), bad.expected, repr(text))]) from bad
    if len(found) != 1:
        raise FileError([Complaint(Place(key=option), "length x width, such as 600x400", repr(text))])
    return found[0].length, found[0].width


def _each_once(items: Sequence[RackItem]) -> None:
    twice = [code for code, count in Counter(item.code for item in items).items() if count > 1]
    if twice:
        raise EvenfaceError(
            said("{code} was given twice: expected each code once.", code=code_text(twice[0]))
        )


def _codes(items: Iterable[RackItem]) -> str:
    return ", ".join(code_text(item.code) for item in items)


def _show(items: Sequence[RackItem], manner: Manner) -> None:
    show_table(Console(highlight=False), items_table(items, manner))
