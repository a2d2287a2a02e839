"""Walking through the app as a reader does: every kind of page once, by the links on the pages."""

import re
from urllib.parse import urldefrag, urlsplit

from playwright.sync_api import BrowserContext

MOST = 60


def pages_of(context: BrowserContext, start: str) -> dict[str, str]:
    """One address for each kind of page that can be reached by links from there.

    Gives {name: address}; the name is the address's path with its numbers as n. Downloads and drawings
    are no pages.
    """
    root = "{0.scheme}://{0.netloc}".format(urlsplit(start))
    waiting, found = [start], {}
    while waiting and len(found) < MOST:
        address = urldefrag(waiting.pop(0)).url
        name = name_of(address)
        if not address.startswith(root) or name in found:
            continue
        answer = context.request.get(address, headers={"Origin": root})
        if "text/html" not in answer.headers.get("content-type", "") or not answer.ok:
            answer.dispose()
            continue
        found[name] = address
        waiting += [link if link.startswith("http") else f"{root}{link}" for link in links_in(answer.text())]
    return found


def links_in(page: str) -> list[str]:
    """Where a page leads to, without its pieces and without files."""
    found = (one.replace("&amp;", "&") for one in re.findall(r'href="([^"#][^"]*)"', page))
    return [one for one in found if "/static/" not in one and not re.search(r"[.][a-z]{3,4}$", one)]


def name_of(address: str) -> str:
    """The kind of a page: its path with what numbers it taken out."""
    path = urlsplit(address).path.strip("/") or "jobs"
    return re.sub(r"[0-9]+([.][0-9]+)*", "n", path).replace("/", "-")
