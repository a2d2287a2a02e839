"""Jobs for programs: listed, begun, read, changed with the version check, undone and redone."""

from typing import Final, cast

from evenface.finding import Change
from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.desk import name_in
from evenface.interfaces.web.keeping import keep_changes, keep_text
from evenface.interfaces.web.site import Site
from evenface.store import KeptJob


def jobs(site: Site, call: Call) -> list[s.JobLine]:
    """Every job, the last used first."""
    return [s.JobLine(id=one.id, name=one.name, version=one.version) for one in site.store.jobs()]


def begin(site: Site, call: Call) -> s.JobAnswer:
    """A job from its text, when that can be read; else from the example."""
    asked = cast(s.NewJob, call.body)
    text = example_text() if asked.text is None else asked.text
    site.desk.look(KeptJob(0, "", 0, text, None, "", False, False), flat=False)
    return s.job_answer(site.store.add(name_in(text), text))


def job(site: Site, call: Call) -> s.JobAnswer:
    """A job as it stands."""
    return s.job_answer(call.job(site))


def write(site: Site, call: Call) -> s.JobAnswer:
    """The whole text anew."""
    asked = cast(s.NewText, call.body)
    return s.job_answer(keep_text(site, call.job(site), asked.version, asked.text))


def change(site: Site, call: Call) -> s.JobAnswer:
    """Entries set or taken out."""
    asked = cast(s.Changes, call.body)
    return s.job_answer(keep_changes(site, call.job(site), asked.version, changes_of(asked)))


def changes_of(asked: s.Changes) -> list[Change]:
    """What was sent as changes of the job."""
    return [Change(one.path, "", one.new) for one in asked.changes]


def undo(site: Site, call: Call) -> s.JobAnswer:
    """Back to the state before."""
    return s.job_answer(site.store.undo(call.job(site).id, cast(s.AtVersion, call.body).version))


def redo(site: Site, call: Call) -> s.JobAnswer:
    """Forward to what was undone last."""
    return s.job_answer(site.store.redo(call.job(site).id, cast(s.AtVersion, call.body).version))


_JOB: Final = "/jobs/{job}"
OPERATIONS: Final = (
    Operation("GET", "/jobs", "listJobs", "Every job, the last used first", jobs, list[s.JobLine]),
    Operation("POST", "/jobs", "beginJob", "Begin a job from its text, or from the example", begin,
              s.JobAnswer, s.NewJob, 201),
    Operation("GET", _JOB, "readJob", "A job as it stands, with its text", job, s.JobAnswer),
    Operation("PUT", f"{_JOB}/text", "writeText", "The whole text anew", write, s.JobAnswer, s.NewText,
              refusals=(409,)),
    Operation("POST", f"{_JOB}/changes", "changeEntries", "Set or take out entries, all of them or none", change,
              s.JobAnswer, s.Changes, refusals=(409,)),
    Operation("POST", f"{_JOB}/undo", "undo", "Back to the state before", undo, s.JobAnswer, s.AtVersion,
              refusals=(409,)),
    Operation("POST", f"{_JOB}/redo", "redo", "Forward to what was undone last", redo, s.JobAnswer, s.AtVersion,
              refusals=(409,)),
)  # fmt: skip
