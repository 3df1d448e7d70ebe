"""Papers as files: PDF, Markdown, plain text, and CSV where a paper has records for a spreadsheet."""

from __future__ import annotations

from pathlib import Path

from stockroom.domain.papers import Paper
from stockroom.errors import BadInput
from stockroom.files import write_file


def write_paper(paper: Paper, path: Path, *, replace: bool = False) -> Path:
    """Write a paper as its file's suffix says, whole or not at all.

    Raises BadInput for another suffix or a folder that is not there, AlreadyExists where there is such a file and it
    is not to be replaced, Refused where the place cannot be written.
    """
    suffixes = (".pdf", ".md", ".txt", *([".csv"] if paper.records else []))
    suffix = path.suffix.lower()
    if suffix not in suffixes:
        raise BadInput(f"{path.name}: it is written as {', '.join(suffixes)}; end the name with one of them.")
    return write_file(path, _drawn(paper, suffix), replace=replace)


def _drawn(paper: Paper, suffix: str) -> bytes:
    from stockroom.labels import paper_words

    match suffix:
        case ".pdf":
            from stockroom.labels.paper_pdf import draw_paper

            return draw_paper(paper)
        case ".csv":
            return _csv(paper)
        case ".md":
            return paper_words.write_markdown(paper).encode()
    return paper_words.write_text(paper).encode()


def _csv(paper: Paper) -> bytes:
    from stockroom.exchange.csv_files import write_csv
    from stockroom.exchange.sheet import Column, Table
    from stockroom.labels.plain_text import make_visible

    names, *rows = paper.records
    return write_csv(
        Table(
            name=paper.title,
            columns=tuple(Column(name=name) for name in names),
            rows=tuple(tuple(make_visible(cell) for cell in row) for row in rows),
        )
    )
