"""The views for other tools say what the program says, read by a library and a command that are not ours."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from sqlite_utils import Database
from sqlite_utils.cli import cli

VIEWS = ("on_hand", "job_costs", "lot_history", "checks", "unit_of")
PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"


@pytest.fixture
def studio(stockroom: Any) -> Any:
    """Powder, a jar titrated twice (once undone), sheets, a waste can, a job with a bath and something brought back."""
    stockroom.on("2026-11-01", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--place", "shelf")
    stockroom.on("2026-11-01", "receive", "polyester-web-light", "10 sheets", "--cost", "48.00")
    stockroom.on("2026-11-01", "waste-can", "new", "Alkaline waste", "--capacity", "5 L")
    stockroom.on("2026-11-02", "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    jar = stockroom.on("2026-11-02", "shelf", "solution")["lots"][0]["code"]
    titrated = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--temperature", "22", "--used")
    wrong = stockroom.on("2026-11-04", "check", jar, *titrated, "1.8 mL")["action"]
    stockroom.on("2026-11-04", "undo", wrong, "--why", "mistyped")
    stockroom.on("2026-11-04", "check", jar, *titrated, "10.8 mL")
    stockroom.on("2026-11-04", "job", "new", "Sea chart", "--object", "North, 60 x 40 cm")
    bath = ("calcium-hydroxide-1-in-4", "--job", "Sea chart", "--qty", "400 mL", "--fills", "2", "--tested", "AB")
    stockroom.on("2026-11-05", "use", *bath)
    stockroom.on("2026-11-05", "take", jar, "50 mL", "--job", "Sea chart")
    stockroom.on("2026-11-05", "bring-back", jar, "10 mL", "--job", "Sea chart")
    stockroom.on("2026-11-06", "discard", jar, "100 mL", "--to", "alkaline", "--why", "test")
    return stockroom


@pytest.fixture
def rows(studio: Any) -> Iterator[Callable[[str], list[dict[str, Any]]]]:
    """Read a query through sqlite-utils, on a connection that cannot write."""
    connection = sqlite3.connect(f"file:{studio.path}?mode=ro", uri=True)
    database = Database(connection, execute_plugins=False)
    yield lambda sql: list(database.query(sql))
    connection.close()


def minor(money: str) -> int:
    return int(Decimal(money) * 100)


def test_on_hand_is_the_shelf(studio: Any, rows: Any) -> None:
    shelf = {one["code"]: one for one in studio.json("shelf")["lots"]}
    found = {row["lot"]: row for row in rows("SELECT * FROM on_hand")}
    assert set(found) == set(shelf) and len(found) == 5
    for code, row in found.items():
        said = shelf[code]
        assert (row["unit"], row["value_minor"]) == (said["unit"], minor(said["value"]))
        assert Decimal(str(row["amount"])) == Decimal(said["amount"])
        for name in ("material", "name", "kind", "place", "strength", "use_by", "check_by", "ready_on", "state"):
            assert row[name] == said[name]


def test_quantity_is_exact_and_amount_is_it_in_the_unit(rows: Any) -> None:
    """The quantum of each dimension: micrograms, microlitres, square millimetres, thousandths."""
    for row in rows("SELECT on_hand.quantity, amount, quanta FROM on_hand JOIN unit_of ON unit_of.unit = on_hand.unit"):
        assert row["quantity"] == round(row["amount"] * row["quanta"])
    assert {row["unit"]: row["quanta"] for row in rows("SELECT * FROM unit_of")}["g"] == 1_000_000


def test_job_costs_add_up_to_the_jobs_cost(studio: Any, rows: Any) -> None:
    """What was brought back is taken off; by lot, and in all."""
    found = rows("SELECT * FROM job_costs WHERE job = 'J001R'")
    assert {row["title"] for row in found} == {"Sea chart"}
    assert sum(row["value_minor"] for row in found) == minor(studio.json("cost", "Sea chart")["total"])
    (jar,) = [row for row in found if row["material"] == "calcium-hydroxide-solution"]
    assert (jar["amount"], jar["unit"]) == (240.0, "mL")


def test_a_lots_history_is_that_of_its_page(studio: Any, rows: Any) -> None:
    for lot in studio.json("shelf")["lots"]:
        page = studio.json("lot", lot["code"])["history"]
        found = rows(f"SELECT * FROM lot_history WHERE lot = '{lot['code']}' ORDER BY booked_at")
        assert [(one["action"], one["day"], one["by"], one["reason"]) for one in page] == [
            (row["action"], row["day"], row["initials"], row["reason"]) for row in found
        ]
        assert [(Decimal(one["amount"]), minor(one["value"]), one["in_effect"]) for one in page] == [
            (Decimal(str(row["amount"])), row["value_minor"], row["in_effect"] == "yes") for row in found
        ]


def test_checks_are_those_booked_and_say_which_stands(rows: Any) -> None:
    """10.8 mL x 0.1 mol/L x 74.093 g/mol / 2 / 25 mL = 1.600 g/L, worked by hand."""
    wrong, right = rows("SELECT * FROM checks ORDER BY action")
    assert (wrong["in_effect"], right["in_effect"]) == ("no", "yes")
    assert round(right["strength_best"], 3) == 1.6 and right["strength_unit"] == "g/L"
    assert right["strength_low"] < right["strength_best"] < right["strength_high"]
    assert (right["method"], right["verdict"], right["initials"]) == ("titration", "saturated", "AB")
    assert json.loads(right["readings"])["used"] == "10.8 mL"


def test_the_command_of_the_library_reads_them(studio: Any) -> None:
    """As a person does: `sqlite-utils query FILE 'select …'`."""
    ran = CliRunner().invoke(cli, ["query", str(studio.path), "SELECT lot, amount, unit FROM on_hand WHERE unit = 'g'"])
    assert ran.exit_code == 0, ran.output
    assert json.loads(ran.output) == [{"lot": "L001W", "amount": 494.0, "unit": "g"}]


@pytest.mark.parametrize("view", VIEWS)
def test_every_column_is_described(rows: Any, view: str) -> None:
    """Each view has a row in the table, and each of its columns is named there or in the words above it."""
    section = PAGE.read_text("utf-8").partition("## Reading the file with other tools")[2]
    words, table = section.split("| --- |", 1)
    row = re.search(rf"^\| `{view}` \|(.*)$", table, re.M)
    assert row is not None
    columns = {one["name"] for one in rows(f"SELECT name FROM pragma_table_info('{view}')")}
    assert columns and columns <= set(re.findall(r"`(\w+)`", words + row[1]))
