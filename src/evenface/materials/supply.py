"""The forms in which a material is sold."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal

from evenface.evidence import Status

type Form = Literal["sheet", "rolled_sheet", "roll", "board"]
type SoldBy = Literal["piece", "metre", "m3"]

FORMS: Final = ("sheet", "rolled_sheet", "roll", "board")
SOLD_BY: Final = ("piece", "metre", "m3")


@dataclass(frozen=True, slots=True)
class Supply:
    """A form in which a material is sold.

    form : "sheet"; "rolled_sheet", one whole sheet rolled only to be carried; "roll", sold by running metre
        from a fixed width; "board", rough-sawn solid wood.
    length_mm, width_mm : None means any (a running metre, a board as it falls).
    thickness_mm : as named by the merchant; None where the material has only one.
    sold_by : what the price is for: one piece, one running metre or one cubic metre.
    price, currency : both or neither.
    Raises ValueError for a size that is not above zero, a roll without width, a sheet without its two sizes.
    """

    form: Form
    length_mm: float | None
    width_mm: float | None
    thickness_mm: float | None
    sold_by: SoldBy
    status: Status
    source: str
    price: Decimal | None = None
    currency: str | None = None

    def __post_init__(self) -> None:
        one_of("form", self.form, FORMS)
        one_of("sold_by", self.sold_by, SOLD_BY)
        for size in (self.length_mm, self.width_mm, self.thickness_mm):
            if size is not None and not 0.0 < size <= 100_000.0:
                raise ValueError(f"expected a size of supply above 0 and at most 100 m, was given {size}")
        if self.form in ("sheet", "rolled_sheet") and (self.length_mm is None or self.width_mm is None):
            raise ValueError(f"expected length and width of a {self.form}")
        if self.form == "roll" and self.width_mm is None:
            raise ValueError("expected the width of a roll")
        if (self.price is None) != (self.currency is None):
            raise ValueError("expected price and currency together, was given only one of them")
        if self.price is not None and not (self.price.is_finite() and self.price >= 0):
            raise ValueError(f"expected a price of at least 0, was given {self.price}")
        if not self.source:
            raise ValueError("expected a source of the form of supply")


def one_of(key: str, given: str, known: tuple[str, ...]) -> None:
    """Raises ValueError, naming the known words, when the given one is not among them."""
    if given not in known:
        raise ValueError(f"expected {key} to be one of {', '.join(map(repr, known))}, was given {given!r}")
