"""The same panel built otherwise: another back, a turned sheet, another board, other air at gluing."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from evenface.construction import BuiltPanel, FaceLayer
from evenface.construction.levels import stack_levels
from evenface.construction.room_air import air_of
from evenface.finding import Change
from evenface.materials import Carrier, Catalogue, Facing
from evenface.piece.records import Job, Made, Role
from evenface.words import Said, said

GLUE_LINE_MM = 0.1
PAPER = "balancing-paper-0.2"
LINOLEUM = "linoleum-2"


@dataclass(frozen=True, slots=True)
class Variant:
    """One way to build it. kind : back, board or shop. changes : in the job file."""

    code: str
    kind: str
    title: Said
    changes: tuple[Change, ...]
    job: Job
    panel: BuiltPanel

    def made(self, made: Made) -> Made:
        """What was made, without the humidities measured where the way is to condition everything anew."""
        return replace(made, humidities={}) if self.kind == "shop" else made


def with_sheets(panel: BuiltPanel, face: FaceLayer | None, back: FaceLayer | None) -> BuiltPanel:
    """The panel with other sheets, its levels through the thickness and its whole thickness following."""
    levels = stack_levels(
        panel.carrier.thickness.nominal,
        face.thickness.nominal if face else None,
        back.thickness.nominal if back else None,
        GLUE_LINE_MM,
    )
    faces = []
    if face is not None:
        faces.append(
            replace(
                face, role=Role.FACE, z0_mm=levels.face_bottom_mm, z1_mm=levels.total_mm, glue_line_mm=0.1
            )
        )
    if back is not None:
        faces.append(replace(back, role=Role.BACK, z0_mm=0.0, z1_mm=levels.back_mm, glue_line_mm=0.1))
    carrier = replace(panel.carrier, z0_mm=levels.carrier_bottom_mm, z1_mm=levels.carrier_top_mm)
    return replace(panel, faces=tuple(faces), carrier=carrier, thickness_mm=levels.total_mm)


def with_board(panel: BuiltPanel, board: Carrier) -> BuiltPanel:
    """The panel on another board, glued at the shop's air."""
    carrier = replace(panel.carrier, material=board, thickness=board.thickness, humidity_at_bonding=None)
    changed = replace(panel, carrier=carrier)
    return with_sheets(changed, panel.face(Role.FACE), panel.face(Role.BACK))


def sheet_of(like: FaceLayer, material: Facing, turned: bool = False) -> FaceLayer:
    """A sheet of another material in the place of one, conditioned in the shop."""
    direction = (like.direction_deg + 90.0) % 180.0 if turned else like.direction_deg
    same = material.name == like.material.name
    return replace(
        like,
        material=like.material if same else material,
        thickness=like.thickness if same else material.thickness,
        direction_deg=direction,
        humidity_at_bonding=like.humidity_at_bonding if same else None,
    )


def variants(job: Job, panel: BuiltPanel, catalogue: Catalogue) -> Iterator[Variant]:
    """Every other way worth comparing; the panel as it stands is not among them."""
    yield from _backs(job, panel, catalogue)
    yield from _boards(job, panel, catalogue)
    yield from _shop(job, panel)


def _backs(job: Job, panel: BuiltPanel, catalogue: Catalogue) -> Iterator[Variant]:
    face = panel.face(Role.FACE) or panel.face(Role.BACK)
    if face is None:
        return
    back = panel.face(Role.BACK)
    path = f"buildup.{panel.panel.buildup}.back"
    old = back.material.name if back else ""
    rows: list[tuple[str, Said, FaceLayer | None]] = [
        (
            "flat.same_sheet",
            said("The same sheet on both faces, in the same direction."),
            sheet_of(face, face.material),
        ),
        (
            "flat.same_turned",
            said("The same sheet on the back, turned."),
            sheet_of(face, face.material, turned=True),
        ),
        ("flat.bare_back", said("Nothing on the back."), None),
    ]
    rows += [
        (f"flat.back.{name}", said("{title} on the back.", title=sheet.title), sheet_of(face, sheet))
        for name, sheet in _other_backs(face.material, catalogue)
    ]
    for code, title, sheet in rows:
        if (sheet and (sheet.material.name, sheet.direction_deg)) == (
            back and (back.material.name, back.direction_deg)
        ):
            continue
        yield Variant(
            code,
            "back",
            title,
            _entries(path, old, sheet),
            job,
            with_sheets(panel, replace(face, role=Role.FACE), sheet),
        )
    if face.material.family != "linoleum":
        soft = sheet_of(face, catalogue.facing(LINOLEUM))
        changes = (
            Change(f"buildup.{panel.panel.buildup}.face", face.material.name, LINOLEUM),
            Change(path, old, LINOLEUM),
        )
        title = said("Linoleum on both faces.")
        yield Variant("flat.linoleum", "back", title, changes, job, with_sheets(panel, soft, soft))


