"""What is known of a job, for programs: sizes, findings, remedies, drawings, layouts, papers, price, steps."""

from typing import Final, cast

from starlette.responses import Response

from evenface.documents.display import sentence
from evenface.documents.result_file import FindingEntry, PartEntry, ResultFile
from evenface.documents.result_json import finding_entries, part_entries, result_text
from evenface.drawings import Scene, build_up_of, distinct_sides, plan_of, section_of, to_svg
from evenface.errors import EvenfaceError
from evenface.finding import Change, Finding
from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.api_jobs import changes_of
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.desk import Trial, View
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.making import Card, making
from evenface.interfaces.web.money import blanks, priced
from evenface.interfaces.web.papers import PACKET, Papers
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.result import Result
from evenface.store import KeptJob, Stale
from evenface.words import Manner, said, say

SCREEN_MM: Final = (260.0, 150.0)


class NotYet(EvenfaceError):
    """Something needs the layouts, and they are not reckoned."""


def pieces(site: Site, call: Call) -> list[s.PieceAnswer]:
    """What is ordered."""
    view = _view(site, call)
    return [
        s.PieceAnswer(
            name=one.name, kind=one.kind, count=one.count, origin=one.origin,
            parts=[part.id for part in view.sketch.all_parts if part.origin.startswith(f"{one.origin}.")],
        )
        for one in view.sketch.job.pieces
    ]  # fmt: skip


def parts(site: Site, call: Call) -> list[PartEntry]:
    """Every part with all sizes of its layers."""
    return list(part_entries(_view(site, call).sketch))


def part(site: Site, call: Call) -> PartEntry:
    """One part."""
    for one in parts(site, call):
        if one.id == call.path["part"]:
            return one
    raise NoSuchPage(said("This job has no part {part}.", part=repr(call.path["part"][:20])))


def findings(site: Site, call: Call) -> list[FindingEntry]:
    """Every finding with all its fields, gravest first."""
    return list(finding_entries(site.desk.look(call.job(site)).sketch.findings))


def sketched(site: Site, call: Call) -> s.SketchAnswer:
    """Sizes and findings of one state."""
    job = call.job(site)
    known = site.desk.look(job).sketch
    return s.SketchAnswer(
        version=job.version, parts=list(part_entries(known)), findings=list(finding_entries(known.findings))
    )


def attempt(site: Site, call: Call) -> s.Trial:
    """Changes tried."""
    job, asked = call.job(site), cast(s.Changes, call.body)
    return _tried(site, _at(job, asked), changes_of(asked))


def try_remedy(site: Site, call: Call) -> s.Trial:
    """A remedy tried."""
    job, asked = call.job(site), cast(s.WhichRemedy, call.body)
    return _tried(site, _at(job, asked), _remedy(site.desk.look(job), asked))


def take_remedy(site: Site, call: Call) -> s.JobAnswer:
    """A remedy kept."""
    job, asked = call.job(site), cast(s.WhichRemedy, call.body)
    return s.job_answer(
        keep_changes(site, job, asked.version, _remedy(site.desk.look(_at(job, asked)), asked))
    )


def _at(job: KeptJob, asked: s.AtVersion) -> KeptJob:
    if asked.version != job.version:
        raise Stale(job)
    return job


def _remedy(view: View, asked: s.WhichRemedy) -> tuple[Change, ...]:
    return remedy_at(view, asked)[1]


def remedy_at(view: View, asked: s.WhichRemedy) -> tuple[Finding, tuple[Change, ...]]:
    """The finding and the changes of a remedy. Raises NoSuchPage."""
    known = view.sketch.findings
    if asked.finding < len(known) and asked.remedy < len(known[asked.finding].remedies):
        changes = known[asked.finding].remedies[asked.remedy].changes
        if changes:
            return known[asked.finding], changes
    raise NoSuchPage("There is no such remedy, or it is advice that no entry can carry out.")


