"""The pages that show: jobs, parts, a part, will it work, cutting."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Final

from markupsafe import Markup
from starlette.responses import RedirectResponse, Response

from evenface.construction import BuiltPanel
from evenface.documents.display import weights_in
from evenface.documents.finding_tables import CAUTION, FindingText, finding_text, tally
from evenface.documents.flat_tables import flat_table, rows_of
from evenface.documents.layout_tables import cut_list, layout_summary, offcut_line
from evenface.documents.pictures import PAPER_MM, year_scene
from evenface.documents.size_tables import edging_ladder, parts_table, sheet_ladder
from evenface.drawings import Scene, build_up_of, distinct_sides, plan_of, section_of, sheet_of
from evenface.drawings.build_up import WIDE_MM
from evenface.finding import Change, Finding, Remedy
from evenface.interfaces.web.desk import Trial, View
from evenface.interfaces.web.edits import Outcome, beside_entries, name_of
from evenface.interfaces.web.entries import Entry, entries_of
from evenface.interfaces.web.part_entries import groups_of_part
from evenface.interfaces.web.piece_entries import form_of
from evenface.interfaces.web.site import Asked, NoSuchPage, Site, drawn, own_page
from evenface.interfaces.web.small_outlines import small_outlines
from evenface.interfaces.web.touching import build_up_spots, plan_spots, section_spots, with_spots
from evenface.parts import Part
from evenface.result import Result
from evenface.store import KeptJob
from evenface.words import Manner, said, say

_WRITTEN: Final = re.compile(r"piece\[\d+\]\.panel\[\d+\]")
SCREEN_MM: Final = (260.0, 150.0)


@dataclass(frozen=True, slots=True)
class Shown:
    """A finding on a page: its text, the part it belongs to, and the address of each remedy's trial.

    changes : what each remedy would change. also : the same at other places, in the order found.
    """

    text: FindingText
    part: str
    number: int
    remedies: tuple[tuple[str, str], ...]
    changes: tuple[tuple[Change, ...], ...] = ()
    also: "tuple[Shown, ...]" = ()


def piece(site: Site, asked: Asked) -> Response:
    """The parts of a job; what is known of their flatness follows when our script asks for it."""
    job = site.job(asked) if asked.live else site.store.use(site.job(asked).id)
    view = site.desk.look(job, flat=asked.live)
    grouped: dict[str, list[Part]] = {}
    table = parts_table(view.sketch.parts, asked.manner)
    rows = dict(zip((part.id for part in view.sketch.parts), table.rows, strict=True))
    for part in view.sketch.parts:
        grouped.setdefault(part.piece, []).append(part)
    counts = {part.id: _tally_of(view, part, asked.manner) for part in view.sketch.parts}
    drawings = small_outlines(view.panels)
    outlines = dict(zip((part.id for part in view.sketch.parts), drawings, strict=True))
    return site.page(
        "piece_live.html" if asked.live else "piece.html", asked, title="Parts", job=job, grouped=grouped,
        rows=rows, outlines=outlines, columns=table.columns, counts=counts,
        tally=tally(view.sketch.findings, asked.manner),
        later=not view.flat, pieces=[one.name for one in view.sketch.job.pieces],
    )  # fmt: skip


def part(site: Site, asked: Asked) -> Response:
    """One part: its drawing, its sizes, its findings, its entries; asked by our script, what comes later."""
    job = site.job(asked)
    if asked.live:
        view = site.desk.look(job)
        one, panel = part_of_page(view, asked)
        values = _found(site, view, one, job, asked.manner)
        values["year"] = _year_of(view, panel, asked.manner)
        details = _details(panel, entries_of(view, panel, asked.manner), asked.manner)
        return site.page("part_later.html", asked, job=job, part=one, details=details, **values)
    return part_page(site, asked, job)


def part_page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None
) -> Response:
    """The page of the part that the address names, or for our script only what changes in it."""
    view = site.desk.look(job, flat=False)
    one, panel = part_of_page(view, asked)
    groups = groups_of_part(view, panel, asked.manner)
    entries = [entry for group in groups for entry in group.entries]
    values = part_values(view, one, panel, job, entries, asked.manner)
    values |= _found(site, view, one, job, asked.manner)
    values |= beside_entries(site, asked, job, entries, out)
    values |= {"groups": groups} | form_of(view, groups, asked, out.told if out else None)
    name = "part_live.html" if asked.live else "part.html"
    if not asked.live:
        values["details"] = _details(panel, entries, asked.manner)
        values["year"] = _year_of(view, panel, asked.manner)
        values["by_itself"] = panel.origin if _WRITTEN.fullmatch(panel.origin) else ""
    return site.page(
        name,
        asked,
        status,
        title=f"{asked.manner.name(one.name)}, {one.piece}",
        about=name_of(panel),
        **values,
    )


def _found(site: Site, view: View, one: Part, job: KeptJob, manner: Manner) -> dict[str, Any]:
    """The findings of a part; while its flatness is not reckoned anew, that of the state before, as old."""
    values: dict[str, Any] = {"later": not view.flat, "old": []}
    mine = [found for found in shown(view, job, manner) if found.part == one.id]
    values["tally"] = _tally_of(view, one, manner)
    before = None if view.flat else site.desk.last_flat(job)
    if before is not None:
        new = {finding.code for finding in view.sketch.findings}
        values["old"] = [
            finding_text(finding, manner)
            for finding in before.sketch.findings
            if finding.code.startswith("flat.")
            and finding.code not in new
            and (finding.piece, finding.part) == (one.piece, one.name)
        ]
    return values | {"findings": alike(mine)}


def _details(panel: BuiltPanel, entries: Sequence[Entry], manner: Manner) -> list[Markup]:
    """Build-up and edges at scale: they follow an edit a moment later."""
    layers = build_up_of(panel, manner)
    sections = [section_of(panel, sides[0], manner, also=sides[1:]) for sides in distinct_sides(panel)]
    return [
        with_spots(layers, build_up_spots(panel, entries, WIDE_MM / layers.scale, manner)),
        *(with_spots(scene, section_spots(scene, entries, manner)) for scene in sections),
    ]


def _year_of(view: View, panel: BuiltPanel, manner: Manner) -> Markup | str:
    """The chart of the part through the year; empty where its flatness is not known."""
    for one, year in rows_of(view.sketch):
        if one is panel:
            return drawn(year_scene(panel, year, manner))
    return ""


def part_values(
    view: View, one: Part, panel: BuiltPanel, job: KeptJob, entries: Sequence[Entry], manner: Manner
) -> dict[str, Any]:
    """Everything the page of a part shows."""
    titles = _titles(panel)
    plan = plan_of(panel, manner, None, SCREEN_MM)
    return {
        "job": job,
        "part": one,
        "entries": entries,
        "plan": with_spots(plan, plan_spots(panel, entries, plan.scale, manner)),
        "ladders": [sheet_ladder(one, titles, manner), edging_ladder(one, titles, manner)],
    }


def check(site: Site, asked: Asked) -> Response:
    """Will it work: every finding, gravest first, and the flatness through the year."""
    job = site.job(asked)
    view = site.desk.look(job)
    rows = rows_of(view.sketch)
    return site.page(
        "check.html", asked, title="Will it work?", job=job, findings=alike(shown(view, job, asked.manner)),
        tally=tally(view.sketch.findings, asked.manner), flat=flat_table(rows, asked.manner) if rows else None,
        caution=CAUTION,
        years=[(one.id, f"{one.id} {asked.manner.name(one.name)}") for one in view.sketch.parts if rows],
    )  # fmt: skip


def attempt(site: Site, asked: Asked) -> Response:
    """A remedy tried: what was, what would be. Nothing is kept by looking."""
    job = site.job(asked)
    if asked.whole("version") != job.version:
        return RedirectResponse(f"/jobs/{job.id}/check", 303)
    finding, remedy = remedy_of(site.desk.look(job), asked)
    trial = site.desk.attempt(job, remedy.changes)
    place = _part_of(trial.before, finding)
    pictures = _pictures(trial, place, asked.manner)
    return site.page(
        "try.html", asked, title="A remedy tried", job=job, finding=finding_text(finding, asked.manner),
        remedy=say(remedy.message, asked.manner), changes=remedy.changes, pictures=pictures,
        gone=[finding_text(one, asked.manner) for one in trial.gone],
        new=[finding_text(one, asked.manner) for one in trial.new],
        tallies=[tally(view.sketch.findings, asked.manner) for view in (trial.before, trial.after)],
        number=asked.whole("finding"), which=asked.whole("remedy"),
        back=own_page(asked.query.get("back", ""), f"/jobs/{job.id}/check"),
    )  # fmt: skip


def _pictures(trial: Trial, place: str, manner: Manner) -> Sequence[Markup | str]:
    """The part before and after: its plan, or the first of build-up and edges that does not stay as it is."""
    found = [view.part(place) for view in (trial.before, trial.after)]
    panels = [one[1] for one in found if one]
    if len(panels) < 2:
        return [drawn(plan_of(one[1], manner, None, PAPER_MM)) if one else "" for one in found]
    sides = dict.fromkeys(group[0] for one in panels for group in distinct_sides(one))
    plans = [drawn(plan_of(one, manner, None, PAPER_MM)) for one in panels]
    other: list[Callable[[BuiltPanel], Scene]] = [partial(build_up_of, manner=manner)]
    other += [partial(section_of, side=side, manner=manner) for side in sides]
    for draw in (None, *other):
        pair = plans if draw is None else [drawn(draw(one)) for one in panels]
        if pair[0] != pair[1]:
            return pair
    return plans


def remedy_of(view: View, asked: Asked) -> tuple[Finding, Any]:
    """The finding and the remedy that the fields number. Raises NoSuchPage."""
    number, which = asked.whole("finding"), asked.whole("remedy")
    if 0 <= number < len(view.sketch.findings):
        finding = view.sketch.findings[number]
        if 0 <= which < len(finding.remedies) and finding.remedies[which].changes:
            return finding, finding.remedies[which]
    raise NoSuchPage("That remedy is not there any more. Look at the findings again.")


def cutting(site: Site, asked: Asked) -> Response:
    """The layouts, reckoned beside the page; asked for with its script, only what changed."""
    job = site.job(asked)
    view = site.desk.look(job)
    work = site.planner.work(view)
    if work is None:
        work = site.planner.start(view)
    state = work.state  # read once: the plan goes on while the page is made
    values: dict[str, Any] = {"job": job, "work": work, "state": state}
    if state == "done" and work.result is not None:
        values |= _sheets(work.result, asked.manner)
    name = "cutting_live.html" if asked.live else "cutting.html"
    return site.page(name, asked, title="Cutting", **values)


def _sheets(result: Result, manner: Manner) -> dict[str, Any]:
    titles, weights = _result_titles(result), weights_in(result.sketch)
    names = {part.id: f"{part.id} {manner.name(part.name)}" for part in result.sketch.all_parts}
    sheets: list[dict[str, Any]] = [
        {
            "title": titles.get(layout.material, layout.material),
            "number": f"{number + 1} / {len(layout.sheets)}",
            "picture": drawn(sheet_of(layout, number, manner, paper_mm=SCREEN_MM)),
            "cuts": cut_list(sheet, manner, weights.get(layout.material, 0.0), names),
            "rest": offcut_line(sheet, manner),
        }
        for layout in result.layouts
        for number, sheet in enumerate(layout.sheets)
    ]
    summary = layout_summary(result.layouts, titles, manner, result.sketch.all_parts)
    firsts = [(number, one["title"]) for number, one in enumerate(sheets) if one["number"].startswith("1 ")]
    return {"summary": summary, "sheets": sheets, "firsts": firsts}


def shown(view: View, job: KeptJob, manner: Manner) -> list[Shown]:
    """Every finding with its part and its remedies."""
    out = []
    for number, finding in enumerate(view.sketch.findings):
        text = finding_text(finding, manner)
        base = f"/jobs/{job.id}/try?version={job.version}&finding={number}&remedy="
        links = tuple(
            (words, f"{base}{which}" if finding.remedies[which].changes else "")
            for which, words in enumerate(text.remedies)
        )
        changes = tuple(_settings(remedy) for remedy in finding.remedies)
        out.append(Shown(text, _part_of(view, finding), number, links, changes))
    return out


def _settings(remedy: Remedy) -> tuple[Change, ...]:
    """What a remedy sets, each entry once."""
    return tuple(sorted(set(remedy.changes), key=lambda one: one.path))


def alike(findings: Sequence[Shown]) -> list[Shown]:
    """What is said of several places in the same way said once, where it first stands, with all its places.

    What has a remedy to try stays by itself, for it is tried at one place; unless it changes the same entries.
    """
    kinds: dict[object, list[Shown]] = {}
    for one in findings:
        kinds.setdefault((one.text.kind, one.text.evidence, one.changes), []).append(one)
    return [replace(first, also=tuple(others)) for first, *others in kinds.values()]


def _part_of(view: View, finding: Finding) -> str:
    """The number of the part a finding is about; empty when it is about none or about several."""
    for one in view.sketch.parts:
        if finding.part and (one.piece, one.name) == (finding.piece, finding.part):
            return one.id
    for one in view.sketch.parts:
        if finding.origin == one.origin or finding.origin.startswith(f"{one.origin}."):
            return one.id
    return ""


def _tally_of(view: View, one: Part, manner: Manner) -> str:
    mine = [finding for finding in view.sketch.findings if _part_of(view, finding) == one.id]
    return tally(mine, manner) if mine else ""


def part_of_page(view: View, asked: Asked) -> tuple[Part, BuiltPanel]:
    """The part the address names. Raises NoSuchPage."""
    found = view.part(asked.path["part"])
    if found is None:
        raise NoSuchPage(said("This job has no part {part}.", part=repr(asked.path["part"][:20])))
    return found


def _titles(panel: BuiltPanel) -> dict[str, str]:
    carrier = panel.carrier.material
    return {carrier.name: carrier.title} | {one.material.name: one.material.title for one in panel.faces}


def _result_titles(result: Result) -> Mapping[str, str]:
    from evenface.documents.display import titles_of

    return titles_of(result)
