"""The rack, for programs: booked in, reserved, cut, moved, undone; a plan of a job from it."""

from typing import Annotated, Final, Literal, cast

from pydantic import BaseModel, Field
from starlette.responses import Response

from evenface.interfaces.from_rack import taken_table
from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.site import Site
from evenface.interfaces.web.stock import (
    change_item,
    from_rack,
    item_of,
    labels,
    rack_csv,
    rack_key,
    receive,
    undo,
)
from evenface.store.rack import Rack
from evenface.store.rack_records import RackItem
from evenface.units import from_grid

Word = Annotated[str, Field(max_length=200)]


class Received(s.Sent):
    """So many alike to book in. Figures as they are written on paper, with their unit where it is not mm."""

    material: Word
    form: Literal["sheet", "offcut", "roll", "rolled_sheet", "board", "stick"] = "sheet"
    size: Annotated[str, Field(max_length=80, description='Length x width, such as "2500x1250".')]
    copies: Annotated[int, Field(ge=1, le=500)] = 1
    place: Word = ""
    batch: Word = ""
    thickness: Word = ""
    price: Word = ""
    currency: Word = ""
    moisture: Word = ""
    notes: Word = ""


class ItemChange(s.Sent):
    """What is to be done with one item. seen : `last_action` of the item when it was looked at."""

    do: Literal["reserve", "release", "cut", "spoil", "move"]
    seen: Annotated[int | None, Field(ge=0)] = None
    job: Word = ""
    rests: Annotated[str, Field(max_length=400, description='Of a cut: "600x400; 300x200".')] = ""
    nothing: Annotated[bool, Field(description="Of a cut: nothing is left.")] = False
    place: Word = ""


class ItemAnswer(s.RackAnswer):
    """One item, what was cut from it, and the number of what was done last with it."""

    rests: list[str]
    last_action: int


class UndoneAnswer(BaseModel):
    """What was taken back."""

    number: int
    kind: str
    at: str


def rack(site: Site, call: Call) -> list[s.RackAnswer]:
    """Everything the rack ever held, with its state."""
    with Rack(site.store.folder) as opened:
        return [rack_answer(one) for one in opened.items()]


def rack_answer(one: RackItem) -> s.RackAnswer:
    """One piece of stock, in mm."""
    return s.RackAnswer(
        code=one.code, form=one.form, material=one.material, length_mm=from_grid(one.length),
        width_mm=from_grid(one.width), thickness_mm=None if one.thickness is None else from_grid(one.thickness),
        place=one.place, state=one.state, reserved_for=one.reserved_for,
    )  # fmt: skip


def booked(site: Site, call: Call) -> list[s.RackAnswer]:
    """So many alike booked in."""
    asked = cast(Received, call.body)
    return [rack_answer(one) for one in receive(site, {k: str(v) for k, v in asked.model_dump().items()})]


def undone(site: Site, call: Call) -> UndoneAnswer:
    """The last thing taken back."""
    found = undo(site)
    return UndoneAnswer(number=found.number, kind=found.kind, at=found.at)


def item(site: Site, call: Call) -> ItemAnswer:
    """One item."""
    found, rests = item_of(site, call.path["code"])
    told = rack_answer(found).model_dump()
    return ItemAnswer(**told, rests=[one.code for one in rests], last_action=found.last_action)


def changed(site: Site, call: Call) -> ItemAnswer:
    """Something done with one item."""
    asked = cast(ItemChange, call.body)
    form = {"do": asked.do, "job": asked.job, "rests": asked.rests, "place": asked.place}
    form |= {"nothing": "yes"} if asked.nothing else {}
    form |= {} if asked.seen is None else {"seen": str(asked.seen)}
    change_item(site, item_of(site, call.path["code"])[0].code, form)
    return item(site, call)


def label(site: Site, call: Call) -> Response:
    """The sticker of one item."""
    found, _ = item_of(site, call.path["code"])
    return Response(labels(site, [found.code], call.manner), media_type="application/pdf")


def table(site: Site, call: Call) -> Response:
    """The rack as a table that can be brought in again."""
    return Response(rack_csv(site), media_type="text/csv")


def plan_state(site: Site, call: Call) -> s.TaskAnswer:
    """How far the plan from the rack is, and what it takes."""
    job = call.job(site)
    task = from_rack(site, job, site.desk.look(job), begin=False)

    def shown() -> list[s.TableAnswer]:
        _, taken, left_out = task.value  # type: ignore[union-attr]  # only asked for of a task that is done
        return [s.table_answer(taken_table(taken, left_out, call.manner))]

    return s.task_answer(task, shown)


def begin_plan(site: Site, call: Call) -> s.TaskAnswer:
    """Plan from the rack, and reserve what that takes."""
    job = call.job(site)
    view = site.desk.look(job)
    site.reckoner.forget(rack_key(job, view))  # the rack may hold something else by now
    from_rack(site, job, view, begin=True)
    return plan_state(site, call)


def stop_plan(site: Site, call: Call) -> s.TaskAnswer:
    """End that."""
    job = call.job(site)
    site.reckoner.stop(rack_key(job, site.desk.look(job)))
    return plan_state(site, call)


_FROM: Final = "/jobs/{job}/from-rack"
OPERATIONS: Final = (
    Operation("GET", "/rack", "listRack", "What lies in the rack", rack, list[s.RackAnswer]),
    Operation("POST", "/rack", "receiveStock", "Book stock in, so many alike", booked, list[s.RackAnswer], Received,
              refusals=(409,)),
    Operation("POST", "/rack-undo", "undoRack", "Take back the last thing done with the rack", undone, UndoneAnswer,
              s.Sent, refusals=(409,)),
    Operation("GET", "/rack/{code}", "readItem", "One item of the rack", item, ItemAnswer, refusals=(404, 409)),
    Operation("POST", "/rack/{code}", "changeItem", "Reserve, release, cut, spoil or move one item", changed,
              ItemAnswer, ItemChange, refusals=(404, 409)),
    Operation("GET", "/rack/{code}/label.pdf", "readLabel", "The sticker of one item", label,
              media="application/pdf", refusals=(404, 409), units=True),
    Operation("GET", "/rack.csv", "readRackTable", "The rack as a table", table, media="text/csv"),
    Operation("GET", _FROM, "readPlanFromRack", "How far the plan from the rack is", plan_state, s.TaskAnswer,
              units=True),
    Operation("POST", _FROM, "planFromRack", "Plan from the rack, and reserve what that takes", begin_plan,
              s.TaskAnswer, s.Sent, 202, refusals=(409,)),
    Operation("DELETE", _FROM, "stopPlanFromRack", "End the plan from the rack", stop_plan, s.TaskAnswer),
)  # fmt: skip
