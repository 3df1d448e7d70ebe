"""One jar over time: how full it is, what lies undissolved, its measured strength, and where each figure comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.forecast import remake_of, told_in_a_line, trend_of
from stockroom.actions.jar_history import JarHistory, jar_history
from stockroom.domain.lots import Lot
from stockroom.planning.remake import Remake
from stockroom.science.quantities import show
from stockroom.science.ranges import show_range
from stockroom.science.trend import Trend
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.tui.page import Page
from stockroom.tui.pictures.jar import draw_jar
from stockroom.tui.pictures.strength import Dated, draw_strength, span
from stockroom.tui.questions.reading import Reading
from stockroom.tui.texts import one_line, rows
from stockroom.tui.widgets.picture import Picture
from stockroom.tui.widgets.told import Told
from stockroom.tui.words import DONE, day_words


@dataclass(frozen=True, slots=True, kw_only=True)
class JarPage:
    """All about one jar over time."""

    lot: Lot
    history: JarHistory
    remake: Remake | None
    trend: Trend | None

    @property
    def dated(self) -> list[Dated]:
        """Its checks that tell a percentage of saturation."""
        return [
            Dated(day=date.fromisoformat(one.day), figure=one.percent) for one in self.history.checks if one.percent
        ]


def jar_page(store: Store, code: str, local: datetime) -> JarPage:
    """Return a jar over time. Raises NotFound, Refused for what is no jar."""
    history, lot = jar_history(store, code), find_lot(store, code)
    return JarPage(
        lot=lot,
        history=history,
        remake=remake_of(store, lot, local),
        trend=trend_of(store, lot) if lot.over_solid else None,
    )


class JarScreen(Page):
    """One jar over time."""

    CSS_PATH = "jar.tcss"
    HELP = """
One jar over time. Left: how full it is and whether solid lies undissolved. Right: each check
that measured its strength, in percent of saturation, as a bar from lowest to highest with
the likeliest figure as a dot; saturation and the studio's limit are the lines across, the
dotted line is what the checks say together. Beneath: dates, refills left, checks, forecast.

S shows where each figure comes from, K checks it again.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("s", "sources", "Sources"),
        Binding("k", "form('check')", "Check"),
        Binding("t", "form('top-up')", "Top up"),
        Binding("l", "lot", "Its page"),
    ]

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._page: JarPage | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="name", classes="heading")
        with Horizontal(id="pictures"):
            yield Static("", id="level")
            yield Picture(id="strength")
        yield Static("", id="signs", classes="quiet")
        with VerticalScroll(id="told"):
            yield Told(id="told-lines")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "form":
            return self._page is not None and not self._page.lot.ended
        return super().check_action(action, parameters)

    def action_form(self, name: str) -> None:
        self.app.open_form(name, lot=self.code)

    def action_lot(self) -> None:
        self.app.open_code(self.code)

    def action_sources(self) -> None:
        if self._page:
            self.app.push_screen(Reading("Where the figures come from", sources_text(self._page.history)))

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        local = self.app.local
        page = await self.fetch(lambda store: jar_page(store, self.code, local))
        if page is None:
            return
        self._page = page
        self.refresh_bindings()
        history = page.history
        title = Content(f"{one_line(history.name)}   {history.code}   {page.lot.amount_words}")
        self.query_one("#name", Static).update(title)
        self.query_one("#level", Static).update(level(page))
        picture = self.query_one("#strength", Picture)
        dated = page.dated
        self.query_one("#signs", Static).update(Content(_SIGNS if dated else ""))
        if dated:
            made = date.fromisoformat((history.made_at or dated[0].day.isoformat())[:10])
            first, last = span(made, dated, local.date(), page.trend.likeliest if page.trend else None)
            limit, line = history.limit_percent, page.trend.at if page.trend else None
            picture.show(lambda w, h: draw_strength(dated, limit, first, last, local.date(), line, w, h))
        else:
            picture.show(lambda w, h: Content(_NOTHING_MEASURED if page.lot.over_solid else _READINGS_ONLY))
        self.query_one("#told-lines", Told).tell(told(page))


