"""What a command prints: one JSON document, or plain lines; never both on the same stream."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from decimal import Decimal
    from fractions import Fraction

    from stockroom.domain.lots import Lot

Command = TypeVar("Command", bound=Callable[..., Any])
Thing = TypeVar("Thing")

_ESCAPED = {code: f"\\u{code:04x}" for code in range(0x7F, 0xA0)}
"""The control characters that JSON need not escape and some terminals obey, as JSON escapes."""


class Output:
    """Where a command's words and its document go."""

    def __init__(self) -> None:
        self.json = False

    def document(self, values: dict[str, Any]) -> None:
        """Print the one JSON document of this command, if JSON was asked for."""
        if self.json:
            import json

            text = json.dumps(values, ensure_ascii=False, indent=2)
            sys.stdout.write(text.translate(_ESCAPED) + "\n")

    def say(self, text: str = "") -> None:
        """Print a line for a person; with JSON nothing but the document reaches stdout."""
        if not self.json:
            click.echo(plain(text))

    def listing(
        self,
        name: str,
        found: Sequence[Thing],
        document: Callable[[Thing], dict[str, Any]],
        words: Callable[[Thing], str],
        nothing: str,
    ) -> None:
        """Answer with a list: a document under `name` and a line for each, or what to say where there is none."""
        self.document({name: [document(each) for each in found]})
        for each in found:
            self.say(words(each))
        if not found:
            self.say(nothing)

    def warn(self, text: str) -> None:
        """Print a line on stderr."""
        click.echo(plain(text), err=True)


def plain(text: str) -> str:
    """Make typed text safe for a terminal: control characters are shown (`[U+001B]`), not sent, but line feed and tab.

    So are those that turn the direction of writing: what follows them would be read for something else.
    """
    if text.isprintable():
        return text
    return "".join(char if char in "\n\t" or _is_printable(char) else f"[U+{ord(char):04X}]" for char in text)


def _is_printable(char: str) -> bool:
    code = ord(char)
    turns = 0x202A <= code <= 0x202E or 0x2066 <= code <= 0x2069
    return not (code < 0x20 or 0x7F <= code < 0xA0 or 0xD800 <= code <= 0xDFFF or turns)


def json_option(command: Command) -> Command:
    """Add --json after the command as well as before it."""

    def ask(context: click.Context, _: click.Parameter, value: bool) -> None:
        if value:
            context.obj.json = True

    return click.option(
        "--json", is_flag=True, expose_value=False, callback=ask, is_eager=True, help="Print one JSON document."
    )(command)


def json_number(value: Fraction | Decimal) -> int | float:
    """Return a number as JSON has it, whole where it is."""
    return int(value) if value == int(value) else float(value)


def lot_names(lot: Lot) -> dict[str, str]:
    """Return by what programs know a lot: its code, and its material's key and name."""
    return {"code": lot.code, "material": lot.material.key, "name": lot.material.name}
