"""Making, for programs: steps ticked and unticked with their minutes, timers begun, rested and cleared."""

from typing import Annotated, Final, Literal, cast

from pydantic import Field

from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.api_answers import step_answer
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.making import clear_timer, making, rest_timer, start_timer, tick, untick
from evenface.interfaces.web.site import Site


class Tick(s.Sent):
    """A step done. minutes : what it took; left out, what its timer says."""

    minutes: Annotated[float | None, Field(gt=0, le=100_000)] = None


class TimerDo(s.Sent):
    """What the timer is to do."""

    do: Literal["start", "rest", "clear"]


def one_step(site: Site, call: Call) -> s.StepAnswer:
    """One step as it stands."""
    job = call.job(site)
    made = making(site, job, site.desk.look(job, flat=False), None, call.manner)
    return step_answer(made.card(call.path["step"]), call.manner)


def ticked(site: Site, call: Call) -> s.StepAnswer:
    """A step ticked off."""
    minutes = cast(Tick, call.body).minutes
    tick(site, call.job(site), call.path["step"], "" if minutes is None else f"{minutes:f}")
    return one_step(site, call)


def unticked(site: Site, call: Call) -> s.StepAnswer:
    """The tick taken back."""
    one_step(site, call)
    untick(site, call.job(site), call.path["step"])
    return one_step(site, call)


def timer(site: Site, call: Call) -> s.StepAnswer:
    """The timer of a step."""
    one_step(site, call)
    ways = {"start": start_timer, "rest": rest_timer, "clear": clear_timer}
    ways[cast(TimerDo, call.body).do](site, call.job(site), call.path["step"])
    return one_step(site, call)


_STEP: Final = "/jobs/{job}/steps/{step}"
OPERATIONS: Final = (
    Operation("GET", _STEP, "readStep", "One step of the work", one_step, s.StepAnswer, units=True),
    Operation("POST", f"{_STEP}/tick", "tickStep", "Tick a step off, with its minutes", ticked, s.StepAnswer, Tick),
    Operation("POST", f"{_STEP}/untick", "untickStep", "Take the tick of a step back", unticked, s.StepAnswer, s.Sent),
    Operation("POST", f"{_STEP}/timer", "setTimer", "Begin, rest or clear the timer of a step", timer, s.StepAnswer,
              TimerDo),
)  # fmt: skip
