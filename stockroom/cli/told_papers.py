"""Sheets, and a quote against what was used, as commands print them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stockroom.cli.session import Session

if TYPE_CHECKING:
    from stockroom.actions.quote_comparing import Against
    from stockroom.domain.papers import Paper


def tell_paper(session: Session, paper: Paper, out: Path | None) -> None:
    """Write a sheet to a file, or to the terminal where none is named."""
    from stockroom.actions.papers import paper_text, write_paper

    if out is None:
        text = paper_text(paper)
        session.document({"files": [], "text": text})
        session.say(text.rstrip("\n"))
        return
    path = write_paper(paper, out)
    session.document({"files": [str(path)]})
    session.say(f"Written: {path}")


def against_document(lines: Sequence[Against], currency: str) -> list[dict[str, Any]]:
    """Return the lines of a comparison as documents hold them; money as text."""
    from stockroom.science.money import money_text

    return [
        {
            "treatment": line.treatment,
            "material": line.material.key if line.material else None,
            "quoted": None if line.quoted is None else money_text(line.quoted.best, currency),
            "used": None if line.used is None else money_text(line.used.value, currency),
            "difference": money_text(line.difference, currency),
            "causes": [{"cause": one.kind, "value": money_text(one.value, currency)} for one in line.causes],
            "why": line.why,
        }
        for line in lines
    ]
