"""Papers that were given out are kept: each in a numbered folder of its own that is never written to again.

`offers/0007-offer/` holds what was given out under number 0007: the papers, and the job file as it was. The
folder is filled beside its place and moved there whole; where its number has been taken meanwhile, the next is
tried and the papers are made anew with it.
"""

import os
import re
import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from evenface.errors import EvenfaceError
from evenface.words import said

KINDS: Final = ("offer", "confirmation", "change", "delivery-note", "invoice")
_NAME: Final = re.compile(r"(\d{4,})-(" + "|".join(KINDS) + ")")
_TRIES: Final = 50


class KeepingError(EvenfaceError):
    """Papers cannot be kept there; the text names the folder and what to try."""


def kept(folder: Path) -> tuple[tuple[str, str, Path], ...]:
    """Number, kind and folder of everything kept there, in the order of the numbers."""
    if not folder.is_dir():
        return ()
    found = [(match[1], match[2], one) for one in folder.iterdir() if (match := _NAME.fullmatch(one.name))]
    return tuple(sorted(found, key=lambda one: (int(one[0]), one[1])))


def keep(folder: Path, kind: str, papers: Callable[[str], Mapping[str, bytes]]) -> Path:
    """Keep papers under the next number and give their folder.

    papers : from the number, as "0007", to the content of each file by its name.
    Raises KeepingError when the folder cannot be written, ValueError for an unknown kind.
    """
    if kind not in KINDS:
        raise ValueError(f"expected one of {', '.join(KINDS)}, was given {kind!r}")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for _ in range(_TRIES):
            number = _next(folder)
            place = folder / f"{number}-{kind}"
            if _filled(folder, place, number, papers(number)):
                return place
    except OSError as fault:
        raise KeepingError(
            said(
                "{folder} cannot be written: {why}. Name another folder with --out.",
                folder=str(folder),
                why=fault.strerror or str(fault),
            )
        ) from fault
    raise KeepingError(
        said("{folder}: no free number was found. Is another program writing there?", folder=str(folder))
    )


def _next(folder: Path) -> str:
    """The number after the highest that is kept, or claimed by somebody who is writing or was stopped."""
    taken = [int(number) for number, _, _ in kept(folder)]
    taken += [int(one.name[1:-6]) for one in folder.glob(".*.claim") if one.name[1:-6].isdecimal()]
    return f"{max(taken, default=0) + 1:04}"


def _filled(folder: Path, place: Path, number: str, contents: Mapping[str, bytes]) -> bool:
    """Whether the place could be taken; all files are in it then, and may not be written any more."""
    claim = folder / f".{number}.claim"
    try:
        claim.touch(exist_ok=False)  # one number, whatever the kind
    except FileExistsError:
        return False
    beside = Path(tempfile.mkdtemp(prefix=f".{number}-", dir=folder))
    try:
        for name, content in contents.items():
            with (beside / name).open("xb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            (beside / name).chmod(0o444)
        if any(one == number for one, _, _ in kept(folder)):
            return False
        beside.chmod(0o755)
        beside.rename(place)
        return True
    finally:
        shutil.rmtree(beside, ignore_errors=True)
        claim.unlink(missing_ok=True)
