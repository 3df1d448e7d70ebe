"""The README and the top level keep what they promise."""

from __future__ import annotations

import re
import shlex
import subprocess
from importlib import import_module
from pathlib import Path

import click
import pytest
from conftest import CommandLine

from stockroom.cli.main import COMMANDS, main

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text("utf-8")


def test_the_top_level_holds_exactly_what_it_should() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode or not listed.stdout:
        pytest.skip("not a checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines() if not line.startswith(".")}
    assert top == {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "stockroom", "tests", "demo_db"}


def test_the_readme_gives_one_command_for_the_demo_and_one_for_the_tests() -> None:
    commands = re.findall(r"<!-- (\w+) -->\n```sh\n(.+)\n```", README)
    assert [name for name, _ in commands] == ["demo", "tests"]
    assert "stockroom demo" in commands[0][1]
    assert "pytest" in commands[1][1]


def test_every_command_in_the_readme_is_one() -> None:
    named = set(re.findall(r"(?m)(?:^\$ |`)stockroom (?:--\w+ \w+ )?([a-z][a-z-]+)", README))
    assert len(named) > 8
    assert named <= set(COMMANDS), named - set(COMMANDS)


def test_the_examples_in_the_readme_answer_as_printed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A line of `…` stands for any lines."""
    monkeypatch.chdir(tmp_path)
    line = CommandLine(tmp_path / "own.db")
    blocks = re.findall(r"<!-- on (\S+) -->\n```console\n(.+?)```", README, re.DOTALL)
    assert blocks
    for moment, block in blocks:
        for command, printed in re.findall(r"\$ stockroom (.+)\n((?:[^$].*\n)*)", block):
            ran = line("--on", moment, *shlex.split(command))
            pattern = "".join(r"(?:.*\n)*?" if one == "…" else re.escape(one) + r"\n" for one in printed.splitlines())
            assert ran.code == 0, ran.err
            assert re.fullmatch(pattern, ran.out), f"{command}\n{ran.out}"


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(name: str) -> None:
    command = main.get_command(click.Context(main), name)
    assert command is not None
    assert command.help, f"{name} has no help"
    for option in command.params:
        if isinstance(option, click.Option) and not option.hidden:
            assert option.help, f"{name} {option.opts[0]} has no help"


def test_no_module_is_longer_than_three_hundred_lines() -> None:
    long = {
        str(path.relative_to(ROOT)): lines
        for folder in ("stockroom", "demo_db")
        for path in (ROOT / folder).rglob("*.py")
        if (lines := len(path.read_text("utf-8").splitlines())) > 300
    }
    assert not long


def test_every_module_can_be_imported() -> None:
    for path in (ROOT / "stockroom").rglob("*.py"):
        import_module(".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"))
