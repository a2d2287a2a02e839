"""A template for each curve with the tools of the shop; what they cannot cut is a finding."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from math import floor

from evenface.construction import BuiltPanel, Construction
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Job, Shop
from evenface.shape.cutter import ROTATION_LIMITS, Cutter, passes, reach_left, rotation_limit
from evenface.shape.faults import ShapeError, need
from evenface.shape.outline import Outline
from evenface.shape.template import Guide, Template, template_for
from evenface.shape.template_board import corner_holes, template_board
from evenface.shape.template_pair import Pair, paired
from evenface.shape.template_way import bends_of, template_along
from evenface.templates.records import Curve, RoutedTemplate
from evenface.templates.wanted import curves_of
from evenface.words import Said, listed, said

ANY_LENGTH_MM = 1000.0
"""Length of a cutter nobody has measured: its reach is not judged."""
LARGEST_MM = ROTATION_LIMITS[-1][0]
COLLAR_MM = 1.5
"""A bush's collar and the air round a cutter in it, on each side: common practice."""


def templates_of(
    job: Job, constructions: Sequence[Construction]
) -> tuple[tuple[RoutedTemplate, ...], tuple[Finding, ...]]:
    """Every template of the job, alike ones of a piece once, and findings `template.*`."""
    made: list[RoutedTemplate] = []
    findings: list[Finding] = []
    seen: set[tuple[object, ...]] = set()
    for panel in (panel for construction in constructions for panel in construction.panels):
        for curve in curves_of(panel):
            alike = (
                curve.piece,
                curve.what,
                curve.name,
                curve.work,
                curve.part,
                curve.depth_mm,
                curve.lies_on,
            )
            if alike in seen:
                continue
            seen.add(alike)
            try:
                made.append(_made(job.shop, curve))
            except ShapeError as fault:
                findings.append(_refused(job.shop, panel, curve, fault))
            findings += _reach(job.shop, panel, curve)
    return tuple(made), _told_once(findings)


