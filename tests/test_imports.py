"""What a quick command may load, and where SQL and its dialect may stand."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from conftest import CommandLine

ROOT = Path(__file__).resolve().parents[1]
HEAVY = (
    "textual", "pint", "qrcode", "reportlab", "PIL", "sqlite_utils", "stdnum", "rich", "dateutil", "icalendar",
    "openpyxl",
)  # fmt: skip


@pytest.mark.parametrize("command", [["due"], ["shelf"], ["lot", "L001W"], ["job", "list"]])
def test_a_command_that_only_reads_loads_nothing_heavy(stockroom: CommandLine, command: list[str]) -> None:
    stockroom.json("receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    program = (
        "import sys\nfrom stockroom.cli.main import run_for_code\n"
        "code = run_for_code(sys.argv[1:])\n"
        f"print([name for name in {HEAVY!r} if name in sys.modules], code, file=sys.stderr)"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program, "--db", str(stockroom.path), *command],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    assert ran.stderr.strip() == "[] 0"


def test_only_the_screens_load_textual(stockroom: CommandLine) -> None:
    program = (
        "import sys\nfrom stockroom.cli.main import run_for_code\n"
        "run_for_code(sys.argv[1:])\nprint('textual' in sys.modules, file=sys.stderr)"
    )
    arguments = ["--db", str(stockroom.path), "receive", "ethanol", "1 L", "--cost", "13.90"]
    ran = subprocess.run(
        [sys.executable, "-c", program, *arguments], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert ran.stderr.strip() == "False"


NOT_TO_OPEN = (
    "stockroom.actions.beginning", "stockroom.actions.judged_due", "stockroom.actions.making",
    "stockroom.actions.measuring", "stockroom.actions.telling", "stockroom.domain.lots", "stockroom.domain.materials",
    "stockroom.domain.recipes", "stockroom.planning.steps", "stockroom.science.amounts",
    "stockroom.science.quantities", "stockroom.tui.forms.form", "stockroom.tui.own_form",
    "stockroom.tui.texts",
)  # fmt: skip
"""What only other screens, or what is told after the first paint, need."""


def test_the_opening_screen_loads_only_what_it_shows(stockroom: CommandLine) -> None:
    on = "2026-11-25T14:10"
    stockroom.on(on, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--use-by", "2026-11-01")
    os.utime(stockroom.path, (1, 1))  # what is due is kept once the file was left alone
    assert len(stockroom.on(on, "due")["items"]) == 1
    program = f"""
import sys
from stockroom.cli.main import run
from stockroom.tui.screens.due import DueScreen

def shown(self, found):
    print(len(found), [name for name in {NOT_TO_OPEN!r} if name in sys.modules], file=sys.stderr)
    self.app.exit()

DueScreen.fill = shown
run()
"""
    ran = subprocess.run(
        [sys.executable, "-c", program, "--db", str(stockroom.path), "--by", "AB", "--on", on],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
        timeout=60,
        env=os.environ | {"TEXTUAL_DRIVER": "textual.drivers.headless_driver:HeadlessDriver"},
    )
    assert ran.stderr.strip() == "1 []"


DIALECT = {
    "INSERT OR": r"\bINSERT\s+OR\b",
    "rowid": r"\browid\b",
    "IFNULL": r"(?i)\bifnull\s*\(",
    "strftime": r"(?i)'%|\bstrftime\s*\(\s*'",
    "LIKE": r"\sLIKE\s",
    "double-quoted strings": r"= ''\"|WHERE [a-z_.]+ = \\\"",
}


@pytest.mark.parametrize("name", DIALECT)
def test_the_queries_would_run_on_another_engine(name: str) -> None:
    """What is SQLite's own stays in schema/ and the files that open and migrate."""
    own = {"open.py", "migrate.py"}
    found = [
        path.name
        for path in (ROOT / "stockroom" / "store").glob("*.py")
        if path.name not in own
        for text in re.findall(r'"(?:SELECT|INSERT|UPDATE|DELETE)[^"]*"', path.read_text("utf-8"))
        if re.search(DIALECT[name], text)
    ]
    assert not found


def test_sql_stays_in_the_store() -> None:
    sql = re.compile(r'"\s*(SELECT|INSERT INTO|UPDATE|DELETE FROM) [a-z*(]')
    found = [
        str(path.relative_to(ROOT))
        for path in (ROOT / "stockroom").rglob("*.py")
        if "store" not in path.parts and sql.search(path.read_text("utf-8"))
    ]
    assert not found
