"""Whether media, inks and colours were tested before something wet, alkaline or bleaching met an object."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

MEDIA_TESTS = ("required", "asked", "not asked")
"""What a recipe may say: without an answer it is not used; it is used and the record says so; nobody asks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MediaTest:
    """The question before a treatment, and what was answered."""

    asked: str
    """One of `MEDIA_TESTS`."""
    bath: str
    """wet, alkaline or bleaching."""
    by: str | None = None
    """Initials of who tested."""
    not_tested: str | None = None
    """Why it was not tested."""

    @property
    def question(self) -> str:
        return f"Media, inks and colours tested for this {self.bath} treatment? By whom?"

    @property
    def answered(self) -> bool:
        return self.by is not None or self.not_tested is not None

    @property
    def words(self) -> str | None:
        """The answer as the record tells it; None where nobody had to ask."""
        if self.by:
            return f"media, inks and colours tested by {self.by}"
        if self.not_tested:
            return f"media, inks and colours NOT tested: {self.not_tested}"
        if self.asked == "not asked":
            return None
        return "nobody said whether media, inks and colours were tested"

    def details(self) -> dict[str, Any]:
        """Return what an action keeps of it."""
        if self.words is None:
            return {}
        return {"media": {"bath": self.bath, "by": self.by, "not_tested": self.not_tested}}


def media_test_of(details: Mapping[str, Any]) -> MediaTest | None:
    """Read back what an action kept; None where nothing was asked."""
    kept = details.get("media")
    return None if kept is None else MediaTest(asked="asked", **kept)
