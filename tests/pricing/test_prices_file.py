"""`prices.toml` and `[price]` of a job: read into one table, slips named with file, line and key."""

import pytest
from pricing.pricing_hands import D

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.prices import read_prices

JOB = """format = 1
[job]
name = "Drying rack"
[buildup.shelf]
carrier = "birch-ply-18"
glue = "pva-d3"
[[piece]]
name = "Rack"
  [[piece.panel]]
  name = "shelf"
  buildup = "shelf"
  size = [700, 300]
"""
WHOLE = """format = 1
currency = "SEK"
locale = "sv-SE"
margin = "20 %"
tax = 0.25
risk = { "bond the facings" = "15 %" }
[rate]
own_pay = 420000
fixed_costs = { rent = 84000.50 }
weeks = 42
billable_hours = 22.5
[material."hpl-0.8"]
price = 640.35
per = "sheet"
size = [3050, 1300]
[maker]
name = "Hammar & Lind"
[[offer.payment]]
share = "40 %"
when = "with the order"
[[offer.payment]]
share = 0.6
when = "on delivery"
"""


def test_every_key_is_read_as_written_and_amounts_are_exact():
    table = read_prices(WHOLE, "prices.toml", load_catalogue())
    assert (table.currency, table.locale) == ("SEK", "sv_SE")
    assert (table.margin, table.tax) == (D("0.2"), D("0.25"))
    assert table.rate.fixed_costs == {"rent": D("84000.5")}
    assert table.materials["hpl-0.8"].price == D("640.35")
    assert table.materials["hpl-0.8"].size_mm == (3050.0, 1300.0)
    assert [one.share for one in table.terms.payments] == [D("0.4"), D("0.6")]
    assert table.places["margin"] == "prices.toml, line 4"


@pytest.mark.parametrize(
    ("line", "key", "told"),
    [
        ("margin = 1.0", "margin", "below 100 %"),
        ('margin = "100 %"', "margin", "below 100 %"),
        ('margin = "140 %"', "margin", "below 100 %"),
        ("margin = 20", "margin", 'such as "20 %"'),
        ("margin = -0.2", "margin", "0 or more"),
        ("wood_waste = 1", "wood_waste", "below 100 %"),
        ("delivery = -50", "delivery", "amount of 0 or more"),
        ('delivery = "free"', "delivery", "a number"),
        ("delivery = nan", "delivery", "thousand million"),
        ("delivery = true", "delivery", "a number"),
        ("rate.hourly = 0", "rate.hourly", "above 0"),
        ("rate.hourly = -45", "rate.hourly", "above 0"),
        ("rate.own_pay = -1", "rate.own_pay", "0 or more"),
        ("rate.fixed_costs = { rent = -3 }", "rate.fixed_costs.rent", "0 or more"),
        ("rate.weeks = 60", "rate.weeks", "53"),
        ('currency = "XQZ"', "currency", '"EUR"'),
        ('locale = "zz_QQ"', "locale", '"da_DK"'),
        ('material."hpl-0.8" = { price = -1, per = "sheet" }', 'material."hpl-0.8".price', "0 or more"),
        ('material."hpl-0.8" = { per = "sheet" }', "price", "the key 'price'"),
        ('material."hpl-0.8" = { price = 1, per = "yard" }', "per", "one of sheet"),
        ('material."hpl-08" = { price = 1, per = "m2" }', "material.hpl-08", "hpl-0.8"),
        ('fitting = [{ name = "leg", price = -4 }]', "fitting[0].price", "0 or more"),
        ("marign = 0.2", "marign", "'margin'"),
    ],
)
def test_what_cannot_be_meant_is_named_with_file_line_and_key(line, key, told):
    with pytest.raises(FileError) as fault:
        read_prices(f"format = 1\n\n{line}\n", "prices.toml", load_catalogue())
    (complaint,) = fault.value.complaints
    assert (complaint.place.file, complaint.place.line) == ("prices.toml", 3)
    assert complaint.place.key.endswith(key)
    assert told in str(complaint)


def test_payments_make_the_whole():
    text = 'format = 1\noffer.payment = [{ share = 0.5, when = "first" }, { share = 0.4, when = "last" }]\n'
    with pytest.raises(FileError, match=r"line 2.*100 % together; given 90 %"):
        read_prices(text, "prices.toml")


def test_the_job_goes_before_the_file_key_by_key():
    usual = read_prices(WHOLE, "prices.toml")
    more = "[price]\nmargin = 0.3\ndelivery = 400\nrate.hourly = 610\n"
    more += 'material."mdf-19" = { price = 300, per = "sheet" }\n'
    job = read_job(JOB + more, "job.toml", load_catalogue(), KINDS)
    table = job.price.over(usual)
    assert (table.margin, table.tax, table.delivery) == (D("0.3"), D("0.25"), D(400))
    assert (table.rate.hourly, table.rate.weeks) == (D(610), D(42))
    assert set(table.materials) == {"mdf-19", "hpl-0.8"}
    assert table.maker.name == "Hammar & Lind"


def test_a_job_without_prices_and_a_slip_in_those_of_a_job():
    assert read_job(JOB, "job.toml", load_catalogue(), KINDS).price.margin is None
    with pytest.raises(
        FileError, match=r"job.toml, line 14, column 1, price.margin: expected a share below 100 %"
    ):
        read_job(JOB + "[price]\nmargin = 1\n", "job.toml", load_catalogue(), KINDS)
