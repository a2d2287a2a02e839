"""What the pages of buying and stock do: the rack received into, reserved from, cut from; a plan from the rack."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from evenface.documents.display import sentence
from evenface.documents.money_text import locale_for, money_text
from evenface.documents.tables import Table, table
from evenface.errors import Complaint, FileError, MissingWord, Place, one_of
from evenface.interfaces.from_rack import FromRack, plan_from_rack
from evenface.interfaces.racking import material_names
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.money import Priced
from evenface.interfaces.web.reckoning import Task
from evenface.interfaces.web.site import NoSuchPage, NotAsThingsStand, Site, digest
from evenface.pricing.records import MATERIAL, Group
from evenface.store import KeptJob
from evenface.store.rack import Rack
from evenface.store.rack_columns import READ, BadCell
from evenface.store.rack_records import Action, Balance, Left, NoSuchItem, RackItem
from evenface.words import Manner, said

THERE: Final = ("free", "reserved")
BOUGHT: Final = (*MATERIAL, Group.FITTINGS)
MOST_COPIES: Final = 500
PLANNER_S: Final = 3.0
FORMS: Final = ("sheet", "offcut", "roll", "rolled_sheet", "board", "stick")
RECEIVED: Final = ("place", "batch", "thickness", "price", "currency", "moisture", "notes")
"""What else may be told of stock that is received, beside form, material and size."""


@dataclass(frozen=True, slots=True)
class Lying:
    """What lies in the rack, what became of everything received, and what was done last."""

    items: tuple[RackItem, ...]
    balance: Balance
    log: tuple[Action, ...]


def lying(site: Site, job: str = "") -> Lying:
    """Free and reserved; job : only what that job may use."""
    with Rack(site.store.folder) as rack:
        items = rack.open_to(job) if job else rack.items(states=THERE)
        return Lying(items, rack.balance(), rack.log(10))


def item_of(site: Site, code: str) -> tuple[RackItem, tuple[RackItem, ...]]:
    """An item and what was cut from it. Raises NoSuchPage."""
    with Rack(site.store.folder) as rack:
        try:
            found = rack.find(code)
        except NoSuchItem as problem:
            raise NoSuchPage(problem.sentence) from problem
        return found, rack.rests_of(found)


def receive(site: Site, form: Mapping[str, str]) -> tuple[RackItem, ...]:
    """Book so many alike in. form : material, form, size, copies, and of `RECEIVED`. Raises FileError, MissingWord."""
    known = material_names(None)
    if form.get("material", "") not in known:
        raise MissingWord("material", form.get("material", ""), known)
    if form.get("form", "sheet") not in FORMS:
        raise FileError([Complaint(Place(key="form"), one_of(FORMS), repr(form["form"][:40]))])
    size = one_size(form.get("size", ""))
    given: dict[str, Any] = {"material": form["material"], "form": form.get("form", "sheet")}
    given |= {"length": size.length, "width": size.width, "received": date.today()}
    for name in RECEIVED:
        if form.get(name, "").strip():
            given[name] = _read(name, form[name].strip())
    if "moisture" in given:
        given["moisture_on"] = date.today()
    copies = form.get("copies", "1").strip() or "1"
    if not (copies.isascii() and copies.isdigit() and 1 <= int(copies[:9]) <= MOST_COPIES):
        raise FileError(
            [
                Complaint(
                    Place(key="copies"),
                    said("1 to {most}", most=MOST_COPIES),
                    repr(copies[:40]),
                )
            ]
        )
    with Rack(site.store.folder) as rack:
        return rack.receive([RackItem(**given)] * int(copies))


def change_item(site: Site, code: str, form: Mapping[str, str]) -> tuple[RackItem, ...]:
    """Reserve, release, cut, spoil or move one item; gives the rests of a cut. Raises RackError, FileError.

    form : do, seen (the number of the action the maker saw it after), job, rests ("600x400; 300x200"), place.
    """
    do = form.get("do", "")
    with Rack(site.store.folder) as rack:
        item = rack.find(code)
        if form.get("seen", str(item.last_action)) != str(item.last_action):
            raise NotAsThingsStand(
                "Somebody changed it meanwhile. Nothing was changed now: look again and repeat it."
            )
        if do == "reserve":
            rack.reserve(form.get("job", "").strip(), [(item, item.planned)])
        elif do == "release":
            rack.release([item])
        elif do == "cut":
            return rack.cut(item, rests_typed(form, item), item.reserved_for, form.get("place", "").strip())
        elif do == "spoil":
            rack.spoil(item)
        elif do == "move":
            rack.correct(item, place=form.get("place", "").strip())
        else:
            raise NoSuchPage(said("There is nothing called {do} to do with it.", do=repr(do[:40])))
    return ()


def rests_typed(form: Mapping[str, str], item: RackItem) -> tuple[Left, ...] | None:
    """The rests of a cut: as typed, none, or those its plan leaves. Raises FileError where nothing is told."""
    typed = form.get("rests", "").strip()
    if typed and form.get("nothing") == "yes":
        raise FileError([Complaint(Place(key="rests"), "either rests or nothing left", "both")])
    if typed:
        return tuple(_read("planned", typed))
    if form.get("nothing") == "yes":
        return ()
    if not item.planned:
        expected = "each rest as length x width, such as 600x400"
        raise FileError([Complaint(Place(key="rests"), expected, "nothing", "Or say that nothing is left.")])
    return None


def undo(site: Site) -> Action:
    """Take back the last thing done with the rack. Raises RackError."""
    with Rack(site.store.folder) as rack:
        return rack.undo(None)


def labels(site: Site, codes: list[str], manner: Manner) -> bytes:
    """Stickers as PDF, of all that is there where no codes are named. Raises EvenfaceError for an empty rack."""
    from evenface.documents.rack_labels import label_pdf

    with Rack(site.store.folder) as rack:
        items = tuple(rack.find(one) for one in codes) if codes else rack.items(states=THERE)
    return label_pdf(items, date.today(), 0, manner)


def rack_csv(site: Site) -> bytes:
    """The whole rack as a table that can be brought in again."""
    from evenface.store.rack_files import csv_text

    with Rack(site.store.folder) as rack:
        return csv_text(rack.items()).encode()


def from_rack(site: Site, job: KeptJob, view: View, begin: bool) -> Task | None:
    """The plan from the rack, which reserves what it takes; reckoned beside the page, only when it is begun."""
    key = rack_key(job, view)

    def work(task: Task) -> FromRack:
        def hear(progress: Any) -> None:
            task.hear(progress.number + 1, progress.total, progress.material)

        with Rack(site.store.folder) as rack:
            return plan_from_rack(view.opened, PLANNER_S, progress=hear, rack=rack)

    return site.reckoner.ask(key, work, again=True) if begin else site.reckoner.known(key)


def rack_key(job: KeptJob, view: View) -> str:
    """Under which the plan from the rack is known."""
    return f"rack {job.id} {digest(repr(sorted(view.opened.hashes.items())).encode())}"


def sums_of_buying(found: Priced, manner: Manner) -> Table:
    """What has to be bought, by group, and their sum; lines without a price are named as such."""
    price, locale = found.price, locale_for(found.prices.table.locale, manner)
    rows = []
    for group in BOUGHT:
        lines = [line for line in price.lines if line.group is group]
        for line in lines:
            told = (
                money_text(line.amount, locale) if line.amount is not None else manner.translate("not priced")
            )
            rows.append((manner.translate(group.value), sentence(line.what, manner), told))
    total = [price.of(group) for group in BOUGHT if any(line.group is group for line in price.lines)]
    if total:
        whole = total[0]
        for one in total[1:]:
            whole = whole + one
        rows.append((manner.translate("sum"), "", money_text(whole, locale)))
    return table("What it costs", ("For", "What", ">Amount"), rows, manner=manner)


def one_size(typed: str) -> Left:
    """Length and width as "2500x1250". Raises FileError."""
    found = _read("planned", typed.strip())
    if len(found) != 1:
        raise FileError([Complaint(Place(key="size"), "length x width, such as 2500x1250", repr(typed[:40]))])
    one: Left = found[0]
    return one


def _read(name: str, cell: str) -> Any:
    try:
        return READ[name](cell)
    except BadCell as bad:
        key = "size" if name == "planned" else name
        raise FileError([Complaint(Place(key=key), bad.expected, repr(cell[:60]), bad.hint)]) from bad
