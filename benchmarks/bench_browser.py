"""How the screens feel in a real browser: start to usable, typing to drawing, and what lies idle costs.

A part of the example, the page of a whole cupboard, and both of a job of 92 parts. Beside them stands a bare page
of the same run, a field and a script that copies what is typed, served by the same kind of server.
Needs Chromium or Chrome. Run: python benchmarks/bench_browser.py
"""

import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

EXAMPLES = Path(__file__).parents[1] / "examples"
LIVE = (
    ("a part", "glaze-room", "/parts/1.1", "piece[0].panel[0].size[0]", 1700),
    ("a cupboard", "wall-cupboard", "/pieces/1", "piece[0].size[0]", 1500),
    ("92: a part", "whole-room", "/parts/1.1", "piece[0].panel[0].size[0]", 1700),
    ("92: a cupb.", "whole-room", "/pieces/3", "piece[2].size[0]", 1500),
)
"""What is edited: its name in the table, example, page, entry, first length. [mm]"""
EDITS = 60
IDLE_S = 10.0
BARE = """<!doctype html><html lang=en><title>bare</title><form><label>Length<input id=f value=1800></label></form>
<p id=plan>1800</p><script>f.oninput = () => fetch("/").then(() => plan.textContent = f.value)</script></html>"""
BARE_SERVER = """
import sys, uvicorn
from starlette.applications import Starlette
from starlette.responses import HTMLResponse
from starlette.routing import Route
page = open(sys.argv[1]).read()
uvicorn.run(Starlette(routes=[Route("/", lambda _: HTMLResponse(page))]), port=int(sys.argv[2]), log_level="error")
"""
DRAWN = """([id, text]) => new Promise(done => {
  const field = document.getElementById(id), began = performance.now();
  const look = () => document.getElementById("plan").textContent.includes(text)
    ? done(performance.now() - began) : requestAnimationFrame(look);
  field.value = text; field.dispatchEvent(new Event("input", { bubbles: true })); look();
})"""


def cpu_s(pid: int) -> float:
    """Processor time a process has taken. Linux."""
    fields = Path(f"/proc/{pid}/stat").read_text().rsplit(") ", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def memory_mb(pid: int) -> float:
    """Memory a process holds. Linux."""
    return int(re.findall(r"VmRSS:\s+(\d+)", Path(f"/proc/{pid}/status").read_text())[0]) / 1024


def renderers() -> list[int]:
    """The browser's processes that draw pages."""
    found = []
    for place in Path("/proc").iterdir():
        if place.name.isdigit():
            try:
                words = (place / "cmdline").read_bytes()
            except OSError:
                continue
            if b"--type=renderer" in words:
                found.append(int(place.name))
    return found


def measure(
    browser: Browser, what: str, address: str, field: str, server: subprocess.Popen[str], first: int = 1700
) -> None:
    """Print what typing and idling cost on one page."""
    before = memory_mb(server.pid)
    strangers = set(renderers())
    page: Page = browser.new_context().new_page()
    started = time.perf_counter()
    page.goto(address)
    place = page.locator(field)
    place.wait_for()
    usable = time.perf_counter() - started
    page.wait_for_timeout(3000)
    own = place.get_attribute("id")
    taken = sorted(page.evaluate(DRAWN, [own, str(first + number)]) for number in range(EDITS))
    page.wait_for_timeout(3000)
    mine = [one for one in renderers() if one not in strangers]
    began = cpu_s(server.pid), sum(map(cpu_s, mine))
    page.wait_for_timeout(1000 * IDLE_S)
    idle = [
        100 * (now - then) / IDLE_S
        for now, then in zip((cpu_s(server.pid), sum(map(cpu_s, mine))), began, strict=True)
    ]
    print(
        f"{what:11s} usable {usable:5.2f} s   typed to drawn: median {taken[EDITS // 2]:6.1f} ms, 95 % under "
        f"{taken[int(0.95 * EDITS)]:6.1f} ms   idle: server {idle[0]:4.1f} %, page {idle[1]:4.1f} %   "
        f"server {memory_mb(server.pid):5.0f} MB, {memory_mb(server.pid) - before:+.0f} MB for this client"
    )


def answers(host: str, port: int, within_s: float = 20.0) -> None:
    """Wait until somebody listens there."""
    until = time.monotonic() + within_s
    while True:
        try:
            return socket.create_connection((host, port), 1.0).close()
        except OSError:
            if time.monotonic() > until:
                raise
            time.sleep(0.05)


@contextmanager
def serving(example: str, folder: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The app on an example, and the address of its job."""
    started = time.perf_counter()
    app = subprocess.Popen(
        [sys.executable, "-m", "evenface", "open", str(EXAMPLES / f"{example}.toml"), "--no-browser"],
        stdout=subprocess.PIPE, text=True, env={**os.environ, "EVENFACE_HOME": folder},
    )  # fmt: skip
    assert app.stdout is not None
    address = re.findall(r"http://\S+", app.stdout.readline())[0]
    print(f"{example}: from the command to the address {time.perf_counter() - started:.2f} s")
    try:
        yield app, address
    finally:
        app.terminate()
        app.wait()


def main() -> None:
    """Print the table."""
    own = next((at for name in ("chromium", "google-chrome") if (at := shutil.which(name))), None)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=own, args=["--no-sandbox", "--disable-gpu"])
        bare = Path(folder) / "bare.html"
        bare.write_text(BARE)
        plain = subprocess.Popen([sys.executable, "-c", BARE_SERVER, str(bare), "8731"], text=True)
        try:
            answers("127.0.0.1", 8731)
            measure(browser, "bare page", "http://127.0.0.1:8731/", "#f", plain)
            for what, example, page, entry, first in LIVE:
                with serving(example, folder) as (app, address):
                    measure(browser, what, address + page, f'[name="{entry}"]', app, first)
            print("bar for each: median 50 ms, 95 % under 100 ms")
        finally:
            plain.terminate()
            plain.wait()
        browser.close()


if __name__ == "__main__":
    main()
