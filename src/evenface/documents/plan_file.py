"""`plan.json`: the layouts of a packet, whole, so that the next plan of the job can keep what still serves.

Lengths in hundredths of a millimetre. What is read is not believed: the layouts room holds every kept plan against
today's demand before it stands again. Findings, bound and proof are not kept; they are found anew.
"""

import json
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Final

from pydantic import TypeAdapter, ValidationError

from evenface.errors import EvenfaceError
from evenface.layouts import Layout
from evenface.result import Result

PLAN: Final = "plan.json"
FORMAT: Final = "evenface-plan-1"
FROM_RACK: Final = "from_rack"
LARGEST: Final = 50_000_000


def plan_text(result: Result) -> str:
    """The layouts as text: same layouts, same text."""
    bare = tuple(
        replace(one, findings=(), bound=0, proved=False, checked=False, seconds=0.0) for one in result.layouts
    )
    entries = _layouts().dump_python(bare, mode="json")
    told = {"format": FORMAT, FROM_RACK: "rack" in result.hashes, "layouts": entries}
    return json.dumps(told, ensure_ascii=False, separators=(",", ":")) + "\n"


def kept_plans(folder: Path, from_rack: bool = False) -> Mapping[str, Layout]:
    """The layouts kept in a folder by their material; none where no plan, or none that can be read, lies there.

    from_rack : a plan made from the rack is kept for plans from the rack only, and the other way round.
    """
    place = folder / PLAN
    try:
        if place.stat().st_size > LARGEST:
            return {}
        told = json.loads(place.read_text(encoding="utf-8"))
        if not isinstance(told, dict) or (told.get("format"), told.get(FROM_RACK)) != (FORMAT, from_rack):
            return {}
        layouts = _layouts().validate_python(told.get("layouts"), strict=False)
    except (OSError, ValueError, RecursionError, ValidationError, EvenfaceError):
        return {}
    return {layout.material: layout for layout in layouts}


@cache
def _layouts() -> TypeAdapter[tuple[Layout, ...]]:
    return TypeAdapter(tuple[Layout, ...])
