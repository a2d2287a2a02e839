"""The sheet on which a client approves drawings, samples and limits before work begins."""

from collections.abc import Iterator

from evenface.documents.display import called
from evenface.documents.letters import (
    Block,
    bullets,
    heading,
    letter_pdf,
    new_page,
    paragraph,
    pictures,
    sign,
    ticks,
)
from evenface.documents.movement_words import movement
from evenface.documents.offer import Offered, alike_parts, plan_first
from evenface.documents.offer_words import tolerances
from evenface.documents.pictures import Pictures
from evenface.words import ENGLISH, Manner, said


def approval_pdf(offered: Offered, drawn: Pictures, manner: Manner = ENGLISH) -> bytes:
    """Drawings with their sections at true scale, samples and limits, each to be ticked and signed."""
    return letter_pdf("Approval", offered.head, approval_blocks(offered, drawn, manner), manner)


def approval_blocks(offered: Offered, drawn: Pictures, manner: Manner = ENGLISH) -> Iterator[Block]:
    """What is approved: samples, limits, then each part with its plan and its edges at 1:1."""
    yield paragraph(
        said(
            "Please look at each of these and tick it. What is approved here is what we make; we begin when we have it."
        ),
        manner,
    )
    yield heading("Samples", manner)
    yield paragraph(said("Seen in daylight, with colour and batch as noted:"), manner)
    yield ticks([f"{manner.name(title)}:" for title in _samples(offered)], manner)
    yield heading("Limits", manner)
    yield bullets(tolerances(offered.sketch, offered.table), manner)
    yield bullets(movement(offered.sketch), manner)
    yield ticks(("read and accepted",), manner)
    yield sign(("place and date", "the client"), manner)
    for alike in alike_parts(offered.sketch):
        part, made = alike[0], drawn.panels.get(alike[0].id, ())
        shown = [one for one in made if "build-up" not in one.name]
        if shown:
            yield new_page()
            yield heading(
                f"{part.piece}: {called((one.name for one in alike), manner)}, {sum(one.count for one in alike)} ×",
                manner,
            )
            yield ticks(("as drawn", "with these changes:"), manner)
            yield pictures(plan_first(shown))


def _samples(offered: Offered) -> tuple[str, ...]:
    """Every material that is seen, once."""
    titles: dict[str, None] = {}
    for construction in offered.sketch.constructions:
        for panel in construction.panels:
            titles |= dict.fromkeys(face.material.title for face in panel.faces)
            if not panel.faces:
                titles[panel.carrier.material.title] = None
            titles |= dict.fromkeys(edging.wood.title for edging in panel.edgings)
        titles |= dict.fromkeys(board.wood.title for board in construction.boards)
    return tuple(titles)
