"""One-dimensional packing: strips into sheets, pieces into sticks.

A size and its kerf take `size + kerf` from a stock of `capacity + kerf`: the last cut of a stock that is
used up to the end need not be made.
"""

from bisect import bisect_left, insort
from collections.abc import Sequence
from math import gcd

MOST_FOR_FILLING = 250
"""Up to so many sizes each stock is filled as full as it can be; beyond, best fit alone."""
FINEST_FILLING = 400_000


def pack_lengths(sizes: Sequence[int], capacity: int, kerf: int) -> list[list[int]]:
    """Indices of `sizes` grouped into stocks of `capacity`, few of them; every size must fit.

    Best fit of falling sizes, and each stock filled as far as possible round its largest size: the
    better of the two. Deterministic.
    """
    best = best_fit(sizes, capacity, kerf)
    least = -(-sum(size + kerf for size in sizes) // (capacity + kerf)) if sizes else 0
    if len(best) > least and len(sizes) <= MOST_FOR_FILLING:
        best = min(best, filled(sizes, capacity, kerf), key=len)
    return best


def best_fit(sizes: Sequence[int], capacity: int, kerf: int) -> list[list[int]]:
    """Falling sizes, each into the stock it fills best."""
    groups: list[list[int]] = []
    rooms: list[tuple[int, int]] = []
    for index in sorted(range(len(sizes)), key=lambda i: (-sizes[i], i)):
        need = sizes[index] + kerf
        at = bisect_left(rooms, (need, -1))
        if at < len(rooms):
            room, group = rooms.pop(at)
            groups[group].append(index)
        else:
            room, group = capacity + kerf, len(groups)
            groups.append([index])
        insort(rooms, (room - need, group))
    return groups


def filled(sizes: Sequence[int], capacity: int, kerf: int) -> list[list[int]]:
    """Each stock takes the largest size left and the others that fill it best."""
    left = sorted(range(len(sizes)), key=lambda i: (-sizes[i], i))
    # sums of sizes are multiples of what divides all sizes: exact, and a table so much shorter
    scale = gcd(*(size + kerf for size in sizes)) or 1
    scale *= max(1, (capacity + kerf) // scale // FINEST_FILLING)
    groups: list[list[int]] = []
    while left:
        head = left.pop(0)
        room = (capacity + kerf - sizes[head] - kerf) // scale
        chosen = fullest([-(-(sizes[i] + kerf) // scale) for i in left], room)
        groups.append([head, *(left[i] for i in chosen)])
        taken = set(chosen)
        left = [index for at, index in enumerate(left) if at not in taken]
    return groups


def fullest(needs: list[int], room: int) -> list[int]:
    """Indices whose needs add up to as much as possible, at most `room`; larger needs preferred."""
    mask = (1 << (room + 1)) - 1
    reached = [1]
    for need in reversed(needs):
        here = reached[-1]
        reached.append((here | (here << need)) & mask if need <= room else here)
    total = reached[-1].bit_length() - 1
    chosen: list[int] = []
    for index, need in enumerate(needs):
        before = reached[len(needs) - 1 - index]
        if need <= total and before >> (total - need) & 1:
            chosen.append(index)
            total -= need
    return chosen