def _tried(site: Site, job: KeptJob, changes: list[Change] | tuple[Change, ...]) -> s.Trial:
    trial: Trial = site.desk.attempt(job, changes)
    return s.Trial(
        version=job.version, gone=list(finding_entries(trial.gone)), come=list(finding_entries(trial.new)),
        parts=list(part_entries(trial.after.sketch)),
    )  # fmt: skip


def drawings(site: Site, call: Call) -> list[s.DrawingLine]:
    """Every drawing of the parts."""
    job = call.job(site)
    view = site.desk.look(job, flat=False)
    return [
        s.DrawingLine(part=one.id, name=name, address=f"/api/v1/jobs/{job.id}/parts/{one.id}/drawings/{name}")
        for one in view.sketch.parts
        for name in _scenes(view, one.id, call.manner)
    ]


def drawing(site: Site, call: Call) -> Response:
    """One drawing; its name is looked up among those there are."""
    scenes = _scenes(_view(site, call), call.path["part"], call.manner)
    if call.path["name"] not in scenes:
        raise NoSuchPage(said("There is no drawing {name} of that part.", name=repr(call.path["name"][:40])))
    return Response(to_svg(scenes[call.path["name"]]), media_type="image/svg+xml")


def _scenes(view: View, part_id: str, manner: Manner) -> dict[str, Scene]:
    found = view.part(part_id)
    if found is None:
        return {}
    panel = found[1]
    made = {"plan": plan_of(panel, manner, None, SCREEN_MM), "build-up": build_up_of(panel, manner)}
    return made | {
        f"section-{sides[0].value}": section_of(panel, sides[0], manner, also=sides[1:])
        for sides in distinct_sides(panel)
    }


def plan_state(site: Site, call: Call) -> s.PlanAnswer:
    """How far the layouts are."""
    work = site.planner.work(site.desk.look(call.job(site)))
    if work is None:
        return s.PlanAnswer(state="none")
    answer = s.PlanAnswer.model_validate({"state": work.state, "problem": work.problem})
    at = work.progress
    return answer if at is None else answer.model_copy(
        update={"material": at.material, "number": at.number, "of": at.total}
    )  # fmt: skip


def begin_plan(site: Site, call: Call) -> s.PlanAnswer:
    """Begin the layouts."""
    site.planner.start(site.desk.look(call.job(site)))
    return plan_state(site, call)


def cancel_plan(site: Site, call: Call) -> s.PlanAnswer:
    """End them."""
    site.planner.cancel(site.desk.look(call.job(site)))
    return plan_state(site, call)


def result(site: Site, call: Call) -> Response:
    """The whole result."""
    return Response(result_text(planned_result(site, call)), media_type="application/json")


def packet(site: Site, call: Call) -> Response:
    """The packet for the bench."""
    planned_result(site, call)
    job = call.job(site)
    made = Papers(site, job, site.desk.look(job, flat=False), call.manner)
    return Response(made.content(PACKET), media_type="application/pdf")


def price(site: Site, call: Call) -> s.PriceAnswer:
    """The price line by line."""
    job, known = call.job(site), planned_result(site, call)
    found = priced(site, job, site.desk.look(job), known).price
    lines = [
        s.PriceLine(
            group=one.group.value, what=sentence(one.what, call.manner), quantity=f"{one.quantity:f}", unit=one.unit,
            each=None if one.each is None else f"{one.each.amount:f}",
            amount=None if one.amount is None else f"{one.amount.amount:f}", basis=say(one.basis, call.manner),
        )
        for one in found.lines
    ]  # fmt: skip
    return s.PriceAnswer(
        blanks=[
            s.BlankAnswer(what=one.what, field=one.field, per=one.unit, line=one.line)
            for one in blanks(found, call.manner)
        ],
        currency=found.currency, total=f"{found.total.amount:f}", net=f"{found.net.amount:f}",
        cost=f"{found.cost.amount:f}", at_least=found.at_least, hours=f"{found.hours:f}", lines=lines,
        missing=[sentence(one.what, call.manner) for one in found.missing],
    )  # fmt: skip


