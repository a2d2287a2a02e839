"""See that there is a browser for the tests of the screens; where there is none, let Playwright bring its own.

Playwright's browser goes into its cache in the home folder: nothing of the system is changed. Where it cannot be
had either, that is said loudly and the other tests run all the same.
"""

import shutil
import subprocess
import sys

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
ABSENT = (
    "no browser: the screens are NOT tested in one. Install Chromium (Debian and Ubuntu: apt-get install chromium), "
    "or let Playwright bring its own: .venv/bin/python -m playwright install chromium"
)


def system_browser() -> str | None:
    """Where a Chromium or Chrome of this system lies."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


def playwright_has_one() -> bool:
    """Whether Playwright keeps a Chromium of its own already."""
    from pathlib import Path

    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        return Path(playwright.chromium.executable_path).is_file()


def main() -> None:
    """Say which browser there is, bring one, or say that there is none."""
    own = system_browser()
    if own or playwright_has_one():
        print(f"the screens are tested in {own or 'the browser Playwright keeps'}")
        return
    print("no browser found; Playwright is asked for its own")
    command = [sys.executable, "-m", "playwright", "install", "chromium-headless-shell", "chromium"]
    try:
        brought = subprocess.run(command, capture_output=True, timeout=300, check=False).returncode == 0
    except subprocess.TimeoutExpired:
        brought = False
    if not brought:
        sys.stderr.write(f"!!!!\n!!!!  {ABSENT}\n!!!!\n")


if __name__ == "__main__":
    main()
