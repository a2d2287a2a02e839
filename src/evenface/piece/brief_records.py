"""What a piece must bear, and the other ways to build it that are to be compared."""

from dataclasses import dataclass, replace

from evenface.finding import Change


@dataclass(frozen=True, slots=True)
class Asked:
    """One need of a brief. weight : of a wish; None for a must. level : how much, in the need's unit."""

    need: str
    level: float
    weight: float | None = None
    word: str = ""

    @property
    def is_must(self) -> bool:
        return self.weight is None


@dataclass(frozen=True, slots=True)
class Brief:
    """What the piece must bear. use : what the panel is, as in the job file. for_ : the named use, if any."""

    asked: tuple[Asked, ...] = ()
    use: str = "top"
    for_: str = ""

    @property
    def musts(self) -> tuple[Asked, ...]:
        return tuple(one for one in self.asked if one.is_must)

    @property
    def wishes(self) -> tuple[Asked, ...]:
        return tuple(one for one in self.asked if not one.is_must)

    def over(self, other: "Brief") -> "Brief":
        """This brief where it says something, the other one where it does not."""
        said = {one.need for one in self.asked}
        return replace(self, asked=(*self.asked, *(one for one in other.asked if one.need not in said)))


@dataclass(frozen=True, slots=True)
class Alternative:
    """A variant of the job: a name and entries to set differently; `old` of a change is not looked at."""

    name: str
    changes: tuple[Change, ...]
    origin: str = ""
