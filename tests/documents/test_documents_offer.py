"""Offer and the papers after it: what a client reads, with this job's own numbers, and sums that close."""

import csv
import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from pypdf import PdfReader

from evenface.construction import Axis, Fitting, Gap
from evenface.documents.approval import approval_pdf
from evenface.documents.invoice_csv import NotPriced, invoice_text
from evenface.documents.letters import Letterhead, letter_pngs
from evenface.documents.money_text import money_text
from evenface.documents.movement_words import movement
from evenface.documents.numbered import KeepingError, keep, kept
from evenface.documents.offer import Offered, alike_parts, offer_blocks, offer_pdf, payments_table
from evenface.documents.offer_words import tolerances, what_is_what
from evenface.documents.order_papers import confirmation_pdf, delivery_pdf
from evenface.documents.pictures import pictures_of
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import price_job, prices_for
from evenface.job.sketch import sketch
from evenface.piece.price_records import Maker, Payment, Terms
from evenface.pricing import Missing, Money
from evenface.words import said, say
from evenface.workplan import Work

JOB = """format = 1
[job]
name = "Glaze corner"
client = "Ottoline Birk"
place = "copenhagen"
room = "heated-home"
currency = "SEK"
[buildup.bench]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
finish = "hard-wax-oil"
edging = { wood = "ash", width = 20, section = "flush" }
[[piece]]
name = "Bench"
  [[piece.panel]]
  name = "top"
  use = "top"
  buildup = "bench"
  size = [1400, 620]
  limit = { mm = 1.7, gauge = 1000 }
    [[piece.panel.cutout]]
    name = "basin"
    at = [900, 310]
    size = [400, 350]
    radius = 20
    service = "water"
  [[piece.panel]]
  name = "door 1"
  use = "door"
  buildup = "bench"
  size = [600, 400]
  [[piece.panel]]
  name = "door 2"
  like = "door 1"
[price]
margin = "20 %"
tax = "25 %"
locale = "sv_SE"
rate.hourly = 565
material."hpl-0.8" = { price = 190, per = "m2" }
material."birch-ply-18" = { price = 640, per = "sheet" }
material."ash" = { price = 14000, per = "m3" }
material."pva-d3" = { price = 82, per = "kg" }
material."hard-wax-oil" = { price = 45, per = "m2" }
[price.maker]
name = "Hestelund = Workshop"
tax_number = "SE0000"
[price.offer]
size_tolerance = 0.8
"""


@pytest.fixture(scope="module")
def corner(tmp_path_factory):
    path = tmp_path_factory.mktemp("corner") / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    opened = open_with_all(path)
    result = plan(opened, 0.3)
    terms = prices_for(opened)
    table = terms.table
    head = Letterhead(
        opened.job.name, "0007", date(2027, 1, 4), table.maker, opened.job.client, (), table.locale
    )
    price = price_job(opened, result, terms)
    offered = Offered(
        head, result.sketch, price, table, {"bench": "Hard-wax oil"}, date(2027, 2, 1), date(2027, 2, 26)
    )
    return offered, pictures_of(result)


def text_of(pdf):
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    return " ".join(text.replace("\u00a0", " ").replace("\u202f", " ").split())


def flat(text):
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def test_the_offer_says_price_day_limits_and_movement_with_the_numbers_of_this_job(corner):
    offered, drawn = corner
    text = text_of(offer_pdf(offered, drawn))
    price = offered.price
    for wanted in (
        flat(money_text(price.net, "sv_SE")),
        flat(money_text(price.gross, "sv_SE")),
        "holds until 3 February 2027",
        "begin on 1 February 2027 and are ready on 26 February 2027",
        "±0.8 mm",
        "no more than 1.7 mm along a straightedge of 1000 mm",
        "20 mm of European ash",
        "work for a licensed plumber",
        "besides: delivery, setting level, scribing and fixing where it stands",
        "door 1, door 2",
        "1400 × 620 × 19.5",
    ):
        assert wanted in text, wanted


def test_an_offer_shows_no_cost_and_no_margin(corner):
    offered, drawn = corner
    text = text_of(offer_pdf(offered, drawn)).lower()
    assert "margin" not in text
    assert flat(money_text(offered.price.cost, "sv_SE")) not in text
    assert "565" not in text


def test_what_has_hours_or_a_price_is_included_and_not_excluded(corner):
    offered, drawn = corner
    away = (Work.DELIVER, Work.FIT_ON_SITE)
    lines = tuple(line for line in offered.price.lines if line.work not in away)
    fetched = replace(offered, price=replace(offered.price, lines=lines))
    text = text_of(offer_pdf(fetched, drawn))
    assert "fetched at the workshop" in text
    assert "Fixing to walls" in text
    brought = text_of(offer_pdf(replace(fetched, table=replace(offered.table, delivery=Decimal(700))), drawn))
    assert "besides: delivery." in brought
    assert "fetched at the workshop" not in brought
    both = text_of(offer_pdf(offered, drawn))
    assert "fetched at the workshop" not in both
    assert "Fixing to walls" not in both


