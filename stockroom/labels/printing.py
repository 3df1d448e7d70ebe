"""Handing a file to the system's printer queue with `lp`, where there is one."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

from stockroom.errors import Refused
from stockroom.labels.placing import Size
from stockroom.labels.plain_text import make_visible

_SECONDS = 60

WHICH_PRINT_SURVIVES = (
    "Toner (laser) and thermal transfer with a resin ribbon survive water and alcohol.",
    "Direct thermal print fades with light, heat and solvents; plain ink-jet ink runs.",
    "Film holds in the wet where paper does not. Pencil in the write-in boxes survives water and alcohol.",
    "Common practice, no source: try a label under the tap and under alcohol before you trust it.",
)


def can_print() -> bool:
    """Say whether the system has `lp`."""
    return shutil.which("lp") is not None


def print_file(path: Path, printer: str | None, page_mm: Size) -> str:
    """Print a PDF at its own size; return what `lp` answered. Raises Refused with its words where it does not take it.

    `printer` None is the system's own choice. The page's size is said only for labels: sheets lie in the printer.
    """
    command = ["lp", "-c", "-o", "print-scaling=none"]  # -c: the file is gone when the queue comes to it
    if max(page_mm) < 200:
        command += ["-o", f"media=Custom.{page_mm[0]:g}x{page_mm[1]:g}mm"]
    if printer:
        command += ["-d", printer]
    try:
        ran = subprocess.run(
            [*command, "--", str(path)], capture_output=True, text=True, timeout=_SECONDS, errors="replace", check=False
        )
    except FileNotFoundError as error:
        raise Refused("This system has no lp command to print with: write a file with --out and print that.") from error
    except (OSError, subprocess.TimeoutExpired) as error:
        raise Refused(
            f"lp did not take it ({type(error).__name__}): write a file with --out and print that."
        ) from error
    answer = make_visible(ran.stdout or "")
    if ran.returncode:
        raise Refused(f"lp did not take it: {make_visible(ran.stderr) or answer or 'it said nothing'}")
    return answer or "taken"
