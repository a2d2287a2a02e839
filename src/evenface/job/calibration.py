"""A maker's own movement of a sheet, from two test strips, stored in the maker's file of materials."""

import os
from pathlib import Path

from evenface.behaviour.calibrating import Calibrated, Strips, calibrate
from evenface.errors import Complaint, EvenfaceError, FileError, Place
from evenface.evidence import Value
from evenface.materials import Catalogue, load_catalogue
from evenface.words import said


def calibrated(
    catalogue: Catalogue,
    facing: str,
    carrier: str,
    length_mm: float,
    bows_mm: tuple[float, float],
    humidities: tuple[float, float],
    days: int,
    board_mm: float | None = None,
) -> Calibrated:
    """Work back the movement. MissingWord for unknown names; FileError for measurements that cannot be."""
    board = catalogue.carrier(carrier)
    board = board if board_mm is None else board.with_thickness(board_mm)
    try:
        return calibrate(Strips(board, catalogue.facing(facing), length_mm, *bows_mm, *humidities, days))
    except ValueError as refusal:
        expected, _, given = str(refusal).removeprefix("expected ").partition(", was given ")
        raise FileError([Complaint(Place(key="calibrate"), expected, given or "others")]) from None


def entry_text(facing: str, found: Calibrated) -> str:
    """The entry for the maker's materials file; it changes these two figures of the sheet and no other."""
    rows = [f'[facing."{facing}"]']
    for key, value in (("expansion_along", found.along), ("expansion_across", found.across)):
        rows.append(f"{key} = {_figure(value)}")
    return "\n".join(rows) + "\n"


def _figure(value: Value) -> str:
    source = value.source.replace("\\", " ").replace('"', "'")
    return (
        f"{{ value = {value.nominal:.6f}, low = {value.low:.6f}, high = {value.high:.6f}, "
        f'unit = "{value.unit}", status = "measured", source = "{source}" }}'
    )


def store_entry(file: Path, facing: str, found: Calibrated) -> None:
    """Add the entry to the maker's file, whole or not at all; everything already in it stays.

    Raises FileError when the file has an entry of that name already, or would not be read with it.
    """
    before = file.read_text(encoding="utf-8") if file.is_file() else ""
    if f'[facing."{facing}"]' in before or f"[facing.{facing}]" in before:
        hint = "Change the two figures in it by hand; they are printed above."
        raise FileError(
            [Complaint(Place(str(file)), said("no entry for {facing} yet", facing=facing), "one", hint)]
        )
    gap = "\n" if before and not before.endswith("\n\n") else ""
    beside = file.with_name(f".{file.name}.new")
    try:
        beside.write_text(before + gap + entry_text(facing, found), encoding="utf-8")
        load_catalogue(beside).facing(facing)
        os.replace(beside, file)
    except OSError as fault:
        raise EvenfaceError(
            said("{file} cannot be written: {why}.", file=str(file), why=fault.strerror or str(fault))
        ) from fault
    finally:
        beside.unlink(missing_ok=True)
