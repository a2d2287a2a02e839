"""Can every blank come out of something that can be bought?"""

from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.construction import FaceLayer
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Carrier, Facing, Supply
from evenface.parts import LayerSizes
from evenface.parts.seams import FROM_CUTOUT_MM, FROM_JOINT_MM, Seamed, seams_of
from evenface.parts.supplies import may_turn, supplies_for, trim_mm
from evenface.piece.records import Role
from evenface.words import listed, said


def check_stock(asked: Asked) -> Iterator[Finding]:
    """Finding `stock.blank_too_large` with the nearest size there is, or `stock.seam` where it can be joined."""
    for layer in asked.part.layers:
        if layer.role in (Role.CARRIER, Role.FACE, Role.BACK) and not layer.locked:
            yield from _too_large(asked, layer)


def _too_large(asked: Asked, layer: LayerSizes) -> Iterator[Finding]:
    material = _material(asked, layer)
    trim = trim_mm(asked.job, material)
    supplies = [supply for supply, _ in supplies_for(asked.job, material)]
    length, width = layer.blank_mm[:2]
    if layer.direction_deg % 180 == 90:
        length, width = width, length
    if not supplies:
        yield _nobody_sells(asked, layer, material)
        return
    if min(length, width) <= 0:
        return  # the edging leaves nothing of it: construction stops the job for that
    misses = [_miss(supply, trim, length, width, may_turn(material)) for supply in supplies]
    if min(miss for miss, _, _ in misses) <= 0:
        return
    seamed = seams_of(asked.job, asked.panel, asked.part, layer, material)
    if seamed is not None:
        yield from _seams(asked, layer, seamed)
        return
    miss, available, needed = min(misses)
    yield Finding(
        code="stock.blank_too_large",
        severity=Severity.STOP,
        origin=layer.origin or asked.panel.origin,
        at=layer.role.value,
        value=certain(needed),
        limit=available,
        unit="mm",
        message=said(
            "The {role:word} blank of {length:mm} × {width:mm} comes out of no stock of {title:word}: "
            "{needed:mm} is needed, {available:mm} is there.",
            role=layer.role.value,
            length=length,
            width=width,
            title=material.title,
            needed=needed,
            available=available,
        ),
        why=said("Sheets lose {trim:mm} at each edge to the first trim.", trim=trim) if trim else said(""),
        source="sizes of supply",
        weakest=material.thickness.status,
        remedies=(
            Remedy("stock.smaller", said("Make it {miss:mm} smaller.", miss=miss)),
            Remedy("stock.own", said("Enter a larger size under [[stock]] if your merchant has one.")),
            Remedy(
                "stock.seam",
                said(
                    "The rules leave no place for a seam: say where it may lie with seams, or make two panels."
                ),
            ),
        ),
    )


def _seams(asked: Asked, layer: LayerSizes, seamed: Seamed) -> Iterator[Finding]:
    """Findings `stock.seam` and, where the maker put one too near a cut-out, `stock.seam_near_cutout`."""
    way = "length" if seamed.on_x else "width"
    origin = layer.origin or asked.panel.origin
    yield Finding(
        code="stock.seam",
        severity=Severity.WEIGH,
        origin=origin,
        at=layer.role.value,
        value=certain(len(seamed.at_mm)),
        unit="seams",
        message=said(
            "The {role:word} is longer than any sheet and is joined along the {way:word} at {places}.",
            role=layer.role.value,
            way=way,
            places=listed(said("{at:mm}", at=at) for at in seamed.at_mm),
        ),
        why=said(
            "Seams keep {cutout:mm} from cut-outs and {joint:mm} from joints of the carrier, mirrored about the middle "
            "where that can be; both edges are cut in one pass. Advice about sinks differs: some keep 150 mm, some put "
            "the seam in the sink.",
            cutout=FROM_CUTOUT_MM,
            joint=FROM_JOINT_MM,
        ),
        source="read, and in part common practice",
        weakest=Status.PRACTICE,
        remedies=(
            Remedy("stock.seam_elsewhere", said("Say where with seams = [ … ] under the panel.")),
            Remedy("stock.own", said("Enter a larger size under [[stock]] if your merchant has one.")),
        ),
    )
    if seamed.nearest_mm is not None and seamed.nearest_mm < FROM_CUTOUT_MM:
        yield Finding(
            code="stock.seam_near_cutout",
            severity=Severity.WEIGH,
            origin=f"{asked.panel.origin}.seams",
            at=layer.role.value,
            value=certain(seamed.nearest_mm),
            limit=FROM_CUTOUT_MM,
            unit="mm",
            message=said(
                "A seam of the {role:word} lies {gap:mm} from a cut-out.",
                role=layer.role.value,
                gap=seamed.nearest_mm,
            ),
            source="advice differs between 150 mm, 250 mm and right in the sink",
            weakest=Status.READ,
        )


def _nobody_sells(asked: Asked, layer: LayerSizes, material: Carrier | Facing) -> Finding:
    return Finding(
        code="stock.no_size",
        severity=Severity.WEIGH,
        origin=layer.origin or asked.panel.origin,
        at=layer.role.value,
        message=said(
            "No size of {title:word} is known: it is left out of layouts and buying list.",
            title=material.title,
        ),
        source=material.source,
        remedies=(Remedy("stock.own", said("Enter the sizes you can buy under [[stock]].")),),
    )


def _miss(
    supply: Supply, trim: float, length: float, width: float, turns: bool
) -> tuple[float, float, float]:
    """By how much the blank is too large for this supply, and the two figures that say so. [mm]"""
    has_length = float("inf") if supply.length_mm is None else supply.length_mm - 2 * trim
    has_width = (supply.width_mm or float("inf")) - 2 * trim
    ways = [(length, width), (width, length)] if turns else [(length, width)]
    return min(
        max((one - has_length, has_length, one), (other - has_width, has_width, other)) for one, other in ways
    )


def _material(asked: Asked, layer: LayerSizes) -> Carrier | Facing:
    if layer.role is Role.CARRIER:
        return asked.panel.carrier.material
    face: FaceLayer | None = asked.panel.face(layer.role)
    assert face is not None
    return face.material
