"""Show a label as it will say it, with its symbol, and save it for the printer."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll

from stockroom.labels.content import LabelContent
from stockroom.store.open import Store
from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.label_preview import LabelPreview


class LabelQuestion(Question[None]):
    """The label of one lot."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("s", "save", "Save as PDF"),
        Binding("enter", "leave", "Done"),
        Binding("escape", "leave", "Done", show=False),
    ]

    def __init__(self, content: LabelContent) -> None:
        super().__init__(f"Label of {content.code}")
        self._content = content

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield LabelPreview(self._content)

    @work
    async def action_save(self) -> None:
        path = await self.app.ask_database(lambda _: save_label(self._content))
        if path is None:
            return
        if self.app.is_web:
            self.app.deliver_binary(path)
        else:
            self.notify(f"Saved as {path}.", title="Label", markup=False)


def save_label(content: LabelContent) -> Path:
    """Write a label as PDF among the person's downloads, and return where. Raises what `write_label` raises.

    Drawing takes a moment, so it is work for the thread.
    """
    from platformdirs import user_downloads_path

    from stockroom.labels.write import write_label

    folder = user_downloads_path()
    folder.mkdir(parents=True, exist_ok=True)
    return write_label([content], folder / f"label-{content.code}.pdf").files[0]


def read_label(store: Store, code: str) -> LabelContent:
    """Return what a lot's label says. Raises what `label_of` raises."""
    from stockroom.actions.labelling import label_of

    return label_of(store, code)
