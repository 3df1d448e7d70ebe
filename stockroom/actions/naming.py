"""What people call things: text is kept as typed, and a key that can be typed anywhere is made from it."""

from __future__ import annotations

import re
from collections.abc import Callable

from stockroom.errors import AlreadyExists, BadInput
from stockroom.science.numerals import quoted
from stockroom.store.fold import fold

LONGEST_NAME = 200
LONGEST_KEY = 60


def check_text(text: str, what: str) -> str:
    """Return a name or note as typed. Raises BadInput when it is blank, too long, or not text at all."""
    if not text.strip():
        raise BadInput(f"The {what} is empty. Write at least one character.")
    if len(text) > LONGEST_NAME:
        raise BadInput(f"The {what} {quoted(text)} is too long: at most {LONGEST_NAME} characters are kept.")
    if any(0xD800 <= ord(char) <= 0xDFFF or char == "\0" for char in text):
        raise BadInput(f"The {what} {quoted(text)} holds bytes that are not text. Type it again.")
    return text


def check_initials(text: str) -> str:
    """Return initials without spaces around them. Raises BadInput."""
    initials = text.strip()
    if not re.fullmatch(r"[^\W_][^\W_.-]{0,7}", initials):
        raise BadInput(f"{quoted(text)} are not initials. Write one to eight letters or digits, such as AB.")
    return initials


def check_key(text: str, taken: Callable[[str], bool]) -> str:
    """Return a key as typed. Raises BadInput for other than small letters, digits and hyphens, AlreadyExists."""
    if len(text) > LONGEST_KEY or not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", text):
        raise BadInput(f"{quoted(text)} is not a key. Write small letters, digits and hyphens, such as blotter-thick.")
    if taken(text):
        raise AlreadyExists(f"The key {text} is taken. Choose another.")
    return text


def free_key(name: str, taken: Callable[[str], bool], otherwise: str) -> str:
    """Make a key from a name: `Calcium hydroxide` gives `calcium-hydroxide`, or `calcium-hydroxide-2` where taken.

    `otherwise` serves for names without any letter that ASCII knows.
    """
    words = re.findall(r"[a-z0-9]+", fold(name).replace("ß", "ss"))
    key = stem = "-".join(words)[:LONGEST_KEY].rstrip("-") or otherwise
    number = 1
    while taken(key):
        number += 1
        key = f"{stem}-{number}"
    return key
