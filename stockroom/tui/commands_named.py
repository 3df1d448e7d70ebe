"""Where on screen that is done which a message names by its command."""

from __future__ import annotations

import re

from stockroom.tui.forms import find_form

_DONE_IN = {
    "check": "check",
    "use": "use",
    "make": "make",
    "take": "take",
    "discard": "discard",
    "move": "move",
    "receive": "receive",
    "cut": "cut",
    "count": "count",
    "book": "book",
    "put-right": "put-right",
    "withdraw": "withdraw",
    "release": "release",
    "close-books": "open-books",
    "top-up": "top-up",
    "bring-back": "bring-back",
    "job new": "new-job",
    "job reopen": "reopen-job",
    "job object": "add-object",
    "order add": "add-to-order",
    "order place": "place-order",
    "order close": "end-order",
    "order cancel": "end-order",
    "supplier new": "new-supplier",
    "supplier offer": "new-offer",
    "material new": "new-material",
    "recipe new": "new-recipe",
    "person new": "new-person",
    "place new": "new-place",
    "measure new": "new-measure",
    "label-stock new": "new-label-stock",
    "waste-can new": "new-can",
    "waste-can collected": "end-can",
}
"""The form that does what a command does."""

_SEEN_AT = {
    "shelf": "F3 (Shelf)",
    "job list": "F7 (Jobs)",
    "job show": "F8 (Plan)",
    "order list": "F9 (Buy)",
    "order show": "F9 (Buy)",
    "order remove": "Enter on that line, on its page (F9)",
    "stock-take": "F10 (Count)",
    "quote list": "A job's page (F7)",
    "undo": "'Undo one of your last' (Ctrl+F)",
    "waste-can show": "its page",
    "material edit": "E on its page in the bench book (F12)",
    "supplier edit": "E on its page in the bench book (F12)",
    "material retire": "B on its page in the bench book (F12)",
}
"""Where else on screen a command's answer stands; `material retire` is named only with `--undo`."""

_MORE_EXACTLY = ((r"count \S+ --tare", "tare"),)
"""The form of a command by one of its options."""

_KEYS = {"make": "F4", "use": "F5", "check": "F6"}
"""The keys of the forms that are an area of work; any other form is found by its title."""

_COMMANDS = "|".join(sorted((*_DONE_IN, *_SEEN_AT), key=len, reverse=True))
_ARGUMENTS = r"""(?:\ (?:'[^']*'|"[^"]*"|[^.,;()'"\s]+))*"""
_NAMED = re.compile(rf"'stockroom ({_COMMANDS})\b([^']*)'|(?<!')\bstockroom ({_COMMANDS})\b({_ARGUMENTS})")


def in_words_of_the_screens(message: str) -> str:
    """Put every command that a message names into the words of the form or the screen that does it."""
    return _NAMED.sub(_where, message)


def _where(named: re.Match[str]) -> str:
    command, arguments = named[1] or named[3], named[2] or named[4] or ""
    if command == "order place" and "--undo" in arguments:
        return "B on its page (F9)"
    form = next((form for way, form in _MORE_EXACTLY if re.match(way, command + arguments)), _DONE_IN.get(command))
    if form is None:
        return _SEEN_AT[command]
    key = _KEYS.get(form, "Ctrl+F")
    return f"'{find_form(form).title}' ({key})"