_SIGNS = "● check with its range, · their trend, ─ saturated, ╌ limit, ┊ today"
_NOTHING_MEASURED = "Its strength was not measured yet.\nA titration or a pH puts the first bar here: K checks it."
_READINGS_ONLY = (
    "It is checked by readings and looks, which stand beneath:\nthere is no saturation to hold them against."
)


def level(page: JarPage) -> Content:
    """Draw the jar, and write beneath it what it holds."""
    history = page.history
    held = page.lot.balance.quantity
    full = max([one.holds.quanta for one in history.levels], default=held)
    solid: bool | None = False
    if page.lot.over_solid:
        solid = None if history.solid_left is None or history.solid_left.low <= 0 < history.solid_left.high else True
        if history.solid_left is not None and history.solid_left.high <= 0:
            solid = False
    lines = [draw_jar(held, full, solid), Content(page.lot.amount_words)]
    lines.append(Content.styled(f"of {show(page.lot.material.quantity(full))}", "dim"))
    return Content("\n").join(lines)


def told(page: JarPage) -> Content:
    """Write what stands beneath the pictures."""
    history = page.history
    known = [("remake", told_in_a_line(page.remake) if page.remake else "nothing that is known ends it")]
    if page.trend and (page.remake is None or page.remake.reason != "trend"):
        known.append(("forecast", page.trend.why))
    known += [*_dates(history), *_solid(history)]
    known.append(("limit", f"{history.limit_percent:g} % of saturation"))
    for one in reversed(history.checks):
        measured = f", {show_range(one.percent)} of saturation" if one.percent else ""
        at = f" at {one.celsius:g} °C" if one.celsius is not None else ""
        known.append(("check", f"{one.day} {one.method}{at}{measured}: {one.verdict} ({one.by})"))
    known += [
        ("filled", f"{one.day} {DONE.get(one.what, one.what)}: then {show(one.holds)}")
        for one in history.levels
        if one.what in ("make", "top-up", "pour")
    ]
    return rows(known)


def _solid(history: JarHistory) -> Iterator[tuple[str, str]]:
    if history.solid_left:
        yield "solid", f"{show_range(history.solid_left)} undissolved"
    if history.refills_left and history.refill:
        yield (
            "refills left",
            f"{show_range(history.refills_left).replace(' refills', '')}, of {show(history.refill)} each",
        )
    if history.rewettings is not None and history.residue_words:
        yield "residue", f"{'! suspect: ' if history.residue_suspect else ''}{history.residue_words}"
    if history.saturation and history.celsius is not None:
        taken = ", taken: nobody wrote it down" if history.celsius_assumed else ""
        yield "saturated", f"{show_range(history.saturation)} at {history.celsius:g} °C{taken}"


def _dates(history: JarHistory) -> Iterator[tuple[str, str]]:
    if history.use_by:
        yield "use by", day_words(history.use_by) + (f" ({history.use_by_rule})" if history.use_by_rule else "")
    if history.check_by:
        yield "check by", day_words(history.check_by)
    if history.ready_on:
        yield "ready", day_words(history.ready_on)


def sources_text(history: JarHistory) -> Content:
    """Write for each figure where it comes from."""
    parts = [Content.assemble((f"Limit of {history.limit_percent:g} %\n", "bold"), one_line(history.limit_source))]
    checks: set[str] = set()
    for one in reversed(history.checks):
        checks |= set(one.sources)
        measured = show_range(one.percent) if one.percent else one.verdict
        lines = [Content.styled(f"Check of {one.day}, {one.method}: {measured}", "bold"), Content(one_line(one.why))]
        lines += [Content(f"- {one_line(source)}") for source in one.sources]
        parts.append(Content("\n").join(lines))
    rest = [source for source in history.sources if source not in checks]
    if rest:
        head = Content.styled("Saturation, solid and refills left", "bold")
        parts.append(Content("\n").join([head, *(Content(f"- {one_line(source)}") for source in rest)]))
    return Content("\n\n").join(parts)
