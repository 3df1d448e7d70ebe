"""Verify the whole stockroom: everything that is wrong, the sums of the books, and the last seal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, DatabaseUnusable
from stockroom.progress import Progress, quiet
from stockroom.science.numerals import quoted
from stockroom.store.copies import copy_aside
from stockroom.store.open import Store
from stockroom.store.repairing import derive_anew
from stockroom.store.seals import FIRST, action_of_seal, last_seal
from stockroom.store.verification import (
    Problem,
    Sums,
    one_moment,
    problems_of_books,
    problems_of_file,
    problems_of_seals,
    sums,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Verified:
    """What was found."""

    problems: tuple[Problem, ...]
    sums: Sums
    last_seal: str
    """What makes a copy evidence: write it down, or keep it with the backup."""
    sealed_until: str | None = None
    """The action that has the seal which was asked about; up to it the books are as they were then."""


def verify(store: Store, progress: Progress = quiet, *, seal: str | None = None) -> Verified:
    """Prove the file, the seals and the books; change nothing.

    With a `seal` that was written down, such as a backup printed, it must be one of these books. Raises BadInput
    where it cannot be a seal.
    """
    wanted = None if seal is None else _read_seal(seal)
    with one_moment(store):
        problems = [
            *_all_of(problems_of_file(store)),
            *_all_of(problems_of_seals(store, progress)),
            *_all_of(problems_of_books(store, progress)),
        ]
        until = None
        if wanted is not None:
            until = action_of_seal(store, wanted)
            if until is None:
                problems.append(Problem(kind="seal", where=None, words=_NOT_HERE.format(seal=wanted)))
        return Verified(problems=tuple(problems), sums=sums(store), last_seal=last_seal(store), sealed_until=until)


def _all_of(found: Iterator[Problem]) -> Iterator[Problem]:
    """Tell what was found up to where damage lets nothing more be read; what comes after is proved all the same."""
    try:
        yield from found
    except DatabaseUnusable as error:
        yield Problem(kind="file", where=None, words=error.message)
    except (ArithmeticError, LookupError, TypeError, ValueError) as error:
        words = f"The file is damaged where it is not read: {type(error).__name__}: {error}."
        yield Problem(kind="file", where=None, words=words)


_NOT_HERE = (
    "No action here has the seal {seal}: these are the books of another stockroom, or what was booked when it was "
    "written down has been changed or is missing."
)


def _read_seal(typed: str) -> str:
    compact = "".join(typed.split()).lower()
    if len(compact) != len(FIRST) or set(compact) - set("0123456789abcdef"):
        raise BadInput(f"{quoted(typed)} is not a seal. It has 64 characters, each 0 to 9 or a to f.")
    return compact


@dataclass(frozen=True, slots=True, kw_only=True)
class Repairing:
    """What was mended, and what could not be."""

    mended: tuple[str, ...]
    left: Verified
    copy: Path | None = None
    """The copy that was taken before."""
    action: str | None = None


def repair(store: Store, occasion: Occasion, *, dry_run: bool = False, progress: Progress = quiet) -> Repairing:
    """Derive anew what is kept beside the entries, and book that it was done; entries are never repaired.

    A copy is taken first. Where nothing is to be mended nothing is booked.
    """
    copy = None if dry_run else copy_aside(store, store.path, "before-repair").path

    def build(booked_at: datetime) -> _Mended:
        mended = tuple(derive_anew(store))
        if not mended:
            return _Mended()
        posted = post(store, Draft(kind="repair", occasion=occasion, details={"mended": mended}), booked_at)
        return _Mended(mended=mended, action=posted.code)

    done = carry_out(store, build, dry_run=dry_run)
    return Repairing(mended=done.mended, left=verify(store, progress), copy=copy, action=done.action)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mended(ActionOutcome):
    mended: tuple[str, ...] = ()
