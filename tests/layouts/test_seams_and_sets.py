"""Facings longer than their sheet, and parts that come from one sheet."""

from dataclasses import replace
from decimal import Decimal

import pytest
from jobs_by_hand import job, layers, panel

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all, verify
from evenface.layouts.demand import demands_of
from evenface.layouts.joined import seam_sum
from evenface.layouts.sets import sets_that_fit
from evenface.materials import Carrier, Facing, load_catalogue
from evenface.parts import parts_of
from evenface.parts.seams import AT_SEAM_MM, FROM_JOINT_MM, Seamed, seams_of
from evenface.piece.cutting_records import USUAL_CUTTING
from evenface.piece.records import Allowances, Cutout, Panel, Role, Side, StockItem
from evenface.shape.build import rounded_rectangle

OVER = Allowances(overhang_mm=dict.fromkeys(Side, 4.0))
STOCK = (StockItem("hpl-0.8", 3050.0, 1300.0, origin="stock[0]"), StockItem("birch-ply-18", 2500.0, 1250.0))


def long_panel(length_mm: float = 3400.0, **other: object) -> Panel:
    return panel(length_mm=length_mm, width_mm=620.0, allowances=OVER, **other)


def demands(one: Panel) -> dict[str, Demand]:
    asked = job(one, buildup=layers("hpl-0.8", "hpl-0.8"), stock=STOCK)
    made = construct(asked, load_catalogue(), KINDS)
    panels = made[0].panels
    materials: dict[str, Carrier | Facing] = {}
    for built in panels:
        materials[built.carrier.material.name] = built.carrier.material
        for role in (Role.FACE, Role.BACK):
            sheet = built.face(role)
            if sheet is not None:
                materials[sheet.material.name] = sheet.material
    return {d.material: d for d in demands_of(asked, parts_of(made), materials, panels)}


def seams(one: Panel, role: Role) -> Seamed | None:
    asked = job(one, buildup=layers("hpl-0.8", "hpl-0.8"), stock=STOCK)
    made = construct(asked, load_catalogue(), KINDS)
    (built,), (part,) = made[0].panels, parts_of(made)
    face = built.face(role)
    material = built.carrier.material if face is None else face.material
    layer = part.layer(role)
    assert layer is not None
    return seams_of(asked, built, part, layer, material)


def test_carrier_in_the_middle_and_facing_clear_of_its_joint() -> None:
    carrier, face = seams(long_panel(), Role.CARRIER), seams(long_panel(), Role.FACE)
    assert carrier is not None
    assert face is not None
    assert carrier.at_mm == pytest.approx((1700.0,))
    assert abs(face.at_mm[0] - 1700.0) == pytest.approx(FROM_JOINT_MM)


def test_each_part_is_a_blank_and_they_add_up() -> None:
    found = demands(long_panel())["hpl-0.8"]
    assert [blank.id for blank in found.blanks] == [
        "1.1 back 1/2", "1.1 back 2/2", "1.1 face 1/2", "1.1 face 2/2",
    ]  # fmt: skip
    for layer in ("face", "back"):
        # 3400 and 4 over at each end, 5 on each side of the seam
        assert seam_sum(found.blanks, f"1.1 {layer}", True) == round((3400 + 8 + 2 * AT_SEAM_MM) * 100)
    (layout,) = solve_all((found,), budget_s=0.0)
    assert not verify(found, layout)
    assert len({piece.blank for sheet in layout.sheets for piece in sheet.placed}) == 4


def test_no_seam_near_a_sink_nor_where_it_is_forbidden() -> None:
    sink = Cutout("sink", rounded_rectangle(500, 400, 20).moved(1400, 100), origin="cutout")
    found = seams(long_panel(cutouts=(sink,)), Role.CARRIER)
    assert found is not None
    assert found.at_mm[0] <= 1400 - 250 or found.at_mm[0] >= 1900 + 250
    assert found.nearest_mm == pytest.approx(250.0)
    assert seams(long_panel(seams_mm=None), Role.CARRIER) is None
    # a cut-out nearly as long as the panel leaves no place
    slot = Cutout("slot", rounded_rectangle(2900, 100, 20).moved(250, 100), origin="cutout")
    assert seams(long_panel(cutouts=(slot,)), Role.CARRIER) is None


