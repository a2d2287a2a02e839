"""How a panel grows and shrinks over the year of the room: board and edging, for the gaps left round it."""

from evenface.construction.ground import Ground
from evenface.construction.room_air import ends_of_year
from evenface.construction.wood_through_year import ThroughYear, width_through_year
from evenface.evidence import Status, weakest
from evenface.piece.records import Panel, Role, Side


def panel_through_year(panel: Panel, ground: Ground, room: str = "") -> tuple[ThroughYear, ThroughYear]:
    """Change of length and of width between making, at the shop's humidity, and the ends of the year. [mm]

    room : kind of room, the job's own when left out. The board alone, at the end of its range that moves most,
    not held back by its facings; edging across the grain beside it. An upper bound.
    """
    job = ground.job
    ends = [end - job.shop_humidity for end in ends_of_year(job, room or job.room)]
    layer = next(one for one in job.buildups[panel.buildup].layers if one.role is Role.CARRIER)
    board = ground.materials.carrier(layer.material)
    along, across = board.expansion_along, board.expansion_across
    if layer.direction_deg % 180.0 == 90.0:
        along, across = across, along
    return (
        _change(panel, ground, room, ends, panel.length_mm, (Side.LEFT, Side.RIGHT), (along.high, along.status)),
        _change(panel, ground, room, ends, panel.width_mm, (Side.FRONT, Side.REAR), (across.high, across.status)),
    )  # fmt: skip


def _change(
    panel: Panel,
    ground: Ground,
    room: str,
    ends: list[float],
    size: float,
    sides: tuple[Side, Side],
    per: tuple[float, Status],
) -> ThroughYear:
    edges = [edge for edge in panel.edges if edge.side in sides]
    board = max(size - sum(edge.width_mm for edge in edges), 0.0)
    least, most = min(*ends, 0.0) * board * per[0], max(*ends, 0.0) * board * per[0]
    statuses = [per[1]]
    for edge in edges:
        wood = ground.materials.wood(edge.wood)
        strip = width_through_year(ground.job, wood, edge.width_mm, edge.cut, room)
        least, most = least + strip.least_mm, most + strip.most_mm
        statuses.append(strip.status)
    return ThroughYear(least, most, weakest(statuses))
