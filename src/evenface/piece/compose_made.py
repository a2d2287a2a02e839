"""From the validated form of a made file to `Made`, its names held against the job where there is one."""

from collections.abc import Iterator, Sequence
from typing import Any, Protocol

from evenface.errors import Complaint, nearest_words
from evenface.piece.bench_forms import measured_of, readings_of
from evenface.piece.bench_records import MeasuredFlat
from evenface.piece.calendar_forms import done_of
from evenface.piece.forms import CutForm, MadeForm
from evenface.piece.records import Job, Made, MadeSize, Panel, Role, Side, Spoiled
from evenface.piece.source_text import Source
from evenface.toml_places import key_path
from evenface.words import said

_ROLES = {"carrier": Role.CARRIER, "face": Role.FACE, "back": Role.BACK, "edging": Role.EDGING}


class _Known(Protocol):
    def names(self, kind: str) -> tuple[str, ...]: ...


def made_of(
    form: MadeForm, source: Source, complaints: list[Complaint], job: Job | None, known: _Known | None
) -> Made:
    """What was measured and cut, as records."""
    sizes = (*_cuts(form), *_openings(form))
    for number, cut in enumerate(form.cut):
        _check_cut(cut, f"cut[{number}]", source, complaints)
    _check_twice(sizes, source, complaints)
    if job is not None:
        _check_names(sizes, job, source, complaints)
    if known is not None:
        words = tuple(name for kind in ("carrier", "facing", "wood") for name in known.names(kind))
        for table, entries in (("thickness", form.thickness), ("humidity", form.humidity)):
            for name in entries:
                if name not in words:
                    place = source.place(key_path((table, name)))
                    complaints.append(
                        Complaint(
                            place, "a material of the catalogue", repr(name), nearest_words(name, words)
                        )
                    )
    spoiled = tuple(_spoiled(form))
    if job is not None:
        _check_names(spoiled, job, source, complaints)
    for number, one in enumerate(form.spoiled):
        if (one.layer == "edging") != (one.edge is not None):
            place = source.place(f"spoiled[{number}]")
            complaints.append(Complaint(place, "an edge, for edging alone", one.edge or "none"))
    done = done_of(form.done, source, complaints)
    moisture = readings_of(form.moisture, source, complaints, known)
    flat = measured_of(form.flat)
    if job is not None:
        _check_names(flat, job, source, complaints)
    return Made(dict(form.thickness), sizes, dict(form.humidity), source.file, spoiled, done, moisture, flat)


def _spoiled(form: MadeForm) -> Iterator[Spoiled]:
    for number, one in enumerate(form.spoiled):
        side = Side(one.edge) if one.edge else None
        yield Spoiled(one.piece, one.panel, _ROLES[one.layer], side, one.count, f"spoiled[{number}]")


def _cuts(form: MadeForm) -> Iterator[MadeSize]:
    for number, cut in enumerate(form.cut):
        yield MadeSize(
            piece=cut.piece,
            panel=cut.panel,
            role=_ROLES[cut.layer],
            side=Side(cut.edge) if cut.edge else None,
            length_mm=cut.length,
            width_mm=cut.width,
            origin=f"cut[{number}]",
        )


def _openings(form: MadeForm) -> Iterator[MadeSize]:
    for number, one in enumerate(form.opening):
        yield MadeSize(
            piece=one.piece,
            panel=one.panel,
            role=_ROLES[one.layer],
            length_mm=one.length,
            width_mm=one.width,
            opening=True,
            origin=f"opening[{number}]",
        )


def _check_cut(cut: CutForm, path: str, source: Source, complaints: list[Complaint]) -> None:
    if (cut.layer == "edging") != (cut.edge is not None):
        told = (
            "none"
            if cut.edge is None
            else said("edge = {edge} for the {layer}", edge=repr(cut.edge), layer=cut.layer)
        )
        complaints.append(Complaint(source.place(path), "an edge, for edging alone", told))
    if cut.length is None and cut.width is None:
        complaints.append(Complaint(source.place(path), "length, width or both as measured", "neither"))


def _check_twice(sizes: tuple[MadeSize, ...], source: Source, complaints: list[Complaint]) -> None:
    seen: dict[Any, str] = {}
    for size in sizes:
        key = (size.piece, size.panel, size.role, size.side, size.opening)
        if key in seen:
            complaints.append(
                Complaint(
                    source.place(size.origin),
                    "each layer once",
                    said("the same as {origin}", origin=seen[key]),
                )
            )
        seen.setdefault(key, size.origin)


def _check_names(
    sizes: Sequence[MadeSize | Spoiled | MeasuredFlat], job: Job, source: Source, complaints: list[Complaint]
) -> None:
    pieces = {piece.name: _panel_names(piece.description) for piece in job.pieces}
    for size in sizes:
        if size.piece not in pieces:
            hint = nearest_words(size.piece, tuple(pieces))
            place = source.place(f"{size.origin}.piece")
            complaints.append(Complaint(place, "the name of a piece of the job", repr(size.piece), hint))
        elif size.panel not in pieces[size.piece]:
            hint = nearest_words(size.panel, pieces[size.piece])
            place = source.place(f"{size.origin}.panel")
            complaints.append(
                Complaint(place, said("a panel of {piece}", piece=repr(size.piece)), repr(size.panel), hint)
            )


def _panel_names(description: object) -> tuple[str, ...]:
    """Names of the panels of a piece: written out, or as its kind says it will call them."""
    if isinstance(description, tuple):
        return tuple(panel.name for panel in description if isinstance(panel, Panel))
    return tuple(getattr(description, "panel_names", ()))
