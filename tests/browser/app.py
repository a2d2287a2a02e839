"""The app as a maker starts it, and a page that is watched, for the tests of the screens."""

import os
import queue
import re
import signal
import subprocess
import sys
import threading
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Route

SCREENS = Path(__file__).parents[2] / "build" / "screens"
LONG_MS = 30_000


@dataclass
class Served:
    """The app as a maker starts it: a process of its own, on a data folder of its own."""

    home: Path
    port: int = 0
    address: str = ""
    process: subprocess.Popen[str] | None = None
    reader: threading.Thread | None = None
    said: list[str] = field(default_factory=list)

    def start(self, *words: str) -> str:
        """Start it, on the port it had before if it had one; gives the address of the job shown."""
        command = [sys.executable, "-m", "evenface", "open", *words, "--no-browser", "--port", str(self.port)]
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=self.home,
            env=os.environ | {"EVENFACE_HOME": str(self.home / "data"), "OMP_NUM_THREADS": "1"},
        )  # fmt: skip
        shown = re.search(r"http://127\.0\.0\.1:(\d+)\S*", self._line())
        assert shown, f"the app named no address: {self.said}"
        self.port = int(shown[1])
        self.address = shown[0]
        return self.address

    def _line(self) -> str:
        """The first line that names an address; whatever else is said is kept."""
        assert self.process is not None
        assert self.process.stdout is not None
        lines: queue.Queue[str] = queue.Queue()
        out = self.process.stdout

        def read() -> None:
            with out:
                for line in out:
                    lines.put(line)

        self.reader = threading.Thread(target=read, daemon=True)
        self.reader.start()
        while True:
            line = lines.get(timeout=30)
            self.said.append(line)
            if "http://" in line:
                return line

    @property
    def root(self) -> str:
        """Where the app answers."""
        return f"http://127.0.0.1:{self.port}"

    def kill(self) -> None:
        """Ended without a word, as by a cut cable."""
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
            if self.reader is not None:
                self.reader.join()
            self.process = None


@dataclass
class Watch:
    """What a page must never do: reach beyond this machine, break its own policy, throw."""

    beyond: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    def clean(self) -> None:
        """AssertionError names what the page did."""
        assert not self.beyond, f"asked for {self.beyond}"
        assert not self.errors, self.errors


def watched(context: BrowserContext) -> tuple[Page, Watch]:
    """A page that hears of nothing but this machine, and what it did wrong."""
    watch = Watch()

    def gate(route: Route) -> None:
        address = route.request.url
        if address.startswith("http://127.0.0.1:"):
            route.continue_()
        else:
            watch.beyond.append(address)
            route.abort()

    context.route(re.compile("^(?!data:|blob:)"), gate)
    page = context.new_page()
    page.set_default_timeout(LONG_MS)
    page.on("pageerror", lambda error: watch.errors.append(str(error)))
    page.on("console", lambda said: watch.errors.append(said.text) if _is_fault(said) else None)
    return page, watch


def _is_fault(said: ConsoleMessage) -> bool:
    """Errors of the page itself; an answer that was refused on purpose is the test's own affair."""
    return said.type == "error" and "Failed to load resource" not in said.text


def picture(page: Page, name: str) -> None:
    """The whole page kept as a picture for whoever looks at the run."""
    SCREENS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SCREENS / f"{name}.png", full_page=True)


def until(page: Page, holds: str, given: object = None) -> None:
    """Wait until the script says true. Asked anew each time: the pages let nobody evaluate text within them."""
    for _ in range(LONG_MS // 50):
        if page.evaluate(holds, given):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"not within {LONG_MS} ms: {holds}")


def settled(page: Page) -> None:
    """Wait until nothing on the page is marked as still being reckoned."""
    page.wait_for_load_state("networkidle")
    until(
        page,
        "() => document.querySelector('[data-later=\"\"]') === null && !document.querySelector('.details.old')",
    )
