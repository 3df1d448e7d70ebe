"""Where the stockroom file, the settings and the program's notes lie on this machine."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

_XDG = {
    "data": ("XDG_DATA_HOME", ".local/share"),
    "config": ("XDG_CONFIG_HOME", ".config"),
    "state": ("XDG_STATE_HOME", ".local/state"),
}
"""XDG Base Directory Specification 0.8: each variable, and the folder at home where it names no absolute path."""


def database_path(given: str | None, kept: str | None) -> Path:
    """Return the stockroom file to use: named on the command line, in STOCKROOM_DB, in the settings, or the usual."""
    named = given or os.environ.get("STOCKROOM_DB") or kept
    if named:
        return Path(named).expanduser()
    return _folder("data") / "stockroom.db"


def settings_path() -> Path:
    """Return the settings file; STOCKROOM_SETTINGS names another one."""
    named = os.environ.get("STOCKROOM_SETTINGS")
    if named:
        return Path(named).expanduser()
    return _folder("config") / "settings.toml"


def state_folder() -> Path:
    """Return the folder for what the program notes for itself: crash reports, the day of the last check."""
    return _folder("state")


def copies_folder(database: Path) -> Path:
    """Return the folder for the copies that are taken of a stockroom without asking, one for each stockroom.

    STOCKROOM_COPIES names the folder that holds them, else the settings' `copies` does; best on another disk.
    """
    from zlib import crc32

    from stockroom.settings import read_settings

    named = os.environ.get("STOCKROOM_COPIES") or read_settings(settings_path()).copies
    folder = Path(named).expanduser() if named else _folder("data") / "copies"
    real = database.expanduser().resolve()
    return folder / f"{real.stem}-{crc32(str(real).encode('utf-8', 'surrogateescape')):08x}"


def _folder(kind: str) -> Path:
    """Return the folder of a kind; on Linux without platformdirs, whose loading every command would wait for."""
    if sys.platform == "linux":
        variable, usual = _XDG[kind]
        named = os.environ.get(variable, "")
        return (Path(named) if os.path.isabs(named) else Path.home() / usual) / "stockroom"
    import platformdirs

    folders: dict[str, Callable[..., Path]] = {
        "data": platformdirs.user_data_path,
        "config": platformdirs.user_config_path,
        "state": platformdirs.user_state_path,
    }
    return folders[kind]("stockroom", appauthor=False)
