"""Tables of money as they are written: `[price]` of a job file, and the whole of `prices.toml`."""

from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from evenface.errors import Unreadable
from evenface.piece.fields import Count, Currency, Line, Size, Word
from evenface.piece.form import Form
from evenface.piece.showing import shown
from evenface.words import said

LONGEST_PROSE = 1000
MOST = Decimal(10) ** 9


def _number(given: object) -> Decimal:
    """A decimal of what TOML gave; text is taken only where it is a plain number."""
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise Unreadable("a number", shown(given))
    try:
        number = Decimal(str(given).strip().replace(",", "."))
    except (InvalidOperation, ValueError):
        raise Unreadable("a number", shown(given)) from None
    if not number.is_finite() or abs(number) > MOST:
        raise Unreadable("a number of at most a thousand million", shown(given))
    return number


def _amount(given: object) -> Decimal:
    number = _number(given)
    if number < 0:
        raise Unreadable("an amount of 0 or more", shown(given))
    return number


def _above_zero(given: object) -> Decimal:
    number = _number(given)
    if number <= 0:
        raise Unreadable("a number above 0", shown(given))
    return number


def _share(given: object) -> Decimal:
    """A fraction such as 0.2, or a text in percent."""
    if isinstance(given, str):
        percent = given.strip()
        if not percent.endswith("%"):
            raise Unreadable('a share such as 0.2 or "20 %"', shown(given))
        share = _number(percent.removesuffix("%")) / 100
    else:
        share = _number(given)
        if share > 1:
            raise Unreadable('a share such as 0.2, or a text such as "20 %"', shown(given))
    if share < 0:
        raise Unreadable("a share of 0 or more", shown(given))
    return share


def _below_one(given: object) -> Decimal:
    share = _share(given)
    if share >= 1:
        raise Unreadable("a share below 100 %, for it is taken of what is paid", shown(given))
    return share


def _locale(text: str) -> str:
    from babel import Locale, UnknownLocaleError

    try:
        if text:
            Locale.parse(text.replace("-", "_"))
    except (UnknownLocaleError, ValueError):
        raise Unreadable('a language and country such as "da_DK" or "en_GB"', shown(text)) from None
    return text.replace("-", "_")


def _known_currency(code: str) -> str:
    from babel.numbers import is_currency

    if not is_currency(code):
        raise Unreadable('the code of a currency such as "EUR" or "DKK"', shown(code))
    return code


def _prose(given: object) -> str:
    """Some sentences on one line."""
    if not isinstance(given, str):
        raise Unreadable("a text", shown(given))
    text = " ".join(given.split())
    if len(text) > LONGEST_PROSE or (text and not text.isprintable()):
        raise Unreadable(
            said("at most {most} printable characters", most=LONGEST_PROSE),
            shown(text[:40]),
        )
    return text


Prose = Annotated[str, BeforeValidator(_prose)]
Amount = Annotated[Decimal, BeforeValidator(_amount)]
AboveZero = Annotated[Decimal, BeforeValidator(_above_zero)]
Share = Annotated[Decimal, BeforeValidator(_share)]
ShareBelowOne = Annotated[Decimal, BeforeValidator(_below_one)]
Locale = Annotated[Line, AfterValidator(_locale)]
KnownCurrency = Annotated[Currency, AfterValidator(_known_currency)]
Per = Literal["sheet", "m2", "m", "m3", "kg", "l", "piece"]


@dataclass(frozen=True, kw_only=True)
class RateForm(Form):
    hourly: AboveZero | None = None
    own_pay: Amount | None = None
    fixed_costs: dict[str, Amount] = field(default_factory=dict)
    weeks: Annotated[AboveZero, Field(le=53)] | None = None
    billable_hours: Annotated[AboveZero, Field(le=168)] | None = None


@dataclass(frozen=True, kw_only=True)
class MaterialPriceForm(Form):
    price: Amount
    per: Per
    size: tuple[Size, Size] | None = None
    covers: AboveZero | None = None


@dataclass(frozen=True, kw_only=True)
class ExtraForm(Form):
    name: Word
    price: Amount | None = None
    count: Count = 1


@dataclass(frozen=True, kw_only=True)
class MakerForm(Form):
    name: Line = ""
    address: tuple[Line, ...] = ()
    contact: Line = ""
    tax_number: Line = ""
    pay_to: Line = ""


@dataclass(frozen=True, kw_only=True)
class PaymentForm(Form):
    share: Share
    when: Word


@dataclass(frozen=True, kw_only=True)
class TermsForm(Form):
    valid_days: Count | None = None
    payment: tuple[PaymentForm, ...] = ()
    not_included: tuple[Prose, ...] = ()
    notes: tuple[Prose, ...] = ()
    client_address: tuple[Line, ...] = ()
    withdrawal: Prose = ""
    size_tolerance: Size | None = None


@dataclass(frozen=True, kw_only=True)
class PriceForm(Form):
    """`[price]` of a job file; `prices.toml` has the same keys at its top."""

    currency: KnownCurrency = ""
    locale: Locale = ""
    rate: RateForm = field(default_factory=RateForm)
    material: dict[str, MaterialPriceForm] = field(default_factory=dict)
    wood_waste: ShareBelowOne | None = None
    offcut_credit: Share | None = None
    handling: Share | None = None
    fittings_markup: Share | None = None
    consumables: Share | None = None
    risk: dict[str, Share] = field(default_factory=dict)
    contingency: Share | None = None
    margin: ShareBelowOne | None = None
    tax: Share | None = None
    round_to: AboveZero | None = None
    delivery: Amount | None = None
    fitting: tuple[ExtraForm, ...] = ()
    subcontract: tuple[ExtraForm, ...] = ()
    other: tuple[ExtraForm, ...] = ()
    maker: MakerForm = field(default_factory=MakerForm)
    offer: TermsForm = field(default_factory=TermsForm)


@dataclass(frozen=True, kw_only=True)
class PricesFileForm(PriceForm):
    format: Annotated[int, Field(strict=True)]
