"""Reference tables: figures that carry their source, their range and their conditions."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Literal

Verified = Literal["read", "secondary", "computed", "memory", "common practice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure of a table; either `value` or both of `low` and `high`."""

    of: str
    """What it is a figure of: a material, a set of spoons."""
    what: str
    unit: str
    conditions: str
    source: str
    verified: Verified
    value: Decimal | None = None
    low: Decimal | None = None
    high: Decimal | None = None

    @property
    def span(self) -> tuple[Decimal, Decimal]:
        """Its lowest and highest figure, which are the same for a single value."""
        if self.value is not None:
            return self.value, self.value
        if self.low is None or self.high is None:
            raise ValueError(f"{self.of}, {self.what}: a row needs a value, or low and high")
        return self.low, self.high

    @property
    def figure(self) -> str:
        """The figure with its unit as its source has it: `1.40 g/L`, `0.25 to 0.7 g/mL`; empty without one."""
        if self.value is None and self.low is None:
            return ""
        low, high = self.span
        return f"{low} {self.unit}" if low == high else f"{low} to {high} {self.unit}"

    def cite(self) -> str:
        """Say a figure, where it comes from, and what it rests on where nobody looked it up."""
        mark = {"memory": " (from memory, not verified)", "common practice": " (common practice, no source)"}
        figure = f", {self.figure}" if self.figure else ""
        return f"{self.of}, {self.what}{figure}: {self.source}; {self.conditions}{mark.get(self.verified, '')}"


@cache
def rows(table: str) -> tuple[Row, ...]:
    """Read a table of `stockroom/reference/` by its file's name without `.toml`; numbers stay as written."""
    # Reading TOML takes time that a command without tables should not spend.
    import tomllib
    from pathlib import Path

    path = Path(__file__).parents[1] / "reference" / f"{table}.toml"
    found = tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)["row"]
    return tuple(Row(**row) for row in found)
