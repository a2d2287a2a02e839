"""Prices as tables for screen and paper: the build-up, the rate, what is missing, past jobs, what became of it."""

import re
from collections.abc import Sequence
from decimal import Decimal

from evenface.documents.display import DASH, sentence
from evenface.documents.money_text import money_text, number, share_text
from evenface.documents.tables import Table, table
from evenface.pricing import Group, Line, Money, Price, Rate
from evenface.pricing.after import Afterwards
from evenface.pricing.money import decimal_of
from evenface.pricing.own_times import OwnTime
from evenface.pricing.past import Estimate
from evenface.words import ENGLISH, Manner, said, say

ROUNDING_NOTE = (
    "Each line is rounded to the smallest coin, halves up; sums are of what is shown; tax is rounded once."
)
_LINE = re.compile(r"(?:(.*), |)line (\d+)")
_UNITS = {"m2": "m²", "m3": "m³", "l": "l"}


def build_up_table(price: Price, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """Every line of the price in its group, what is not priced included."""
    rows, shown = [], set()
    for line in price.lines:
        first = line.group not in shown
        shown.add(line.group)
        rows.append(
            (
                manner.translate(line.group.value) if first else "",
                sentence(line.what, manner),
                _quantity(line, locale, manner),
                money_text(line.each, locale) if line.each is not None and line.unit != "share" else "",
                money_text(line.amount, locale)
                if line.amount is not None
                else manner.translate("not priced"),
                say(line.basis, manner),
            )
        )
    headings = ("For", "What", ">Quantity", ">Each", ">Amount", "Reckoned")
    return table("Price, line by line", headings, rows, manner.translate(ROUNDING_NOTE), manner)


def _quantity(line: Line, locale: str, manner: Manner) -> str:
    if line.unit == "share":
        return share_text(line.quantity, locale)
    if line.unit == "sheets" and line.quantity == 1:
        return manner.translate("1 sheet")
    decimals = {"h": 2, "sheets": 0, "m": 2, "m2": 2, "m3": 4, "kg": 2, "l": 2}.get(line.unit, 0)
    return f"{number(line.quantity, decimals, locale)} {manner.translate(_UNITS.get(line.unit, line.unit))}".strip()


def sums_table(price: Price, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """From cost to what is asked for: margin and the mark-up that is the same, rounding, tax."""
    word = manner.translate
    rows = [(word("cost"), "", money_text(price.cost, locale))]
    if price.margin_share is not None and price.markup_share is not None:
        told = word("{margin} of the price = {markup} on the cost").format(
            margin=share_text(price.margin_share, locale), markup=share_text(price.markup_share, locale)
        )
        rows.append((word("margin"), told, money_text(price.margin, locale)))
    if price.rounding.amount:
        rows.append((word("rounding"), "", money_text(price.rounding, locale)))
    rows.append((word("price without tax"), "", money_text(price.net, locale)))
    if price.tax is not None and price.tax_share is not None and price.gross is not None:
        rows.append((word("tax"), share_text(price.tax_share, locale), money_text(price.tax, locale)))
        rows.append((word("price with tax"), "", money_text(price.gross, locale)))
    else:
        rows.append((word("tax"), word("none is named"), DASH))
    title = "At least, for not everything is priced" if price.at_least else "What to ask for"
    return table(title, ("Sum", "", ">Amount"), rows, manner=manner)


def rate_table(rate: Rate, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """The hourly rate, every line of its reckoning."""
    rows = [
        (sentence(line.what, manner), f"{number(line.number, 2, locale)} {line.unit}".strip())
        for line in rate.lines
    ]
    if rate.hourly is not None and rate.hourly != rate.worked:
        rows.append((manner.translate("Asked for, an hour"), money_text(rate.hourly, locale)))
    return table("Hourly rate", ("What", ">"), rows, manner=manner)


def to_write(key: str, manner: Manner = ENGLISH) -> str:
    """What to write for a price that is missing: a key of the file as it stands, what is a sentence in words."""
    return key if "=" in key or " " not in key else manner.translate(key)


def asked_at(where: str, manner: Manner = ENGLISH) -> str:
    """Where the job needs a price, as `Missing.where` has it: "job.toml, line 12"."""
    found = _LINE.fullmatch(where)
    if found is None:
        return where
    line = say(said("line {line}", line=found[2]), manner)
    return f"{found[1]}, {line}" if found[1] else line


def missing_table(price: Price, manner: Manner = ENGLISH) -> Table:
    """Everything that is not priced: what, what to write, and where."""
    rows = [
        (sentence(one.what, manner), to_write(one.key, manner), asked_at(one.where, manner))
        for one in price.missing
    ]
    note = manner.translate(
        "What is not priced does not count as nothing: the sums are at least what they say."
    )
    return table("Not priced", ("What", "Write", "Where"), rows, note if rows else "", manner)


def shares_table(price: Price, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """How the price is made up, by group, as a share of the net price; the margin last."""
    groups = [(group, price.of(group)) for group in Group]
    rows = [
        (manner.translate(group.value), money_text(amount, locale), _of(amount.amount, price, locale))
        for group, amount in groups
        if amount.amount
    ]
    rows.append(
        (
            manner.translate("margin and rounding"),
            money_text(price.margin + price.rounding, locale),
            _of((price.margin + price.rounding).amount, price, locale),
        )
    )
    note = manner.translate(
        "In a healthy one-person shop material is 20 to 30 % of the price (trade reference); a price as so many "
        "times the material misleads as soon as jobs differ."
    )
    return table("Of what the price is made", ("For", ">Amount", ">Share"), rows, note, manner)


type PieceCells = tuple[str, int, float, Decimal, Money]


def by_piece_table(
    rows: Sequence[PieceCells], at_least: bool, locale: str = "", manner: Manner = ENGLISH
) -> Table:
    """Name, number, hours, share and net price of each piece."""
    cells = [
        (
            name,
            str(count),
            number(decimal_of(hours), 1, locale),
            money_text(net, locale),
            share_text(share, locale),
        )
        for name, count, hours, share, net in rows
    ]
    note = manner.translate(
        "Hours by the steps of each piece, sheets by the area cut for it, wood by volume; what is the whole job's "
        "in proportion. Alone a piece would cost something else, for sheets and the settings of machines are shared."
    )
    title = "Of the price without tax, by piece"
    if at_least:
        title = "Of the price without tax, by piece: at least, for not everything is priced"
    headings = ("Piece", ">Number", ">Hours", ">Price without tax", ">Share")
    return table(title, headings, cells, note, manner)


def _of(amount: Decimal, price: Price, locale: str) -> str:
    return share_text(amount / price.net.amount, locale) if price.net.amount else DASH


def estimate_table(found: Estimate, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """A first answer from past jobs, without tax, with its spread."""
    rows = [
        (manner.translate("from"), money_text(found.low, locale)),
        (manner.translate("about"), money_text(found.middle, locale)),
        (manner.translate("to"), money_text(found.high, locale)),
    ]
    names = ("a m² of panel", "a m of edging", "a rounded corner", "a grip")
    per = ", ".join(
        f"{number(Decimal(str(round(value, 2))), 0, locale)} {manner.translate(name)}"
        for value, name in zip(found.per, names, strict=True)
        if value > 0.0
    )
    note = manner.translate(
        "From {jobs} past jobs: {per}. Four of five of them, each reckoned from the others, lay in this range."
    ).format(jobs=found.jobs, per=per)
    return table("First answer, without tax", ("", ">Price"), rows, note, manner)


def operations_table(found: Afterwards, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """Planned and measured hours of each operation, and the money between; what lost money stands first."""
    losing = {one.work for one in found.losing}
    order = [*found.losing, *(one for one in found.operations if one.work not in losing)]
    rows = [
        (
            manner.translate(one.work.value),
            f"{one.steps_timed} / {one.steps}",
            _hours(one.planned_minutes, locale),
            _hours(one.minutes, locale),
            share_text(Decimal(str(round(one.share, 4))), locale) if one.share is not None else DASH,
            money_text(one.difference, locale) if one.difference is not None else DASH,
            manner.translate("loses money") if one.loses else "",
        )
        for one in order
    ]
    headings = ("Operation", ">Steps timed", ">Planned h", ">Taken h", ">Of planned", ">Left over", "")
    return table("Hours", headings, rows, _untimed(found, manner), manner)


def _hours(minutes: float, locale: str) -> str:
    return number(Decimal(str(round(minutes / 60.0, 2))), 2, locale)


def _untimed(found: Afterwards, manner: Manner) -> str:
    if not found.untimed:
        return ""
    names = ", ".join(manner.translate(work.value) for work in found.untimed)
    return manner.translate("No time is noted for {names}: counted as planned.").format(names=names)


def materials_after_table(found: Afterwards, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """Material planned and taken, and the money between."""
    rows = [
        (
            one.title,
            f"{number(one.planned, 3, locale)} {_UNITS.get(one.unit, one.unit)}",
            f"{number(one.taken, 3, locale)} {_UNITS.get(one.unit, one.unit)}",
            money_text(one.difference, locale) if one.difference is not None else DASH,
        )
        for one in found.materials
    ]
    return table("Material", ("Material", ">Planned", ">Taken", ">Left over"), rows, manner=manner)


def outcome_table(price: Price, found: Afterwards, locale: str = "", manner: Manner = ENGLISH) -> Table:
    """What the job earned, beside what was planned."""
    word = manner.translate
    rows = [
        (word("hours"), number(found.planned_hours, 1, locale), number(found.hours, 1, locale)),
        (word("cost"), money_text(found.planned_cost, locale), money_text(found.cost, locale)),
        (word("price without tax"), money_text(price.net, locale), money_text(price.net, locale)),
        (
            word("left over"),
            money_text(price.net - found.planned_cost, locale),
            money_text(found.left, locale),
        ),
    ]
    if found.an_hour is not None and found.planned_an_hour is not None:
        rows.append(
            (
                word("earned an hour"),
                money_text(found.planned_an_hour, locale),
                money_text(found.an_hour, locale),
            )
        )
    return table("What the job earned", ("", ">Planned", ">Became"), rows, manner=manner)


def own_times_table(averages: Sequence[OwnTime], manner: Manner = ENGLISH) -> Table:
    """Own times as shares of the estimate, with their spread."""
    rows = [
        (
            manner.translate(one.work.value),
            f"{one.share:.2f}",
            f"{one.low:.2f} … {one.high:.2f}" if one.low is not None and one.high is not None else DASH,
            str(one.jobs),
        )
        for one in averages
    ]
    note = manner.translate(
        "1 is the estimate; robust means (Huber, of logarithms). A spread is shown from three jobs on."
    )
    return table("Own times", ("Operation", ">Of the estimate", ">Spread", ">Jobs"), rows, note, manner)
