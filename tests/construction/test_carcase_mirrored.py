"""A carcase told the other way round stands the other way round: every part, gap and hole at its mirrored place."""

from collections import Counter
from dataclasses import replace

from construction.test_carcase_sizes import CATALOGUE, PEDESTAL_JOB, boxes, carcases
from hypothesis import given, settings

from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.build import build

OTHER = {"left": "right", "right": "left"}
GROUND = Ground(PEDESTAL_JOB, PEDESTAL_JOB.pieces[0], CATALOGUE)


def mirrored(carcase):
    """The description with left and right exchanged."""
    patterns = dict(carcase.patterns)
    patterns["left side"], patterns["right side"] = (
        replace(patterns["left side"], buildup=carcase.patterns["right side"].buildup),
        replace(patterns["right side"], buildup=carcase.patterns["left side"].buildup),
    )
    bays = tuple(
        replace(bay, rows=tuple(replace(row, hinge=OTHER[row.hinge]) for row in bay.rows))
        for bay in reversed(carcase.bays)
    )
    fronts, scribe = carcase.fronts, carcase.scribe
    return replace(
        carcase,
        patterns=patterns,
        bays=bays,
        fronts=replace(
            fronts,
            left=fronts.right,
            right=fronts.left,
            told=tuple(OTHER.get(side, side) for side in fronts.told),
        ),
        scribe=replace(scribe, left=scribe.right, right=scribe.left),
    )


@settings(max_examples=60, deadline=None)
@given(carcases())
def test_a_mirrored_carcase_is_mirrored(carcase) -> None:
    one, other = build(carcase, GROUND), build(mirrored(carcase), GROUND)
    width = carcase.size_mm[0]
    rest = [box for _, box in boxes(other, GROUND)]
    for placement, (low, high) in boxes(one, GROUND):
        turned = (width - high[0], low[1], low[2]), (width - low[0], high[1], high[2])
        found = [
            box
            for box in rest
            if all(
                abs(a - b) < 0.01
                for mine, its in zip(turned, box, strict=True)
                for a, b in zip(mine, its, strict=True)
            )
        ]
        assert found, f"nothing stands where {placement.part} is mirrored"
        rest.remove(found[0])
    assert not rest
    assert sorted(round(gap.mm, 3) for gap in one.gaps) == sorted(round(gap.mm, 3) for gap in other.gaps)
    assert Counter(joint.kind for joint in one.joints) == Counter(joint.kind for joint in other.joints)
    assert sum(fitting.count for fitting in one.fittings) == sum(fitting.count for fitting in other.fittings)
