"""Bench cards: one step a card, to be read at arm's length and ticked; behind them the care sheets."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any, Final, Literal

from evenface.documents.alike_cards import alike_together
from evenface.documents.display import cited
from evenface.documents.glue_pages import glue_page, short_lines
from evenface.documents.moments import moment_text
from evenface.documents.setting import plain, set_pdf
from evenface.words import ENGLISH, Manner, Said, said, say
from evenface.workplan import Step, Wait
from evenface.workplan.calendar import Schedule
from evenface.workplan.care import CareLine
from evenface.workplan.glue_card import GlueCard
from evenface.workplan.safety import STANDING

_WORDS: Final = {
    "set": "SET",
    "glue": "GLUE",
    "glue_card": "GLUE CARD",
    "more": "SETTINGS",
    "check": "CHECK",
    "wait": "THEN WAIT",
    "risk": "RISK",
    "why": "why here",
    "slip": "a slip costs",
    "standing_title": "Before all the cards",
}
_MOST_SET: Final = 640
_USUAL_WARNING: Final = 350
"""Characters of settings on a quarter page, with some for each line's end; of cautions that leave room for them."""
_LINE_END: Final = 20
_SQUEEZED: Final = 110
"""Settings a little longer than that stay on the card in smaller letters: a card for one line is no help."""
_LEAST_WAIT_H: Final = 0.1
"""Contact glue holds at once: no wait worth a line."""


def bench_cards_pdf(
    job: str,
    plan: Schedule,
    parts: Mapping[str, str],
    cards: Sequence[GlueCard],
    care: Mapping[str, Sequence[CareLine]],
    day: date,
    per_page: Literal[1, 4] = 4,
    manner: Manner = ENGLISH,
) -> bytes:
    """The cards of a job in the order of its calendar, as PDF; the same input gives the same bytes.

    Alike steps share a card. parts : name of each part by its id. care : care lines by the name of the piece.
    """
    data: dict[str, Any] = cards_data(job, plan, parts, cards, care, day, per_page, manner)
    return set_pdf("cards.typ", data | {"cards": alike_together(data["cards"], manner)}, manner.language)


def cards_data(
    job: str,
    plan: Schedule,
    parts: Mapping[str, str],
    cards: Sequence[GlueCard],
    care: Mapping[str, Sequence[CareLine]],
    day: date,
    per_page: Literal[1, 4] = 4,
    manner: Manner = ENGLISH,
) -> dict[str, object]:
    """What the template sets: finished strings only."""
    by_step = {card.step: card for card in cards}
    return {
        "words": {key: manner.translate(word) for key, word in _WORDS.items()},
        "job": plain(job),
        "date": [day.year, day.month, day.day],
        "per_page": per_page,
        "standing": say(STANDING, manner),
        "cards": list(_cards(plan, parts, by_step, manner)),
        "care": [
            {
                "title": plain(manner.translate("Care: {piece}").format(piece=piece)),
                "rows": [
                    [
                        manner.translate(line.heading),
                        say(line.text, manner),
                        f"{manner.translate(line.status.value)}: {cited(line.source, manner)}",
                    ]
                    for line in lines
                ],
            }
            for piece, lines in care.items()
        ],
    }


def _cards(
    plan: Schedule, parts: Mapping[str, str], by_step: Mapping[str, GlueCard], manner: Manner
) -> Iterator[dict[str, object]]:
    """Each step's card, and behind it the glue card where something is glued."""
    for one in plan.placed:
        when = moment_text(plan.days.clock(one.start_h), manner)
        glued = by_step.get(one.step.id)
        card = _card(one.step, when, parts, glued, manner)
        settings = list(one.step.settings)
        warned = sum(len(say(line, manner)) for line in one.step.cautions)
        here = _room_for(settings, manner, warned)
        yield card | {"settings": [say(line, manner) for line in settings[:here]]}
        if here < len(settings):
            yield _more_settings(card, settings[here:], manner)
        if glued is not None:
            yield glue_page(glued, _name(one.step, parts), when, manner)


