"""What a form tells of a step that books nothing: a plan, an order, something kept."""

from __future__ import annotations

from dataclasses import dataclass, replace

from textual.content import Content

from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import on_screen


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """Something that is planned or kept, and no entry of the ledger: there is nothing to undo."""

    told: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...] = ()
    code: str | None = None
    action: None = None

    def as_plan(self) -> Planned:
        return replace(self, code=None)


def planned_text(plan: Planned, currency: str) -> Content:
    """Write what is planned, and beneath it what speaks against it."""
    warnings = [Content.styled(f"\n! {one_line(on_screen(words))}", "$text-warning") for words in plan.warnings]
    return Content("").join([rows(plan.told), *warnings])
