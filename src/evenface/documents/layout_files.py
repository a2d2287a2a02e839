"""Layouts as files for other programs: a DXF beside each drawing of a sheet, the cut list, the workbook."""

from contextlib import suppress
from datetime import date
from typing import Final

from evenface.documents.cuts_csv import cuts_text
from evenface.documents.pictures import Pictures
from evenface.documents.workbook import NoWorkbookWriter, workbook_of
from evenface.drawings import NoDxfWriter, cut_plan_of, to_dxf
from evenface.result import Result
from evenface.words import ENGLISH, Manner

CUTS: Final = "cuts.csv"
WORKBOOK: Final = "layouts.xlsx"


def layout_files(
    result: Result, pictures: Pictures, day: date, drawings: str, manner: Manner = ENGLISH
) -> dict[str, bytes]:
    """DXF of each sheet, named like its drawing in the folder `drawings`, then `cuts.csv` and `layouts.xlsx`.

    Without ezdxf or openpyxl, both extras, their files are left out; see `missing_writers`.
    """
    made: dict[str, bytes] = {}
    try:
        for (number, index), drawn in pictures.sheets.items():
            dxf = to_dxf(cut_plan_of(result.layouts[number], index))
            made[f"{drawings}/{drawn[0].name}.dxf"] = dxf.encode()
    except NoDxfWriter:
        made.clear()
    made[CUTS] = cuts_text(result).encode()
    with suppress(NoWorkbookWriter):
        made[WORKBOOK] = workbook_of(result, day, manner)
    return made


def missing_writers(written: tuple[str, ...], sheets: bool) -> tuple[str, ...]:
    """What to say of files that were left out. written : names of all files. sheets : whether there are layouts."""
    missing = []
    if sheets and not any(name.endswith(".dxf") for name in written):
        missing.append("No DXF was written: ezdxf is not installed (pip install 'evenface[dxf]').")
    if WORKBOOK not in written:
        missing.append("No workbook was written: openpyxl is not installed (pip install 'evenface[sheets]').")
    return tuple(missing)
