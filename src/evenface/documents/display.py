"""How numbers and places are shown to a reader.

Rounding for display lives here and nowhere else; exact numbers stand in `result.json`. Fits (edging, a
facing scribed into its opening, anything already cut) and every thickness are shown to 0.1 mm, all other
sizes to 0.5 mm: finer than that nobody measures at the bench.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from evenface.evidence import Band, Value
from evenface.finding import Finding, Severity
from evenface.layouts.demand import kg_per_m2
from evenface.parts import Size
from evenface.result import Result, Sketch
from evenface.units import number_text
from evenface.words import ENGLISH, Manner, Own, Said, length_said, length_shown, marked, say

FIT_MM: Final = 0.1
REST_MM: Final = 0.5
DASH: Final = "–"

SEVERITY_WORDS: Final[Mapping[Severity, str]] = MappingProxyType(
    {Severity.STOP: "Stop", Severity.WEIGH: "Your risk", Severity.NOTE: "Note"}
)


def rounded(length_mm: float, step_mm: float) -> float:
    """The length to the nearest step, halves away from zero."""
    steps = math.floor(abs(length_mm) / step_mm + 0.5 + 1e-9)
    return math.copysign(steps * step_mm, length_mm) if steps else 0.0


def length(length_mm: float, step_mm: float = REST_MM, manner: Manner = ENGLISH) -> str:
    """A length without its unit, as it stands in a table: "1800", "621.5", "24 15/32"."""
    shown = length_mm if manner.system == "inch" else rounded(length_mm, step_mm)
    return length_shown(shown, manner)


def size(size_mm: Size, step_mm: float = REST_MM, manner: Manner = ENGLISH) -> str:
    """Length × width × thickness, the thickness always to 0.1."""
    long, wide, thick = size_mm
    return " × ".join(
        (length(long, step_mm, manner), length(wide, step_mm, manner), length(thick, FIT_MM, manner))
    )


def weights_in(sketch: Sketch) -> Mapping[str, float]:
    """What a square metre of each sheet material weighs, by its name in the job file. [kg/m²]"""
    found: dict[str, float] = {}
    for construction in sketch.constructions:
        for panel in construction.panels:
            found[panel.carrier.material.name] = kg_per_m2(panel.carrier.material)
            found |= {face.material.name: kg_per_m2(face.material) for face in panel.faces}
        for board in construction.boards:
            if board.facing is not None:
                found[board.facing.name] = kg_per_m2(board.facing)
    return found


def degrees(angle_deg: float, manner: Manner = ENGLISH) -> str:
    return marked(f"{number_text(angle_deg, 1)}°", manner)


def amount(number: float, unit: str, manner: Manner = ENGLISH) -> str:
    """A number as found, with its unit: lengths to 0.1 mm, small figures to two that matter."""
    if unit == "mm" and manner.system == "inch":
        return length_said(number, manner)
    return marked(f"{_figures(number)} {'' if unit == '1' else unit}".strip(), manner)


def _figures(number: float) -> str:
    size_of_it = abs(number)
    if size_of_it >= 1.0 or number == 0.0:
        return number_text(number, 1)
    return number_text(number, min(6, 1 - math.floor(math.log10(size_of_it))))


def band(found: Band, unit: str, manner: Manner = ENGLISH) -> str:
    """A result: one number where it is certain, the range where it is not."""
    low, high = amount(found.low, unit, manner), amount(found.high, unit, manner)
    if low == high:
        return low
    bare = amount(found.low, "1", manner) if manner.system != "inch" or unit != "mm" else low
    between = f"{bare} … {high}"
    if found.spans_zero:
        between += manner.translate(" (direction not known)")
    return between


def value_range(value: Value, manner: Manner = ENGLISH) -> tuple[str, str]:
    """Nominal and 90 % range of a figure, without unit; the range is empty when it has none."""
    low, high = (marked(_significant(number), manner) for number in (value.low, value.high))
    return marked(_significant(value.nominal), manner), "" if low == high else f"{low} … {high}"


def _significant(number: float) -> str:
    """Three figures that matter, plain where that reads well."""
    if number == 0.0:
        return "0"
    if abs(number) >= 1000.0:
        return f"{number:.0f}"
    decimals = max(0, 2 - math.floor(math.log10(abs(number))))
    return number_text(number, decimals) if decimals <= 8 else f"{number:.2e}"


def sentence(words: Said, manner: Manner = ENGLISH) -> str:
    """What is said, beginning with a capital."""
    text = say(words, manner)
    return text[:1].upper() + text[1:]


def called(names: Iterable[str], manner: Manner = ENGLISH, between: str = ", ") -> Own:
    """Names of parts in the reader's words, side by side; names the maker wrote as they are."""
    return Own(between.join(manner.name(name) for name in names if name))


def placed(at: str, manner: Manner = ENGLISH) -> str:
    """Where on a part, in the reader's words: "front, left and right", "drawer 3", a cut-out the maker named."""
    if isinstance(at, Own):
        return at
    told = manner.translate(at)
    if told == at:
        told = manner.name(at)
    if told != at or ", " not in at:
        return told
    return ", ".join(placed(one, manner) for one in at.split(", "))


def cited(source: str, manner: Manner = ENGLISH) -> str:
    """What a figure rests on, in the reader's words; what is known by no words of ours, as it stands.

    Several sources stand one behind the other with "; ", which may stand in one of them too.
    """
    told = manner.translate(source)
    if told != source or "; " not in source:
        return manner.name(source) if told == source else told
    parts = source.split("; ")
    for number in range(len(parts) - 1, 0, -1):
        head = "; ".join(parts[:number])
        if manner.translate(head) != head:
            return f"{manner.translate(head)}; {cited('; '.join(parts[number:]), manner)}"
    return f"{parts[0]}; {cited('; '.join(parts[1:]), manner)}"


def where(finding: Finding, manner: Manner = ENGLISH) -> Own:
    """Piece, part and place of a finding, as far as they are known, in the reader's words."""
    part, at = manner.name(finding.part), placed(finding.at, manner)
    return Own(", ".join(word for word in (finding.piece, part, at) if word))


def places(findings: Sequence[Finding], manner: Manner = ENGLISH) -> Own:
    """Where several findings are: "Cupboard, left door, right door (carrier)"; a piece is named once in a row."""
    ats = {finding.at for finding in findings}
    if len(findings) == 1 or len(ats) > 1:
        return Own("; ".join(dict.fromkeys(where(finding, manner) for finding in findings)))
    words: list[str] = []
    piece = ""
    for finding in findings:
        words += [finding.piece] if finding.piece and finding.piece != piece else []
        words += [manner.name(finding.part)] if finding.part else []
        piece = finding.piece
    at = ats.pop()
    return Own(", ".join(words) + (f" ({placed(at, manner)})" if at else ""))


def titles_of(result: Result) -> Mapping[str, str]:
    """The trade's words for each material of the job, by its name in the job file."""
    return titles_in(result.sketch)


def titles_in(sketch: Sketch) -> Mapping[str, str]:
    """The same of a job that is not planned."""
    found: dict[str, str] = {}
    for construction in sketch.constructions:
        for panel in construction.panels:
            found[panel.carrier.material.name] = panel.carrier.material.title
            found |= {face.material.name: face.material.title for face in panel.faces}
            found |= {edging.wood.name: edging.wood.title for edging in panel.edgings}
        for board in construction.boards:
            found[board.wood.name] = board.wood.title
            if board.facing is not None:
                found[board.facing.name] = board.facing.title
    return found
