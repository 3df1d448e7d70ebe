"""Titrating the jar that several tests of commands begin with."""

from __future__ import annotations

from typing import Any

from conftest import CommandLine

JAR = "L002U"
"""5 g of powder of 95 % in a litre, shaken and settled at 22 °C on 3 January 2026: the fixture `jar`."""


def titrate(jar: CommandLine, used: str, *more: str, on: str = "2026-01-05", code: int = 0) -> dict[str, Any]:
    """Check the jar with 25 mL of its clear liquid against acid of 0.1 mol/L."""
    sample = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", used, "--temperature", "22")
    return jar.json("--on", on, "check", JAR, *sample, *more, code=code)
