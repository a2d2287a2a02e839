"""Two versions of a job side by side: sizes, counts, materials, details, price, day."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date
from decimal import Decimal

from evenface.construction import BuiltPanel
from evenface.parts import Part
from evenface.parts.records import Size
from evenface.piece.records import CornerAt, Panel
from evenface.pricing.money import Money
from evenface.pricing.records import Group, Price
from evenface.words import Said, said

DETAILS = ("edges", "corners", "profiles", "inserts", "grips", "cutouts", "outline", "hold", "limit", "run")
_WORDS: Mapping[str, str] = {
    "edges": "edging", "profiles": "profile", "hold": "fixing", "limit": "flatness promised",
    "run": "matched pattern", "cutouts": "cut-outs",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Version:
    """A job as it stood: what is made, its price, and when it would be ready."""

    name: str
    parts: tuple[Part, ...]
    panels: tuple[BuiltPanel, ...]
    price: Price
    ready: date | None = None


@dataclass(frozen=True, slots=True)
class PartChange:
    """What happened to one part. sizes and counts are None on the side where there is none."""

    piece: str
    part: str
    old_mm: Size | None
    new_mm: Size | None
    old_count: int | None
    new_count: int | None
    what: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class GroupChange:
    """Money of one group before and after. Both without margin."""

    group: Group
    old: Money
    new: Money


@dataclass(frozen=True, slots=True)
class Changed:
    """Everything that differs between two versions. net, total : new less old. days : later (+) or sooner (−)."""

    old: Version
    new: Version
    parts: tuple[PartChange, ...]
    groups: tuple[GroupChange, ...]
    hours: Decimal
    net: Money
    total: Money
    days: int | None

    @property
    def nothing(self) -> bool:
        return not self.parts and not self.net.amount and not self.days

    @property
    def at_least(self) -> bool:
        """Whether one of the prices is not whole, so that the difference is not certain."""
        return self.old.price.at_least or self.new.price.at_least


def compare(old: Version, new: Version) -> Changed:
    """The difference. Raises ValueError for two currencies, or when only one price names a tax."""
    if (old.price.tax_share is None) != (new.price.tax_share is None):
        raise ValueError("expected a tax in both versions or in none, was given it in one of them")
    days = (new.ready - old.ready).days if old.ready is not None and new.ready is not None else None
    return Changed(
        old,
        new,
        tuple(_parts(old, new)),
        tuple(_groups(old.price, new.price)),
        new.price.hours - old.price.hours,
        new.price.net - old.price.net,
        new.price.total - old.price.total,
        days,
    )


def _groups(old: Price, new: Price) -> Iterator[GroupChange]:
    for group in Group:
        before, now = old.of(group), new.of(group)
        if before != now:
            yield GroupChange(group, before, now)


def _parts(old: Version, new: Version) -> Iterator[PartChange]:
    before, now = _by_name(old.parts), _by_name(new.parts)
    panels_before, panels_now = _panels(old.panels), _panels(new.panels)
    for key in dict.fromkeys((*before, *now)):
        first, second = before.get(key), now.get(key)
        what = tuple(_what(first, second, panels_before.get(key), panels_now.get(key)))
        if what:
            yield PartChange(
                *key,
                first.finished_mm if first else None,
                second.finished_mm if second else None,
                first.count if first else None,
                second.count if second else None,
                what,
            )


def _what(
    old: Part | None, new: Part | None, panel: BuiltPanel | None, panel_now: BuiltPanel | None
) -> Iterator[Said]:
    if old is None or new is None:
        yield said("new") if old is None else said("no longer made")
        return
    if old.count != new.count:
        yield said("number")
    if any(abs(a - b) > 0.05 for a, b in zip(old.finished_mm, new.finished_mm, strict=True)):
        yield said("size")
    for role, (was, now) in _materials(old, new).items():
        yield said("{role:word}: {old} becomes {new}", role=role, old=was or "none", new=now or "none")
    if panel is not None and panel_now is not None:
        for name in DETAILS:
            if _shape(name, panel.panel) != _shape(name, panel_now.panel):
                yield _detail(name, panel.panel, panel_now.panel)


def _shape(name: str, panel: Panel) -> object:
    """A detail of a panel as plain values; another wood is told among the materials."""
    if name == "edges":
        return bare(tuple(replace(edge, wood="") for edge in panel.edges))
    return bare(getattr(panel, name))


def _detail(name: str, old: Panel, new: Panel) -> Said:
    """What differs in a detail; of corners, the sizes before and now."""
    if name == "corners":
        before, now = ({at.at: at.size_mm for at in panel.corners} for panel in (old, new))
        sizes = [(before.get(at, 0.0), now.get(at, 0.0)) for at in CornerAt if before.get(at) != now.get(at)]
        if len(set(sizes)) == 1:
            return said(
                "corners: {old:mm} becomes {new:mm} ({count:count} of them)",
                old=sizes[0][0],
                new=sizes[0][1],
                count=len(sizes),
            )
    return said("{detail:word}", detail=_WORDS.get(name, name))


def _materials(old: Part, new: Part) -> dict[str, tuple[str, str]]:
    """Materials that differ, by what the layer is there for."""
    before, now = _by_role(old), _by_role(new)
    return {
        role: (before.get(role, ""), now.get(role, ""))
        for role in dict.fromkeys((*before, *now))
        if before.get(role, "") != now.get(role, "")
    }


def _by_role(part: Part) -> dict[str, str]:
    found: dict[str, str] = {}
    for layer in part.layers:
        names = found.get(layer.role.value, "")
        if layer.material not in names.split(", "):
            found[layer.role.value] = f"{names}, {layer.material}" if names else layer.material
    return found


def bare(given: object) -> object:
    """A record as plain values, without where it stands in its file."""
    if is_dataclass(given) and not isinstance(given, type):
        return tuple(bare(getattr(given, one.name)) for one in fields(given) if one.name != "origin")
    if isinstance(given, tuple | list):
        return tuple(bare(one) for one in given)
    return given


def _by_name(parts: Sequence[Part]) -> dict[tuple[str, str], Part]:
    return {(part.piece, part.name): part for part in parts}


def _panels(panels: Sequence[BuiltPanel]) -> dict[tuple[str, str], BuiltPanel]:
    return {(panel.piece, panel.name): panel for panel in panels}
