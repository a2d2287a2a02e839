"""The job as the maker wrote it: files in, validated records out.

Takes: the text of a job file and of what was made, the names of materials, the kinds of piece.
Gives: `Job` and `Made`, frozen, every record with its key path; or a `FileError` with every complaint.
May import: units, errors, toml_places, evidence, words, finding, materials, climate, mechanics, shape.
Start reading at: `reader.read_job`.
"""

from evenface.piece.reader import open_job, open_made, read_job, read_made

__all__ = ["open_job", "open_made", "read_job", "read_made"]