def test_the_makers_own_terms_go_before_the_usual_ones(corner):
    offered, drawn = corner
    terms = Terms(
        valid_days=60,
        payments=(Payment(Decimal(1), "thirty days after delivery"),),
        not_included=("The tiles.",),
        withdrawal="Sold as seen.",
    )
    text = text_of(offer_pdf(replace(offered, table=replace(offered.table, terms=terms)), drawn))
    for wanted in ("5 March 2027", "thirty days after delivery", "The tiles.", "Sold as seen.", "±1 mm"):
        assert wanted in text
    assert "disposal" not in text


@pytest.mark.parametrize("shares", [("0.4", "0.6"), ("0.333", "0.333", "0.334"), ("0.07", "0.93")])
def test_payments_close_with_the_price(corner, shares):
    offered, _ = corner
    odd = replace(offered.price, gross=Money(Decimal("10000.01"), "SEK"))
    terms = Terms(payments=tuple(Payment(Decimal(share), "then") for share in shares))
    made = replace(offered, price=odd, table=replace(offered.table, terms=terms, locale=""))
    made = replace(made, head=replace(made.head, locale="en_GB"))
    paid = [Decimal(row[2].removeprefix("SEK").replace(",", "").strip()) for row in payments_table(made).rows]
    assert sum(paid) == Decimal("10000.01")


def test_what_is_not_priced_is_said_on_the_paper(corner):
    offered, drawn = corner
    open_price = replace(offered.price, missing=(Missing(said("bent glass"), "subcontract"),))
    text = text_of(offer_pdf(replace(offered, price=open_price), drawn))
    assert "not priced yet: bent glass" in text


def test_the_same_offer_twice_is_the_same_file(corner):
    offered, drawn = corner
    assert offer_pdf(offered, drawn) == offer_pdf(offered, drawn)


def test_markup_in_names_is_set_as_text(corner):
    offered, drawn = corner
    sly = replace(offered.head, job="#panic() *x* $y$", client='"] #read("x")', maker=Maker("@a <b> \\ `c`"))
    text = text_of(offer_pdf(replace(offered, head=sly), drawn))
    assert "#panic() *x* $y$" in text
    assert '"] #read("x")' in text


def test_approval_has_a_page_for_each_part_that_differs_and_every_sample(corner):
    offered, drawn = corner
    assert [[part.name for part in alike] for alike in alike_parts(offered.sketch)] == [
        ["top"],
        ["door 1", "door 2"],
    ]
    pages = [text_of_page(page) for page in PdfReader(io.BytesIO(approval_pdf(offered, drawn))).pages]
    assert "European ash" in pages[0]
    assert sum("with these changes" in page for page in pages) == 2
    assert any("edge section" in page and "1:1" in page for page in pages[1:])


def text_of_page(page):
    return " ".join(page.extract_text().split())


def test_confirmation_and_delivery_note(corner):
    offered, _ = corner
    confirmed = text_of(confirmation_pdf(offered, "0007"))
    assert "as offered under number 0007" in confirmed
    assert flat(money_text(offered.price.gross, "sv_SE")) in confirmed
    delivered = text_of(delivery_pdf(offered, "0008"))
    assert "To order 0008." in delivered
    assert "Care sheet" in delivered
    assert flat(money_text(offered.price.gross, "sv_SE")) not in delivered


# --- invoice ------------------------------------------------------------------------------------------


def rows_of(text):
    assert text.startswith("\ufeff")
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"))))


def test_rows_of_the_invoice_add_up_and_no_cell_is_a_formula(corner):
    offered, _ = corner
    sly = replace(
        offered, head=replace(offered.head, client="=HYPERLINK(1)", job="-2+3", maker=Maker("@maker"))
    )
    rows = rows_of(invoice_text(sly))
    for column, whole in (
        ("net", offered.price.net),
        ("tax", offered.price.tax),
        ("gross", offered.price.gross),
    ):
        assert sum(Decimal(row[column]) for row in rows) == whole.amount
    assert all(Decimal(row["net"]) + Decimal(row["tax"]) == Decimal(row["gross"]) for row in rows)
    assert rows[0]["client"] == "'=HYPERLINK(1)"
    assert rows[0]["description"] == "'-2+3"
    assert rows[0]["maker"] == "'@maker"
    assert (rows[0]["date"], rows[0]["currency"], rows[0]["tax_rate"]) == ("2027-01-04", "SEK", "0.25")


def test_no_invoice_for_a_price_that_is_not_whole(corner):
    offered, _ = corner
    with pytest.raises(NotPriced, match=r"material\.x"):
        invoice_text(
            replace(offered, price=replace(offered.price, missing=(Missing(said("x"), "material.x"),)))
        )


# --- kept ---------------------------------------------------------------------------------------------


