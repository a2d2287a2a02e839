"""`invoice.csv`: what an invoice needs, for the program that writes it.

UTF-8 with a byte order mark, commas between cells, a point before decimals, days as 2027-03-12. One row a
payment, in the order they fall due; net, tax and gross of all rows add up to those of the price. A text that a
spreadsheet would take for a formula is written with an apostrophe before it.
"""

import csv
import io
from decimal import Decimal
from typing import Final

from evenface.documents.offer import Offered
from evenface.documents.parts_csv import safe_cell
from evenface.errors import EvenfaceError
from evenface.pricing.money import Money, split
from evenface.words import said

COLUMNS: Final = (
    *("number", "date", "client", "client_address", "maker", "maker_tax_number", "pay_to"),
    *("line", "description", "due", "share", "net", "tax_rate", "tax", "gross", "currency"),
)


class NotPriced(EvenfaceError):
    """An invoice cannot be written for a price that is not whole."""


def invoice_text(offered: Offered) -> str:
    """The rows as text, byte order mark first. Raises NotPriced while something of the price is missing."""
    price = offered.price
    if price.at_least:
        missing = ", ".join(one.key or str(one.what.template) for one in price.missing)
        raise NotPriced(said("the invoice needs a whole price; not priced: {missing}", missing=missing))
    shares = [one.share for one in offered.payments]
    nets = split(price.net, shares)
    grosses = split(price.total, shares)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    head, maker = offered.head, offered.head.maker
    for number, (payment, net, gross) in enumerate(
        zip(offered.payments, nets, grosses, strict=True), start=1
    ):
        cells = (
            *(head.number, head.day.isoformat(), head.client, ", ".join(head.client_address)),
            *(maker.name, maker.tax_number, maker.pay_to),
            *(str(number), head.job, payment.when, _plain(payment.share)),
            *(_amount(net), "" if price.tax_share is None else _plain(price.tax_share)),
            *(_amount(gross - net), _amount(gross), price.currency),
        )
        writer.writerow([cell if _is_amount(cell) else safe_cell(cell) for cell in cells])
    return "\ufeff" + out.getvalue()


def _plain(share: Decimal) -> str:
    return f"{share:f}".rstrip("0").rstrip(".") if "." in f"{share:f}" else f"{share:f}"


def _amount(amount: Money) -> str:
    return f"{amount.amount:f}"


def _is_amount(cell: str) -> bool:
    """A plain number may begin with a minus; a text may not."""
    return cell.removeprefix("-").replace(".", "", 1).isdecimal()
