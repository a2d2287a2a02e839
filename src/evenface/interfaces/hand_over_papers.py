"""Care and hand-over sheets of a job, written beside its bench cards."""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Final

from evenface.construction import Construction
from evenface.documents.hand_over import care_pdf, hand_over_pdf
from evenface.documents.letters import Letterhead
from evenface.job.opening import Opened
from evenface.words import Manner
from evenface.workplan.care import CareLine

CARE_FILE: Final = "care.pdf"
HAND_OVER_FILE: Final = "hand-over.pdf"


def write_papers(
    out: Path,
    opened: Opened,
    constructions: Sequence[Construction],
    care: Mapping[str, Sequence[CareLine]],
    day: date,
    manner: Manner,
) -> tuple[str, ...]:
    """Write both sheets into the folder; their names. Flatness through the year is reckoned for it."""
    from evenface.behaviour import behaviours_of

    job = opened.job
    head = Letterhead(job.name, f"{day:%y%m%d}", day, job.price.maker, job.client, locale=job.price.locale)
    panels = [panel for one in constructions for panel in one.panels]
    behaviours = behaviours_of(job, constructions, opened.catalogue, opened.made)
    flat = tuple(zip(panels, behaviours, strict=True))
    (out / CARE_FILE).write_bytes(care_pdf(head, care, batches_of(opened, constructions), manner))
    (out / HAND_OVER_FILE).write_bytes(hand_over_pdf(head, flat, opened.made.flat, manner))
    return CARE_FILE, HAND_OVER_FILE


def batches_of(opened: Opened, constructions: Sequence[Construction]) -> dict[str, str]:
    """Batches of the stock the panels are made of, by the title of the material."""
    titles: dict[str, str] = {}
    for panel in (panel for one in constructions for panel in one.panels):
        titles[panel.carrier.material.name] = panel.carrier.material.title
        titles |= {face.material.name: face.material.title for face in panel.faces}
        titles |= {edging.wood.name: edging.wood.title for edging in panel.edgings}
    found: dict[str, list[str]] = {}
    for item in opened.job.stock:
        if item.batch and item.material in titles:
            found.setdefault(titles[item.material], []).append(item.batch)
    return {title: ", ".join(dict.fromkeys(batches)) for title, batches in found.items()}
