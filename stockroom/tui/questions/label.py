"""Show a label as it will say it, with its symbol, and save it for the printer."""

from __future__ import annotations

import tempfile
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
        name = f"label-{self._content.code}.pdf"
        path = await self.app.ask_database(lambda _: self._write(Path(tempfile.mkdtemp()) / name))
        if path is not None:
            self.app.deliver_binary(path, save_filename=name)

    def _write(self, path: Path) -> Path:
        """Write the label where it is fetched from. It is work for the thread, since drawing takes a moment."""
        from stockroom.labels.write import write_label

        write_label([self._content], path)
        return path


def read_label(store: Store, code: str) -> LabelContent:
    """Return what a lot's label says. Raises what `label_of` raises."""
    from stockroom.actions.labelling import label_of

    return label_of(store, code)
