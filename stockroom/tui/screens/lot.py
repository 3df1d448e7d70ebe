"""One lot's page: what it is, how it stands, what was done to it, and its label."""

from __future__ import annotations

from typing import ClassVar

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import DataTable, Static

from stockroom.actions.labelling import content_of
from stockroom.actions.lot_page import HistoryLine, LotPage, lot_page
from stockroom.domain.lots import Lot
from stockroom.planning.fitness import is_withdrawn
from stockroom.science.money import show_money
from stockroom.science.quantities import Dimension, show
from stockroom.tui.booking import undo_action
from stockroom.tui.forms import find_form
from stockroom.tui.page import SIDE_BY_SIDE, Page
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.label import LabelQuestion
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import one_line, rows
from stockroom.tui.widgets.label_preview import LabelPreview
from stockroom.tui.widgets.told import Told
from stockroom.tui.words import DONE, day_words

_COLUMNS = (("Day", 10), ("Done", 20), ("Amount", 12), ("Value", 12), ("By", 8))


class LotScreen(Page):
    """All about one lot."""

    CSS_PATH = "lot.tcss"
    HORIZONTAL_BREAKPOINTS = SIDE_BY_SIDE
    HELP = """
Everything about one lot: whether it may be used and why, its dates, where it came from
and what it went into. Beneath stands all that was done to it, newest last.

Each key opens the form for this lot; D lists all that can be done with it; H
shows a jar over time, Q its code to be scanned from the screen, W what the lot
touched and what is behind it. Undo takes back the action that is marked in the
list, R puts right what it drew.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("t", "form('take')", "Take"),
        Binding("c", "form('count')", "Count", show=False),
        Binding("k", "form('check')", "Check"),
        Binding("o", "form('open')", "Open it"),
        Binding("x", "form('discard')", "Discard"),
        Binding("l", "label", "Label"),
        Binding("q", "symbol", "QR", tooltip="Its code, to be scanned from the screen"),
        Binding("h", "over_time", "Graph", tooltip="The jar over time"),
        Binding("w", "trace", "What it touched", show=False),
        Binding("d", "more", "More"),
        Binding("u", "undo", "Undo marked", show=False),
        Binding("r", "put_right", "Put marked right", show=False),
    ]

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._page: LotPage | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="name", classes="heading")
        with Horizontal(id="about"):
            with VerticalScroll(id="facts"):
                yield Told(id="fact-rows")
            yield Vertical(id="label")
        yield Static(Content("What was done"), classes="heading")
        table: DataTable[Text] = DataTable(cursor_type="row")
        for name, width in _COLUMNS:
            table.add_column(Text(name), width=width)
        yield table
        yield Static("", id="marked", classes="quiet")

    def on_mount(self) -> None:
        self.query_one(DataTable).focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer only what can be done with the lot as it is."""
        lot = self._page.lot if self._page else None
        if action == "form":
            return lot is not None and str(parameters[0]) in forms_for(lot)
        if action in ("label", "symbol"):
            return lot is not None and not lot.ended
        if action == "over_time":
            return lot is not None and lot.is_jar
        return super().check_action(action, parameters)

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        local = self.app.local
        page = await self.fetch(lambda store: lot_page(store, self.code, local))
        if page is None:
            return
        self._page = page
        self.refresh_bindings()
        lot, currency = page.lot, self.app.studio.currency
        title = Content.assemble(one_line(lot.material.name), f"   {lot.code}   {lot.amount_words}")
        self.query_one("#name", Static).update(title)
        self.query_one("#fact-rows", Told).tell(facts(page, currency))
        self._fill_history(page, currency)
        label = self.query_one("#label", Vertical)
        await label.remove_children()
        if not lot.ended:
            await label.mount(LabelPreview(content_of(lot)))

    def _fill_history(self, page: LotPage, currency: str) -> None:
        table: DataTable[Text] = self.query_one(DataTable)
        newest = not table.row_count
        at = table.cursor_row
        table.clear()
        for line in page.history:
            table.add_row(*history_cells(line, currency), key=line.action)
        table.move_cursor(row=table.row_count - 1 if newest else min(at, table.row_count - 1))

    @on(DataTable.RowHighlighted)
    def _tell_marked(self) -> None:
        line = self._marked()
        why = f": {line.reason}" if line and line.reason else ""
        words = f"{line.action}{why}; u undoes it, r puts right what it drew" if line else ""
        self.query_one("#marked", Static).update(Content(one_line(words)))

    def _marked(self) -> HistoryLine | None:
        row = self.query_one(DataTable).cursor_row
        return self._page.history[row] if self._page and row < len(self._page.history) else None

    def action_form(self, name: str) -> None:
        self.app.open_form(name, lot=self.code)

    @work
    async def action_more(self) -> None:
        """Offer all that can be looked at and done with the lot as it is."""
        if self._page is None:
            return
        offers = [
            Offer(key="trace", words="What it touched, and what is behind it", detail="as a tree; W"),
            Offer(key="stock", words="How much of it there will be", detail="in the weeks to come"),
        ]
        offers += [Offer(key=name, words=find_form(name).title) for name in forms_for(self._page.lot)]
        answer = await self.app.push_screen_wait(Choose(f"{self.code}: what do you do with it?", offers, none=""))
        if answer is None:
            return
        if answer.key == "stock":
            from stockroom.tui.screens.stock import StockScreen

            self.app.push_screen(StockScreen(self._page.lot.material.key))
        elif answer.key == "trace":
            self.action_trace()
        else:
            self.action_form(answer.key)

    def action_trace(self) -> None:
        from stockroom.tui.screens.trace import TraceScreen

        self.app.push_screen(TraceScreen(self.code))

    def action_over_time(self) -> None:
        from stockroom.tui.screens.jar import JarScreen

        self.app.push_screen(JarScreen(self.code))

    def action_put_right(self) -> None:
        line = self._marked()
        if line is not None:
            self.app.open_form("put-right", of=line.action)

    @work
    async def action_label(self) -> None:
        await self.app.push_screen_wait(LabelQuestion([self.code]))

    def action_symbol(self) -> None:
        from stockroom.tui.screens.label import LabelScreen

        self.app.push_screen(LabelScreen(self.code))

    @work
    async def action_undo(self) -> None:
        line = self._marked()
        if line is not None:
            what = f"{DONE.get(line.what, line.what)} on {line.day} by {line.by}"
            await undo_action(self.app, line.action, what[0].upper() + what[1:])


