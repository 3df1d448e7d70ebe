"""Messages of the store and of the actions name commands; on screen they name the form or the screen that does it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import stockroom
from stockroom.cli.main import COMMANDS
from stockroom.tui.commands_named import _DONE_IN
from stockroom.tui.forms import FORMS
from stockroom.tui.words import on_screen
from tests.tui.conftest import Open

ROOT = Path(stockroom.__file__).parent
_NEVER_ON_SCREEN = ("closed drop", "closed list", "backup --list", "init", "demo", "label-stock list")
"""Named only where a command line was used: closed days, copies and the first start have no form that says so."""


def _texts(source: Path) -> Iterator[str]:
    """Give every text in a source that can be shown, with a code where something is put in."""
    tree = ast.parse(source.read_text())
    within = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
    documents = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield "".join(str(part.value) if isinstance(part, ast.Constant) else "P0015" for part in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in within | documents:
            yield node.value


def _messages() -> list[str]:
    named = re.compile(rf"\bstockroom ({'|'.join(COMMANDS)})\b(?! (of|window|program)\b)")
    sources = [
        source
        for source in sorted(ROOT.rglob("*.py"))
        if source.relative_to(ROOT).parts[0] not in ("cli", "tui", "settings.py")
    ]
    return [
        text
        for source in sources
        for text in _texts(source)
        if named.search(text) and not any(f"stockroom {command}" in text for command in _NEVER_ON_SCREEN)
    ]


MESSAGES = _messages()


def test_the_messages_that_name_commands_are_found() -> None:
    assert len(MESSAGES) > 40


@pytest.mark.parametrize("message", MESSAGES)
def test_no_command_is_named_on_screen(message: str) -> None:
    told = on_screen(message)
    assert not re.search(r"\bstockroom [a-z-]+ ?[A-Z'\"-]", told) and told != message, told
    assert re.search(r"F\d|Ctrl\+F|page", told), told


def test_every_form_that_a_message_leads_to_is_there() -> None:
    assert set(_DONE_IN.values()) <= set(FORMS)


@pytest.mark.parametrize(
    ("message", "told"),
    [
        (
            "'drawer' is not a place here. There are: shelf. Add one with 'stockroom place new NAME'.",
            "'drawer' is not a place here. There are: shelf. Add one with 'Name a place' (Ctrl+F).",
        ),
        ("P0015 is a draft. Place it first: stockroom order place P0015.", "'Note that an order was placed' (Ctrl+F)."),
        ("To change it: stockroom order place P0015 --undo.", "To change it: B on its page (F9)."),
        ("Keep it first: stockroom supplier offer 'Paper, by post' blotter PACK PRICE.", "supplier asks' (Ctrl+F)."),
        (
            "Weigh one: stockroom count L001W --tare '310 g'.",
            "Weigh one: 'Keep what the empty container weighs' (Ctrl+F).",
        ),
        (
            "2 uses needed; cut one: stockroom cut CODE SIZE --uses N (2 held)",
            "'Cut pieces to be used again' (Ctrl+F) (2 held)",
        ),
        ("make it with 'stockroom make gel', and take some", "make it with 'Make up a solution' (F4), and take some"),
        (
            "Nothing was seen at shelf yet. Say --seen CODE=QTY for each lot that is there.",
            "Scan each lot that is there, or type its code and how much.",
        ),
        ("Another stockroom window is writing.", "Another stockroom window is writing."),
    ],
)
def test_a_message_names_the_form_instead(message: str, told: str) -> None:
    assert on_screen(message).endswith(told)


async def test_the_help_tells_of_scanning(screens: Open) -> None:
    async with screens(size=(100, 60)) as shown:
        await shown.press("question_mark")
        await shown.sees("A label is scanned, or its code typed", "A bench card is scanned")
        await shown.press("L")
        assert "Which code?" not in shown.text
        await shown.press("escape")
        await shown.press("L")
        await shown.sees("Which code?")
        await shown.press("escape")
