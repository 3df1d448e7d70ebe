"""The words of the screens: kinds of things due, why a lot is not fit, what was done to it."""

from __future__ import annotations

from datetime import datetime

from stockroom.labels.plain_text import make_visible
from stockroom.planning.due import STOPS_WORK, WORDS
from stockroom.planning.fitness import Fitness, spoken

DUE = {kind: f"{'!' if kind in STOPS_WORK else ' '} {word}" for kind, word in WORDS.items()}
"""What each kind of thing due is called; what stops work stands behind a sign."""

STATE = {
    "past-use-by": "past use-by",
    "not-ready": "not ready",
    "unfit": "unfit",
    "used-bath": "used bath",
    "solid-only": "solid only",
    "ended": "ended",
    "empty": "empty",
}

DONE = {
    "receive": "received",
    "open": "opened",
    "make": "making",
    "use": "used",
    "take": "taken",
    "discard": "discarded",
    "pour": "poured",
    "return": "sent back",
    "bring-back": "brought back",
    "keep-bath": "bath kept",
    "count": "counted",
    "stock-take": "stock-take",
    "move": "moved",
    "check": "checked",
    "top-up": "topped up",
    "settle": "settling again",
    "cut": "cut to be used again",
    "price": "price put right",
    "withdraw": "withdrawn",
    "release": "released",
    "waste-can": "waste can begun",
    "waste-can-ended": "waste can emptied",
    "close-job": "job closed",
    "reopen-job": "job opened again",
    "undo": "undoing",
    "put-right": "put right",
    "close-books": "books closed",
    "open-books": "books opened again",
}
"""What was done, as a lot's history tells it."""

_FLAGS = {
    "Say --seen CODE=QTY for each lot that is there": "Scan each lot that is there, or type its code and how much",
    "with --why": "in the field Why",
    "Say --why": "Write it in the field Why",
    "with --from": "in the field From lots (Ctrl+L shows it)",
    "--count-first books": "More than booked: yes books",
    "--count-first": "More than booked: yes",
    "--all-the-same REASON": "under All the same",
    "--all-the-same": "All the same",
    "--room": "under Takes up",
    "--not-tested": "Media tested",
    "--tested": "Media tested",
    "--own-reference": "Own reference",
    "--shaken": "Shaken",
    "Say --material": "Choose it in the field Material",
    "--gross": "Gross weight",
    "--density": "Density",
    "--temperature": "Temperature",
    "--sample-error": "Pipette, ±",
    "--acid-error": "Acid, ±",
    "--used-error": "Burette, ±",
    "--error": "Error",
    "--reference": "Reference",
    "--entry": "Which draw",
    "--took": "Took",
    "--added": "Added",
    "--reached": "Reached",
    "Say --uses N": "Write it in the field Good for",
    "like --keep-offcut 'L002U=20 x 76 cm'": "like L002U=20 x 76 cm",
    "--keep-offcut": "Offcuts kept:",
    "--fills": "Fills",
    "--why": "Why",
    "--from": "From lots",
}


def on_screen(message: str) -> str:
    """Put the commands and options in a message into the words of the screens, control characters made visible."""
    if "stockroom " in message:
        from stockroom.tui.commands_named import in_words_of_the_screens

        message = in_words_of_the_screens(message)
    for flag, words in _FLAGS.items():
        message = message.replace(flag, words)
    return "\n".join(" " * (len(line) - len(line.lstrip(" "))) + make_visible(line) for line in message.split("\n"))


def state(verdict: Fitness) -> str:
    """Say in a word or two whether a lot may be used; never by colour alone."""
    return "fit" if verdict.fit else f"! {STATE.get(verdict.kind, 'not fit')}"


def day_words(until: str | None) -> str:
    """Write a stored day or minute, or a dash where nothing limits it."""
    return spoken(until) if until else "–"


def today_words(local: datetime) -> str:
    return local.strftime("%Y-%m-%d")


def grouped(number: int) -> str:
    """Write a large number of things in threes: `10 000`, with spaces that do not break; neither sign is a decimal one.

    The SI brochure (9th edition, 5.4.4) and ISO 80000-1 part the thousands so.
    """
    return f"{number:,}".replace(",", "\u00a0")