def _entries(path: str, old: str, sheet: FaceLayer | None) -> tuple[Change, ...]:
    """What the job file says of that sheet: its name alone, or with its way where it lies turned."""
    if sheet is None or sheet.direction_deg % 180 != 90:
        return (Change(path, old, sheet.material.name if sheet else "none"),)
    instead = (Change(path, old, ""),) if old else ()
    name = sheet.material.name
    return (*instead, Change(f"{path}.material", "", name), Change(f"{path}.turned", "", "true"))


def _other_backs(face: Facing, catalogue: Catalogue) -> list[tuple[str, Facing]]:
    """Thinner sheets of the same family, backing laminates, balancing paper."""
    known = [catalogue.facing(name) for name in catalogue.names("facing")]
    thinner = [
        sheet
        for sheet in known
        if sheet.family == face.family == "hpl"
        and sheet.grade != "postforming"
        and sheet.thickness.nominal < face.thickness.nominal - 0.05
    ]
    backers = [sheet for sheet in known if sheet.family == "hpl_backer"]
    nearest = sorted(backers, key=lambda sheet: abs(sheet.thickness.nominal - face.thickness.nominal))[:1]
    thin = sorted(backers, key=lambda sheet: sheet.thickness.nominal)[:1]
    chosen = [*thinner[-1:], *nearest, *thin, catalogue.facing(PAPER)]
    return [(sheet.name, sheet) for sheet in dict.fromkeys(chosen) if sheet.name != face.name]


def _boards(job: Job, panel: BuiltPanel, catalogue: Catalogue) -> Iterator[Variant]:
    board = panel.carrier.material
    if board.faced or board.board in ("compact", "solid"):
        return
    path = f"buildup.{panel.panel.buildup}.carrier"
    known = [catalogue.carrier(name) for name in catalogue.names("carrier")]
    for kind in ("plywood", "mdf", "particleboard", "blockboard"):
        alike = [
            one
            for one in known
            if one.board == kind and not one.faced and one.name.split("-")[0] in ("birch", kind)
        ]
        if kind == board.board or not alike:
            continue
        near = min(alike, key=lambda one: abs(one.nominal_mm - board.nominal_mm))
        title = said("{title} as the carrier.", title=near.title)
        changes = (Change(path, board.name, near.name),)
        yield Variant(f"flat.board.{kind}", "board", title, changes, job, with_board(panel, near))
    family = board.name.rsplit("-", 1)[0]
    thicker = [
        one for one in known if one.name.rsplit("-", 1)[0] == family and one.nominal_mm > board.nominal_mm
    ]
    for one in sorted(thicker, key=lambda each: each.nominal_mm)[:2]:
        title = said("A thicker carrier: {title}.", title=one.title)
        changes = (Change(path, board.name, one.name),)
        yield Variant(f"flat.thicker.{one.name}", "board", title, changes, job, with_board(panel, one))


def _shop(job: Job, panel: BuiltPanel) -> Iterator[Variant]:
    """Every layer conditioned together at the mean of the room it will stand in."""
    top, bottom = air_of(job, panel.panel)
    mean = round(float(np.mean(top.humidity) + np.mean(bottom.humidity)) / 2.0, 2)
    conditioned = replace(
        panel,
        carrier=replace(panel.carrier, humidity_at_bonding=None),
        faces=tuple(replace(face, humidity_at_bonding=None) for face in panel.faces),
    )
    buildups = {name: replace(one, bonding_humidity=None) for name, one in job.buildups.items()}
    changed = replace(job, shop_humidity=mean, buildups=buildups)
    title = said("Condition every layer at {humidity:percent} and glue there.", humidity=mean)
    changes = (Change("job.shop_humidity", f"{job.shop_humidity:g}", f"{mean:g}"),)
    yield Variant("flat.shop", "shop", title, changes, changed, conditioned)
