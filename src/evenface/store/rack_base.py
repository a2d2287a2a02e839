"""Where the rack is kept: a SQLite file in the data folder, or a PostgreSQL server by its address.

Alembic is imported only when the tables are not of the newest shape.
"""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.pool import NullPool

from evenface.store.rack_records import RackError
from evenface.words import said

FILE: Final = "rack.sqlite3"
NEWEST: Final = "0002"
"""The last step under `rack_steps/versions`."""
KNOWN: Final = ("0001", "0002")
VERSION: Final = "rack_version"
"""Table with the step the others stand at."""
STEPS: Final = Path(__file__).parent / "rack_steps"
PATIENCE_S: Final = 15
"""How long a writer waits for the one before him."""
_LOCK: Final = 0x7261636B
_WRITING: Final = "evenface_writing"


def address_of(folder: Path) -> str:
    """`EVENFACE_RACK` where it is set, else the file in the data folder."""
    return os.environ.get("EVENFACE_RACK", "").strip() or f"sqlite:///{folder / FILE}"


def open_engine(address: str) -> sa.Engine:
    """The engine for that address, with the tables in the newest shape.

    Raises RackError when it cannot be reached, is no rack, or was made by a newer evenface.
    """
    try:
        url = sa.make_url(address)
        if url.get_backend_name() not in ("sqlite", "postgresql"):
            raise RackError(
                said(
                    "EVENFACE_RACK: expected an address that begins with postgresql+psycopg:// or sqlite:///, "
                    "was given one that begins with {driver}://",
                    driver=url.drivername,
                )
            )
        engine = _sqlite(url) if url.get_backend_name() == "sqlite" else _postgres(url)
    except ModuleNotFoundError as problem:
        raise RackError(
            said(
                "The rack at {address} needs {name}: install evenface with the extra 'postgres'.",
                address=_shown(address),
                name=problem.name or "",
            )
        ) from problem
    except (SQLAlchemyError, NoSuchModuleError, OSError) as problem:
        raise _unusable(address, problem) from problem
    try:
        _bring_up(engine, address)
    except (SQLAlchemyError, OSError) as problem:
        engine.dispose()
        raise _unusable(address, problem) from problem
    except BaseException:
        engine.dispose()
        raise
    return engine


@contextmanager
def writing(engine: sa.Engine) -> Iterator[sa.Connection]:
    """A transaction that is the only writer while it lasts: all of it or nothing.

    Raises RackError when the disc is full, the server gone, or another writer does not end.
    """
    try:
        with engine.connect().execution_options(**{_WRITING: True}) as base, base.begin():
            if engine.dialect.name == "postgresql":
                base.execute(sa.text(f"SET LOCAL lock_timeout = '{PATIENCE_S}s'"))
                base.execute(sa.text(f"SELECT pg_advisory_xact_lock({_LOCK})"))
            yield base
    except DBAPIError as problem:
        raise RackError(
            said("The rack could not be written: {problem}. Nothing was changed.", problem=_said(problem))
        ) from problem


@contextmanager
def reading(engine: sa.Engine) -> Iterator[sa.Connection]:
    """A view of one moment. Raises RackError when the rack cannot be read."""
    try:
        base = engine.connect()
        if engine.dialect.name == "postgresql":
            base = base.execution_options(isolation_level="REPEATABLE READ")
        with base, base.begin():
            yield base
    except DBAPIError as problem:
        raise RackError(said("The rack could not be read: {problem}.", problem=_said(problem))) from problem


def _sqlite(url: sa.URL) -> sa.Engine:
    if not url.database or url.database == ":memory:":
        raise RackError("EVENFACE_RACK: expected the path of a file after sqlite:///, was given none")
    Path(url.database).parent.mkdir(parents=True, exist_ok=True)
    engine = sa.create_engine(url, poolclass=NullPool, connect_args={"timeout": PATIENCE_S})

    @sa.event.listens_for(engine, "connect")
    def _set_up(connection: Any, _: object) -> None:
        connection.isolation_level = None  # we begin by ourselves
        _to_wal(connection)
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA foreign_keys = ON")

    @sa.event.listens_for(engine, "begin")
    def _begin(connection: sa.Connection) -> None:
        alone = connection.get_execution_options().get(_WRITING, False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if alone else "BEGIN")

    return engine


def _to_wal(connection: Any) -> None:
    """Turn the write-ahead log on; of several who try at once all but one have to wait, which SQLite does not."""
    import sqlite3

    until = time.monotonic() + PATIENCE_S
    while True:
        try:
            if connection.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
                connection.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as problem:
            if "locked" not in str(problem) or time.monotonic() > until:
                raise
            time.sleep(0.01)


def _postgres(url: sa.URL) -> sa.Engine:
    return sa.create_engine(url, poolclass=NullPool, connect_args={"connect_timeout": PATIENCE_S})


def _bring_up(engine: sa.Engine, address: str) -> None:
    if _shape(engine, address) == NEWEST:
        return
    with writing(engine) as base:
        if _shape_in(base, address) != NEWEST:  # nobody else was quicker
            _upgrade(base, NEWEST)


def _shape(engine: sa.Engine, address: str) -> str | None:
    with reading(engine) as base:
        return _shape_in(base, address)


def _shape_in(base: sa.Connection, address: str) -> str | None:
    """The step the tables stand at, None for an empty place. RackError for one that is not known."""
    if not sa.inspect(base).has_table(VERSION):
        return None
    found = base.execute(sa.text(f"SELECT version_num FROM {VERSION}")).scalar()
    if found is not None and found not in KNOWN:
        raise RackError(
            said(
                "The rack at {address} was written by a newer evenface (step {found}, this one knows {newest}). "
                "Update evenface; nothing was opened or changed.",
                address=_shown(address),
                found=found,
                newest=NEWEST,
            )
        )
    return found


def _upgrade(base: sa.Connection, step: str) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(STEPS).replace("%", "%%"))
    config.attributes["connection"] = base
    command.upgrade(config, step)


def _shown(address: str) -> str:
    """The address without its password."""
    try:
        return sa.make_url(address).render_as_string(hide_password=True)
    except SQLAlchemyError:
        return "that address"


def _said(problem: BaseException) -> str:
    inner = getattr(problem, "orig", None) or problem
    lines = str(inner).strip().splitlines()
    return lines[0].rstrip(".") if lines else type(inner).__name__


def _unusable(address: str, problem: Exception) -> RackError:
    return RackError(
        said(
            "Expected to keep the rack at {address}, but it cannot be used: {problem}. "
            "Make it reachable and writable, or set EVENFACE_HOME or EVENFACE_RACK to another place.",
            address=_shown(address),
            problem=_said(problem),
        )
    )
