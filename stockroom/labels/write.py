"""Writing labels to a file, whole or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from stockroom.errors import BadInput
from stockroom.files import refuse_taken, write_whole
from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.layout import DEFAULT_SIZE_MM, Layout
from stockroom.labels.placing import Size
from stockroom.labels.sheet import AS_DRAWN, Grid, PrinterScale


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """How labels are drawn: their size, or the sheets they stand on, and what corrects a printer that is off."""

    size_mm: Size = DEFAULT_SIZE_MM
    grid: Grid | None = None
    """Sheets of labels, for PDF; the label's size is the grid's."""
    first: int = 1
    """The first free position of the first sheet."""
    copies: int = 1
    dpi: int = 300
    """For PNG, and for the symbol of an SVG."""
    scale: PrinterScale = AS_DRAWN
    """For PDF alone."""

    @property
    def page_mm(self) -> Size:
        """The size of a page of the PDF."""
        return (self.grid.page_width_mm, self.grid.page_height_mm) if self.grid else self.size_mm


AS_USUAL = Form()


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """The files written, and what of each label does not stand on it, as `L001W: note`."""

    files: tuple[Path, ...]
    dropped: tuple[str, ...]
    labels: tuple[Layout, ...] = ()


def write_label(contents: Sequence[LabelContent], target: Path, form: Form = AS_USUAL) -> Written:
    """Write labels as the target's suffix says: .pdf in pages or sheets, .png and .svg a file each, numbered from 1.

    A file of that name is replaced; each one appears whole or not at all. Raises BadInput for a suffix or folder
    that cannot be or a position the sheet has not, Refused where the place cannot be written or a label is too
    small, and what compose.compose raises.
    """
    suffix = target.suffix.lower()
    if suffix not in _FORMS:
        raise BadInput(f"{target.name}: labels are written as .pdf, .png or .svg; end the name with one of them")
    refuse_taken(target, replace=True)
    if not contents:
        raise BadInput("no label to write: name at least one code")
    size_mm = (form.grid.label_width_mm, form.grid.label_height_mm) if form.grid else form.size_mm
    labels = tuple(compose(content, size_mm) for content in contents)
    files = _FORMS[suffix](labels, target, form)
    for path, drawn in files:
        write_whole(path, drawn)
    return Written(
        files=tuple(path for path, _ in files),
        dropped=tuple(f"{label.symbol.code}: {what}" for label in labels for what in label.dropped),
        labels=labels,
    )


def _as_pdf(labels: Sequence[Layout], target: Path, form: Form) -> list[tuple[Path, bytes]]:
    from stockroom.labels.pdf import draw_pdf

    repeated = [label for label in labels for _ in range(form.copies)]
    return [(target, draw_pdf(repeated, form.grid, first=form.first, scale=form.scale))]


def _as_png(labels: Sequence[Layout], target: Path, form: Form) -> list[tuple[Path, bytes]]:
    from stockroom.labels.png import draw_png

    return [(path, draw_png(label, form.dpi)) for path, label in _number(labels, target)]


def _as_svg(labels: Sequence[Layout], target: Path, form: Form) -> list[tuple[Path, bytes]]:
    from stockroom.labels.svg import draw_svg

    return [(path, draw_svg(label, form.dpi)) for path, label in _number(labels, target)]


_FORMS = {".pdf": _as_pdf, ".png": _as_png, ".svg": _as_svg}


def _number(labels: Sequence[Layout], target: Path) -> list[tuple[Path, Layout]]:
    if len(labels) == 1:
        return [(target, labels[0])]
    digits = len(str(len(labels)))
    return [
        (target.with_name(f"{target.stem}-{number:0{digits}}{target.suffix}"), label)
        for number, label in enumerate(labels, start=1)
    ]
