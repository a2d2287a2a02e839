"""Numbers to set before a step begins."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from evenface.construction import BuiltPanel, EndKind, Worked
from evenface.materials.rules import rule
from evenface.parts import Part
from evenface.parts.edging import proud_mm
from evenface.piece.records import Role
from evenface.words import Said, said
from evenface.workplan.machining import machine_lines, wood_lines
from evenface.workplan.records import Work


def settings_of(
    work: Work,
    panel: BuiltPanel,
    feature: str = "",
    part: Part | None = None,
    worked: Sequence[Worked] = (),
) -> tuple[Said, ...]:
    """What to set for this work on this panel; feature names the cut-out. Empty where nothing is known.

    part : its size ladder; with it the saw's and the thicknesser's sizes are said. worked : what is worked into it
    for joints.
    """
    sizes = tuple(_sizes(work, part)) if part is not None else ()
    own = _BY_WORK[work](panel, feature) if work in _BY_WORK else ()
    lines = wood_lines(work, worked) if work is Work.CUT_JOINT else machine_lines(work, panel, feature)
    return (*sizes, *own, *lines)


def _sizes(work: Work, part: Part) -> Iterator[Said]:
    """Sizes to cut: of the carrier, of the blanks of the sheets, of each strip of edging."""
    if work is Work.CUT_FACING and any(layer.fitted for layer in part.layers):
        yield said("Measure the opening between the edgings first: cut to what it came out as, not as drawn.")
    for layer in part.layers:
        count = part.count * layer.count
        if layer.role is Role.CARRIER and work is Work.CUT_CARRIER:
            yield said(
                "{n:count} of {length:mm} × {width:mm}",
                n=count,
                length=layer.cut_mm[0],
                width=layer.cut_mm[1],
            )
        if layer.role in _SHEETS and work is Work.CUT_FACING:
            yield said(
                "{role:word}: {n:count} of {length:mm} × {width:mm}, direction at {turned:deg} to the length",
                role=layer.role.value,
                n=count,
                length=layer.blank_mm[0],
                width=layer.blank_mm[1],
                turned=layer.direction_deg,
            )
        if layer.role is Role.EDGING and layer.side is not None and work is Work.MILL_EDGING:
            yield said(
                "{side:word}: {n:count} of {length:mm} × {width:mm} × {height:mm}",
                side=layer.side.value,
                n=count,
                length=layer.blank_mm[0],
                width=layer.blank_mm[1],
                height=layer.blank_mm[2],
            )


def _conditioning(_panel: BuiltPanel, _feature: str) -> tuple[Said, ...]:
    return (
        said("18 to 25 °C and 50 to 65 % humidity; drier for a dry-heated room."),
        said("10 days with air round every sheet, then 3 days stacked as they will be glued."),
        said("Vendors accept 48 to 72 h: a compromise, thick sheets take longer."),
    )


def _gluing(panel: BuiltPanel, _feature: str) -> tuple[Said, ...]:
    kinds = {end.kind for edging in panel.edgings for end in (edging.start, edging.end)}
    told = []
    if EndKind.MITRE in kinds:
        told.append(
            said(
                "Mitres shot to fit before glue is spread, their inner points at the corners of what they are glued to."
            )
        )
    if kinds - {EndKind.MITRE}:
        told.append(said("Free ends left long by {end:mm}.", end=_or(panel.allowances.end_mm, "edging-end")))
    return tuple(told)


def _milling(panel: BuiltPanel, _feature: str) -> tuple[Said, ...]:
    """How much of their height stands proud, side by side where they differ."""
    proud = {edging.side: proud_mm(panel, edging) for edging in panel.edgings}
    if len(set(proud.values())) == 1:
        bottom, top = next(iter(proud.values()))
        return (
            said(
                "Of the height {top:mm} stand proud at the face and {bottom:mm} at the back.",
                top=top,
                bottom=bottom,
            ),
        )
    return tuple(
        said(
            "{side:word}: of the height {top:mm} stand proud at the face and {bottom:mm} at the back.",
            side=side.value, top=top, bottom=bottom,
        )
        for side, (bottom, top) in proud.items()
    )  # fmt: skip


def _opening(panel: BuiltPanel, feature: str) -> tuple[Said, ...]:
    return tuple(
        said("Inner corners: radius of at least {radius:mm}.", radius=cutout.inner_radius_mm)
        for cutout in panel.panel.cutouts
        if cutout.name == feature and cutout.inner_radius_mm
    )


def _corners(panel: BuiltPanel, _feature: str) -> tuple[Said, ...]:
    return tuple(
        said(
            "{at:word}: {shape:word} {size:mm}.", at=corner.at.value, shape=corner.shape, size=corner.size_mm
        )
        for corner in panel.panel.corners
        if corner.size_mm > 0.0
    )


def _or(given: float | None, rule_id: str) -> float:
    return rule(rule_id).nominal if given is None else given


_SHEETS: Final = (Role.FACE, Role.BACK)
_BY_WORK: Final[Mapping[Work, Callable[[BuiltPanel, str], tuple[Said, ...]]]] = {
    Work.CONDITION: _conditioning,
    Work.GLUE_EDGING: _gluing,
    Work.MILL_EDGING: _milling,
    Work.SHAPE_CORNERS: _corners,
    Work.ROUT_CUTOUT: _opening,
}
