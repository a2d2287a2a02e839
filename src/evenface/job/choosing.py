"""Build-ups of what a brief leaves over, held against the year: one that bows is not cheap, whatever it costs."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from evenface.behaviour import Behaviour, Direction, behaviour_of
from evenface.checks.flat_limits import held_against, limit_for
from evenface.choice import Candidate, Ranking, Reason, Verdict, doubts_of, rank_all
from evenface.construction import BuiltPanel, construct
from evenface.construction.kinds import KINDS
from evenface.construction.room_air import USUAL_PLACE, USUAL_ROOM
from evenface.errors import MissingWord
from evenface.materials import Catalogue
from evenface.materials.traits import traits
from evenface.piece import read_job
from evenface.piece.brief_records import Brief
from evenface.piece.records import NOTHING_MADE, Job
from evenface.words import Said, said

MOST_FACINGS: Final = 3
MOST_CARRIERS: Final = 3
USUAL_GLUE: Final = "pva-d3"
USUAL_SIZE: Final = (1000.0, 600.0)
_BOARD_MM: Final = 18.0
_PLAIN: Final = Job(1, "", {}, ())


@dataclass(frozen=True, slots=True)
class BuildUpChoice:
    """Face, carrier and back of the classes left over, as a free panel of the usual size in its room.

    carrier_name, face_name, back_name : of the catalogue; a board that comes faced has only the first.
    bends : the part through the year. lies_flat : whether bow and cup stay within the trade's limit, on the
    worse edge of their bands. price_level : of its dearest layer, from 1 to 5; mass_kg_m2 of it all.
    """

    facing: Candidate
    carrier: str
    back: str
    carrier_name: str
    face_name: str
    back_name: str
    behaviour: Behaviour
    lies_flat: bool
    score: float
    price_level: float
    doubts: tuple[Reason, ...]

    @property
    def mass_kg_m2(self) -> float:
        return self.behaviour.mass_kg_m2


@dataclass(frozen=True, slots=True)
class Chosen:
    """Everything that can be said of a brief. place, room : whose year the build-ups were held against."""

    brief: Brief
    rankings: tuple[Ranking, ...]
    build_ups: tuple[BuildUpChoice, ...]
    place: str
    room: str

    def ranking(self, kind: str) -> Ranking:
        return next(one for one in self.rankings if one.kind == kind)


def choose(brief: Brief, catalogue: Catalogue, job: Job = _PLAIN) -> Chosen:
    """Rankings of every kind, and build-ups of the best of them: flat ones first.

    job : for its place, room, air and shop; without one a heated home in the usual place.
    """
    rankings = rank_all(brief, catalogue)
    where = replace(job, place=job.place or USUAL_PLACE, room=job.room or USUAL_ROOM)
    found = [_judged(one, brief, catalogue, where) for one in _combinations(rankings, brief, catalogue)]
    order = sorted(found, key=lambda one: (not one.lies_flat, -one.score, one.price_level, len(one.doubts)))
    return Chosen(brief, rankings, tuple(order), where.place, where.room)


@dataclass(frozen=True, slots=True)
class _Combination:
    facing: Candidate
    carrier: Candidate | None
    back: str
    names: tuple[str, str, str]
    glue: str
    doubts: tuple[Reason, ...]
    price_level: float


def _combinations(
    rankings: tuple[Ranking, ...], brief: Brief, catalogue: Catalogue
) -> Iterator[_Combination]:
    """What goes together of the best facings and carriers; every balancing sheet with each."""
    left = {one.kind: one.left for one in rankings}
    glue = next((one.name for one in left["glue"]), USUAL_GLUE)
    for facing in left["facing"][:MOST_FACINGS]:
        if not facing.materials:
            continue
        if facing.materials[0] in catalogue.names("carrier"):
            board = _nearest(facing, catalogue)
            yield _Combination(facing, None, "", (board, "", ""), glue, (), facing.price_level or 0.0)
            continue
        for carrier in [one for one in left["carrier"] if one.name != "compact"][:MOST_CARRIERS]:
            for back in left["back"]:
                if back.name == "backing-laminate" and facing.name in ("linoleum", "veneer"):
                    continue
                classes = {
                    "glue": glue,
                    "facing": facing.name,
                    "carrier": carrier.name,
                    "back": back.name,
                    "use": brief.use,
                }
                doubts = doubts_of(classes)
                if any(one.verdict is Verdict.OUT for one in doubts):
                    continue
                face = facing.materials[0]
                sheet = {"same": face, "none": ""}.get(back.name, back.materials[0] if back.materials else "")
                level = max(one.price_level or 0.0 for one in (facing, carrier, back))
                names = (_nearest(carrier, catalogue), face, sheet)
                yield _Combination(facing, carrier, back.title, names, glue, doubts, level)


def _nearest(one: Candidate, catalogue: Catalogue) -> str:
    return min(one.materials, key=lambda name: abs(catalogue.carrier(name).nominal_mm - _BOARD_MM))


def _judged(one: _Combination, brief: Brief, catalogue: Catalogue, where: Job) -> BuildUpChoice:
    panel, job = _panel(one, brief, catalogue, where)
    behaviour = behaviour_of(job, panel, NOTHING_MADE, None)
    flat = True
    for direction in (Direction.BOW, Direction.CUP):
        rise, allowed = held_against(behaviour.bend(direction), limit_for(panel, direction))
        flat = flat and rise <= allowed
    nominal = one.facing.score.nominal
    return BuildUpChoice(
        one.facing,
        one.carrier.title if one.carrier is not None else "",
        one.back,
        *one.names,
        behaviour,
        flat,
        nominal if nominal is not None else one.facing.score.low,
        one.price_level,
        one.doubts,
    )


def _panel(one: _Combination, brief: Brief, catalogue: Catalogue, where: Job) -> tuple[BuiltPanel, Job]:
    """The build-up as a panel of a job in that room."""
    carrier, face, back = one.names
    layers = "".join(f'{key} = "{name}"\n' for key, name in (("face", face), ("back", back)) if name)
    text = (
        'format = 1\n[job]\nname = "Choice"\n'
        f'[buildup.b]\ncarrier = "{carrier}"\nglue = "{one.glue}"\n{layers}'
        f'[[piece]]\nname = "p"\n[[piece.panel]]\nname = "p"\nuse = "{brief.use}"\nbuildup = "b"\n'
        f"size = [{USUAL_SIZE[0]}, {USUAL_SIZE[1]}]\nedges = []\n"
    )
    read = read_job(text, "", catalogue, KINDS)
    job = replace(where, buildups=read.buildups, pieces=read.pieces, brief=None, variants=())
    return construct(job, catalogue, KINDS, NOTHING_MADE)[0].panels[0], job


def briefs_of(job: Job, piece: str = "") -> tuple[tuple[str, Brief], ...]:
    """Each brief of the job with the piece it is for, "" for the job's own, which holds for pieces without one.

    piece : only what holds for it; its own brief stands in place of the job's. Raises MissingWord.
    """
    names = tuple(one.name for one in job.pieces)
    if piece and piece not in names:
        raise MissingWord("piece", piece, names)
    own = tuple((one.name, one.brief) for one in job.pieces if one.brief is not None)
    chosen = tuple((name, brief) for name, brief in own if piece in ("", name))
    needed = not chosen if piece else len(own) < len(job.pieces)
    return (*((("", job.brief),) if job.brief is not None and needed else ()), *chosen)


def needs_in_words(brief: Brief) -> tuple[tuple[str, Said], ...]:
    """Each need with how much is asked of it: "heat", "must: hot pots"."""
    return tuple(
        (
            traits().needs[one.need].title,
            said("must: {level:word}", level=one.word)
            if one.is_must
            else said("wish, weight {weight:g}", weight=one.weight or 0.0),
        )
        for one in brief.asked
    )
