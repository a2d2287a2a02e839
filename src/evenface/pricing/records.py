"""What is priced, and the price line by line."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from evenface.pricing.money import Money, summed
from evenface.words import NOTHING, Said
from evenface.workplan import Work


class Group(StrEnum):
    """What a line of a build-up is for, in the order they are shown."""

    LABOUR = "work"
    RISK = "risk"
    STOCK = "sheets and rolls"
    OFFCUTS = "offcuts credited"
    WOOD = "solid wood"
    GLUE = "glue"
    FINISH = "finish"
    FITTINGS = "fittings"
    HANDLING = "handling of material"
    CONSUMABLES = "consumables"
    SUBCONTRACT = "work given out"
    DELIVERY = "delivery"
    OTHER = "other"
    CONTINGENCY = "contingency"


MATERIAL = (Group.STOCK, Group.OFFCUTS, Group.WOOD, Group.GLUE, Group.FINISH)


@dataclass(frozen=True, slots=True)
class Hours:
    """Hands of one operation in the whole job. minutes : as planned with own times where there are any.

    usual_minutes : as estimated without them; own times are kept as a share of this.
    jobs : how many jobs the own time rests on, 0 for the estimate.
    """

    work: Work
    minutes: float
    usual_minutes: float
    jobs: int = 0

    def __post_init__(self) -> None:
        if not (self.minutes >= 0.0 and self.usual_minutes >= 0.0):
            raise ValueError(f"expected minutes of 0 or more, was given {self.minutes}, {self.usual_minutes}")


@dataclass(frozen=True, slots=True)
class SheetUse:
    """Sheets or metres of one stock size that the layouts take. price : of one, or of one metre of a roll.

    amount : sheets, or metres of a roll. offcuts_mm : length and width of each rest worth keeping.
    """

    material: str
    title: str
    form: str
    size_mm: tuple[float | None, float]
    amount: Decimal
    price: Decimal | None = None
    offcuts_mm: tuple[tuple[float, float], ...] = ()
    origin: str = ""

    @property
    def by_metre(self) -> bool:
        return self.form == "roll"

    @property
    def area_m2(self) -> Decimal:
        """Of all of it."""
        length_m = Decimal(1) if self.by_metre else Decimal(str(self.size_mm[0] or 0.0)) / 1000
        return self.amount * length_m * Decimal(str(self.size_mm[1])) / 1000


@dataclass(frozen=True, slots=True)
class Needed:
    """A material by quantity: wood as net m³, glue in kg, finish in m². origin : where the job names it."""

    material: str
    title: str
    amount: Decimal
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Fitting:
    """Something bought in, so many. price : of one, None when not known."""

    name: str
    count: int
    price: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ToPrice:
    """Everything a planned job takes. wood : net, before waste; boards : of the stock list, as they are taken.

    not_laid_out : what the layouts could not place, or nobody sells.
    """

    hours: tuple[Hours, ...] = ()
    sheets: tuple[SheetUse, ...] = ()
    wood: tuple[Needed, ...] = ()
    boards: tuple[SheetUse, ...] = ()
    glue: tuple[Needed, ...] = ()
    finish: tuple[Needed, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    not_laid_out: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the build-up. quantity × each = amount, rounded once; amount None: not priced.

    basis : how it is reckoned, in words. work : of a line of work or risk. material, title : of a line of
    material, its name in the catalogue and in the trade's words.
    """

    group: Group
    what: Said
    amount: Money | None
    quantity: Decimal = Decimal(1)
    unit: str = ""
    each: Money | None = None
    basis: Said = NOTHING
    work: Work | None = None
    material: str = ""
    title: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """A price or share that is not said. key : what to write. where : file, and where the job needs it."""

    what: Said
    key: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class RateLine:
    """One line of the rate worked back: what, number, unit."""

    what: Said
    number: Decimal
    unit: str


@dataclass(frozen=True, slots=True)
class Rate:
    """What an hour costs. hourly : None when it cannot be told. worked : the same from pay and costs, if known."""

    hourly: Money | None
    lines: tuple[RateLine, ...] = ()
    worked: Money | None = None
    missing: tuple[Missing, ...] = ()


@dataclass(frozen=True, slots=True)
class Price:
    """The build-up of a job's price.

    cost : sum of the lines that are priced. margin_share : of the net price; markup_share : the same money as
    a share of the cost. rounding : what was added to come to a round price. net = cost + margin + rounding.
    tax, gross : None while no tax is named.
    """

    currency: str
    rate: Rate
    lines: tuple[Line, ...]
    cost: Money
    margin_share: Decimal | None
    margin: Money
    rounding: Money
    net: Money
    tax_share: Decimal | None
    tax: Money | None
    gross: Money | None
    hours: Decimal
    missing: tuple[Missing, ...] = ()

    @property
    def at_least(self) -> bool:
        """Whether something is not priced, so that the total is only a lower bound."""
        return bool(self.missing)

    @property
    def total(self) -> Money:
        """What is asked for: with tax where one is named."""
        return self.gross if self.gross is not None else self.net

    @property
    def markup_share(self) -> Decimal | None:
        """The margin as a share of the cost: 20 % of the price is 25 % on the cost."""
        return None if self.margin_share is None else self.margin_share / (1 - self.margin_share)

    def of(self, *groups: Group) -> Money:
        """Sum of the priced lines of these groups."""
        return summed(
            (line.amount for line in self.lines if line.group in groups and line.amount is not None),
            self.currency,
        )
