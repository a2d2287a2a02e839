"""What can hurt, at each step and with each material, and what to do about it.

Sources are the trade reference's safety notes: READ where a limit is named from law or a safety sheet,
otherwise from memory. They never stand alone: `STANDING` goes with them.
"""

from collections.abc import Iterable, Mapping
from typing import Final

from evenface.construction import BuiltPanel
from evenface.materials import Glue
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.records import Work

STANDING: Final = said(
    "Local rules, the data sheets and the instructions of machine and glue come first; electricity, gas and "
    "water are connected by those licensed to do it."
)
DUST: Final = said(
    "Wood dust harms the lungs, and hardwood dust can cause cancer of the nose: extract at the tool, wear a "
    "mask when sanding, never blow or sweep dry. Plan for 2 mg/m³ over 8 hours (limit in the EU)."
)
LAMINATE_DUST: Final = said(
    "Laminate chips and dust are sharp: goggles and extraction; gloves for carrying sheets, never near a "
    "turning tool."
)
CREEPING: Final = said(
    "A thin sheet creeps under the fence: close the gap below it, hold the sheet down. Never climb-cut on a saw."
)
ROUTER: Final = said(
    "Check collet and bearing screw; feed against the rotation; clamp the template at two points; parts under "
    "300 mm only in a jig."
)
SAW: Final = said(
    "Riving knife and guard on, push stick within reach, stand beside the line of the blade; nothing is freed while it "
    "turns."
)
PLANER: Final = said(
    "Guard over the cutter block, push blocks, hands never behind the work; nothing short, nothing with loose knots."
)
DRILLING: Final = said("Clamp the part: a cup cutter that grabs turns it. No gloves, sleeves and hair tied.")
CLIMBING: Final = said(
    "A ladder or a stool that stands; one holds while the other screws. Look for cables and pipes before drilling the "
    "wall."
)
TIPPING: Final = said("Tall pieces and drawers tip: screw them to the wall before anything is put in.")
SMALL: Final = said("Work short pieces from a blank of at least 400 mm and cut them apart at the end.")
SOLVENT: Final = said(
    "Solvent vapour is heavier than air, creeps along the floor and can explode: no flame, heater, pilot light "
    "or switch; extraction on first; a vacuum motor is a spark. Air the room until the smell is gone."
)
ISOCYANATE: Final = said(
    "Isocyanate can make you allergic for life: gloves, air, no skin contact. In the EU, trained users only."
)
FORMALDEHYDE: Final = said("Gives off formaldehyde: gloves, and air the room while it cures.")
EPOXY: Final = said("Epoxy can make you allergic: nitrile gloves, and nothing on the skin.")
HOT: Final = said("The glue is applied hot and burns the skin.")
SKIN: Final = said("Wash glue off the skin; keep it from frost.")
RAGS: Final = said(
    "Rags with drying oil heat themselves and burn: lay them flat outdoors, into water, or in a closed metal bin."
)
HEAVY: Final = (
    "One piece weighs about {mass:kg}: get a helper above 25 kg; carry it upright, face to the body."
)
SHEETS: Final = said(
    "Large sheets whip and slip: two people, gloves, flat under a cover board or leaned steeply."
)
VACUUM: Final = said(
    "In a vacuum bag a hollow or weak form collapses; cover sharp edges; hands off loaded valves."
)
SERVICES: Final = (
    "The opening meets {service:word}: shut it off, and leave the connection to those licensed for it."
)
WET: Final = said("Seal the cut edge of a wet opening before anything is set into it.")

