"""Keep a small stockroom as the program makes it today, for the tests of every later form of the file.

    python tests/store/earlier/keep.py [FOLDER OF THE PROGRAM]

Run it before a numbered file is added to schema/. It books a few days of a small studio through the command line and
writes the file as SQL, with its form in the name.
"""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent

RECIPES = {
    "lime": """
[recipe]
key = "lime-water"
name = "Lime water"
kind = "stock"
makes = "lime-water"
batch = "1 L"
life = "6 months"
over_solid = true
strength = "about 1.6 g/L (saturated)"
source = "a recipe of the tests"
[[line]]
material = "lime"
amount = "3 g/L"
[[line]]
material = "water"
amount = "make up"
[[step]]
words = "Shake, and let it settle."
""",
    "bath": """
[recipe]
key = "lime-bath"
name = "Lime bath, 1 in 4"
kind = "bath"
batch = "1 L"
source = "a recipe of the tests"
[[line]]
material = "lime-water"
amount = "1 in 4"
[[line]]
material = "water"
amount = "make up"
[[step]]
words = "Pour."
""",
}

BOOKED = (
    ("2026-03-01", "material", "new", "Lime", "--measured-by", "mass", "--purity", "95 % w/w"),
    ("2026-03-01", "material", "new", "Water", "--measured-by", "volume", "--not-metered"),
    ("2026-03-01", "material", "new", "Lime water", "--measured-by", "volume"),
    ("2026-03-01", "material", "new", "Blotter", "--measured-by", "area", "--sheet", "760 x 560 mm"),
    ("2026-03-01", "place", "new", "Shelf"),
    ("2026-03-01", "recipe", "new", "--from", "lime.toml"),
    ("2026-03-01", "recipe", "new", "--from", "bath.toml"),
    ("2026-03-01", "receive", "lime", "500 g", "--cost", "12.50", "--lot-number", "7731", "--place", "shelf"),
    ("2026-03-01", "receive", "blotter", "10 sheets", "--cost", "29.50"),
    ("2026-03-02", "make", "lime-water", "2 L", "--into", "2 x 1 L", "--place", "shelf"),
    ("2026-03-02", "job", "new", "Sea chart", "--object", "Chart, 60 x 40 cm", "--client", "The harbour archive"),
    ("2026-03-04", "use", "lime-bath", "--job", "J001R", "--qty", "500 mL", "--fills", "2"),
    ("2026-03-04", "take", "L002U", "2 sheets", "--job", "J001R"),
    ("2026-03-05", "take", "L006M", "30 mL", "--why", "spilled"),
    ("2026-03-05", "count", "L006M", "700 mL"),
    ("2026-03-06", "take", "L007K", "100 mL", "--why", "lent", "--to", "the framer", "--back", "2026-03-20"),
    ("2026-03-06", "discard", "L002U", "1 sheet", "--why", "torn"),
    ("2026-03-07", "take", "L001W", "5 g", "--why", "test"),
    ("2026-03-08", "undo", "LAST", "--why", "mistyped"),
    ("2026-03-09", "book", "lime-bath", "--job", "J001R", "--for", "2026-04-01", "--qty", "1 L"),
)


def keep(program: Path) -> Path:
    """Book it all with the program in a folder; return the file that was written."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for recipe, text in RECIPES.items():
            (folder / f"{recipe}.toml").write_text(text, "utf-8")
        last = ""
        _run(program, folder, "--by", "AB", "init", "--empty", "--currency", "EUR", "--time-zone", "Europe/Berlin")
        for day, *words in BOOKED:
            told = _run(program, folder, "--on", day, *(last if word == "LAST" else word for word in words))
            last = told.get("action") or last
        connection = sqlite3.connect(folder / "kept.db")
        (form,), (mark,) = (
            connection.execute(f"PRAGMA {name}").fetchone() for name in ("user_version", "application_id")
        )
        marks = f"PRAGMA application_id = {mark};\nPRAGMA user_version = {form};\n"
        target = HERE / f"form-{form:02}.sql"
        target.write_text(marks + "\n".join(connection.iterdump()) + "\n", "utf-8")
        connection.close()
    return target


def _run(program: Path, folder: Path, *arguments: str) -> dict[str, Any]:
    ran = subprocess.run(
        [sys.executable, "-c", "from stockroom.cli.main import run; run()", "--json", "--db", "kept.db", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(program), "HOME": str(folder), "XDG_STATE_HOME": str(folder / "state")},
        capture_output=True,
        text=True,
        check=False,
    )
    if ran.returncode:
        sys.exit(f"stockroom {' '.join(arguments)}\n{ran.stdout}{ran.stderr}")
    document: dict[str, Any] = json.loads(ran.stdout)
    return document


if __name__ == "__main__":
    print(keep(Path(sys.argv[1]) if sys.argv[1:] else HERE.parents[2]))
