"""How much of one material there will be in the weeks to come, and what changes it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.order_points import OrderPoint, choices_by_material, order_below
from stockroom.actions.planned import projected_stock
from stockroom.domain.materials import Material
from stockroom.domain.orders import goods
from stockroom.planning.projection import Point
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import recipe_making
from stockroom.tui.page import Page
from stockroom.tui.pictures.stock import SIGNS, draw_stock
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.picture import Picture
from stockroom.tui.widgets.told import Told

AHEAD_DAYS = 90
WORDS = {
    "arrival": "arrives",
    "made": "made by then",
    "bought": "here by then, where it is ordered in time",
    "ready": "ready to use",
    "booking": "taken for",
    "making": "taken for",
    "expiry": "past its date:",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class StockAhead:
    """What will be there of a material."""

    material: Material
    points: tuple[Point, ...]
    below: OrderPoint
    recipe: str | None
    """Of what is made here."""


def stock_ahead(store: Store, key: str, screen: StockScreen) -> StockAhead:
    """Return what will be there of a material. Raises NotFound."""
    material, local = find_material(store, key), screen.app.local
    recipe = recipe_making(store, material.key)
    choices = choices_by_material(store).get(material.id, [])
    return StockAhead(
        material=material,
        points=tuple(projected_stock(store, material.key, local, AHEAD_DAYS)),
        below=order_below(store, material, choices, local.date()),
        recipe=recipe.key if recipe else None,
    )


class StockScreen(Page):
    """One material in the weeks to come."""

    CSS_PATH = "stock.tcss"
    HELP = """
How much of one material will be fit to use, day by day: a column for each day or few. The
line is the amount below which you order again. Beneath stands what changes it, by day: what
comes (+), what bookings take (-), what goes past its date (×). Planned makings and purchases
are counted in on the day they would be here.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "receive", "Receive"),
        Binding("m", "make", "Make"),
        Binding("b", "app.area('buy')", "What to buy"),
    ]

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key
        self._ahead: StockAhead | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="name", classes="heading")
        yield Picture(id="curve")
        yield Static("", id="signs", classes="quiet")
        with VerticalScroll(id="changes"):
            yield Told(id="change-lines")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        made = self._ahead is not None and self._ahead.recipe is not None
        if action in ("make", "receive"):
            return self._ahead is not None and made == (action == "make")
        return super().check_action(action, parameters)

    def action_receive(self) -> None:
        self.app.open_form("receive", material=self.key)

    def action_make(self) -> None:
        if self._ahead and self._ahead.recipe:
            self.app.open_form("make", recipe=self._ahead.recipe)

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        found = await self.fetch(lambda store: stock_ahead(store, self.key, self))
        if found is None:
            return
        self._ahead = found
        self.refresh_bindings()
        material, below = found.material, found.below.below
        now = goods(material, found.points[0].quantity)
        self.query_one("#name", Static).update(Content(f"{one_line(material.name)}   {now} fit to use now"))
        last = found.points[0].day + timedelta(days=AHEAD_DAYS)
        self.query_one("#curve", Picture).show(
            lambda width, height: draw_stock(material, found.points, below, last, width, height)
        )
        self.query_one("#signs", Static).update(Content(one_line(_signs(found))))
        self.query_one("#change-lines", Told).tell(_changes(material, found.points[1:]))


def _signs(found: StockAhead) -> str:
    line = ""
    if found.below.below is not None:
        line = f", ╌ order when below {goods(found.material, found.below.below)}: {found.below.why}"
    return f"█ fit to use, + comes, - taken, × past its date{line}"


def _changes(material: Material, points: Sequence[Point]) -> Content:
    if not points:
        return Content(f"Nothing that is known changes it within {AHEAD_DAYS} days.")
    lines = []
    for point in points:
        for kind, what, quanta in point.changes:
            of = "" if kind in ("made", "bought") else f" {what}"
            told = f"{SIGNS[kind]} {goods(material, abs(quanta))} {WORDS[kind]}{of}"
            lines.append(Content.assemble((f"{_day(point.day)}  ", "bold"), one_line(told)))
        left = goods(material, abs(point.quantity))
        lines.append(Content(f"{'':16}! {left} lacking") if point.quantity < 0 else _then(left))
    return Content("\n").join(lines)


def _then(left: str) -> Content:
    return Content.styled(f"{'':16}then {left}", "dim")


def _day(day: date) -> str:
    return f"{day:%a} {day.isoformat()}"
