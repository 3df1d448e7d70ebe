"""Writing a report to a file, as its suffix says."""

from __future__ import annotations

from pathlib import Path

from stockroom.errors import AlreadyExists, BadInput
from stockroom.labels.paper import Paper
from stockroom.labels.paper_words import write_markdown, write_text
from stockroom.labels.write import write_whole

SUFFIXES = (".pdf", ".md", ".txt")


def write_paper(paper: Paper, path: Path, *, replace: bool = False) -> Path:
    """Write a report as .pdf, .md or .txt, whole or not at all.

    Raises BadInput for another suffix or a folder that is not there, AlreadyExists where there is such a file and it
    is not to be replaced, Refused where the place cannot be written.
    """
    match path.suffix.lower():
        case ".pdf":
            from stockroom.labels.paper_pdf import draw_paper as draw
        case ".md":

            def draw(paper: Paper) -> bytes:
                return write_markdown(paper).encode()
        case ".txt":

            def draw(paper: Paper) -> bytes:
                return write_text(paper).encode()
        case _:
            raise BadInput(f"{path.name}: it is written as {', '.join(SUFFIXES)}; end the name with one of them.")
    if path.is_dir() or not path.parent.is_dir():
        raise BadInput(f"{path} cannot be written: name a file in a folder that is there.")
    if path.exists() and not replace:
        raise AlreadyExists(f"{path} exists already and is not written over. Choose another name, or say --replace.")
    write_whole(path, draw(paper))
    return path
