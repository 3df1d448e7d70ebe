"""Whatever is typed after any command: a result or a clear message, promptly, and refusing changes nothing."""

from __future__ import annotations

import json
from collections.abc import Iterator
from hashlib import sha256
from importlib import import_module

import click
import pytest
from conftest import CommandLine
from fuzz.conftest import promptly
from fuzz.hostile import value
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.cli.main import COMMANDS
from stockroom.store.open import open_store

NOT_HERE = {"screens", "serve", "demo", "init", "restore", "printer"}
"""They open a screen or go on until they are stopped, write files of their own, or ask a printer."""
CONTROL = {chr(code) for code in [*range(0x20), *range(0x7F, 0xA0)]} - {"\n", "\t"}
"""What a terminal would obey."""
NEVER = {"--help", "--print", "--version"}


def leaves(name: str, command: click.Command) -> Iterator[tuple[str, click.Command]]:
    """Give every command that does something, with the words that call it."""
    if isinstance(command, click.Group):
        for word, inner in sorted(command.commands.items()):
            yield from leaves(f"{name} {word}", inner)
    else:
        yield name, command


ALL = dict(
    leaf
    for name, where in COMMANDS.items()
    if name not in NOT_HERE
    for module, function in [where.split(":")]
    for leaf in leaves(name, getattr(import_module(f"stockroom.cli.{module}"), function))
)


@pytest.fixture(scope="session")
def known(demo_file: object) -> tuple[str, ...]:
    """Codes that the demo has given out, of lots in every state, jobs, bookings, orders and actions."""
    with open_store(demo_file) as store:  # type: ignore[arg-type]
        tables = ("lot", "job", "booking", "purchase_order", "action")
        rows = [store.rows(f"SELECT code FROM {table} ORDER BY code DESC LIMIT 25") for table in tables]
    return tuple(row["code"] for found in rows for row in found)


def arguments(draw: st.DrawFn, command: click.Command, known: tuple[str, ...]) -> list[str]:
    """Draw what is typed after a command: its arguments and some of its options, each with something."""
    words: list[str] = []
    for parameter in command.params:
        many = parameter.nargs if parameter.nargs > 0 else draw(st.integers(0, 2))
        if isinstance(parameter, click.Argument):
            words += [typed(draw, parameter, known) for _ in range(many)]
        elif isinstance(parameter, click.Option) and not NEVER & {*parameter.opts}:
            if not parameter.required and draw(st.integers(0, 3)):
                continue
            words.append(parameter.opts[0])
            words += [] if parameter.is_flag else [typed(draw, parameter, known) for _ in range(many)]
    return words


def typed(draw: st.DrawFn, parameter: click.Parameter, known: tuple[str, ...]) -> str:
    """Draw what is typed for one parameter; a file is named inside the folder of the test."""
    if isinstance(parameter.type, click.Choice) and draw(st.integers(0, 4)):
        return str(draw(st.sampled_from(list(parameter.type.choices))))
    if isinstance(parameter.type, click.Path) or "FILE" in (parameter.metavar or ""):
        return draw(st.sampled_from(["x", "x.pdf", "x.csv", "../x.png", "é.svg", "", ".", "x" * 300, "a\nb.txt"]))
    return draw(value(known))


@pytest.mark.parametrize("name", ALL)
def test_any_words_after_a_command_are_answered(name: str, studio: CommandLine, known: tuple[str, ...]) -> None:
    @settings(settings.get_profile("fuzz"))
    @given(st.data(), st.booleans())
    def tried(data: st.DataObject, as_json: bool) -> None:
        words = [*name.split(), *arguments(data.draw, ALL[name], known)]  # type: ignore[arg-type]
        as_json = as_json or "--json" in words
        before = sha256(studio.path.read_bytes()).digest()
        options = ["--by", "AM", "--on", "2026-11-25T14:10", *(["--json"] if as_json else [])]
        ran = promptly(lambda: studio(*options, *words))
        assert ran.code in (0, 1, 2), (words, ran.err)
        assert ran.code == 0 or ran.err.strip(), words
        if ran.code or "--dry-run" in words:
            assert sha256(studio.path.read_bytes()).digest() == before, (words, ran)
        if as_json and ran.out:
            json.loads(ran.out)
        for text in (ran.out, ran.err):
            assert not CONTROL & {*text}, (words, text)

    untouched = studio.path.read_bytes()
    tried()
    if studio.path.read_bytes() != untouched:
        assert studio.json("verify")["problems"] == []
