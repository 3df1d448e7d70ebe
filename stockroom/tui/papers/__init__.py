"""What can be had on paper, each described as fields and how the paper is drawn up from them."""

from __future__ import annotations

from importlib import import_module

from stockroom.tui.papers.asked import AskedPaper

PAPERS = {
    "wall": "coming:WALL",
    "held": "shelves:HELD",
    "value": "shelves:VALUE",
    "register": "shelves:REGISTER",
    "losses": "books:LOSSES",
    "year-end": "books:YEAR_END",
    "recall": "lots:RECALL",
    "statement": "jobs:STATEMENT",
    "final": "jobs:FINAL",
}
"""Each paper and where it is: a module of this package and the name in it."""


def find_paper(name: str) -> AskedPaper:
    """Return a paper, loaded when it is first asked for."""
    module, constant = PAPERS[name].split(":")
    paper: AskedPaper = getattr(import_module(f"stockroom.tui.papers.{module}"), constant)
    return paper
