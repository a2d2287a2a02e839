"""The moisture log as a table."""

from collections.abc import Sequence
from typing import Final

from evenface.documents.display import DASH
from evenface.documents.tables import Table, table
from evenface.piece.bench_records import Reading
from evenface.words import ENGLISH, Manner, said, say

NOTE: Final = "Wood and boards as moisture content, the room as humidity of its air."


def moisture_table(readings: Sequence[Reading], manner: Manner = ENGLISH) -> Table:
    """Every reading, by day."""
    cells = [
        (
            one.day.isoformat(),
            one.material or manner.translate("room"),
            one.where or DASH,
            say(said("{value:percent}", value=one.value), manner),
            DASH if one.days_lain is None else str(one.days_lain),
            one.instrument or DASH,
        )
        for one in sorted(readings, key=lambda reading: (reading.day, reading.material))
    ]
    headings = ("day", "what", "where", ">reading", ">days in the shop", "instrument")
    return table("Moisture log", headings, cells, manner.translate(NOTE), manner)
