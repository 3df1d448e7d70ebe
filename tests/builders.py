"""Stockrooms told in sentences, so that a test of the books reads as what happened.

    bench.do("day 3", "receive A 100 for 1000", "take A 20 for J", "count A 75", "undo 2")

Amounts are microlitres and money is cents, small on purpose: rounding shows. Lots and jobs are known by letters, the
actions by their number in the order they were done, from 1. Days are days of March 2026 (noon unless a time is given).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from string import ascii_uppercase
from typing import Any
from zoneinfo import ZoneInfo

from stockroom.actions.bringing_back import bring_back
from stockroom.actions.counting import count
from stockroom.actions.discarding import discard
from stockroom.actions.posting import post
from stockroom.actions.prices import put_price_right
from stockroom.actions.putting_right import Meant, put_right
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.taking import return_lot, take
from stockroom.actions.undoing import undo
from stockroom.actions.verifying import verify
from stockroom.domain.jobs import JobObject
from stockroom.domain.ledger import Draft, Movement, Posted
from stockroom.domain.lots import Balance, Lot, NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import Dimension
from stockroom.store.jobs import add_job, find_job
from stockroom.store.lots import find_lot
from stockroom.store.materials import add_material, find_material
from stockroom.store.open import Store
from stockroom.store.verification import Problem, one_moment, problems_of_books, sums

ZONE = ZoneInfo("Europe/Berlin")
_BEGUN = datetime(2026, 3, 1, 12, tzinfo=ZONE)
_NOW = datetime(2026, 6, 30, 12, tzinfo=ZONE)
STUFF = Material(key="stuff", name="Stuff", kind="reagent", dimension=Dimension.VOLUME)
MIXTURE = Material(key="mixture", name="Mixture", kind="solution", dimension=Dimension.VOLUME)


NewBench = Callable[[], AbstractContextManager["Bench"]]
"""Gives an empty bench, as often as a property needs one."""


class Bench:
    """A small stockroom and what was done in it."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.lots: dict[str, str] = {}
        self.actions: list[str] = []
        self.told: list[str] = []
        """The sentence of each action."""
        self.at, self.now = _BEGUN, _NOW
        with store.write():
            for material in (STUFF, MIXTURE):
                add_material(store, material)
            self.jobs = {name: add_job(store, f"Job {name}", None, _objects(name), "2026-01-01") for name in ("J", "K")}

    @classmethod
    def again(cls, store: Store) -> Bench:
        """Take a bench up where it was left; its lots are A, B, C … in the order they began."""
        bench = cls.__new__(cls)
        bench.store, bench.told = store, []
        bench.at, bench.now = _BEGUN, _NOW
        bench.jobs = {row["title"][-1]: row["code"] for row in store.rows("SELECT title, code FROM job")}
        codes = [row["code"] for row in store.rows("SELECT code FROM lot ORDER BY id")]
        bench.lots = dict(zip(ascii_uppercase, codes, strict=False))
        bench.actions = [row["code"] for row in store.rows("SELECT code FROM action ORDER BY number")]
        return bench

    def do(self, *sentences: str) -> Any:
        """Do what the sentences say, one after the other; return what the last one gave."""
        outcome: Any = None
        for sentence in sentences:
            outcome = self._do(sentence)
        return outcome

    def _do(self, sentence: str) -> Any:
        for pattern, method in _SENTENCES:
            if match := re.fullmatch(pattern, sentence):
                outcome = method(self, *match.groups())
                action = getattr(outcome, "action", None) or getattr(outcome, "code", None)
                if outcome is not None:
                    self.actions.append(str(action))
                    self.told.append(sentence)
                return outcome
        raise ValueError(f"the bench does not understand {sentence!r}")

    def occasion(self, why: str | None = None) -> Occasion:
        return Occasion(by="AB", now=self.now.astimezone(UTC), at=self.at.astimezone(UTC), zone=ZONE, reason=why)

    def lot(self, name: str) -> Lot:
        return find_lot(self.store, self.lots[name])

    def held(self, name: str) -> tuple[int, int]:
        """Return a lot's quantity and value."""
        balance = self.lot(name).balance
        return balance.quantity, balance.value

    def balances(self) -> dict[str, tuple[int, int]]:
        return {name: self.held(name) for name in self.lots}

    def balance(self, name: str) -> Balance:
        return self.lot(name).balance

    def spent(self, job: str) -> int:
        """Return what a job's materials have cost so far."""
        row = self.store.row(
            "SELECT coalesce(-sum(value), 0) AS spent FROM entry WHERE job_id = :id",
            id=find_job(self.store, self.jobs[job]).id,
        )
        return int(row["spent"]) if row else 0

    def sums(self) -> dict[str, int]:
        """Return where the value of everything bought is, without what is nothing."""
        found = sums(self.store)
        return {name: getattr(found, name) for name in found.__dataclass_fields__ if getattr(found, name)}

    def wrong(self) -> list[Problem]:
        """Return what is wrong with the books; quick, file and seals left aside."""
        with one_moment(self.store):
            return list(problems_of_books(self.store))

    def proved(self) -> tuple[Problem, ...]:
        """Return everything that verify finds wrong."""
        return verify(self.store).problems

    def posted(self, draft: Draft) -> Posted:
        """Book a draft as it is."""
        with self.store.write() as booked_at:
            return post(self.store, draft, booked_at)

    def posted_draw(self, name: str, amount: int) -> Posted:
        """Book a draw without asking first whether there is so much."""
        draw = Movement(lot=self.lot(name).id, quantity=-amount, other_end="waste")
        return self.posted(Draft(kind="take", occasion=self.occasion(), movements=(draw,)))

    def look_for(self, name: str, why: str) -> Posted:
        """Book that a lot is to be looked for."""
        return self.posted(
            Draft(kind="stock-take", occasion=self.occasion(), facts=((self.lot(name).id, "look_for", why),))
        )


