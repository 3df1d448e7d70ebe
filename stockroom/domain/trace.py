"""Which lots touched what: plain values that a screen, a report or a program shows as it likes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stockroom.domain.lots import Lot
from stockroom.science.quantities import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class LastCheck:
    """The newest check of a lot at a moment."""

    day: str
    method: str
    verdict: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedLot:
    """A lot on the way, as it was when it was drawn from."""

    lot: Lot
    amount: Quantity | None = None
    """What was drawn of it, or of what is above it went into it; None where the trace begins."""
    day: str | None = None
    """When; None where the trace begins."""
    strength: str | None = None
    """As it was stated then."""
    check: LastCheck | None = None
    override: str | None = None
    """What spoke against it then, with the reason why it was used all the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedTreatment:
    """Something done for a job."""

    action: str
    kind: str
    day: str
    by: str
    recipe: str | None
    job: str
    title: str
    strength: str | None = None
    """Of the bath, as it was used."""
    reason: str | None = None
    media: str | None = None
    """Whether media were tested, in words."""
    objects: tuple[str, ...] = ()
    """The objects it names; none where the object was not stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedObject:
    """An object of a job, or the whole job where it names none (`name` is None)."""

    job: str
    title: str
    position: int | None
    name: str | None
    stated: bool = True
    """False where the treatment named no object, so that it may have been this one."""


Thing = TracedLot | TracedTreatment | TracedObject


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """One thing, and what it leads to."""

    thing: Thing
    branches: tuple[Branch, ...] = ()

    def walk(self) -> Iterator[Thing]:
        """Give this thing and all it leads to, each branch once however often it is reached."""
        seen: set[int] = set()
        waiting = [self]
        while waiting:
            branch = waiting.pop()
            if id(branch) not in seen:
                seen.add(id(branch))
                yield branch.thing
                waiting += reversed(branch.branches)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """Where something went and where it came from, to any depth."""

    of: str
    """What was asked for, in words."""
    reached: tuple[Branch, ...]
    """From lots: what they went into, and the treatments and objects they reached."""
    behind: tuple[Branch, ...]
    """From lots, objects or a job: the treatments and lots behind them."""

    @property
    def starts(self) -> tuple[Lot, ...]:
        """The lots that the trace begins with."""
        roots = (branch.thing for branch in self.reached)
        return tuple(thing.lot for thing in roots if isinstance(thing, TracedLot))

    @property
    def lots_reached(self) -> tuple[TracedLot, ...]:
        return self._lots(self.reached)

    @property
    def lots_behind(self) -> tuple[TracedLot, ...]:
        return self._lots(self.behind)

    @property
    def treatments(self) -> tuple[TracedTreatment, ...]:
        found = (thing for branch in (*self.reached, *self.behind) for thing in branch.walk())
        return tuple(dict.fromkeys(thing for thing in found if isinstance(thing, TracedTreatment)))

    @property
    def objects(self) -> tuple[TracedObject, ...]:
        """Every object once; stated where any treatment stated it."""
        found: dict[tuple[str, int | None], TracedObject] = {}
        for branch in (*self.reached, *self.behind):
            for thing in branch.walk():
                if isinstance(thing, TracedObject):
                    key = (thing.job, thing.position)
                    if key not in found or (thing.stated and not found[key].stated):
                        found[key] = thing
        return tuple(found[key] for key in sorted(found, key=lambda key: (key[0], key[1] or 0)))

    def _lots(self, branches: tuple[Branch, ...]) -> tuple[TracedLot, ...]:
        """Give every lot once, as it was where it was met first, but those that the trace begins with."""
        begins = {lot.id for lot in self.starts}
        found: dict[int, TracedLot] = {}
        for branch in branches:
            for thing in branch.walk():
                if isinstance(thing, TracedLot) and thing.lot.id not in begins:
                    found.setdefault(thing.lot.id, thing)
        return tuple(found.values())
