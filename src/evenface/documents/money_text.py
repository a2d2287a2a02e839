"""Money, shares and days as a reader expects them: amounts in the form of their locale."""

import re
from datetime import date
from decimal import Decimal
from typing import Final

from evenface.pricing import Money, Price, money
from evenface.words import ENGLISH, Manner

USUAL_LOCALE: Final = "en_GB"
_USUAL: Final = {"sv": "sv_SE"}
_CODE_BEFORE: Final = re.compile(r"^(-?[A-Z]{3})(?=[\d-])")
"""A currency written by its letters stands apart from its figures: "DKK 12.50"."""
MONTHS: Final = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def locale_for(locale: str, manner: Manner) -> str:
    """How amounts are written: as the maker's prices say, else as is usual in the reader's language."""
    return locale or _USUAL.get(manner.language, USUAL_LOCALE)


def money_text(amount: Money, locale: str = "") -> str:
    """An amount with its currency: "€1,234.50", "1.234,50 kr."; a plain number where no currency is named."""
    from babel.numbers import format_currency, format_decimal

    if not amount.currency:
        return format_decimal(amount.amount, format="#,##0.00", locale=locale or USUAL_LOCALE)
    text = format_currency(amount.amount, amount.currency, locale=locale or USUAL_LOCALE)
    return _CODE_BEFORE.sub("\\1\u00a0", text)


def sum_text(amount: Decimal | None, currency: str, manner: Manner = ENGLISH) -> str:
    """A bare amount in the reader's form, with its currency where one is named; empty where there is none."""
    return "" if amount is None else money_text(money(amount, currency), locale_for("", manner))


def share_text(share: Decimal, locale: str = "") -> str:
    """A share in percent with at most one decimal: "12.5 %"."""
    from babel.numbers import format_decimal

    return f"{format_decimal(share * 100, format='#,##0.#', locale=locale or USUAL_LOCALE)} %"


def number(amount: Decimal, decimals: int, locale: str = "") -> str:
    """A number with at most so many decimals."""
    from babel.numbers import format_decimal

    form = "#,##0" + ("." + "#" * decimals if decimals else "")
    return format_decimal(amount, format=form, locale=locale or USUAL_LOCALE)


def total_text(price: Price, locale: str = "", manner: Manner = ENGLISH) -> str:
    """What is asked for; "at least" where something is not priced."""
    text = money_text(price.total, locale)
    return manner.translate("at least {sum}").format(sum=text) if price.at_least else text


def day_text(day: date, manner: Manner = ENGLISH) -> str:
    """A day as it is written in a letter: "12 March 2027"."""
    return f"{day.day} {manner.translate(MONTHS[day.month - 1])} {day.year}"