def _typed(amount: str) -> str:
    return f"{Decimal(amount) / 1000} mL"


def _day(bench: Bench, day: str, time: str | None) -> None:
    hour, minute = (time or "12:00").split(":")
    bench.at = datetime(2026, 3, int(day), int(hour), int(minute), tzinfo=ZONE)


def _receive(bench: Bench, name: str, amount: str, material: str | None, cost: str) -> Any:
    delivery = Delivery(material=material or STUFF.key, quantity=_typed(amount), cost=int(cost))
    received = receive(bench.store, bench.occasion(), delivery)
    bench.lots[name] = str(received.codes[0])
    return received


def _objects(job: str) -> list[JobObject]:
    """Job J has two objects, J1 and J2; job K names none."""
    return [JobObject(position=position, name=f"{job}{position}") for position in (1, 2) if job == "J"]


def _take(bench: Bench, name: str, amount: str, job: str | None, reason: str | None) -> Any:
    code = bench.jobs[job[0]] if job else None
    objects = tuple(job[1:]) if job else ()
    return take(
        bench.store, bench.occasion(), bench.lots[name], _typed(amount), job=code, objects=objects, reason=reason
    )


def _make(bench: Bench, name: str, amount: str, over_solid: str | None, told: str) -> Posted:
    """Make a jar by the drafts that making posts: draws into a new lot that takes their value."""
    material = find_material(bench.store, MIXTURE.key)
    draws = _into(bench, told, -1)
    jar = Movement(lot=-1, quantity=int(amount), other_end="lot", other_lot=draws[0].lot, effect="base")
    new = NewLot(key=-1, material=material, kind="jar", fields={"strength": "2 % w/v"})
    if over_solid:
        new.fields["over_solid"] = "over solid"
    posted = bench.posted(Draft(kind="make", occasion=bench.occasion(), movements=(*draws, jar), new_lots=(new,)))
    bench.lots[name] = posted.lots[-1]
    return posted


