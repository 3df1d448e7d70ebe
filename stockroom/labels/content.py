"""What a label says, as plain text that people typed: never markup, never a formula, never an escape."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelContent:
    """The facts of one label; only code and name are always there.

    What the label of a reagent or solution must say: identity, strength, storage and expiry (21 CFR 58.83 and
    42 CFR 493.1252); made on, by whom, expiry or re-test date, and for bought bottles received and opened (WHO
    Technical Report Series 957, Annex 1, section 10.5).
    """

    code: str
    """A valid code of the stockroom, as domain.codes gives it out."""
    name: str
    strength: str | None = None
    """For example `about 1.6 g/L (saturated)`; of sheets their size."""
    solvent: str | None = None
    """Named where it is not water."""
    made: str | None = None
    topped_up: str | None = None
    """When water was last put on the solid; the oldest part's dates rule."""
    use_by: str | None = None
    use_by_word: Literal["use by", "check by", "discard by"] = "use by"
    """`check by` where a test can extend the day, `discard by` of what must not be used any more."""
    opened: str | None = None
    received: str | None = None
    initials: str | None = None
    place: str | None = None
    """Left out unless asked for, so that moving a jar makes no label false."""
    storage: str | None = None
    vented: bool = False
    """Gas comes off: the lid must not be tight."""
    signal_word: str | None = None
    """`Danger` or `Warning`."""
    hazards: tuple[str, ...] = ()
    """Hazard statements in full, `H318 Causes serious eye damage`."""
    precautions: tuple[str, ...] = ()
    """Precautionary statements, the weightiest first."""
    may_leave_off: tuple[str, ...] = ()
    """Codes of hazard statements that the label of a small container may go without (CLP Annex I, 1.5.2)."""
    pictograms: tuple[str, ...] = ()
    """GHS codes such as `GHS05`."""
    write_in: tuple[str, ...] = ()
    """Boxes to write in by hand, such as `opened` and `checked`: pencil survives water and alcohol (common practice,
    no source)."""
    in_symbol: str | None = None
    """Words that stand in the symbol after the code, where the studio wants them there."""
    left_off: tuple[str, ...] = ()
    """What was left off on purpose, told wherever the label is made."""
    note: str | None = None
    fresh_until: str | None = None
    """`2026-11-25, 18:10` of a solution that is made fresh; the clock time, after the last comma, is printed large."""
