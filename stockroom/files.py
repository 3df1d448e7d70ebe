"""Files written for people: whole or not at all, and never over another unless that was asked for."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from stockroom.errors import AlreadyExists, BadInput, Refused


def write_file(path: Path, content: bytes, *, replace: bool = False) -> Path:
    """Write a file. Raises what `refuse_taken` and `write_whole` raise."""
    refuse_taken(path, replace=replace)
    write_whole(path, content)
    return path


def refuse_taken(path: Path, *, replace: bool) -> None:
    """Raise AlreadyExists for a file that is there, BadInput for a folder, or where there is no folder for it."""
    if os.path.isdir(path):  # unlike a path's own methods, these take any name that a person may type
        raise BadInput(f"{path} is a folder: add the name of a file to it.")
    if not os.path.isdir(path.parent):
        raise BadInput(f"There is no folder {path.parent}: make it first, or choose another.")
    if os.path.exists(path) and not replace:
        raise AlreadyExists(f"{path} exists already and is not written over. Choose another name, or say --replace.")


def write_whole(path: Path, content: bytes) -> None:
    """Write a file whole or not at all, in place of one of that name. Raises Refused."""
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with beside.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, path)
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        with suppress(OSError, ValueError):
            beside.unlink()
        why = getattr(error, "strerror", None) or str(error)
        raise Refused(f"{path} cannot be written ({why.lower()}): choose another place") from error
