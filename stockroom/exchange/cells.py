"""One row of a file, read cell by cell: what is wrong with a cell is noted, and the others are read all the same."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from stockroom.errors import BadInput
from stockroom.exchange.sheet import Problem, SheetRow
from stockroom.science.numerals import quoted

Value = TypeVar("Value")

_ANSWERS = {"yes": True, "y": True, "true": True, "1": True, "no": False, "n": False, "false": False, "0": False}


class Cells:
    """The cells of one row."""

    def __init__(self, row: SheetRow, problems: list[Problem]) -> None:
        self.row = row
        self._cells: Mapping[str, str] = row.cells
        self._problems = problems
        self._had = len(problems)

    @property
    def fine(self) -> bool:
        """Whether nothing is wrong with this row so far."""
        return len(self._problems) == self._had

    def refuse(self, column: str | None, words: str) -> None:
        self._problems.append(Problem(row=self.row.number, column=column, words=words))

    def text(self, column: str) -> str | None:
        """Return what a cell says, without the spaces around it; None where it is empty."""
        cell = self._cells.get(column)
        return None if cell is None else cell.strip()

    def exact(self, column: str) -> str | None:
        """Return what a cell says, to the last space."""
        return self._cells.get(column)

    def read(self, column: str, reader: Callable[[str], Value]) -> Value | None:
        """Read a cell through a reader that raises BadInput; its message is the problem."""
        text = self.text(column)
        if text is None:
            return None
        try:
            return reader(text)
        except BadInput as error:
            self.refuse(column, error.message)
            return None

    def read_amount(self, reader: Callable[[str], Value]) -> Value | None:
        """Read the cell `amount`, whose unit may stand in the cell `unit` beside it."""
        unit = self.text("unit")

        def joined(amount: str) -> Value:
            if unit is None:
                return reader(amount)
            if not amount[-1].isdigit():
                raise BadInput(f"{quoted(amount)} and the unit {quoted(unit)}: write the unit once.")
            return reader(f"{amount} {unit}")

        return self.read("amount", joined)

    def choice(self, column: str, among: Sequence[str], usual: str) -> str:
        """Read a cell that says one of some words."""
        text = self.text(column)
        if text is None:
            return usual
        if text.lower() not in among:
            self.refuse(column, f"{quoted(text)} is none of {', '.join(among)}.")
            return usual
        return text.lower()

    def flag(self, column: str) -> bool | None:
        """Read yes or no."""
        text = self.text(column)
        if text is None:
            return None
        if text.lower() not in _ANSWERS:
            self.refuse(column, f"{quoted(text)} is neither yes nor no.")
        return _ANSWERS.get(text.lower())

    def lines(self, column: str) -> list[str] | None:
        """Read a list: an item a line, or as JSON where an item has several lines."""
        text = self._cells.get(column)
        if text is None:
            return None
        if text.startswith("["):
            import json

            try:
                items = json.loads(text)
            except (ValueError, RecursionError):
                items = None
            if isinstance(items, list) and all(isinstance(item, str) for item in items):
                return items
        return [line for line in text.split("\n") if line.strip()]

    def differs(self, here: str, kept: Mapping[str, str | None], said: Mapping[str, str | None]) -> bool:
        """Note each cell that says other than what is kept of the same thing; return whether there is any.

        `said` is what the cells mean, written as `kept` is. An empty cell says nothing, so it differs from nothing.
        """
        apart = [name for name in self._cells if name in kept and said.get(name) != kept[name]]
        for name in apart:
            holds = quoted(kept[name] or "") if kept[name] else "nothing"
            self.refuse(name, f"{here} is here already and says {holds} here. A file adds and never changes.")
        return bool(apart)


def written_lines(items: Sequence[str]) -> str | None:
    """Write a list so that `Cells.lines` reads the same."""
    if not items:
        return None
    text = "\n".join(items)
    if text.startswith("[") or any("\n" in item or "\r" in item or not item.strip() for item in items):
        import json

        return json.dumps(list(items), ensure_ascii=False)
    return text