def _top_up(bench: Bench, name: str, amount: str, told: str) -> Posted:
    lot = bench.lot(name).id
    draws = _into(bench, told, lot)
    filled = Movement(lot=lot, quantity=int(amount), other_end="lot", other_lot=draws[0].lot, effect="base")
    return bench.posted(Draft(kind="top-up", occasion=bench.occasion(), movements=(*draws, filled)))


def _into(bench: Bench, told: str, jar: int) -> list[Movement]:
    draws = []
    for part in told.split(", "):
        name, amount = part.split()
        draws.append(Movement(lot=bench.lot(name).id, quantity=-int(amount), other_end="lot", other_lot=jar))
    return draws


def _bring_back(bench: Bench, amount: str, name: str) -> Any:
    return bring_back(bench.store, bench.occasion(), bench.lots[name], _typed(amount))


def _count(bench: Bench, name: str, amount: str, evaporated: str | None) -> Any:
    return count(bench.store, bench.occasion(), bench.lots[name], _typed(amount), evaporated=evaporated is not None)


def _empty(bench: Bench, name: str, why: str) -> Any:
    return count(bench.store, bench.occasion(why), bench.lots[name], empty=True)


def _discard(bench: Bench, name: str) -> Any:
    return discard(bench.store, bench.occasion("past its date"), bench.lots[name])


def _return(bench: Bench, name: str, amount: str, credit: str) -> Any:
    return return_lot(bench.store, bench.occasion("wrong grade"), bench.lots[name], _typed(amount), int(credit))


def _undo(bench: Bench, number: str) -> Any:
    code = bench.actions[-1 if number == "last" else int(number) - 1]
    return undo(bench.store, bench.occasion("mistyped"), code)


def _put_right(bench: Bench, number: str, told: str) -> Any:
    meant = Meant()
    for part in told.split(", "):
        what, value = part.split(maxsplit=1)
        known = {"amount": _typed, "lot": bench.lots.get, "for": bench.jobs.get, "day": "2026-03-{:0>2}".format}
        field = "job" if what == "for" else what
        meant = replace(meant, **{field: known[what](value)})
    return put_right(bench.store, bench.occasion("misread"), bench.actions[int(number) - 1], meant)


def _price(bench: Bench, name: str, cost: str) -> Any:
    return put_price_right(bench.store, bench.occasion("invoice"), bench.lots[name], int(cost))


def _close(bench: Bench, job: str) -> Any:
    from stockroom.actions.jobs import close_job

    late = replace(bench.occasion(), at=bench.occasion().now)
    return close_job(bench.store, late, bench.jobs[job])


def _close_books(bench: Bench, until: str) -> Any:
    from stockroom.actions.closing import close_books

    return close_books(bench.store, bench.occasion(), date(2026, 3, int(until)))


def _open_books(bench: Bench, first: str) -> Any:
    from stockroom.actions.closing import open_books

    return open_books(bench.store, bench.occasion("an invoice was forgotten"), date(2026, 3, int(first)))


_SENTENCES: list[tuple[str, Callable[..., Any]]] = [
    (r"day (\d+)(?: (\d\d:\d\d))?", _day),
    (r"receive (\w+) (\d+)(?: of (\w+))? for (\d+)", _receive),
    (r"take (\w+) (\d+)(?: for (\w\d?)| (\w+))", _take),
    (r"make (\w+) (\d+)( over solid)? from (.+)", _make),
    (r"top up (\w+) (\d+) with (.+)", _top_up),
    (r"bring back (\d+) of (\w+)", _bring_back),
    (r"count (\w+) (\d+)( evaporated)?", _count),
    (r"empty (\w+) (.+)", _empty),
    (r"discard (\w+)", _discard),
    (r"return (\w+) (\d+) for (\d+)", _return),
    (r"undo (\d+|last)", _undo),
    (r"put right (\d+) (.+)", _put_right),
    (r"price (\w+) (\d+)", _price),
    (r"close (\w)", _close),
    (r"close the books to (\d+)", _close_books),
    (r"open the books from (\d+)", _open_books),
]