LARGE_MM: Final = 1500.0
"""COMMON PRACTICE: a sheet longer than this whips; two carry it."""
GLUED_TOGETHER: Final = (Work.ASSEMBLE, Work.SET_DOWELS, Work.LINE_BOARD)
_ONE_MAN_KG: Final = 25.0
_BY_WORK: Final[Mapping[Work, tuple[Said, ...]]] = {
    Work.CONDITION: (SHEETS,),
    Work.CUT_CARRIER: (SAW, DUST),
    Work.MILL_EDGING: (SAW, PLANER, SMALL, DUST),
    Work.TRIM_ENDS: (ROUTER, DUST),
    Work.FLUSH_EDGING: (ROUTER, DUST),
    Work.ROUT_RECESS: (ROUTER, DUST),
    Work.FLUSH_INSERT: (ROUTER, DUST),
    Work.SHAPE_CORNERS: (ROUTER, DUST),
    Work.TRIM: (ROUTER, DUST),
    Work.LEVEL: (ROUTER, DUST),
    Work.PROFILE: (ROUTER, DUST),
    Work.ROUT_CUTOUT: (ROUTER, DUST),
    Work.ROUT_GRIP: (ROUTER, DUST),
    Work.PREPARE: (DUST,),
    Work.FINISH: (RAGS, DUST),
    Work.FINISH_OUTSIDE: (RAGS, DUST),
    Work.DRILL: (DRILLING, DUST),
    Work.CLEAR_JOINT: (ROUTER, DUST),
    Work.CUT_JOINT: (ROUTER, DUST),
    Work.CUT_LENGTH: (SAW, DUST),
    Work.MILL_BOARD: (PLANER, SAW, SMALL, DUST),
    Work.FLUSH_JOINTS: (ROUTER, DUST),
    Work.HANG: (CLIMBING,),
    Work.FIT_ON_SITE: (CLIMBING, TIPPING),
}
_GLUING: Final = (Work.BOND, Work.GLUE_EDGING, Work.GLUE_CORNERS, Work.GLUE_INSERT)
_BY_GLUE: Final[Mapping[str, tuple[Said, ...]]] = {
    "contact_solvent": (SOLVENT,),
    "contact_water": (SKIN,),
    "pva": (SKIN,),
    "hide": (HOT,),
    "urea": (FORMALDEHYDE,),
    "polyurethane": (ISOCYANATE,),
    "hot_melt": (ISOCYANATE, HOT),
    "epoxy": (EPOXY,),
}


def cautions_of(work: Work, panel: BuiltPanel) -> tuple[Said, ...]:
    """What to mind at this work on this panel, gravest thing of the step first."""
    found: list[Said] = []
    if work in _GLUING:
        found += cautions_of_glue(panel.glue if work is Work.BOND else panel.edging_glue)
    if work is Work.BOND and not times.is_contact(panel.glue):
        found.append(VACUUM)
    if work is Work.ROUT_CUTOUT:
        found += [said(SERVICES, service=one.service) for one in panel.panel.cutouts if one.service != "none"]
        found += [WET] if any(one.wet for one in panel.panel.cutouts) else []
    laminate = any(face.material.family != "linoleum" for face in panel.faces)
    if laminate and work in (Work.CUT_FACING, Work.TRIM, Work.FIT_FACING, Work.ROUT_CUTOUT, Work.PROFILE):
        found.append(LAMINATE_DUST)
    if laminate and work is Work.CUT_FACING:
        found += [CREEPING, SAW]
    if work in (Work.CUT_FACING, Work.BOND) and max(panel.length_mm, panel.width_mm) > LARGE_MM:
        found.append(SHEETS)
    found += _BY_WORK.get(work, ())
    mass = mass_kg(panel)
    if mass > _ONE_MAN_KG and work in (Work.BOND, Work.DRY_FIT, Work.CUT_CARRIER):
        found.append(said(HEAVY, mass=mass))
    return tuple(dict.fromkeys(found))


def cautions_of_glue(glue: Glue) -> tuple[Said, ...]:
    """What the glue itself can do, wherever it is spread."""
    return _BY_GLUE[glue.kind]


def cautions_of_wood(work: Work, glue: Glue | None = None) -> tuple[Said, ...]:
    """What to mind at work on boards, joints and whole pieces. glue : of what is glued there, None for none named:
    then the usual white glue."""
    if work in GLUED_TOGETHER:
        return cautions_of_glue(glue) if glue is not None else (SKIN,)
    return _BY_WORK.get(work, ())


def cautions_of_place(work: Work, panels: Iterable[BuiltPanel]) -> tuple[Said, ...]:
    """What is led through openings of a piece, where it is fitted in its place."""
    if work is not Work.FIT_ON_SITE:
        return ()
    services = [cutout.service for panel in panels for cutout in panel.panel.cutouts]
    return tuple(said(SERVICES, service=one) for one in dict.fromkeys(services) if one != "none")


def mass_kg(panel: BuiltPanel) -> float:
    """About what one panel weighs, edging counted as carrier. [kg]"""
    area_m2 = panel.length_mm * panel.width_mm / 1e6
    layers = [(panel.carrier.thickness.nominal, panel.carrier.material.density.nominal)]
    layers += [(face.thickness.nominal, face.material.density.nominal) for face in panel.faces]
    return sum(area_m2 * thickness / 1000.0 * density for thickness, density in layers)
