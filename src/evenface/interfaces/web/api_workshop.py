"""The workshop as one job has it, for programs: the aims of its layouts."""

from typing import Annotated, Final, cast

from pydantic import Field

from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.aims import keep_aims
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.site import Site
from evenface.piece.cutting_forms import AimWord


class Aims(s.AtVersion):
    """What makes a good layout, the first aim first; none at all takes them as usual."""

    aims: Annotated[list[AimWord], Field(max_length=6)]


def set_aims(site: Site, call: Call) -> s.JobAnswer:
    """The aims in that order."""
    asked = cast(Aims, call.body)
    return s.job_answer(keep_aims(site, call.job(site), asked.version, asked.aims))


_JOB: Final = "/jobs/{job}"
OPERATIONS: Final = (
    Operation("POST", f"{_JOB}/aims", "setAims", "Say what makes a good layout, the first aim first", set_aims,
              s.JobAnswer, Aims, refusals=(409,)),
)  # fmt: skip
