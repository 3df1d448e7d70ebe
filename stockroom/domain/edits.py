"""What an edit changed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One field of a noun: what it said and what it says now, as text; None where it says nothing."""

    field: str
    was: str | None
    became: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOpen:
    """Something a person began and has not ended."""

    kind: str
    """loan, or stock-take."""
    code: str
    """Of the lending action, or of the round."""
    words: str
    by: str | None = None
    """The day it should be done by."""
    lot: str | None = None
    """Of a loan: the code of its lot."""