def whole_cards(cards: Sequence[Mapping[str, Any]]) -> dict[str, Mapping[str, Any]]:
    """One card a step again, for a screen that has room: all settings, and of a glue card all lines."""
    found: dict[str, Mapping[str, Any]] = {}
    for card in cards:
        known = found.get(card["id"])
        if known is None:
            found[card["id"]] = card
        elif card["kind"] == "more":
            found[card["id"]] = {**known, "settings": [*known["settings"], *card["rows"][0]["lines"]]}
        else:
            found[card["id"]] = {**known, "glue": [line for row in card["rows"] for line in row["lines"]]}
    return found


def _room_for(settings: Sequence[Said], manner: Manner, warned: int = 0) -> int:
    """How many of these sentences the step's own card takes, beside so many characters of caution; the rest follow on
    a card behind it."""
    long = [len(say(line, manner)) + _LINE_END for line in settings]
    room = _MOST_SET - max(0, warned - _USUAL_WARNING)
    for number in range(len(long)):
        if sum(long[: number + 1]) > room:
            return number if sum(long) > room + _SQUEEZED else len(long)
    return len(long)


def _more_settings(card: Mapping[str, object], settings: Sequence[Said], manner: Manner) -> dict[str, object]:
    """A card of what else is to be set, in the form of a glue card."""
    row = {"label": manner.translate("set"), "lines": [say(one, manner) for one in settings]}
    kept = {key: card[key] for key in ("id", "part", "when", "title")}
    head = manner.translate(_WORDS["more"])
    rows = [row | {"bold": False, "tick": True}]
    return {"kind": "more", **kept, "head": head, "rows": rows, "risks": [], "clamps": None}


def _card(
    step: Step, when: str, parts: Mapping[str, str], card: GlueCard | None, manner: Manner
) -> dict[str, object]:
    title = say(step.title, manner)
    return {
        "kind": "step",
        "id": step.id,
        "part": plain(_name(step, parts)),
        "when": when,
        "title": plain(title[:1].upper() + title[1:]),
        "settings": [say(one, manner) for one in step.settings],
        "glue": [say(one, manner) for one in short_lines(card)] if card else [],
        "findings": [say(f.message, manner) for f in card.findings if f.severity != "note"] if card else [],
        "check": say(step.check, manner),
        "wait": _wait_text(step.wait, manner),
        "why": say(step.why, manner),
        "undo": say(step.undo_risk, manner),
        "cautions": [say(one, manner) for one in step.cautions],
        "hands": say(
            said(
                "{minutes:count} min of hands ({set_up:count} to set up, {each} each, {pieces:count} in all), "
                "{people}",
                minutes=step.hand_minutes.total,
                set_up=step.hand_minutes.set_up,
                each=round(step.hand_minutes.each, 1),
                pieces=step.hand_minutes.pieces,
                people=said("two people") if step.people > 1 else said("one person"),
            ),
            manner,
        ),
        "tools": ", ".join(say(one, manner) for one in step.tools),
        "minutes": round(step.hand_minutes.total),
        "alike": [],
    }


def _name(step: Step, parts: Mapping[str, str]) -> str:
    if step.part:
        return parts.get(step.part, step.part)
    return step.piece or ", ".join(step.parts[:3]) + (" …" if len(step.parts) > 3 else "")


def _wait_text(wait: Wait | None, manner: Manner) -> str:
    if wait is None or wait.most_h < _LEAST_WAIT_H:
        return ""
    if wait.least_h == wait.most_h:
        return say(said("{hours:count} h", hours=wait.most_h), manner)
    if wait.kind == "glue":
        sentence = said(
            "{least:count} h under pressure, {most:count} h until it is worked",
            least=wait.least_h,
            most=wait.most_h,
        )
        return say(sentence, manner)
    return say(said("{least:count} to {most:count} h", least=wait.least_h, most=wait.most_h), manner)
