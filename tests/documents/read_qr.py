"""Reads the code on a printed label: a QR symbol of version 1 in alphanumeric mode, by ISO/IEC 18004 (MEMORY).

Written for these tests alone and without error correction, so that a module printed wrongly is a wrong sign.
"""

SIZE = 21
SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
MASKS = (
    lambda i, j: (i + j) % 2,
    lambda i, j: i % 2,
    lambda i, j: j % 3,
    lambda i, j: (i + j) % 3,
    lambda i, j: (i // 2 + j // 3) % 2,
    lambda i, j: (i * j) % 2 + (i * j) % 3,
    lambda i, j: ((i * j) % 2 + (i * j) % 3) % 2,
    lambda i, j: ((i + j) % 2 + (i * j) % 3) % 2,
)


def text_of(dark):
    """The text of a symbol. dark : rows of 21 truth values, from the top."""
    assert len(dark) == SIZE, "expected 21 rows"
    for corner in ((0, 0), (0, SIZE - 7), (SIZE - 7, 0)):
        for i in range(7):
            for j in range(7):
                ring = max(abs(i - 3), abs(j - 3))
                assert dark[corner[0] + i][corner[1] + j] is (ring != 2), (
                    "no finder pattern where one belongs"
                )
    bits = [dark[8][j] for j in (0, 1, 2, 3, 4, 5, 7)] + [dark[i][8] for i in (8, 7, 5, 4, 3, 2, 1, 0)]
    form = int("".join("01"[bit] for bit in bits), 2) ^ 0b101010000010010
    mask = MASKS[form >> 10 & 0b111]
    stream = "".join("01"[dark[i][j] ^ (mask(i, j) == 0)] for i, j in _path())
    assert stream[:4] == "0010", "not alphanumeric"
    count, at, told = int(stream[4:13], 2), 13, ""
    while len(told) < count:
        two = count - len(told) > 1
        number = int(stream[at : at + (11 if two else 6)], 2)
        told += _sign(number // 45) + _sign(number % 45) if two else _sign(number)
        at += 11 if two else 6
    return told


def _sign(number):
    """The sign of that number; a symbol that is read wrongly may name one there is not."""
    return SIGNS[number] if number < len(SIGNS) else "?"


def _path():
    """Modules of the data, two columns at a time from the right, upwards first."""
    upwards = True
    for right in (20, 18, 16, 14, 12, 10, 8, 5, 3, 1):
        for i in range(SIZE - 1, -1, -1) if upwards else range(SIZE):
            for j in (right, right - 1):
                finder = (i < 9 and (j < 9 or j > 12)) or (i > 12 and j < 9)
                if not finder and i != 6:
                    yield i, j
        upwards = not upwards
