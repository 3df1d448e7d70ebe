"""How planning grows with what is booked: a thousand bookings over three levels with two thousand lots, and more.

CPU time of what `plan` does, from opening the books to the last order-by day, as ratios in one run; run it as
`python tests/bench/planning.py`. Treatments draw baths of stock solutions, solutions are made of reagents, and a
coated tissue of two solutions.
"""

from __future__ import annotations

import random
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from stockroom.actions.beginning import begin
from stockroom.actions.jobs import new_job
from stockroom.actions.planned import load_plan
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.store.jobs import add_booking
from stockroom.store.open import Store, open_store
from stockroom.store.recipes import find_recipe

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 10, tzinfo=ZoneInfo("Europe/Berlin"))
ROUNDS = 3
RECIPES = ("deacidify-and-size", "wash", "local-mend", "facing", "press-between-webs", "calcium-hydroxide-1-in-2")
BOUGHT = (
    ("calcium-hydroxide", "50 x 2 g"), ("methyl-cellulose", "50 x 5 g"), ("wheat-starch", "50 x 5 g"),
    ("polyester-web-light", "50 x 1 sheets"), ("blotter", "50 x 1 pieces"), ("mending-tissue-light", "50 x 1 sheets"),
    ("methyl-cellulose-gel", "50 x 20 mL"), ("calcium-hydroxide-solution", "50 x 100 mL"),
)  # fmt: skip


def fill(store: Store) -> None:
    """Receive two thousand lots with all kinds of dates."""
    chance = random.Random(7)
    for _ in range(5):
        for material, packs in BOUGHT:
            use_by = (TODAY + timedelta(days=chance.randrange(1, 400))).isoformat()
            at = datetime(2026, 11, 1, 10, tzinfo=UTC)
            occasion = Occasion(by="AB", now=at, at=at, zone=ZoneInfo("Europe/Berlin"))
            receive(store, occasion, Delivery(material=material, quantity=packs, cost=1000, use_by=use_by))


def book(store: Store, number: int) -> None:
    """Book so many treatments over a year."""
    chance = random.Random(number)
    jobs = [new_job(store, f"Charts {n}", today=TODAY, objects=["Sheet 1, 40 x 30 cm"]) for n in range(number // 10)]
    recipes = [find_recipe(store, key) for key in RECIPES]
    with store.write():
        for _ in range(number):
            day = (TODAY + timedelta(days=chance.randrange(365))).isoformat()
            add_booking(store, chance.choice(jobs), chance.choice(recipes), day, 500_000, None, None)


def seconds(store: Store) -> float:
    """Return the least CPU time that planning took."""
    taken = []
    for _ in range(ROUNDS):
        begun = time.process_time()
        load_plan(store, NOW)
        taken.append(time.process_time() - begun)
    return min(taken)


def main() -> None:
    taken = []
    with tempfile.TemporaryDirectory() as folder:
        for number in (100, 1_000, 10_000):
            path = Path(folder) / f"{number}.db"
            begin(path, initials="AB", time_zone="Europe/Berlin")
            with open_store(path) as store:
                fill(store)
                book(store, number)
                (lots,) = store.connection.execute("SELECT count(*) FROM lot").fetchone()
                taken.append(seconds(store))
    hundred, thousand, ten_thousand = taken
    print(f"{lots} lots: 100 bookings {hundred:.2f} s, 1,000 {thousand:.2f} s, 10,000 {ten_thousand:.2f} s of CPU")
    print(f"ten times as many: {thousand / hundred:.1f} and {ten_thousand / thousand:.1f} times (at most 12)")


if __name__ == "__main__":
    main()
