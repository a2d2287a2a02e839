"""Open a job with everything that belongs to it: the catalogue, the maker's materials, what was made."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from evenface.construction.kinds import KINDS
from evenface.materials import Catalogue, load_catalogue
from evenface.piece import open_job, open_made
from evenface.piece.records import NOTHING_MADE, Job, Made

OWN_MATERIALS = "materials.toml"
"""A file of this name beside the job adds to the catalogue or overrides it."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A job with the catalogue it was read against, and the hashes of every file that went in."""

    job: Job
    made: Made
    catalogue: Catalogue
    hashes: Mapping[str, str]


def open_with_all(path: Path, materials: Path | None = None) -> Opened:
    """Read the job file, its `NAME.made.toml` and `materials.toml` beside it where they exist.

    Raises FileError with every complaint; nothing is written.
    """
    own = materials or path.parent / OWN_MATERIALS
    catalogue = load_catalogue(own if materials or own.is_file() else None)
    job = open_job(path, catalogue, KINDS)
    made_path = path.with_name(f"{path.stem}.made.toml")
    made = open_made(made_path, job, catalogue) if made_path.is_file() else NOTHING_MADE
    files = {"job": path, "made": made_path, "materials": own}
    hashes = {
        name: hashlib.sha256(file.read_bytes()).hexdigest()[:16]
        for name, file in files.items()
        if file.is_file()
    }
    return Opened(job, made, catalogue, hashes)
