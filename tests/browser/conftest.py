"""A real Chromium for the tests of the screens.

The browser is the system's (Chromium or Chrome), else the one Playwright keeps for itself. Where there
is none the tests are left out and the last lines of the run say so; with EVENFACE_NEED_BROWSER=1, as in
continuous integration, that is a failure. Pictures of every page go to build/screens.
"""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from bring_browser import ABSENT, system_browser
from browser.app import Served
from playwright.sync_api import Browser, BrowserContext, Error, sync_playwright

FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--enable-unsafe-swiftshader")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """One Chromium for a file of tests; every test opens its own context.

    No longer than that: as long as it is there its event loop runs in this thread, and other tests need their own.
    """
    with sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(
                executable_path=os.environ.get("EVENFACE_CHROMIUM", system_browser()), args=list(FLAGS)
            )
        except Error as problem:
            if os.environ.get("EVENFACE_NEED_BROWSER"):
                pytest.fail(f"{ABSENT}\n{problem}")
            pytest.skip(ABSENT)
        yield browser
        browser.close()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """The app on an empty data folder, showing the example."""
    app = Served(tmp_path)
    app.start()
    yield app
    app.kill()


@pytest.fixture(scope="module")
def shared_app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One app for tests that only look."""
    app = Served(tmp_path_factory.mktemp("home"))
    app.start()
    yield app
    app.kill()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A laptop at the bench."""
    made = browser.new_context(viewport={"width": 1280, "height": 900}, locale="en-GB")
    yield made
    made.close()
