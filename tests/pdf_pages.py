"""Reading back what stands on a PDF, by a reader that is not ours."""

from __future__ import annotations

from pathlib import Path

import pypdfium2


def pages_of(pdf: Path | bytes) -> list[str]:
    """Return the text of each page."""
    with pypdfium2.PdfDocument(pdf if isinstance(pdf, bytes) else pdf.read_bytes()) as document:
        return [page.get_textpage().get_text_range() for page in document]


def words_on(pdf: Path | bytes) -> str:
    """Return the words of all pages, one space between them."""
    return " ".join(" ".join(pages_of(pdf)).split())
