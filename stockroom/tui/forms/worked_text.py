"""What stands beneath the fields of a form: its plan, what is in its way, or what is still to be filled in."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from textual.content import Content

from stockroom.actions.carrying_out import Outcome
from stockroom.tui.forms.form import Form, Worked
from stockroom.tui.words import on_screen

Kind = TypeVar("Kind", bound=Outcome)


def told_of(form: Form[Kind], worked: Worked[Kind], called: Mapping[str, str], currency: str) -> Content:
    """Write what became of the answers; `called` says what each field is called."""
    if worked.plan is not None:
        return form.plan(worked.plan, currency)
    if worked.trouble is not None:
        return Content.assemble(("! ", "bold $text-error"), on_screen(worked.trouble))
    parts: list[Content] = []
    if worked.wrong:
        named = ", ".join(called[key] for key in worked.wrong)
        parts.append(Content.assemble(("! ", "bold $text-error"), f"Look again at: {named}."))
    if worked.missing:
        named = ", ".join(worked.missing)
        parts.append(Content(f"Still to fill in: {named}. The plan appears here while you type."))
    parts += [worked.about] if worked.about and worked.about.plain else []
    return Content("\n\n").join(parts)
