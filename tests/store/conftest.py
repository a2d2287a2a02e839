"""Racks to test on: a SQLite file, and a PostgreSQL server where there is one."""

import os
import uuid

import pytest
from store import rack_server

from evenface.store.rack import Rack


@pytest.fixture(scope="session")
def postgres():
    """Address of a server with `{base}` for the database; skipped loudly where there is none."""
    why = rack_server.missing()
    if why and os.environ.get(rack_server.NEEDED) == "1":
        pytest.fail(f"{rack_server.NEEDED}=1, but PostgreSQL cannot be tested: {why}")
    if why:
        pytest.skip(f"NOT TESTED: the rack on PostgreSQL, for {why}")
    with rack_server.running() as address:
        yield address


@pytest.fixture
def postgres_address(postgres):
    """Address of an empty database on the server."""
    import psycopg

    base = f"rack_{uuid.uuid4().hex[:12]}"
    with psycopg.connect(
        postgres.replace("+psycopg", "").format(base="postgres"), autocommit=True
    ) as connection:
        connection.execute(f"CREATE DATABASE {base}")
    return postgres.format(base=base)


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request, tmp_path):
    """Address of a rack that is not there yet, on each kind of database."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'rack.sqlite3'}"
    return request.getfixturevalue("postgres_address")


@pytest.fixture
def rack(tmp_path, address):
    """An empty rack of Ida's."""
    with Rack(tmp_path, address, "Ida") as made:
        yield made


@pytest.fixture
def file_rack(tmp_path):
    """An empty rack of Ida's in a file."""
    with Rack(tmp_path, person="Ida", address=f"sqlite:///{tmp_path / 'rack.sqlite3'}") as made:
        yield made
