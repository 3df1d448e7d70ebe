"""How a material comes to be there: how long its making takes, how long it keeps, in what jars or packs it comes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import cache

from stockroom.domain.materials import Material
from stockroom.domain.open_days import ALWAYS_OPEN, OpenDays
from stockroom.domain.orders import USUAL_DELIVERY_DAYS
from stockroom.domain.recipes import Recipe
from stockroom.planning.covering import Rule, Window
from stockroom.planning.remake import start_by
from stockroom.science.lives import Life, life_end, read_life

TOGETHER_DAYS = 28
"""How many days' bookings one making or order provides for at most: a judgement, no source."""

_NOON = time(12)
_SOME_DAY = date(2026, 3, 1)
_read_life = cache(read_life)


@cache
def life_day(start: date, life: str) -> date:
    """Return the last day a life counts for in a plan; a life in hours counts on its first day alone."""
    read = _read_life(life)
    return start if read.unit == "hours" else life_end(datetime.combine(start, _NOON), read).day


@cache
def days_of(wait: str | None) -> int:
    """Return how many days before a treatment's noon something with this wait must begin; months at 31 days."""
    return (_SOME_DAY - date.fromisoformat(start_by(_SOME_DAY.isoformat(), wait))).days


def counts_from(ready: str) -> date:
    """Return the day from which what is ready on a day or at a minute counts: a treatment begins at noon."""
    day = date.fromisoformat(ready[:10])
    return day + timedelta(days=1) if ready[11:] > "12:00" else day


@dataclass(frozen=True, slots=True, kw_only=True)
class HowMade:
    """How a solution is made."""

    recipe: Recipe
    jar: int | None = None
    """Quanta that a jar holds: makings are in full jars."""
    left_behind: int = 0
    """Quanta in each jar that cannot be drawn: above the solid, at the bottom."""
    together_days: int = TOGETHER_DAYS

    @property
    def wait_days(self) -> int:
        return days_of(self.recipe.version.ready_after)

    def begin_by(self, day: date, studio: OpenDays) -> date:
        """Return the last open day to begin, so that it is ready on a day; a closed one where it would not keep."""
        latest = day - timedelta(days=self.wait_days)
        begin = studio.last_open(latest)
        return begin if self.keeps(begin, day) else latest

    def ready_if_begun(self, when: date | datetime) -> date:
        """Return the day it counts from when it is begun on a day (by its noon) or at a moment.

        A wait of a day or more is reckoned from the moment itself; within the day the clock is left to the person.
        """
        wait = self.recipe.version.ready_after
        if not isinstance(when, datetime):
            return when + timedelta(days=self.wait_days)
        if not wait or not self.wait_days:
            return when.date()
        return counts_from(life_end(when, _read_life(wait)).text())

    def keeps(self, begin: date, day: date) -> bool:
        """Say whether what is begun at the noon of one day may still be used at the noon of another."""
        life = self._life
        if life is None or life.unit != "hours":
            return life is None or self._last_day(begin, day) >= day
        return (day - begin) <= timedelta(hours=life.number)

    @property
    def _life(self) -> Life | None:
        life = self.recipe.version.life
        return _read_life(life) if life else None

    def _last_day(self, begin: date, day: date) -> date:
        """Return the last day it counts for when it is needed on `day`; what keeps for hours serves that day alone."""
        life = self._life
        last = day if life is None or life.unit == "hours" else life_day(begin, self.recipe.version.life or "")
        opened = self.recipe.version.life_opened
        return min(last, life_day(day, opened)) if opened else last

    def rule(self, today: date, studio: OpenDays = ALWAYS_OPEN) -> Rule:
        """Return how makings are planned: for what falls into their life; without a known life day by day."""

        def window(day: date) -> Window:
            last = max(day, self._last_day(max(self.begin_by(day, studio), today), day))
            keeps_on = self._life is None and not self.recipe.version.life_opened
            gathers = min(last, day + timedelta(days=self.together_days))
            return Window(gathers=gathers, until=None if keeps_on else last)

        return Rule(window=window, rounded=self._rounded)

    def _rounded(self, missing: int) -> tuple[int, int]:
        """Round up to full jars or, but for what keeps only for hours, to usual batches."""
        if self.jar:
            usable = self.jar - self.left_behind
            jars = -(-missing // usable)
            return jars * self.jar, jars * usable
        batch, life = self.recipe.version.batch, self._life
        size = batch.quanta if batch and not (life and life.unit == "hours") else 1
        quantity = -(-(missing + self.left_behind) // size) * size
        return quantity, quantity - self.left_behind


@dataclass(frozen=True, slots=True, kw_only=True)
class HowBought:
    """How a material is bought."""

    delivery_days: int | None = None
    """From the order to the goods; None where it is not known."""
    pack: int | None = None
    """Quanta of a pack: only whole ones are sold. Where it is not known, the material's own sheet or pack."""
    least_packs: int = 1
    """The least the supplier sells of it at once."""
    supplier: str | None = None
    open_days: OpenDays = ALWAYS_OPEN
    """The supplier's."""
    keep: int = 0
    """Quanta to be left after every booked need, for use that nobody booked."""
    together_days: int = TOGETHER_DAYS

    def begin_by(self, day: date, studio: OpenDays) -> date:
        """Return the last day to order, open here and there, so that the goods come on or before an open day."""
        days = USUAL_DELIVERY_DAYS if self.delivery_days is None else self.delivery_days
        order = self.open_days.back(studio.last_open(day), days)
        while not (studio.is_open(order) and self.open_days.is_open(order)):
            order = min(studio.last_open(order), self.open_days.last_open(order))
        return order

    def there_from(self, today: date, studio: OpenDays) -> date:
        """Return the day the goods come when they are ordered now."""
        order = today
        while not (studio.is_open(order) and self.open_days.is_open(order)):
            order = max(studio.first_open(order), self.open_days.first_open(order))
        return studio.first_open(self.open_days.ahead(order, self.delivery_days or 0))

    def rule(self, material: Material, today: date, studio: OpenDays = ALWAYS_OPEN) -> Rule:
        """Return how orders are planned: for what is needed together, and not for longer than the goods keep."""

        def window(day: date) -> Window:
            lives = [(day, material.life_opened), (max(today, studio.last_open(day)), material.life_closed)]
            ends = [life_day(start, life) for start, life in lives if life]
            last = max(day, min(ends)) if ends else None
            gathers = day + timedelta(days=self.together_days)
            return Window(gathers=min(gathers, last) if last else gathers, until=last)

        def rounded(missing: int) -> tuple[int, int]:
            quantity = max(-(-missing // pack), self.least_packs) * pack
            return quantity, quantity

        pack = self.pack or min((each.quanta for each in material.packs.values()), default=1)
        return Rule(window=window, rounded=rounded, keep=self.keep)
