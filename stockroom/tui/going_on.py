"""What one key does with each thing that is due: the form that does it, with what is known filled in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from stockroom.domain.codes import prefix_of
from stockroom.errors import StockroomError
from stockroom.planning.due import Due
from stockroom.store.open import Store
from stockroom.store.remaking import recipe_of_material, remade_by


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Where one key leads: a form by its name, an area of work, else a page."""

    does: str
    form: str = ""
    area: str = ""
    """An area of work, where it is done there."""
    known: Mapping[str, str] = field(default_factory=dict)
    ask: tuple[tuple[str, str, str], ...] = ()
    """Where it has to be asked first: form, words, detail of each answer."""


def way_on(store: Store, item: Due) -> Way:
    """Say what is done about something that is due."""
    try:
        return _WAYS.get(item.kind, _by_code)(store, item)
    except StockroomError:
        return Way(does="look again: it has just changed", area="due")


def _discard(why: str) -> Callable[[Store, Due], Way]:
    return lambda store, item: Way(does="throw it away", form="discard", known={"lot": item.code, "why": why})


def _of_lot(form: str, does: str) -> Callable[[Store, Due], Way]:
    return lambda store, item: Way(does=does, form=form, known={"lot": item.code})


def _remake(store: Store, item: Due) -> Way:
    material, recipe = remade_by(store, item.code)
    if recipe:
        return Way(does="make it afresh", form="make", known={"recipe": recipe})
    return Way(does="book a delivery in", form="receive", known={"material": material})


def _more(store: Store, item: Due) -> Way:
    recipe = recipe_of_material(store, item.code)
    if recipe:
        return Way(does="make more", form="make", known={"recipe": recipe})
    return Way(does="order more", area="buy")


def _to_buy(store: Store, item: Due) -> Way:
    return Way(does="what to buy", area="buy")


def _order(store: Store, item: Due) -> Way:
    return Way(does="its page", known={"code": item.code})


def _passed(store: Store, item: Due) -> Way:
    return Way(
        does="say whether it was done, moved or dropped",
        known={"booking": item.code},
        ask=(
            ("use", "Done", "book what it took"),
            ("move-booking", "Moved", "to another day"),
            ("cancel-booking", "Dropped", "it is not done"),
        ),
    )


def _by_code(store: Store, item: Due) -> Way:
    match prefix_of(item.code):
        case "L":
            return Way(does="its page", known={"code": item.code})
        case "K":
            return Way(does="what is short, and the treatment", form="use", known={"booking": item.code})
        case "A":
            return Way(does="bring it back", form="bring-back", known={"taken": item.code})
        case _:
            return _more(store, item)


_WAYS: dict[str, Callable[[Store, Due], Way]] = {
    "past-use-by": _discard("past its date"),
    "withdrawn": _discard(""),
    "discard-used-bath": _discard("used bath"),
    "remake": _remake,
    "solid-only": _of_lot("top-up", "top it up"),
    "check": _of_lot("check", "check it"),
    "suspect-residue": _of_lot("check", "check it"),
    "reorder": _to_buy,
    "order-late": _order,
    "can-full": _of_lot("end-can", "say that it was collected or emptied"),
    "look-for": _of_lot("count", "count what you found"),
    "booking-passed": _passed,
    "low": _more,
    "empty": _more,
}
