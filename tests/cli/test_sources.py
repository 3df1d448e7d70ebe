"""`sources`: where a figure comes from."""

from __future__ import annotations

import json

import pytest

from stockroom.cli.output import Output
from stockroom.cli.sources import sources
from stockroom.errors import NotFound


def ask(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    sources.main(list(words), obj=Output(), standalone_mode=False)
    return capsys.readouterr().out


def test_a_person_reads_figure_source_and_how_far_it_was_verified(capsys: pytest.CaptureFixture[str]) -> None:
    """1.40 g/L: United States Pharmacopeia 35 (read)."""
    out = ask(capsys, "least strength", "USP")
    assert "1.40 g/L" in out and "United States Pharmacopeia 35" in out and "(read)" in out


def test_programs_get_every_row_with_its_table(capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(ask(capsys, "greenspan", "--json"))["rows"]
    assert len(found) == 36
    assert {"table", "of", "what", "value", "unit", "conditions", "source", "verified"} <= set(found[0])


def test_a_word_that_stands_nowhere_is_answered_with_the_tables(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(NotFound, match="salt humidity"):
        ask(capsys, "xyzzy")
