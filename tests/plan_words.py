"""Bookings, recipes and calendars told in a few words, so that a test of a plan reads as a sentence."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from stockroom.domain.jobs import Booking, Job
from stockroom.domain.lots import Balance, Lot
from stockroom.domain.materials import Material
from stockroom.domain.open_days import ALWAYS_OPEN, OpenDays
from stockroom.domain.recipes import Line, Recipe, RecipeVersion
from stockroom.planning.booked_needs import Booked, Worked
from stockroom.planning.covering import Taking
from stockroom.planning.needs import Coming, Plan, plan_needs
from stockroom.planning.requirements import Book, Need
from stockroom.planning.ways import HowBought, HowMade
from stockroom.science.amounts import Fixed
from stockroom.science.quantities import Dimension, Quantity

TODAY = date(2026, 3, 2)
"""A Monday."""


def day(number: int) -> date:
    """Return a day counted from today, which is 0."""
    return TODAY + timedelta(days=number)


class Studio:
    """A small studio: what is made of what, what is there, what is on order, what is booked. Amounts are quanta."""

    def __init__(self) -> None:
        self.materials: dict[str, Material] = {}
        self.lots: list[Lot] = []
        self.coming: list[Coming] = []
        self.made: dict[int, HowMade] = {}
        self.bought: dict[int, HowBought] = {}
        self.worked: list[Worked] = []
        self.open_days: OpenDays = ALWAYS_OPEN

    def material(self, key: str, **fields: Any) -> Material:
        if key not in self.materials:
            made = Material(
                id=len(self.materials) + 1, key=key, name=key, kind="thing", dimension=Dimension.VOLUME, **fields
            )
            self.materials[key] = made
        return self.materials[key]

    def makes(self, key: str, told: str, *, batch: int = 1, jar: int | None = None, **fields: Any) -> None:
        """Say what one quantum is made of: `seat 1, legs 4`; `left_behind` and `together_days` go with the jar."""
        how = {name: fields.pop(name) for name in ("left_behind", "together_days") if name in fields}
        lines = []
        for position, part in enumerate(told.split(", "), 1):
            name, number = part.split()
            self.material(name)
            amount = Fixed(quantity=Quantity(Dimension.VOLUME, int(number) * batch))
            lines.append(Line(position=position, material=name, amount=amount))
        version = RecipeVersion(batch=Quantity(Dimension.VOLUME, batch), lines=tuple(lines), **fields)
        recipe = Recipe(key=f"make-{key}", name=f"make {key}", kind="stock", makes=key, version=version)
        self.made[self.material(key).id] = HowMade(recipe=recipe, jar=jar, **how)

    def buys(self, key: str, **fields: Any) -> None:
        self.bought[self.material(key).id] = HowBought(**fields)

    def holds(self, key: str, quantity: int, **fields: Any) -> None:
        number = len(self.lots) + 1
        self.lots.append(
            Lot(
                id=number,
                code=f"L{number}",
                material=self.material(key),
                kind=fields.pop("kind", "bought"),
                begun_by=1,
                balance=Balance(quantity=quantity),
                **fields,
            )
        )

    def awaits(self, key: str, quantity: int, on: date) -> None:
        self.coming.append(Coming(material_id=self.material(key).id, quantity=quantity, on=on))

    def books(self, key: str, quantity: int, on: date) -> str:
        """Book a treatment that takes so much of one material; return its code."""
        material, code = self.material(key), f"K{len(self.worked) + 1}"
        booking = Booking(
            id=len(self.worked) + 1,
            code=code,
            job_id=1,
            job_code="J1",
            recipe_key="wash",
            for_day=on.isoformat(),
            fill_quanta=None,
            fills=1,
            state="booked",
        )
        job = Job(id=1, code="J1", title="Charts", client=None, state="open", opened_on="2026-01-01", closed_on=None)
        recipe = Recipe(key="wash", name="Wash", kind="treatment", version=RecipeVersion())
        total = material.quantity(quantity)
        need = Need(recipe="wash", line=Line(position=1, material=key), material=material, per_fill=total)
        self.worked.append((Booked(booking=booking, job=job, recipe=recipe), [(need, total)]))
        return code

    def plan(self, at: str = "2026-03-02T12:00") -> Plan:
        book = Book(materials=self.materials, recipes={})
        local = datetime.fromisoformat(at)
        return plan_needs(self.worked, self.lots, self.coming, self.made, self.bought, book, local, self.open_days)

    def takings(self, plan: Plan, key: str) -> list[Taking]:
        return plan.takings.get(self.material(key).id, [])
