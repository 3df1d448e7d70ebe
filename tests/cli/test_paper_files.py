"""Every paper on the command line: it replaces a file only where one was named."""

from __future__ import annotations

import pytest
from conftest import CommandLine

PAPERS = (
    "held",
    "wall",
    "value",
    "losses",
    "register",
    "year-end 2025",
    "cost K0001",
    "trace L0001",
    "statement K0001",
)


@pytest.mark.parametrize("paper", PAPERS)
def test_replacing_without_a_file_is_refused_in_words(stockroom: CommandLine, paper: str) -> None:
    refused = stockroom(*paper.split(), "--replace")
    assert refused.code == 2
    assert "--replace goes with --out: say which file." in refused.err
    assert not refused.out
