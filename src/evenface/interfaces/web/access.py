"""The access code of a shared app: made at each start, asked once of each browser, guessed at only slowly."""

import hashlib
import hmac
import ipaddress
import secrets
import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable
from typing import Final

SIGNS: Final = "23456789abcdefghjkmnpqrstuvwxyz"
"""No sign that is mistaken for another: no 0, 1, i, l, o."""
LENGTH: Final = 12
"""31 signs twelve times over are 59 bits: at `MOST_IN_ALL` tries a minute not to be found by trying."""
WINDOW_S: Final = 60.0
MOST_OF_ONE: Final = 6
MOST_IN_ALL: Final = 60
MOST_SESSIONS: Final = 200


class TooOften(Exception):
    """Too many wrong codes; `wait_s` until another is looked at."""

    def __init__(self, wait_s: float) -> None:
        self.wait_s = wait_s
        super().__init__("too many wrong codes")


def new_code() -> str:
    """A fresh access code, in groups for reading aloud."""
    signs = "".join(secrets.choice(SIGNS) for _ in range(LENGTH))
    return "-".join(signs[at : at + 4] for at in range(0, LENGTH, 4))


class Access:
    """One start's access code and the browsers that gave it. Kept in memory only: a stop forgets them all."""

    def __init__(self, code: str | None = None, clock: Callable[[], float] = time.monotonic) -> None:
        self.code = new_code() if code is None else code
        self._limit = Limit(clock)
        self._sessions: OrderedDict[bytes, None] = OrderedDict()
        self._lock = threading.Lock()

    def fits(self, given: str, client: str) -> bool:
        """Whether the code is right, compared in constant time. Raises TooOften, then even for the right one."""
        self._limit.check(client)
        if hmac.compare_digest(_digest(_plain(given)), _digest(_plain(self.code))):
            return True
        self._limit.count(client)
        return False

    def begin(self) -> str:
        """A session for a browser that gave the code: the word for its cookie."""
        word = secrets.token_urlsafe(32)
        with self._lock:
            self._sessions[_digest(word)] = None
            while len(self._sessions) > MOST_SESSIONS:
                self._sessions.popitem(last=False)
        return word

    def knows(self, word: str) -> bool:
        """Whether a session began with that word. Looked up by its digest, so that timing tells nothing of it."""
        with self._lock:
            return _digest(word) in self._sessions


class Limit:
    """Wrong tries within the last minute, of each client and of all. Safe for several threads."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._tries: deque[tuple[float, str]] = deque()
        self._lock = threading.Lock()

    def check(self, client: str) -> None:
        """Raises TooOften when this client, or all together, had their tries."""
        with self._lock:
            now = self._clock()
            while self._tries and self._tries[0][0] <= now - WINDOW_S:
                self._tries.popleft()
            mine = [at for at, who in self._tries if who == _household(client)]
            if len(mine) >= MOST_OF_ONE:
                raise TooOften(mine[-MOST_OF_ONE] + WINDOW_S - now)
            if len(self._tries) >= MOST_IN_ALL:
                raise TooOften(self._tries[-MOST_IN_ALL][0] + WINDOW_S - now)

    def count(self, client: str) -> None:
        """One wrong try more."""
        with self._lock:
            self._tries.append((self._clock(), _household(client)))


def _household(client: str) -> str:
    """Who tries: an address, of IPv6 the half that one household has, else it could change it at each try."""
    try:
        address = ipaddress.ip_address(client)
    except ValueError:
        return client
    if isinstance(address, ipaddress.IPv6Address) and address.ipv4_mapped is None:
        return str(ipaddress.ip_network((address, 64), strict=False))
    return str(getattr(address, "ipv4_mapped", None) or address)


def _plain(code: str) -> str:
    """The code as it counts: without the spaces and strokes people type or leave out."""
    return "".join(sign for sign in code.lower() if sign.isalnum())


def _digest(word: str) -> bytes:
    return hashlib.sha256(word.encode("utf-8", "surrogatepass")).digest()
