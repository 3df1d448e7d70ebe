"""Where labels stand on a sheet of them, and by how much a printer is off. In mm from the upper left corner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stockroom.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A sheet of labels of one size in rows and columns; position 1 is the upper left, 2 the one right of it."""

    page_width_mm: float
    page_height_mm: float
    label_width_mm: float
    label_height_mm: float
    columns: int = 1
    rows: int = 1
    left_mm: float = 0.0
    """From the sheet's edge to the first label."""
    top_mm: float = 0.0
    across_mm: float = 0.0
    """The gap between labels side by side."""
    down_mm: float = 0.0

    @property
    def labels(self) -> int:
        """How many labels a sheet has."""
        return self.columns * self.rows

    @property
    def is_single(self) -> bool:
        """Whether a sheet is one label and no more, as on a roll."""
        return self.labels == 1 and (self.page_width_mm, self.page_height_mm) == (
            self.label_width_mm,
            self.label_height_mm,
        )

    def place(self, labels: int, *, first: int = 1) -> Iterator[tuple[int, float, float]]:
        """Give each label its sheet, counted from 0, and its corner. Raises BadInput for a position there is not."""
        if not 1 <= first <= self.labels:
            raise BadInput(f"there is no position {first}: a sheet has {self.labels}, counted along the rows")
        for number in range(first - 1, first - 1 + labels):
            sheet, position = divmod(number, self.labels)
            row, column = divmod(position, self.columns)
            yield (
                sheet,
                self.left_mm + column * (self.label_width_mm + self.across_mm),
                self.top_mm + row * (self.label_height_mm + self.down_mm),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterScale:
    """How to draw so that a printer that is off prints true: factors, and a move to the right and down in mm."""

    across: float = 1.0
    down: float = 1.0
    right_mm: float = 0.0
    down_mm: float = 0.0


AS_DRAWN = PrinterScale()
