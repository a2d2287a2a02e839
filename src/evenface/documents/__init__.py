"""The papers of a job: tables, the printed packet, and the files others read.

Takes: a `Result`, its drawings, the catalogue; the day's date and the manner of speaking are handed in.
Gives: `Table` for paper and screen, `result.json` with its schema, `parts.csv`, the packet as PDF, files on disk.
May import: units, errors, evidence, words, finding, materials, shape, piece, construction, parts, behaviour, layouts, checks, workplan, pricing, result, drawings.
Start reading at: `tables`, then `packet` and `files`.
"""  # noqa: E501

from evenface.documents.tables import Column, Table

__all__ = ["Column", "Table"]
