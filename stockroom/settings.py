"""A person's own settings on this machine, read from one TOML file. The stockroom's settings are in its file."""

from __future__ import annotations

from dataclasses import dataclass, fields
from pathlib import Path

from stockroom.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a person need not type each time. Every field may be left out of the file."""

    by: str | None = None
    """Initials to book under where --by is not given."""
    database: str | None = None
    """The stockroom file to open where neither --db nor STOCKROOM_DB names one."""
    copies: str | None = None
    """The folder for the copies that are taken each day and before a change of form, best on another disk."""
    label_size: str = "74 x 52 mm"
    """Size of a label."""
    label_stock: str | None = None
    """The sheet or roll of labels that is in the printer, as 'stockroom label-stock list' names it."""
    label_printer: str | None = None
    """The printer for labels, as the system names it; what was measured of it is put right."""
    label_symbol: str = "code"
    """What the symbol holds: `code`, or `code and words` for readers that show what they read."""
    label_dpi: int = 300
    """Dots per inch of the label printer, for PNG labels."""


def read_settings(path: Path) -> Settings:
    """Read the settings; a missing file means all defaults. Raises BadInput naming file and line at fault."""
    try:
        text = path.read_text("utf-8")
        import tomllib

        values = tomllib.loads(text)
    except FileNotFoundError:
        return Settings()
    except (OSError, ValueError) as error:  # ValueError: what is not UTF-8, or not TOML
        raise BadInput(f"The settings {path} cannot be read: {error}.") from error
    known = {field.name: field.type for field in fields(Settings)}
    for name, value in values.items():
        if name not in known:
            raise BadInput(f"The settings {path} name '{name}', which is none of: {', '.join(known)}.")
        wanted = int if known[name] == "int" else str
        if type(value) is not wanted:
            raise BadInput(
                f"In the settings {path}, '{name}' should be {'a whole number' if wanted is int else 'text'}."
            )
    return Settings(**values)
