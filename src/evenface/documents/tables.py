"""One kind of table for paper and command line alike."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenface.words import ENGLISH, Manner


@dataclass(frozen=True, slots=True)
class Column:
    """Heading of a column; `numeric` ones are set flush right."""

    title: str
    numeric: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Finished strings in rows, ready for paper or screen.

    Raises ValueError when a row has not one cell a column.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""

    def __post_init__(self) -> None:
        for number, row in enumerate(self.rows, start=1):
            if len(row) != len(self.columns):
                raise ValueError(
                    f"table {self.title!r}, row {number}: expected {len(self.columns)} cells, "
                    f"given {len(row)}"
                )


def table(
    title: str,
    headings: Iterable[str],
    rows: Iterable[Sequence[str]],
    note: str = "",
    manner: Manner = ENGLISH,
) -> Table:
    """A table in the reader's language; a heading that begins with ">" is a column of numbers."""
    columns = tuple(
        Column(manner.translate(heading.removeprefix(">")), heading.startswith(">")) for heading in headings
    )
    return Table(manner.translate(title), columns, tuple(tuple(map(manner.name, row)) for row in rows), note)