def forms_for(lot: Lot) -> list[str]:
    """Name the forms that a lot, as it is, can be put into."""
    if lot.ended:
        return []
    forms = ["take", "count", "discard", "move", "bring-back", "empty", "tare"]
    if lot.material.dimension is Dimension.AREA:
        forms.append("cut")
    forms.append("release" if is_withdrawn(lot) else "withdraw")
    if lot.material.dimension is Dimension.VOLUME:
        forms.append("pour")
    if lot.is_jar:
        forms += ["check", "top-up"] + (["settle"] if lot.over_solid else [])
    else:
        forms += ["open"] if lot.opened_on is None else []
        forms += ["return", "price"] if lot.kind == "bought" else []
    return forms


def facts(page: LotPage, currency: str) -> Content:
    """Write what is known of a lot; what is not known is left out."""
    lot = page.lot
    rule = f" ({lot.use_by_rule})" if lot.use_by and lot.use_by_rule else ""
    known = [
        ("state", f"{'fit' if page.fit.fit else '! ended' if lot.ended else '! not fit'}: {page.fit.why}"),
        ("strength", lot.strength),
        ("purity", lot.purity),
        ("use by", f"{day_words(lot.use_by)}{rule}" if lot.use_by else None),
        ("ready", day_words(lot.ready_on) if lot.ready_on else None),
        ("check by", day_words(lot.check_by) if lot.check_by else None),
        ("made", day_words(lot.made_at[:16]) if lot.made_at else None),
        ("received", lot.received_on),
        ("opened", lot.opened_on),
        ("place", lot.place),
        ("by", lot.initials),
        ("maker's lot", lot.maker_lot),
        ("value", show_money(lot.balance.value, currency) if lot.cost_known else "not known"),
        ("made from", ", ".join(f"{show(one.amount)} of {one.name} ({one.code})" for one in page.made_from)),
        ("went into", ", ".join(f"{one.name} ({one.code}), {show(one.amount)}" for one in page.went_into)),
        ("used for", ", ".join(page.jobs)),
        ("solid", "; ".join(page.balance.words()) if page.balance else None),
        *(("check", f"{one.day} {one.check.method}: {one.check.verdict}, {one.initials}") for one in page.checks[-3:]),
        ("storage", lot.material.storage),
    ]
    return rows((name, value) for name, value in known if value)


def history_cells(line: HistoryLine, currency: str) -> list[Text]:
    sign = "+" if line.amount.quanta > 0 else ""
    done = DONE.get(line.what, line.what)
    texts = [
        line.day,
        done if line.in_effect else f"{done}, undone",
        f"{sign}{show(line.amount)}" if line.amount.quanta else "",
        show_money(line.value, currency) if line.value else "",
        line.by,
    ]
    return [Text(one_line(text), no_wrap=True, overflow="ellipsis") for text in texts]
