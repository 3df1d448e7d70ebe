"""Show labels as they will print, with what does not fit; say how many and where; print them, or save them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.errors import BadInput
from stockroom.labels.content import LabelContent
from stockroom.labels.printing import WHICH_PRINT_SURVIVES, can_print
from stockroom.labels.write import Form
from stockroom.store.labels import all_label_stocks, all_printers
from stockroom.store.open import Store
from stockroom.tui.files import hand_over
from stockroom.tui.forms.fields import whole_number
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.offer import Offer
from stockroom.tui.questions.question import Question
from stockroom.tui.questions.text import AskText
from stockroom.tui.widgets.as_it_stands import Printed
from stockroom.tui.words import on_screen


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """How labels are wanted this time, where it differs from the settings; every text as typed."""

    copies: str | None = None
    first: str | None = None
    """The first free position of the sheet."""
    stock: str | None = None
    size: str | None = None
    printer: str | None = None
    place: bool = False
    """Whether the place is printed too."""
    pictograms: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """A label as it will print: its sketch in characters, its size, and what to know before it prints."""

    sketch: str
    size: str
    warnings: tuple[str, ...]


class LabelQuestion(Question[None]):
    """The labels of one lot or several."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("p", "print", "Print"),
        Binding("s", "save", "Save as PDF"),
        Binding("c", "copies", "Copies"),
        Binding("f", "first", "First place"),
        Binding("o", "otherwise", "Otherwise"),
        Binding("enter", "leave", "Done"),
        Binding("escape", "leave", "Done", show=False),
    ]

    def __init__(self, codes: Sequence[str]) -> None:
        super().__init__(f"Label{'s' if len(codes) > 1 else ''} of {', '.join(codes)}")
        self._codes, self._how = codes, How()
        self._on_sheet = 0
        """How many labels a sheet has, where they stand on sheets."""

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Static("", id="label-size", classes="quiet")
            yield Static("", id="label-warnings", classes="caution")
            yield Printed("", id="label-sketch")
            yield Static(Content("\n".join(("Which print survives:", *WHICH_PRINT_SURVIVES))), classes="quiet")

    def on_mount(self) -> None:
        self._begin()

    @work
    async def _begin(self) -> None:
        if not await self._show(self._how):
            self.dismiss(None)

    async def _show(self, how: How) -> bool:
        """Show the labels as they are wanted; where they cannot be drawn so, tell why and keep what was."""
        found = await self.app.ask_database(lambda store: preview_labels(store, self._codes, how))
        if found is None:
            return False
        preview, form = found
        self._how, self._on_sheet = how, form.grid.labels if form.grid and not form.grid.is_single else 0
        self.query_one("#label-size", Static).update(Content(on_screen(preview.size)))
        self.query_one("#label-sketch", Printed).update(Content(preview.sketch))
        warnings = self.query_one("#label-warnings", Static)
        warnings.update(Content(on_screen("\n".join(preview.warnings))))
        warnings.display = bool(preview.warnings)
        self.refresh_bindings()
        return True

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "first":
            return self._on_sheet > 0
        return action != "print" or (can_print() and not self.app.is_web)

    @work
    async def action_copies(self) -> None:
        typed = await self.app.push_screen_wait(AskText("How many of each?", "A number, such as 2.", offered="2"))
        if typed:
            await self._show(replace(self._how, copies=typed))

    @work
    async def action_first(self) -> None:
        explained = "The first free label of the sheet: 1 is the upper left one, 2 the one right of it."
        typed = await self.app.push_screen_wait(AskText("First free place?", explained, offered=self._how.first or "1"))
        if typed:
            await self._show(replace(self._how, first=typed))

    @work
    async def action_otherwise(self) -> None:
        """Change what is wanted: label stock, printer, size, place, pictograms."""
        how = self._how
        offers = [
            Offer(key="stock", words="Another label stock", detail="a sheet or roll of labels"),
            Offer(key="size", words="Another size", detail="a single label: 74 x 52 mm"),
            Offer(key="printer", words="Another printer", detail="than that of the settings"),
            Offer(key="place", words="Without the place" if how.place else "With the place", detail="where it stands"),
            Offer(
                key="pictograms",
                words="Without pictograms" if how.pictograms else "With pictograms",
                detail="where they do not fit; the statements stay",
            ),
        ]
        chosen = await self.app.push_screen_wait(Choose("How otherwise?", offers, none=""))
        wanted = await self._asked(chosen.key) if chosen else None
        if wanted is not None:
            await self._show(wanted)

    async def _asked(self, what: str) -> How | None:
        """Ask for one thing, and return how labels are wanted then; None where it was left."""
        how = self._how
        if what == "place":
            return replace(how, place=not how.place)
        if what == "pictograms":
            return replace(how, pictograms=not how.pictograms)
        if what == "size":
            size = await self.app.push_screen_wait(AskText("Which size?", "Width and height.", empty="74 x 52 mm"))
            return replace(how, size=size, stock=None, first=None) if size else None
        if what == "printer":
            known = await self.app.ask_database(lambda store: ", ".join(one.name for one in all_printers(store)))
            explained = f"Its name in the system's printing queue. Measured here: {known or 'none'}."
            printer = await self.app.push_screen_wait(AskText("Which printer?", explained))
            return replace(how, printer=printer) if printer else None
        offers = await self.app.ask_database(
            lambda store: [
                Offer(key=one.name, words=one.name, detail=f"{one.columns} x {one.rows} labels")
                for one in all_label_stocks(store)
            ]
        )
        none = "No sheet or roll of labels is kept yet: add one in the bench book (F12)."
        chosen = (
            await self.app.push_screen_wait(Choose("Which label stock?", offers, none=none))
            if offers is not None
            else None
        )
        return replace(how, stock=chosen.key, size=None, first=None) if chosen else None

    @work
    async def action_print(self) -> None:
        by, now, how = self.app.by, self.app.local, self._how
        answer = await self.app.ask_database(lambda store: print_labels_of(store, self._codes, how, by, now))
        if answer is not None:
            self.notify(on_screen(f"Printed: {answer}"), title="Label", markup=False)
            await self._go_on()

    @work
    async def action_save(self) -> None:
        by, now, how = self.app.by, self.app.local, self._how
        await hand_over(
            self.app,
            f"label-{self._codes[0]}.pdf",
            lambda store, path: save_labels(store, self._codes, how, path, by, now),
        )

    async def _go_on(self) -> None:
        """After printing on a sheet, begin the next labels behind those that were printed."""
        if self._on_sheet:
            used = len(self._codes) * (whole_number(self._how.copies, "copies") or 1)
            behind = (whole_number(self._how.first, "places") or 1) + used
            await self._show(replace(self._how, first=str((behind - 1) % self._on_sheet + 1)))