def _told_once(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Of a grip's two hands, and of a recess and its insert, the first that cannot be made speaks for both."""
    return tuple({(one.code, one.origin, one.value, one.part): one for one in reversed(findings)}.values())[
        ::-1
    ]


def guide_of(shop: Shop) -> Guide:
    """The bearing where one is named, else the bush."""
    if shop.bearing_mm is not None:
        return Guide(shop.bearing_mm, "bearing")
    return Guide(shop.bush_mm, "bush")


def cutter_of(shop: Shop, diameter_mm: float | None = None) -> Cutter:
    """A straight cutter of the shop's diameter, or of the one given."""
    diameter = shop.cutter_mm if diameter_mm is None else diameter_mm
    return Cutter(diameter, shop.reach_mm or ANY_LENGTH_MM, name=f"{diameter:g} mm cutter")


@lru_cache(maxsize=512)
def _made(shop: Shop, curve: Curve) -> RoutedTemplate:
    guide, cutter = guide_of(shop), cutter_of(shop, curve.cutter_mm)
    need(
        rotation_limit(cutter.diameter_mm) is not None,
        "too_large",
        said(
            "a cutter of {cutter:mm2} is too large to be turned by a hand router: at most {most:mm} would do",
            cutter=cutter.diameter_mm,
            most=LARGEST_MM,
        ),
        LARGEST_MM,
    )
    at_hand = tuple(cutter_of(shop, size) for size in shop.cutters_mm)
    template = (
        template_along(curve.way, guide, cutter)
        if curve.way
        else template_for(_alone(curve), curve.work, guide, cutter, at_hand)
    )
    steps = passes(curve.depth_mm, cutter)
    pair, guides = _pair(shop, curve, template)
    return RoutedTemplate(
        curve=curve,
        template=template,
        board=template_board(
            template, max(shop.base_mm, guide.diameter_mm + 1.0), thickness_mm=shop.template_mm
        ),
        holes=corner_holes(curve.part) if curve.what == "cut-out" else (),
        least_radius_mm=cutter.radius_mm if curve.work == "inside" else max(template.offset_mm, 0.0),
        passes=steps.count,
        pass_mm=steps.each_mm,
        notes=tuple(_notes(curve, template, steps.count, steps.each_mm)),
        pair=pair,
        pair_guides=guides,
    )


def _alone(curve: Curve) -> Outline:
    """The curve's outer ring: every hole has a template of its own."""
    return Outline((curve.part.outer,)) if curve.part.holes else curve.part


def _pair(shop: Shop, curve: Curve, template: Template) -> tuple[Pair | None, tuple[Guide, Guide] | None]:
    """Recess and insert from one template, where a second bush makes them fit with a gap of 0 or more."""
    if curve.what != "recess" or shop.small_bush_mm is None or template.guide.kind != "bush":
        return None, None
    small = Guide(shop.small_bush_mm, "bush")
    try:
        return paired(_alone(curve), template.guide, small, template.cutter), (template.guide, small)
    except ShapeError:
        return None, None


def _notes(curve: Curve, template: Template, count: int, each: float) -> Iterator[Said]:
    yield said(
        "{depth:mm} deep in {count:count} passes of {each:mm}", depth=curve.depth_mm, count=count, each=each
    )
    if curve.corners:
        yield said(
            "for {corners}: any of its corners serves, its sides {inside:mm} inside the edges of the panel",
            corners=listed(curve.corners),
            inside=template.offset_mm,
        )
    if curve.hand:
        yield said("{hand:word} hand", hand=curve.hand)
    for bend in bends_of(curve.way, template.offset_mm):
        if bend.further_mm > 0.005:
            yield said(
                "inside the bend of {angle:deg} the hollow comes out rounded, up to {further:mm2} wider: keep the "
                "guide against the outer side there",
                angle=bend.turn_deg,
                further=bend.further_mm,
            )


def _refused(shop: Shop, panel: BuiltPanel, curve: Curve, fault: ShapeError) -> Finding:
    """What these tools cannot cut, and the cutter or guide that would do."""
    return Finding(
        code=f"template.{fault.problem}",
        severity=Severity.WEIGH,
        origin=curve.origin,
        piece=panel.piece,
        part=panel.name,
        at=curve.name,
        value=certain(fault.value) if fault.value is not None else None,
        unit="mm" if fault.value is not None else "",
        message=said(
            "With the tools of the shop {name} cannot be routed along a template: {why:word}.",
            name=curve.name,
            why=fault.sentence,
        ),
        source="geometry of guide and cutter",
        remedies=tuple(_would_do(shop, curve, fault)),
    )


def _would_do(shop: Shop, curve: Curve, fault: ShapeError) -> Iterator[Remedy]:
    """Each remedy is tried before it is named."""
    largest, cutter = fault.value, curve.cutter_mm or shop.cutter_mm
    guide = "bush" if shop.bearing_mm is None else "bearing"
    tries: list[tuple[str, float, Said]] = []
    if fault.problem in ("bush", "bearing"):
        least = cutter if guide == "bearing" else cutter + 2 * COLLAR_MM
        tries.append(
            (guide, least, said("Take a {what:word} of at least {size:mm}.", what=guide, size=least))
        )
    elif largest is not None and fault.problem in ("too_tight", "too_large") and largest > 0:
        largest = floor(100 * largest + 1e-6) / 100  # rounded up it would be too large again
        if fault.problem == "too_tight" and largest >= cutter:  # the guide is too large, not the cutter
            message = said("Guide it with a {what:word} of at most {size:mm}.", what=guide, size=largest)
            tries.append((guide, largest, message))
        else:
            tries.append(("cutter", largest, said("Take a cutter of at most {size:mm}.", size=largest)))
        if guide == "bush":
            message = said("Guide it with a bearing as wide as the cutter, {size:mm}.", size=cutter)
            tries.append(("bearing", cutter, message))
    for what, size, message in tries:
        tried, of_curve, change = _with(shop, curve, what, size)
        try:
            _made(tried, of_curve)
        except ShapeError:
            continue
        yield Remedy(f"template.{what}", message, (change,))


def _with(shop: Shop, curve: Curve, what: str, size_mm: float) -> tuple[Shop, Curve, Change]:
    """Shop and curve with another bush, bearing or cutter, and the change of the job file that says so."""
    new = f"{size_mm:g}"
    if what == "bush":
        return replace(shop, bush_mm=size_mm), curve, Change("shop.bush", f"{shop.bush_mm:g}", new)
    if what == "bearing":
        old = "" if shop.bearing_mm is None else f"{shop.bearing_mm:g}"
        return replace(shop, bearing_mm=size_mm), curve, Change("shop.bearing", old, new)
    if curve.cutter_mm is None:
        return replace(shop, cutter_mm=size_mm), curve, Change("shop.cutter", f"{shop.cutter_mm:g}", new)
    change = Change(f"{curve.origin}.diameter", f"{curve.cutter_mm:g}", new)
    return shop, replace(curve, cutter_mm=size_mm), change


def _reach(shop: Shop, panel: BuiltPanel, curve: Curve) -> Iterator[Finding]:
    if shop.reach_mm is None:
        return
    left = reach_left(cutter_of(shop, curve.cutter_mm), curve.depth_mm, shop.template_mm)
    if left >= -1e-9:
        return
    yield Finding(
        code="template.reach",
        severity=Severity.WEIGH,
        origin=curve.origin,
        piece=panel.piece,
        part=panel.name,
        at=curve.name,
        value=certain(left),
        limit=0.0,
        unit="mm",
        message=said(
            "For {name} the cutter is {short:mm} too short: {depth:mm} of wood and {board:mm} of template.",
            name=curve.name,
            short=-left,
            depth=curve.depth_mm,
            board=shop.template_mm,
        ),
        source="geometry of guide and cutter",
        remedies=(
            Remedy(
                "template.longer_cutter",
                said("Take a cutter that reaches {reach:mm}, or finish with a bearing on the cut already made.",
                     reach=curve.depth_mm + shop.template_mm),
                (Change("shop.reach", f"{shop.reach_mm:g}", f"{curve.depth_mm + shop.template_mm:g}"),),
                certain(0.0),
            ),
        ),
    )  # fmt: skip