def test_papers_are_numbered_and_never_written_over(tmp_path):
    first = keep(tmp_path, "offer", lambda number: {"offer.pdf": number.encode()})
    second = keep(tmp_path, "change", lambda number: {"change.pdf": number.encode()})
    assert [one[:2] for one in kept(tmp_path)] == [("0001", "offer"), ("0002", "change")]
    assert (first / "offer.pdf").read_bytes() == b"0001"
    assert not (first / "offer.pdf").stat().st_mode & 0o222
    assert second.name == "0002-change"
    assert {one.name for one in tmp_path.iterdir()} == {"0001-offer", "0002-change"}


def test_a_number_taken_while_the_papers_are_made_is_left_alone(tmp_path):
    def papers(number):
        if number == "0001":
            (tmp_path / "0001-offer").mkdir()
            (tmp_path / "0001-offer" / "offer.pdf").write_bytes(b"another's")
        return {"offer.pdf": number.encode()}

    place = keep(tmp_path, "offer", papers)
    assert place.name == "0002-offer"
    assert (tmp_path / "0001-offer" / "offer.pdf").read_bytes() == b"another's"


def test_a_stop_while_writing_leaves_nothing_half_done_and_uses_up_at_most_a_number(tmp_path):
    def broken(number):
        raise RuntimeError(number)

    with pytest.raises(RuntimeError):
        keep(tmp_path, "offer", broken)
    assert list(tmp_path.iterdir()) == []
    (tmp_path / ".0001.claim").touch()  # as left by a machine that lost its power
    assert keep(tmp_path, "offer", lambda number: {"offer.pdf": b""}).name == "0002-offer"


def test_a_folder_that_is_a_file_is_told(tmp_path):
    place = tmp_path / "offers"
    place.write_text("")
    with pytest.raises(KeepingError, match="--out"):
        keep(place, "offer", lambda number: {})


def test_a_part_that_may_bend_beyond_its_limit_is_told_once_and_no_balance_is_claimed(tmp_path):
    path = tmp_path / "job.toml"
    one_sided = JOB.replace('back = "hpl-0.8"\n', "").replace("[600, 400]", "[2000, 600]")
    path.write_text(one_sided, encoding="utf-8")
    opened = open_with_all(path)
    drafted = sketch(opened)
    told = [say(one) for one in tolerances(drafted, opened.job.price)]
    assert sum("door 1 (Bench) may go beyond this" in one for one in told) == 1
    assert not any("comes nearest" in one for one in told)
    assert not any("Both faces" in say(one) for one in what_is_what(drafted.constructions))


def test_balance_is_told_where_both_faces_are_covered(corner):
    assert any("Both faces" in say(one) for one in what_is_what(corner[0].sketch.constructions))


def test_gaps_that_move_are_told_with_their_year_and_still_ones_are_not(corner):
    offered, _ = corner
    (bench,) = offered.sketch.constructions
    gaps = (
        Gap("gap between the doors", Axis.RIGHT, 3.0, ("door 1", "door 2"), 2.4, 3.3),
        Gap("gap below", Axis.UP, 2.0, ("door 1", "outside")),
    )
    moving = replace(
        offered.sketch, constructions=(replace(bench, arranged=replace(bench.arranged, gaps=gaps)),)
    )
    told = [say(one) for one in movement(moving)]
    assert "Bench, gap between the doors: 3 mm as drawn, between 2.4 mm and 3.3 mm through the year." in told
    assert not any("gap below" in one for one in told)


def test_fittings_of_a_piece_come_with_it(corner):
    offered, _ = corner
    (bench,) = offered.sketch.constructions
    fitted = replace(bench, arranged=replace(bench.arranged, fittings=(Fitting("hinge", 4),)))
    made = replace(offered, sketch=replace(offered.sketch, constructions=(fitted,)))
    assert "4 × hinge" in text_of(delivery_pdf(made))


def test_the_pages_on_a_screen_are_those_of_the_paper(corner):
    offered, drawn = corner
    pages = letter_pngs("Offer", offered.head, offer_blocks(offered, drawn))
    assert len(pages) == len(PdfReader(io.BytesIO(offer_pdf(offered, drawn))).pages)
    assert all(page.startswith(b"\x89PNG") for page in pages)


def test_a_piece_that_stands_as_a_whole_is_drawn_as_one_and_the_address_can_be_copied(tmp_path):
    from pathlib import Path

    from evenface.interfaces.offering import offered_of

    opened = open_with_all(Path("examples/wall-cupboard.toml"))
    result = plan(opened, budget_s=0.1)
    terms = prices_for(opened)
    offered = offered_of(opened, result, terms, price_job(opened, result, terms), "0001")
    text = text_of(offer_pdf(offered, pictures_of(result)))
    assert "from the front" in text
    assert "from the right" in text
    assert "plan, show face up" not in text
    assert "workshop@hestelund.example" in text
    assert text.count("solid ") <= 2  # solid parts stand together, by their wood
