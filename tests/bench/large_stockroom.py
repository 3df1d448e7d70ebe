"""Build stockrooms of ten thousand and of a million entries through the actions themselves, once, into a cache.

Both begin as the demo studio, with the same jars, bookings, orders and loans, and have the same last three years: fifty
lots were received, and two thousand treatments drew on each of them two hundred times. Before that the large one did as
much ninety-nine times in thirty years: a million entries and five thousand lots, of which those on hand are as many as
in the small one. A treatment is posted as every action is, many in one transaction, so that memory stays the same. A
third one is the small one with twenty thousand lots more on its shelf.

Run alone, it prints how long that takes and how much memory: `python tests/bench/large_stockroom.py`.
"""

from __future__ import annotations

import os
import resource
import shutil
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from demo_db.build import build_demo
from stockroom.actions.jobs import new_job
from stockroom.actions.posting import post
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.jobs import Job
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.store.lots import find_lot
from stockroom.store.open import Store, open_store
from stockroom.store.studio import all_people

TIMES = {"small": 1, "large": 100}
"""How often fifty lots are received and used."""
PACKS = {
    "ethanol": "10 x 2 L",
    "isopropanol": "10 x 2 L",
    "wheat-starch": "10 x 2 kg",
    "citric-acid": "10 x 2 kg",
    "sodium-chloride": "10 x 2 kg",
}
"""What is received each time; a treatment draws on one lot of each."""
DRAWS = 200
"""Of each lot, the last of which empties it; the newest lots keep something."""
TREATMENTS_OF_A_JOB = 40
LAST_DAYS, EARLIER_DAYS = 3 * 365, 110
"""How long the newest lots have been used, and how long each fifty before."""
ENDS = datetime(2026, 11, 25, 10, tzinfo=ZoneInfo("Europe/Berlin"))
FOLDER = Path(tempfile.gettempdir()) / "stockroom-bench"


def stockroom(size: str) -> Path:
    """Return the small or the large stockroom, or the `crowded` one, built now unless it lies in the cache."""
    path = FOLDER / f"{size}.db"
    if not path.exists():
        FOLDER.mkdir(parents=True, exist_ok=True)
        part = path.with_suffix(".part")
        part.unlink(missing_ok=True)
        if size == "crowded":
            _crowd(part)
        else:
            _build(part, TIMES[size])
        part.replace(path)
    # a file of an older form is brought up to date; the copy that is taken before is not needed
    os.environ["STOCKROOM_COPIES"] = str(FOLDER / "copies")
    open_store(path).close()
    shutil.rmtree(FOLDER / "copies", ignore_errors=True)
    return path


def _build(path: Path, times: int) -> None:
    build_demo(path, ENDS)
    with open_store(path) as store:
        by = all_people(store)[0].initials
        for earlier in range(times - 1, 0, -1):
            begins = ENDS - timedelta(days=LAST_DAYS + EARLIER_DAYS * earlier)
            _receive_and_use(store, by, begins, EARLIER_DAYS, keep=False)
            report(f"{times - earlier} of {times}")
        _receive_and_use(store, by, ENDS - timedelta(days=LAST_DAYS), LAST_DAYS, keep=True)
        report(f"{times} of {times}")


def _crowd(path: Path) -> None:
    """Copy the small stockroom and put twenty thousand lots more on its shelf."""
    shutil.copy(stockroom("small"), path)
    with open_store(path) as store:
        by = all_people(store)[0].initials
        with store.write_together():
            for number in range(2_000):
                material, packs = list(PACKS.items())[number % len(PACKS)]
                receive(store, occasion(by, ENDS), Delivery(material=material, quantity=packs, cost=10_000))


def _receive_and_use(store: Store, by: str, begins: datetime, days: int, *, keep: bool) -> None:
    """Receive lots and use them over so many days; one transaction for the treatments of a job."""
    shelf: list[list[Lot]] = []
    for material, packs in PACKS.items():
        came = receive(store, occasion(by, begins), Delivery(material=material, quantity=packs, cost=10_000))
        shelf.append([find_lot(store, code or "") for code in came.codes])
    columns = list(zip(*shelf, strict=True))
    treatments = DRAWS * len(columns)
    step = timedelta(days=days - 5) / treatments
    for first in range(0, treatments, TREATMENTS_OF_A_JOB):
        job = new_job(store, f"Charts {begins:%Y-%m}-{first}", today=begins.date(), objects=["Sheet 1, 40 x 30 cm"])
        with store.write() as booked_at:
            for number in range(first, first + TREATMENTS_OF_A_JOB):
                turn, column = divmod(number, len(columns))
                at = begins + timedelta(days=1) + step * number
                last = turn == DRAWS - 1 and not keep
                post(store, treatment(occasion(by, at), job, columns[column], last=last), booked_at)


def treatment(at: Occasion, job: Job, lots: tuple[Lot, ...], *, draws: int = DRAWS, last: bool) -> Draft:
    """Return a treatment that draws one of `draws` equal parts of each lot, or the last of them and empties it."""
    movements = []
    for lot in lots:
        each = lot.balance.quantity // (draws + 1)
        quantity = lot.balance.quantity - each * (draws - 1) if last else each
        movements.append(Movement(lot=lot.id, quantity=-quantity, other_end="job", job_id=job.id))
    return Draft(
        kind="use",
        occasion=at,
        movements=tuple(movements),
        job_id=job.id,
        objects=(job.objects[0].id,),
        details={"recipe": "local-mend", "fills": 1},
    )


def occasion(by: str, at: datetime) -> Occasion:
    return Occasion(by=by, now=at, at=at.astimezone(UTC), zone=ZoneInfo("Europe/Berlin"))


def memory_mib() -> float:
    """Return the most memory this process has held so far."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def report(words: str) -> None:
    print(f"  {words}: {memory_mib():.0f} MiB at most, {time.process_time():.0f} s of CPU", flush=True)


def main() -> None:
    for size in TIMES:
        path = stockroom(size)
        with open_store(path) as store:
            (entries,) = store.connection.execute("SELECT count(*) FROM entry").fetchone()
            (lots,) = store.connection.execute("SELECT count(*) FROM lot").fetchone()
        print(f"{path}: {entries:,} entries, {lots:,} lots, {path.stat().st_size / 2**20:.0f} MiB")


if __name__ == "__main__":
    main()