def steps(site: Site, call: Call) -> list[s.StepAnswer]:
    """The order of work on the calendar."""
    job = call.job(site)
    made = making(site, job, site.desk.look(job), None, call.manner)
    return [step_answer(one, call.manner) for one in made.cards]


def step_answer(one: Card, manner: Manner) -> s.StepAnswer:
    """A step on the calendar, with its tick and its timer."""
    return s.StepAnswer(
        id=one.step.id, title=say(one.step.title, manner), piece=one.step.piece, parts=list(one.step.parts),
        start=one.start.isoformat(), end=one.end.isoformat(), hand_minutes=one.step.hand_minutes.total,
        done=one.done is not None, after=[before.id for before in one.step.after],
        took_minutes=None if one.done is None or not one.done.minutes else one.done.minutes,
        timer_minutes=None if one.timer is None else round(one.timer.now, 2),
        timer_runs=one.timer is not None and one.timer.since is not None,
    )  # fmt: skip


def _view(site: Site, call: Call) -> View:
    return site.desk.look(call.job(site), flat=False)


def planned_result(site: Site, call: Call) -> Result:
    """The whole result of the job. Raises NotYet."""
    work = site.planner.work(site.desk.look(call.job(site)))
    if work is None or work.state != "done" or work.result is None:
        raise NotYet("one whose layouts are not reckoned")
    return work.result


_JOB: Final = "/jobs/{job}"
_PART: Final = "/jobs/{job}/parts/{part}"
OPERATIONS: Final = (
    Operation("GET", f"{_JOB}/pieces", "listPieces", "What is ordered", pieces, list[s.PieceAnswer]),
    Operation("GET", f"{_JOB}/parts", "listParts", "Every part with all sizes of its layers", parts, list[PartEntry]),
    Operation("GET", _PART, "readPart", "One part with all its sizes", part, PartEntry),
    Operation("GET", f"{_JOB}/findings", "listFindings", "Every finding, gravest first", findings, list[FindingEntry]),
    Operation("GET", f"{_JOB}/sketch", "readSketch", "Sizes and findings of one state", sketched, s.SketchAnswer),
    Operation("POST", f"{_JOB}/try", "tryChanges", "Try changes: what goes, what comes; nothing is kept", attempt,
              s.Trial, s.Changes, refusals=(409,)),
    Operation("POST", f"{_JOB}/remedies/try", "tryRemedy", "Try a remedy; nothing is kept", try_remedy, s.Trial,
              s.WhichRemedy, refusals=(409,)),
    Operation("POST", f"{_JOB}/remedies/take", "takeRemedy", "Keep a remedy; undo takes it back", take_remedy,
              s.JobAnswer, s.WhichRemedy, refusals=(409,)),
    Operation("GET", f"{_JOB}/drawings", "listDrawings", "Every drawing of the parts", drawings,
              list[s.DrawingLine]),
    Operation("GET", f"{_PART}/drawings/{{name}}", "readDrawing", "A drawing as SVG", drawing,
              media="image/svg+xml", units=True),
    Operation("GET", f"{_JOB}/plan", "readPlan", "How far the layouts are", plan_state, s.PlanAnswer),
    Operation("POST", f"{_JOB}/plan", "beginPlan", "Begin the layouts; they are reckoned beside", begin_plan,
              s.PlanAnswer, s.Sent, 202),
    Operation("DELETE", f"{_JOB}/plan", "cancelPlan", "End the layouts", cancel_plan, s.PlanAnswer),
    Operation("GET", f"{_JOB}/result", "readResult", "The whole result, once it is planned", result, ResultFile,
              refusals=(409,)),
    Operation("GET", f"{_JOB}/packet.pdf", "readPacket", "The packet for the bench, once it is planned", packet,
              media="application/pdf", refusals=(409,), units=True),
    Operation("GET", f"{_JOB}/price", "readPrice", "The price line by line, once it is planned", price,
              s.PriceAnswer, refusals=(409,), units=True),
    Operation("GET", f"{_JOB}/steps", "listSteps", "The order of work on the calendar", steps, list[s.StepAnswer],
              units=True),
)  # fmt: skip
