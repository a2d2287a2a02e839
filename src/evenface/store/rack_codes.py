"""Codes of the rack: seven signs and one that checks them, written K7F3-2MQT, the same on label and screen.

The signs are those of Crockford's base 32 (no I, L, O, U); the last one makes the weighted sum divisible by 31,
so that one wrong sign and two neighbours exchanged are noticed (two signs of the 32 stand for one remainder, 0).
"""

import secrets
from typing import Final

from evenface.errors import Unreadable
from evenface.words import said

SIGNS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH: Final = 8
_MODULUS: Final = 31
_READ_AS: Final = str.maketrans({"O": "0", "I": "1", "L": "1", "-": "", " ": ""})


def new_code() -> str:
    """A code nobody has yet, as good as surely: 31⁷ are possible. Never with a Z, which checks like 0."""
    body = "".join(secrets.choice(SIGNS[:_MODULUS]) for _ in range(LENGTH - 1))
    return body + _check_sign(body)


def read_code(given: str) -> str:
    """The code as the rack keeps it, from what was typed or scanned: dashes, blanks and small letters are fine.

    Raises ValueError with what is wrong about it.
    """
    code = given.strip().upper().translate(_READ_AS)
    if len(code) != LENGTH or any(sign not in SIGNS for sign in code):
        raise Unreadable("a code of eight signs such as K7F3-2MQT", repr(given[:40]))
    if code[-1] != _check_sign(code[:-1]):
        raise Unreadable(
            "a code whose last sign checks the others",
            said("{code}, which has a wrong sign", code=repr(given[:40])),
        )
    return code


def code_text(code: str) -> str:
    """The code as it is read by people: two groups of four."""
    return f"{code[:4]}-{code[4:]}"


def _check_sign(body: str) -> str:
    total = sum((place + 1) * SIGNS.index(sign) for place, sign in enumerate(body))
    weight = LENGTH  # of the last place; it has an inverse, for 31 is prime
    return SIGNS[(-total * pow(weight, -1, _MODULUS)) % _MODULUS]
