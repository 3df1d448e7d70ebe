"""What can be booked on screen, each form described as fields, an action and the text of its plan."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stockroom.tui.forms.form import Form

FORMS = {
    "make": "making:MAKE",
    "use": "using:USE",
    "check": "checking:CHECK",
    "take": "taking:TAKE",
    "bring-back": "taking:BRING_BACK",
    "discard": "discarding:DISCARD",
    "return": "taking:RETURN",
    "count": "counting:COUNT",
    "empty": "counting:EMPTY",
    "receive": "receiving:RECEIVE",
    "open": "receiving:OPEN",
    "top-up": "jars:TOP_UP",
    "move": "jars:MOVE",
    "cut": "cutting:CUT",
    "tare": "counting:TARE",
    "settle": "settling:SETTLE",
    "pour": "settling:POUR",
    "withdraw": "recalling:WITHDRAW",
    "release": "recalling:RELEASE",
    "new-can": "waste_cans:NEW_CAN",
    "end-can": "waste_cans:END_CAN",
    "close-books": "closing:CLOSE_BOOKS",
    "open-books": "closing:OPEN_BOOKS",
    "book": "jobs:BOOK",
    "new-job": "jobs:NEW_JOB",
    "close-job": "jobs:CLOSE_JOB",
    "reopen-job": "job_changes:REOPEN_JOB",
    "add-object": "job_changes:ADD_OBJECT",
    "move-booking": "jobs:MOVE_BOOKING",
    "cancel-booking": "jobs:CANCEL_BOOKING",
    "quote": "quoting:GIVE_QUOTE",
    "accept-quote": "quoting:ACCEPT_QUOTE",
    "withdraw-quote": "quoting:WITHDRAW_QUOTE",
    "put-right": "putting_right:PUT_RIGHT",
    "price": "putting_right:PRICE",
    "new-order": "ordering:NEW_ORDER",
    "add-to-order": "ordering:ADD_TO_ORDER",
    "place-order": "ordering:PLACE_ORDER",
    "expect-order": "ordering:EXPECT_ORDER",
    "end-order": "ordering:END_ORDER",
    "receive-order": "delivering:RECEIVE_ORDER",
    "new-recipe": "own_recipe:NEW_RECIPE",
    "edit-recipe": "own_recipe:EDIT_RECIPE",
    "new-material": "own_material:NEW_MATERIAL",
    "edit-material": "own_material:EDIT_MATERIAL",
    "new-place": "own_studio:NEW_PLACE",
    "edit-place": "own_studio:EDIT_PLACE",
    "new-measure": "own_studio:NEW_MEASURE",
    "edit-measure": "own_studio:EDIT_MEASURE",
    "weigh-spoon": "own_spoons:WEIGH_SPOON",
    "new-person": "own_studio:NEW_PERSON",
    "edit-person": "own_studio:EDIT_PERSON",
    "studio-choices": "own_choices:STUDIO_CHOICES",
    "new-supplier": "own_trade:NEW_SUPPLIER",
    "edit-supplier": "own_trade:EDIT_SUPPLIER",
    "new-offer": "own_offers:NEW_OFFER",
    "end-offer": "own_offers:END_OFFER",
    "new-label-stock": "own_labels:NEW_LABEL_STOCK",
    "edit-label-stock": "own_labels:EDIT_LABEL_STOCK",
    "new-printer": "own_labels:NEW_PRINTER",
    "retire": "retiring:RETIRE",
    "take-up": "retiring:TAKE_UP",
}
"""Each form and where it is: a module of this package and the name in it."""


def find_form(name: str) -> Form[Any]:
    """Return a form, loaded when it is first asked for."""
    module, constant = FORMS[name].split(":")
    form: Form[Any] = getattr(import_module(f"stockroom.tui.forms.{module}"), constant)
    return form
