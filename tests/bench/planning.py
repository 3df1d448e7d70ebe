"""How planning grows with what is booked: ten times as many bookings, and a thousand over three levels.

Ratios of CPU time in one run; run it as `python tests/bench/planning.py`. The studio is put together in memory: baths
of stocks, stocks of other stocks, and those of reagents; two thousand lots.
"""

from __future__ import annotations

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from plan_words import Studio, day

LOTS = 2_000
ROUNDS = 5
BATHS, STOCKS, SALTS = 20, 20, 20


def studio_with(bookings: int) -> Studio:
    """Build a studio of three levels: baths drawn, stocks they are made of, reagents those are made of."""
    chance = random.Random(7)
    studio = Studio()
    for number in range(BATHS):
        told = ", ".join(f"stock-{chance.randrange(STOCKS)}{extra} 1" for extra in ("a", "b"))
        studio.makes(f"bath-{number}", told, batch=1000, life="8 h")
    for number in range(STOCKS):
        for kind in "ab":
            told = f"salt-{chance.randrange(SALTS)} 1"
            studio.makes(f"stock-{number}{kind}", told, batch=1000, life="3 months", ready_after="24 h")
    for number in range(SALTS):
        studio.buys(f"salt-{number}", delivery_days=5, pack=500)
    keys = list(studio.materials)
    for _ in range(LOTS):
        key, use_by = chance.choice(keys), day(chance.randrange(400)).isoformat()
        studio.holds(key, chance.randrange(1, 2_000), use_by=use_by)
    for _ in range(bookings):
        studio.books(f"bath-{chance.randrange(BATHS)}", chance.randrange(100, 3_000), day(chance.randrange(365)))
    return studio


def seconds(studio: Studio) -> float:
    """Return the least CPU time that planning took."""
    taken = []
    for _ in range(ROUNDS):
        begun = time.process_time()
        studio.plan()
        taken.append(time.process_time() - begun)
    return min(taken)


def main() -> None:
    hundred, thousand, ten_thousand = (seconds(studio_with(number)) for number in (100, 1_000, 10_000))
    print(f"100 bookings {hundred:.3f} s, 1,000 {thousand:.3f} s (within a second or two), 10,000 {ten_thousand:.3f} s")
    print(f"ten times as many: {thousand / hundred:.1f} and {ten_thousand / thousand:.1f} times (at most 12)")


if __name__ == "__main__":
    main()