def form_for(store: Store, how: How) -> Form:
    """Work out how labels are drawn: as wanted, else as the settings say. Raises what `form_of` raises."""
    from stockroom.actions.label_making import form_of
    from stockroom.paths import settings_path
    from stockroom.settings import read_settings

    return form_of(
        store,
        read_settings(settings_path()),
        stock=how.stock,
        size=how.size,
        first=whole_number(how.first, "the first free place"),
        copies=whole_number(how.copies, "copies") or 1,
        printer=how.printer,
    )


def read_labels(store: Store, codes: Sequence[str], how: How) -> list[LabelContent]:
    """Return what the labels of lots say. Raises what `label_of` raises."""
    from stockroom.actions.label_making import CODE_AND_WORDS
    from stockroom.actions.labelling import label_of
    from stockroom.paths import settings_path
    from stockroom.settings import read_settings

    in_symbol = read_settings(settings_path()).label_symbol == CODE_AND_WORDS
    return [
        label_of(store, code, with_place=how.place, with_pictograms=how.pictograms, words_in_symbol=in_symbol)
        for code in codes
    ]


def preview_labels(store: Store, codes: Sequence[str], how: How) -> tuple[Preview, Form]:
    """Lay labels out as they are wanted, and show the first. Raises BadInput for a place that the sheet has not, and
    what `form_for` and `compose` raise.

    Laying out takes a moment, as drawing does, so it is work for the thread.
    """
    from stockroom.actions.label_making import find_out_of_date
    from stockroom.labels.compose import compose
    from stockroom.labels.preview import draw_preview

    form, contents = form_for(store, how), read_labels(store, codes, how)
    if form.grid and form.first > form.grid.labels:
        raise BadInput(f"The sheet has {form.grid.labels} labels: the first free place is 1 to {form.grid.labels}.")
    labels = [compose(content, form.size_mm) for content in contents]
    warnings = [
        f"! {f'{label.symbol.code}: does' if len(labels) > 1 else 'Does'} not fit, and is left off: "
        f"{', '.join(label.dropped)}."
        for label in labels
        if label.dropped
    ]
    warnings += [
        f"! Take the old label off: {old.words}."
        for content in contents
        if (old := find_out_of_date(store, content)) is not None
    ]
    size = f"{labels[0].width_mm:g} x {labels[0].height_mm:g} mm"
    return Preview(
        sketch="\n".join(draw_preview(labels[0])), size=_size_words(size, form, how, codes), warnings=tuple(warnings)
    ), form


def _size_words(size: str, form: Form, how: How, codes: Sequence[str]) -> str:
    """Say what is printed: size, sheet and place on it, how many, and which is shown."""
    told = [f"As it will print, {size}"]
    if form.grid and not form.grid.is_single:
        told.append(f"on a sheet of {form.grid.labels}, from place {form.first}")
    if form.copies > 1:
        told.append(f"{form.copies} of each")
    if how.printer:
        told.append(f"on {how.printer}")
    if len(codes) > 1:
        told.append(f"{codes[0]} is shown, {len(codes) - 1} more like it")
    return f"{', '.join(told)}:"


def print_labels_of(store: Store, codes: Sequence[str], how: How, by: str | None, now: datetime) -> str:
    """Print labels, and return what the printer's queue answered. Raises Refused."""
    from stockroom.actions.label_making import print_labels
    from stockroom.paths import settings_path
    from stockroom.settings import read_settings

    printer = how.printer or read_settings(settings_path()).label_printer
    return print_labels(store, read_labels(store, codes, how), form_for(store, how), printer=printer, by=by, now=now)[1]


def save_labels(store: Store, codes: Sequence[str], how: How, path: Path, by: str | None, now: datetime) -> None:
    """Write labels to a file. Raises what `write_labels` raises."""
    from stockroom.actions.label_making import write_labels

    write_labels(store, read_labels(store, codes, how), path, form_for(store, how), by=by, now=now)