def test_three_parts_are_even_and_the_maker_s_own_place_is_taken() -> None:
    three = seams(long_panel(6000.0), Role.CARRIER)
    assert three is not None
    assert three.at_mm == pytest.approx((2000.0, 4000.0))
    own = seams(long_panel(seams_mm=(1000.0,)), Role.CARRIER)
    assert own is not None
    assert own.stated
    assert own.sizes_mm == pytest.approx((1000 + AT_SEAM_MM, 2400 + AT_SEAM_MM))
    assert seams(long_panel(seams_mm=(600.0,)), Role.CARRIER) is None  # leaves 2800 of a sheet of 2480


SHEET = StockSize("s", "board", "sheet", 200_000, 100_000, trim=1_000)


def test_a_set_comes_from_one_sheet() -> None:
    # by itself the plan would put the two long ones on sheets of their own to fill them best
    pair = Blank("d", "1.1", "face", 90_000, 60_000, 2, same="doors")
    rest = (Blank("r", "1.2", "face", 100_000, 60_000, 2), Blank("q", "1.3", "face", 95_000, 35_000, 4))
    one = Demand("board", (pair, *rest), (SHEET,), Saw())
    (layout,) = solve_all((one,), budget_s=0.5)
    assert not verify(one, layout)
    on = {n for n, sheet in enumerate(layout.sheets) for piece in sheet.placed if piece.blank == "d"}
    assert len(on) == 1
    assert layout.unplaced == ()


def test_a_set_too_large_for_a_sheet_is_told_and_laid_out_freely() -> None:
    blanks = (Blank("d", "1.1", "face", 190_000, 60_000, 2, same="doors"),)
    kept, findings = sets_that_fit(blanks, (SHEET,), Saw(), "board")
    assert [finding.code for finding in findings] == ["layout.not_one_sheet"]
    assert kept[0].same == ""
    kept, findings = sets_that_fit((replace(blanks[0], count=1),), (SHEET,), Saw(), "board")
    assert [finding.code for finding in findings] == ["layout.one_sheet"]
    assert kept[0].same == "doors"


def test_the_panels_name_sets_face_and_back_together() -> None:
    found = demands(panel(length_mm=900.0, width_mm=400.0, same_sheet="pair"))["hpl-0.8"]
    assert {(blank.layer, blank.same) for blank in found.blanks} == {("face", "pair"), ("back", "pair")}


def test_a_rest_without_a_price_costs_what_rests_are_worth() -> None:
    stock = (
        StockItem("birch-ply-18", 2500.0, 1250.0, price=Decimal(600)),
        StockItem("birch-ply-18", 1200.0, 700.0, 1, form="offcut"),
    )
    one = panel(length_mm=900.0, width_mm=400.0)
    for value, bought in ((Decimal(100), "#2"), (Decimal(1000), "#1")):
        asked = job(one, stock=stock, cutting=replace(USUAL_CUTTING, offcut_value=value))
        made = construct(asked, load_catalogue(), KINDS)
        (built,) = made[0].panels
        materials = {built.carrier.material.name: built.carrier.material}
        materials |= {face.material.name: face.material for face in built.faces}  # type: ignore[dict-item]
        found = next(
            d for d in demands_of(asked, parts_of(made), materials, [built]) if d.material == "birch-ply-18"
        )
        assert found.stock[1].price == value * Decimal("0.84")
        (layout,) = solve_all((found,), budget_s=0.0)
        assert [name[-2:] for name in layout.bought.by_stock] == [bought]
