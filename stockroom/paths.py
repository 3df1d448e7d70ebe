"""Where the stockroom file, the settings and the program's notes lie on this machine."""

from __future__ import annotations

import os
from pathlib import Path


def database_path(given: str | None, kept: str | None) -> Path:
    """Return the stockroom file to use: named on the command line, in STOCKROOM_DB, in the settings, or the usual."""
    named = given or os.environ.get("STOCKROOM_DB") or kept
    if named:
        return Path(named).expanduser()
    from platformdirs import user_data_path

    return user_data_path("stockroom", appauthor=False) / "stockroom.db"


def settings_path() -> Path:
    """Return the settings file; STOCKROOM_SETTINGS names another one."""
    named = os.environ.get("STOCKROOM_SETTINGS")
    if named:
        return Path(named).expanduser()
    from platformdirs import user_config_path

    return user_config_path("stockroom", appauthor=False) / "settings.toml"


def state_folder() -> Path:
    """Return the folder for what the program notes for itself: crash reports, the day of the last check."""
    from platformdirs import user_state_path

    return user_state_path("stockroom", appauthor=False)


def copies_folder(database: Path) -> Path:
    """Return the folder for the copies that are taken of a stockroom without asking, one for each stockroom.

    STOCKROOM_COPIES names the folder that holds them, else the settings' `copies` does; best on another disk.
    """
    from zlib import crc32

    from stockroom.settings import read_settings

    named = os.environ.get("STOCKROOM_COPIES") or read_settings(settings_path()).copies
    if named:
        folder = Path(named).expanduser()
    else:
        from platformdirs import user_data_path

        folder = user_data_path("stockroom", appauthor=False) / "copies"
    real = database.expanduser().resolve()
    return folder / f"{real.stem}-{crc32(str(real).encode('utf-8', 'surrogateescape')):08x}"
