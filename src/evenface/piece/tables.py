"""The tables of a job file but its pieces, each validated by itself, so that one slip hides no other."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from evenface.errors import Complaint, known_words, nearest_words
from evenface.piece.complaining import complaints_of
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.toml_places import Step
from evenface.words import said

if TYPE_CHECKING:
    from evenface.piece import forms as f
    from evenface.piece.calendar_forms import CalendarForm
    from evenface.piece.cutting_forms import CuttingForm
    from evenface.piece.price_forms import PriceForm

TOP_KEYS = (
    "format", "job", "allowances", "saw", "shop", "stock", "cutting", "calendar", "order", "price", "brief", "variant",
    "buildup", "piece",
)  # fmt: skip


@dataclass(slots=True)
class Tables:
    """What could be validated; None or missing where it could not.

    buildup_names : every build-up that is written, sound or not.
    """

    job: "f.JobTableForm | None"
    allowances: "f.AllowancesForm | None"
    saw: "f.SawForm | None"
    shop: "f.ShopForm | None"
    price: "PriceForm | None" = None
    cutting: "CuttingForm | None" = None
    calendar: "CalendarForm | None" = None
    stock: "list[tuple[int, f.StockForm]]" = field(default_factory=list)
    buildup: "dict[str, f.BuildUpForm]" = field(default_factory=dict)
    buildup_names: tuple[str, ...] = ()


def read_tables(source: Source, data: dict[str, Any], complaints: list[Complaint]) -> Tables:
    """Validate every table but the pieces."""
    from evenface.piece import forms

    for key in data:
        if key not in TOP_KEYS:
            hint = nearest_words(key, TOP_KEYS) or known_words(TOP_KEYS)
            complaints.append(Complaint(source.place(key), "a known key", shown(key), hint))
    buildups = _tables(source, data, "buildup", complaints)
    stock = data.get("stock", [])
    if not isinstance(stock, list):
        complaints.append(Complaint(source.place("stock"), "[[stock]] tables", shown(stock)))
        stock = []
    sound = {
        name: form
        for name, table in buildups.items()
        if (form := against(source, table, forms.BuildUpForm, ("buildup", name), complaints)) is not None
    }
    return Tables(
        job=against(source, data.get("job", {}), forms.JobTableForm, ("job",), complaints),
        allowances=against(
            source, data.get("allowances", {}), forms.AllowancesForm, ("allowances",), complaints
        ),
        saw=against(source, data.get("saw", {}), forms.SawForm, ("saw",), complaints),
        shop=against(source, data.get("shop", {}), forms.ShopForm, ("shop",), complaints),
        price=_price(source, data, complaints),
        cutting=_cutting(source, data, complaints),
        calendar=_calendar(source, data, complaints),
        stock=[
            (number, form)
            for number, table in enumerate(stock)
            if (form := against(source, table, forms.StockForm, ("stock", number), complaints)) is not None
        ],
        buildup=sound,
        buildup_names=tuple(buildups),
    )


def _price(source: Source, data: dict[str, Any], complaints: list[Complaint]) -> "PriceForm | None":
    """The table of money, where there is one."""
    if "price" not in data:
        return None
    from evenface.piece.price_forms import PriceForm

    form: PriceForm | None = against(source, data["price"], PriceForm, ("price",), complaints)
    return form


def _cutting(source: Source, data: dict[str, Any], complaints: list[Complaint]) -> "CuttingForm | None":
    """The table of cutting, where there is one."""
    if "cutting" not in data:
        return None
    from evenface.piece.cutting_forms import CuttingForm

    form: CuttingForm | None = against(source, data["cutting"], CuttingForm, ("cutting",), complaints)
    return form


def _calendar(source: Source, data: dict[str, Any], complaints: list[Complaint]) -> "CalendarForm | None":
    """The table of days and hours, where there is one."""
    if "calendar" not in data:
        return None
    from evenface.piece.calendar_forms import CalendarForm

    form: CalendarForm | None = against(source, data["calendar"], CalendarForm, ("calendar",), complaints)
    return form


def _tables(source: Source, data: dict[str, Any], key: str, complaints: list[Complaint]) -> dict[str, Any]:
    given = data.get(key, {})
    if isinstance(given, dict):
        return given
    complaints.append(
        Complaint(source.place(key), said("tables such as [{key}.bench]", key=key), shown(given))
    )
    return {}


def against(
    source: Source, data: object, form: type[Any], base: tuple[Step, ...], complaints: list[Complaint]
) -> Any:
    """The validated form, or None with its complaints added."""
    from pydantic import ValidationError

    try:
        return _adapter(form).validate_python(data)
    except ValidationError as fault:
        errors: Any = fault.errors(include_url=False)
        complaints.extend(complaints_of(errors, source, base, form))
    return None


_ADAPTERS: dict[type[Any], Any] = {}


def _adapter(form: type[Any]) -> Any:
    from pydantic import TypeAdapter

    if form not in _ADAPTERS:
        _ADAPTERS[form] = TypeAdapter(form)
    return _ADAPTERS[form]
