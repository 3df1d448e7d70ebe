"""What the forms of the bench book have in common: something is kept, changed or offered no more, and nothing drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from textual.content import Content

from stockroom.actions.carrying_out import carry_out
from stockroom.domain.edits import Change
from stockroom.errors import BadInput
from stockroom.store.open import Store
from stockroom.tui.forms.fields import WHY, yes_or_no
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import on_screen

OF = "of"
"""The answer that says which one a form is about, where it is about one; no field holds it."""
EDIT_WHY = replace(WHY, hint="the reason stays beside the change")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """Something of the studio's own as it would be, or is, kept; there is nothing to undo but another edit."""

    noun: str
    name: str
    told: tuple[tuple[str, str], ...] = ()
    changed: tuple[Change, ...] | None = None
    """What an edit changes; None where it is no edit."""
    notes: tuple[str, ...] = ()
    """What still speaks of it, or is to be known."""
    key: str | None = None
    """Names its page, once it is kept."""
    action: None = None

    def as_plan(self) -> Kept:
        return replace(self, key=None)


def keep(store: Store, build: Callable[[], Kept], *, dry_run: bool, confirmed: Kept | None) -> Kept:
    """Do it, or try it and take it back."""
    return carry_out(store, lambda booked_at: build(), dry_run=dry_run, confirmed=confirmed, together=True)


def kept_text(kept: Kept, currency: str) -> Content:
    """Write what is kept: of an edit each field with its old and its new value."""
    parts = [rows([(kept.noun, kept.name), *kept.told])]
    if kept.changed is not None:
        parts.append(changes_text(kept.changed))
    parts += [Content.styled(f"! {one_line(on_screen(words))}", "$text-warning") for words in kept.notes]
    return Content("\n").join(parts)


def changes_text(made: Iterable[Change]) -> Content:
    lines = [
        Content.assemble(
            (f"{one_line(each.field.replace('_', ' '))}: ", "dim"),
            one_line(each.was or "nothing"),
            " → ",
            one_line(each.became or "nothing"),
        )
        for each in made
    ]
    return Content("\n").join(lines) if lines else Content("Nothing is changed yet.")


def kept_title(kept: Kept, currency: str) -> tuple[str, Content]:
    return f"Kept: {kept.name}", kept_text(kept, currency)


def page_of(kept: Kept) -> tuple[str, str] | None:
    """Return where something new has its page; what was edited was opened from there."""
    return (kept.noun, kept.key) if kept.key and kept.changed is None else None


def which(answers: Answers, noun: str) -> str:
    """Return which one a form is about. Raises BadInput where it was opened without one."""
    if OF not in answers:
        raise BadInput(f"Which {noun}? Open its page in the bench book (F12), and press E there.")
    return answers[OF]


def filled(known: Answers, values: Callable[[str], Mapping[str, str | None]]) -> Answers:
    """Fill a form that was just opened with what is kept of what it is about."""
    if set(known) != {OF}:
        return known
    return {**known, **{name: value for name, value in values(known[OF]).items() if value}}


def either(words: str, key: str, detail: str) -> Asked:
    """Ask for a property that most have not."""
    return yes_or_no(words, key, detail, rare=True)
