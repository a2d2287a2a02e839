"""An app on an empty folder, and a way to wait for what is reckoned beside a page."""

import time

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.store import JobStore

HOME = "http://127.0.0.1:8000"


class Screens:
    """A browser without a browser: pages, and forms sent from them."""

    def __init__(self, store: JobStore) -> None:
        self.store = store
        self.client = TestClient(
            build_app(store, Planner(0.0)), base_url=HOME, headers={"Origin": HOME}, follow_redirects=False
        )
        self.client.get("/")  # brings the cookie

    def get(self, address, **headers):
        return self.client.get(address, headers=headers)

    def post(self, address, **fields):
        return self.client.post(address, data={name: str(value) for name, value in fields.items()})

    def send(self, address, fields):
        return self.client.post(address, data=fields)

    def settled(self, address):
        """The page once nothing on it is still being reckoned."""
        until = time.monotonic() + 120
        while "data-poll" in (answer := self.client.get(address)).text:
            assert time.monotonic() < until
            time.sleep(0.05)
        return answer


@pytest.fixture
def store(tmp_path, monkeypatch):
    """An empty store in a data folder of its own, which what is asked without a store finds too."""
    monkeypatch.setenv("EVENFACE_HOME", str(tmp_path / "home"))
    monkeypatch.delenv("EVENFACE_RACK", raising=False)
    made = JobStore(tmp_path / "home")
    yield made
    made.close()


@pytest.fixture
def screens(tmp_path):
    store = JobStore(tmp_path / "kept")
    yield Screens(store)
    store.close()


@pytest.fixture
def glaze(screens):
    """The example as job number 1."""
    return screens.store.add("Glaze room", example_text())
