"""`prices.toml` beside the job: what holds for all jobs of the shop. `[price]` of a job goes before it."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from evenface.errors import Complaint, nearest_words
from evenface.piece.price_records import (
    Extra,
    Maker,
    MaterialPrice,
    Payment,
    PriceTable,
    RateTable,
    Terms,
)
from evenface.piece.reader import check_format, gathered
from evenface.piece.source_text import Source, parse, read_text
from evenface.piece.tables import against
from evenface.toml_places import key_path

if TYPE_CHECKING:
    from evenface.piece import price_forms as f

OWN_PRICES = "prices.toml"
"""A file of this name beside the job holds the maker's rate and prices."""
MATERIAL_KINDS = ("carrier", "facing", "wood", "glue", "finish")


class _Known(Protocol):
    def names(self, kind: str) -> tuple[str, ...]: ...


def open_prices(path: Path, known: _Known | None = None) -> PriceTable:
    """Read a file of prices. Raises FileError holding every complaint."""
    return read_prices(read_text(path), str(path), known)


def read_prices(text: str, file: str, known: _Known | None = None) -> PriceTable:
    """Read the text of a file of prices; with the catalogue the names of materials are looked up in it."""
    from evenface.piece.price_forms import PricesFileForm

    source = parse(text, file)
    check_format(source)
    complaints: list[Complaint] = []
    form = against(source, dict(source.data), PricesFileForm, (), complaints)
    made = table_of(form, source, "", complaints, known) if form is not None else None
    if complaints or made is None:
        raise gathered(source, complaints)
    return made


def table_of(
    form: "f.PriceForm", source: Source, base: str, complaints: list[Complaint], known: _Known | None
) -> PriceTable:
    """The record of a validated table that stands at the key path `base`; complaints are added."""
    _check_names(form, source, base, complaints, known)
    _check_payments(form, source, base, complaints)
    rate, maker, offer = form.rate, form.maker, form.offer
    return PriceTable(
        currency=form.currency,
        locale=form.locale,
        rate=RateTable(rate.hourly, rate.own_pay, dict(rate.fixed_costs), rate.weeks, rate.billable_hours),
        materials={
            name: MaterialPrice(one.price, one.per, one.size, one.covers, _path(base, "material", name))
            for name, one in form.material.items()
        },
        wood_waste=form.wood_waste,
        offcut_credit=form.offcut_credit,
        handling=form.handling,
        fittings_markup=form.fittings_markup,
        consumables=form.consumables,
        risk=dict(form.risk),
        contingency=form.contingency,
        margin=form.margin,
        tax=form.tax,
        round_to=form.round_to,
        delivery=form.delivery,
        fittings=_extras(form.fitting, base, "fitting"),
        subcontract=_extras(form.subcontract, base, "subcontract"),
        other=_extras(form.other, base, "other"),
        maker=Maker(maker.name, maker.address, maker.contact, maker.tax_number, maker.pay_to),
        terms=Terms(
            offer.valid_days,
            tuple(Payment(one.share, one.when) for one in offer.payment),
            offer.not_included,
            offer.notes,
            offer.client_address,
            offer.withdrawal,
            offer.size_tolerance,
        ),
        places=_places(source, base),
        file=source.file,
    )


def _extras(entries: Sequence["f.ExtraForm"], base: str, key: str) -> tuple[Extra, ...]:
    return tuple(
        Extra(one.name, one.price, one.count, f"{_path(base, key)}[{number}]")
        for number, one in enumerate(entries)
    )


def _path(base: str, *steps: str) -> str:
    return f"{base}.{key_path(steps)}" if base else key_path(steps)


def _places(source: Source, base: str) -> Mapping[str, str]:
    """Where each key of the table stands, by its path without the base."""
    head = f"{base}." if base else ""
    return {
        path.removeprefix(head): f"{source.file}, line {line}"
        for path, (line, _) in source.found.items()
        if path and path.startswith(head)
    }


def _check_names(
    form: "f.PriceForm", source: Source, base: str, complaints: list[Complaint], known: _Known | None
) -> None:
    words = tuple(n for kind in MATERIAL_KINDS for n in known.names(kind)) if known is not None else ()
    for name, one in form.material.items():
        path = _path(base, "material", name)
        if known is not None and name not in words and one.per != "piece":  # a fitting has any name
            hint = nearest_words(name, words)
            complaints.append(Complaint(source.place(path), "a material of the catalogue", repr(name), hint))
        if one.size is not None and one.per != "sheet":
            expected = 'a size only with per = "sheet"'
            complaints.append(Complaint(source.place(f"{path}.size"), expected, f"per = {one.per!r}"))


def _check_payments(form: "f.PriceForm", source: Source, base: str, complaints: list[Complaint]) -> None:
    total = sum(one.share for one in form.offer.payment)
    if form.offer.payment and total != 1:
        place = source.place(_path(base, "offer", "payment"))
        given = f"{total * 100:f}".rstrip("0").rstrip(".") + " %"
        complaints.append(Complaint(place, "payments that make 100 % together", given))
