"""Verify the whole stockroom: everything that is wrong, the sums of the books, and the last seal."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.store.open import Store
from stockroom.store.seals import last_seal
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


def verify(store: Store) -> Verified:
    """Prove the file, the seals and the books; change nothing."""
    with one_moment(store):
        problems = [*problems_of_file(store), *problems_of_seals(store), *problems_of_books(store)]
        return Verified(problems=tuple(problems), sums=sums(store), last_seal=last_seal(store))
