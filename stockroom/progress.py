"""Tell how far something long has come."""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[str, int, int], None]
"""Called now and then with what is being done, how much of it is done, and how much there is."""


def quiet(what: str, done: int, whole: int) -> None:
    """Tell nothing."""
