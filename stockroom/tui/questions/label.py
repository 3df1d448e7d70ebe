"""Show a label as it will print, with what does not fit; print it, or save it as a file."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.labels.content import LabelContent
from stockroom.labels.printing import WHICH_PRINT_SURVIVES, can_print
from stockroom.store.open import Store
from stockroom.tui.files import hand_over
from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.as_it_stands import Printed
from stockroom.tui.words import on_screen


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """A label as it will print: its sketch in characters, its size, and what to know before it prints."""

    sketch: str
    size: str
    notes: tuple[str, ...]


class LabelQuestion(Question[None]):
    """The label of one lot."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("p", "print", "Print"),
        Binding("s", "save", "Save as PDF"),
        Binding("enter", "leave", "Done"),
        Binding("escape", "leave", "Done", show=False),
    ]

    def __init__(self, content: LabelContent) -> None:
        super().__init__(f"Label of {content.code}")
        self._content = content

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Static("", id="label-size", classes="quiet")
            yield Printed("", id="label-sketch")
            yield Static("", id="label-notes", classes="quiet")

    def on_mount(self) -> None:
        self._show()

    @work
    async def _show(self) -> None:
        preview = await self.app.ask_database(lambda store: preview_label(store, self._content))
        if preview is None:
            self.dismiss(None)
            return
        self.query_one("#label-size", Static).update(Content(preview.size))
        self.query_one("#label-sketch", Printed).update(Content(preview.sketch))
        self.query_one("#label-notes", Static).update(Content(on_screen("\n".join(preview.notes))))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        return action != "print" or (can_print() and not self.app.is_web)

    @work
    async def action_print(self) -> None:
        by, now = self.app.by, self.app.local
        answer = await self.app.ask_database(lambda store: print_label(store, self._content, by, now))
        if answer is not None:
            self.notify(on_screen(f"Printed: {answer}"), title="Label", markup=False)

    @work
    async def action_save(self) -> None:
        by, now = self.app.by, self.app.local
        await hand_over(
            self.app,
            f"label-{self._content.code}.pdf",
            lambda store, path: save_label(store, self._content, path, by, now),
        )


def preview_label(store: Store, content: LabelContent) -> Preview:
    """Lay a label out as the settings say. Raises what `form_of` and `compose` raise.

    Laying out takes a moment, as drawing does, so it is work for the thread.
    """
    from stockroom.actions.label_making import find_out_of_date, form_of
    from stockroom.labels.compose import compose
    from stockroom.labels.preview import draw_preview
    from stockroom.paths import settings_path
    from stockroom.settings import read_settings

    form = form_of(store, read_settings(settings_path()))
    label = compose(content, form.size_mm)
    notes = [f"Does not fit, and is left off: {', '.join(label.dropped)}."] if label.dropped else []
    if out_of_date := find_out_of_date(store, content):
        notes.append(f"! Take the old label off: {out_of_date.words}.")
    notes += ["", "Which print survives:", *WHICH_PRINT_SURVIVES]
    sheet = ", on a sheet of them" if form.grid and not form.grid.is_single else ""
    return Preview(
        sketch="\n".join(draw_preview(label)),
        size=f"As it will print, {label.width_mm:g} x {label.height_mm:g} mm{sheet}:",
        notes=tuple(notes),
    )


def print_label(store: Store, content: LabelContent, by: str | None, now: datetime) -> str:
    """Print a label as the settings say, and return what the printer's queue answered. Raises Refused."""
    from stockroom.actions.label_making import form_of, print_labels
    from stockroom.paths import settings_path
    from stockroom.settings import read_settings

    settings = read_settings(settings_path())
    form = form_of(store, settings)
    return print_labels(store, [content], form, printer=settings.label_printer, by=by, now=now)[1]


def save_label(store: Store, content: LabelContent, path: Path, by: str | None, now: datetime) -> None:
    """Write a label to a file. Raises what `write_labels` raises."""
    from stockroom.actions.label_making import form_of, write_labels
    from stockroom.paths import settings_path
    from stockroom.settings import read_settings

    form = form_of(store, read_settings(settings_path()))
    write_labels(store, [content], path, form, by=by, now=now)


def read_label(store: Store, code: str) -> LabelContent:
    """Return what a lot's label says. Raises what `label_of` raises."""
    from stockroom.actions.labelling import label_of

    return label_of(store, code)
