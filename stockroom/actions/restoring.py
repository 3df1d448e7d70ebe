"""Put a copy in the stockroom's place: looked through first, the present file set aside, no code given out twice."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from stockroom.actions.copying import kept_copies
from stockroom.actions.posting import post
from stockroom.actions.verifying import verify
from stockroom.domain.ledger import Draft
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, DatabaseUnusable, Refused
from stockroom.progress import Progress, quiet
from stockroom.store.codes import counters, move_counters_on
from stockroom.store.copies import (
    aside_name,
    copy_aside,
    draw_up,
    growing,
    lying_aside,
    opened_to_read,
    read_copy,
    swap_in,
)
from stockroom.store.open import Store, open_store, real_path
from stockroom.store.seals import FIRST, count_sealed, first_seal
from stockroom.store.verification import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Restoring:
    """A copy that was put in the stockroom's place."""

    path: Path
    copy_seal: str
    """The last seal of the copy; `action` is sealed over it."""
    actions: int
    """How many there are in the copy."""
    problems: tuple[Problem, ...]
    same_stockroom: bool | None
    """Whether the file that was there was the same stockroom; None where that cannot be told."""
    aside: Path | None = None
    """Where the file that was there is now."""
    action: str | None = None


def restore(
    path: Path,
    copy: Path,
    occasion: Callable[[Store], Occasion],
    *,
    dry_run: bool = False,
    progress: Progress = quiet,
) -> Restoring:
    """Put what `copy` holds at `path`; the copy itself stays as it is.

    All counters of codes move a thousand on from the last that is known to have been given out, so that none is given
    out twice by what was booked after the copy was taken. Raises DatabaseUnusable where the copy cannot be used,
    Refused where its books are not in order and no reason is given, or where another window is writing; nothing is
    changed then.
    """
    path, copy = real_path(path), real_path(copy)
    if copy == path or (path.exists() and copy.exists() and copy.samefile(path)):
        raise BadInput(f"{copy} is the stockroom itself. Name the copy: 'stockroom backup --list' shows them.")
    if path.is_dir():
        raise BadInput(f"{path} is a folder. Say --db FILE for where the stockroom is to be.")
    read_copy(copy)
    with growing(path, replace=True) as part:
        draw_up(copy, part)
        with open_store(part, copied=True) as store:
            restoring = _made_ready(store, path, copy, occasion(store), progress)
            if dry_run:
                return replace(restoring, action=None)
            copy_aside(store, path, "after-restore")  # so that a later restoring knows how far the codes have moved
        aside = swap_in(part, path, aside_name(path, datetime.now(UTC)))
    return replace(restoring, aside=aside)


def _made_ready(store: Store, path: Path, copy: Path, occasion: Occasion, progress: Progress) -> Restoring:
    """Prove the books of what was drawn up, and move its codes on."""
    found = verify(store, progress)
    if found.problems and not occasion.reason:
        raise Refused(
            f"The books in {copy} are not in order: {found.problems[0].words} "
            f"({len(found.problems)} such; 'stockroom --db {copy} verify' lists them). Take another copy, or say "
            "--why this one has to do. Nothing was changed.",
            problems=[problem.words for problem in found.problems],
        )
    actions, began = count_sealed(store), first_seal(store)
    there = _first_seal(path)
    same = None if FIRST in (there, began) else there == began
    with store.write() as booked_at:
        codes = move_counters_on(store, _given_out(path, began))
        details = {"copy": copy.name, "copy_seal": found.last_seal, "codes": codes}
        posted = post(store, Draft(kind="restore", occasion=occasion, details=details), booked_at)
    return Restoring(
        path=path,
        copy_seal=found.last_seal,
        actions=actions,
        problems=found.problems,
        same_stockroom=same,
        action=posted.code,
    )


def _first_seal(path: Path) -> str:
    try:
        with opened_to_read(path) as store:
            return first_seal(store)
    except DatabaseUnusable:
        return FIRST


def _given_out(path: Path, began: str) -> dict[str, int]:
    """Return the last numbers given out by this stockroom, as far as any file of it tells that can still be read.

    The file that is there, those set aside and the copies: one may tell of codes given out after an earlier
    restoring of the same copy.
    """
    known: dict[str, int] = {}
    for file in (path, *lying_aside(path), *(copy.path for copy in kept_copies(path))):
        with suppress(DatabaseUnusable), opened_to_read(file) as store:
            if first_seal(store) in (began, FIRST) or began == FIRST:
                for prefix, last in counters(store).items():
                    known[prefix] = max(last, known.get(prefix, 0))
    return known
