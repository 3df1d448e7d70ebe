"""One thing that can be chosen from a list."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One thing that can be chosen."""

    key: str
    words: str
    detail: str = ""
