"""Taking tables in: every problem at once, all or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from conftest import CommandLine
from exchange_files import TABLES, everything_in, sheet

NOW = ("--on", "2026-11-25T14:10")


def places_of(problems: list[dict[str, object]]) -> list[tuple[object, object]]:
    return [(one["row"], one["column"]) for one in problems]


def test_every_problem_is_told_by_row_and_column_and_nothing_changes(stockroom: CommandLine, tmp_path: Path) -> None:
    file = sheet(
        tmp_path,
        """
        Material          | Amount  | Cost  | Use by   | Received on | Place   | Kind
        calcium-hydroxide | 1,500 g | 12,50 | 3/4/2026 | 2026-11-01  | shelf   |
        ethanol           | 1 kg    | abc   | 2027-13  | 4/3/2026    | nowhere | bottle
        gluten            | 500     |       | 08/2027  | 2027-01-01  |         |
        methyl-cellulose  | 1 L     | -3    |          |             |         | jar
        """,
    )
    before = everything_in(stockroom)
    ended = stockroom.json(*NOW, "import", file, code=2)
    assert places_of(ended["problems"]) == [
        (2, "amount"), (2, "use_by"),
        (3, "kind"), (3, "cost"), (3, "received_on"), (3, "use_by"), (3, "place"),
        (4, "cost"), (4, "amount"), (4, "received_on"),
        (5, "amount"), (5, "cost"), (5, "made_at"),
    ]  # fmt: skip
    words = [str(one["problem"]) for one in ended["problems"]]
    assert "1500 g or as 1.5 g" in words[0]
    assert "2026-04-03 or as 2026-03-04" in words[1]
    said = stockroom(*NOW, "import", file)
    assert (said.code, said.out) == (2, "")
    assert "table.csv: 13 problems. Nothing was imported." in said.err
    assert everything_in(stockroom) == before


def test_a_file_is_taken_in_whole_and_each_lot_by_the_rules_of_a_delivery(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    file = sheet(
        tmp_path,
        """
        material          | amount     | unit | cost    | use_by  | received_on | opened_on  | supplier | lot_number
        calcium-hydroxide | 0,5        | kg   | 12,50   | 2028-02 | 2026-10-01  | 2026-10-05 | By post  | 7731
        ethanol           | 3 x 1 L    |      | 41.70   |         | 2026-11-20  |            | by post  |
        wheat-starch      | about 300 g|      | unknown |         |             |            |          |
        """,
    )
    plan = stockroom.json(*NOW, "import", file, "--dry-run")
    assert (plan["taken"], plan["codes"], plan["actions"], plan["action"]) == (3, [], [], None)
    assert not stockroom.json("shelf")["lots"]
    done = stockroom.json(*NOW, "import", file)
    assert (done["what"], done["taken"], len(done["codes"]), len(done["actions"])) == ("lots", 3, 5, 3)
    lots = {lot["code"]: lot for lot in stockroom.json(*NOW, "shelf")["lots"]}
    lime, *ethanol, starch = (lots[code] for code in done["codes"])
    assert (lime["amount"], lime["unit"], lime["value"]) == ("500", "g", "12.50")
    # opened on 5 October 2026, 12 months once opened: earlier than the maker's 29 February 2028
    assert (lime["use_by"], lime["opened_on"], lime["maker_lot"]) == ("2027-10-05", "2026-10-05", "7731")
    assert [one["value"] for one in ethanol] == ["13.90", "13.90", "13.90"]
    assert (starch["about"], starch["cost_incomplete"], starch["value"]) == (True, True, "0.00")
    assert [one["name"] for one in stockroom.json("supplier", "list")["suppliers"]] == ["By post"]
    assert stockroom.json("verify")["problems"] == []


def test_the_same_content_is_noticed_whatever_form_it_comes_in(stockroom: CommandLine, tmp_path: Path) -> None:
    file = sheet(tmp_path, "material | amount | cost\nethanol | 1 L | 13.90")
    stockroom.json(*NOW, "import", file)
    again = tmp_path / "copy.json"
    again.write_text('[{"Cost": 13.90, "material": "ethanol", "amount": "1 L"}]', "utf-8")
    before = everything_in(stockroom)
    ended = stockroom(*NOW, "import", str(again))
    assert ended.code == 1
    assert "imported already, by AB on 20" in ended.err
    assert everything_in(stockroom) == before
    assert stockroom.json(*NOW, "import", str(again), "--again")["taken"] == 1
    assert len(stockroom.json("shelf")["lots"]) == 2


def test_what_is_here_and_says_the_same_is_passed_over_and_what_differs_is_refused(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    stockroom.json("place", "new", "Drawer 3", "--note", "wide")
    same = sheet(tmp_path, "name | note\nDrawer 3 | wide\nDrawer 4 | narrow")
    done = stockroom.json("import", same, "--as", "places")
    assert (done["taken"], done["here"], done["rows"]) == (1, 1, 2)
    other = sheet(tmp_path, "name | note\ndrawer 3 | narrow\nDrawer 5 |")
    ended = stockroom.json("import", other, "--as", "places", code=2)
    assert places_of(ended["problems"]) == [(2, "name"), (2, "note")]
    assert "says “wide”" in ended["problems"][1]["problem"]
    assert "Drawer 5" not in stockroom("place", "list").out


def test_a_row_that_stands_twice_is_told(stockroom: CommandLine, tmp_path: Path) -> None:
    file = sheet(tmp_path, "material | amount | cost\nethanol | 1 L | 13\nacetone | 1 L | 9\nethanol | 1 L | 13")
    (problem,) = stockroom.json("import", file, code=2)["problems"]
    assert (problem["row"], problem["problem"][:33]) == (4, "this says the same as row 2. Say ")


def test_unknown_and_missing_columns_are_told_with_the_nearest(stockroom: CommandLine, tmp_path: Path) -> None:
    file = sheet(tmp_path, "materiel | amount | cost | colour\nethanol | 1 L | 13 | blue")
    found = stockroom.json("import", file, "--as", "lots", code=2)["problems"]
    assert [one["column"] for one in found] == ["materiel", "colour", None]
    assert "Is it material?" in found[0]["problem"]
    assert found[2]["problem"] == "lots need the column material."
    unnamed = stockroom("import", file)
    assert (unnamed.code, "--as" in unnamed.err) == (2, True)


def test_a_column_too_many_and_a_cell_that_is_no_text_hide_no_other_problem(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    file = sheet(
        tmp_path, "material | amount | cost | note | ink\nethanol | 1\0 L | 13 | a | c\nethanol | 1 kg | abc | b | d"
    )
    before = everything_in(stockroom)
    found = stockroom.json("import", file, "--as", "lots", code=2)["problems"]
    assert places_of(found) == [(1, "note"), (1, "ink"), (2, "amount"), (3, "cost")]
    assert ["There are: " in str(one["problem"]) for one in found] == [True, False, False, False]
    assert everything_in(stockroom) == before


@pytest.mark.parametrize("what", TABLES)
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_a_template_explains_itself_and_its_example_is_never_taken_in(
    stockroom: CommandLine, tmp_path: Path, what: str, form: str
) -> None:
    path = str(tmp_path / f"{what}.{form}")
    stockroom.json("import", "--template", what, "--out", path)
    before = everything_in(stockroom)
    ended = stockroom("import", path)
    assert ended.code == 2
    assert "2 are left out, since they say so in their column #" in ended.err
    assert everything_in(stockroom) == before
    assert stockroom("import", "--template", what, "--out", path).code == 1
    assert stockroom("import", "--template", what, "--out", path, "--replace").code == 0


def test_the_examples_of_the_templates_would_be_taken_in_without_their_mark(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    """The example of each template fits the others, so that it can be tried on a copy."""
    from openpyxl import load_workbook

    stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--day", "2026-11-01")
    for what in TABLES:
        path = tmp_path / f"{what}.xlsx"
        stockroom.json("import", "--template", what, "--out", str(path))
        book = load_workbook(path)
        book[what]["A3"] = None
        book.save(path)
        done = stockroom.json(*NOW, "--by", "AB", "import", str(path))
        assert (done["taken"], done["left_out"]) == (1, 1), what
    assert stockroom.json("verify")["problems"] == []


def test_a_count_sheet_is_booked_as_counts(stockroom: CommandLine, tmp_path: Path) -> None:
    code = stockroom.json(*NOW, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")["code"]
    other = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "13.90")["code"]
    wrong = sheet(tmp_path, f"code | material | amount\n{code} | ethanol | 480 g\n{other} | | 0 mL\nL9999 | | 1 g")
    found = stockroom.json("--on", "2026-11-26", "import", wrong, code=2)["problems"]
    assert places_of(found) == [(2, "material"), (3, "reason"), (4, "code")]
    right = sheet(
        tmp_path, f"code | amount | method | reason\n{code} | 480 g | weighed |\n{other} | 0 mL | | evaporated"
    )
    done = stockroom.json("--on", "2026-11-26", "import", right)
    assert done["codes"] == [code, other]
    assert stockroom.json("--on", "2026-11-26", "lot", code)["amount"] == "480"
    assert stockroom.json("--on", "2026-11-26", "lot", other)["state"] == "ended"


def test_a_count_sheet_is_exported_filled_in_and_taken_in(stockroom: CommandLine, tmp_path: Path) -> None:
    """A row that was not filled in was not counted, which is not the same as nothing left."""
    code = stockroom.json(*NOW, "receive", "ethanol", "1 L", "--cost", "13.90", "--place", "shelf")["code"]
    other = stockroom.json(*NOW, "receive", "acetone", "1 L", "--cost", "9")["code"]
    path = tmp_path / "count.csv"
    stockroom.json("export", "count-sheet", "--out", str(path))
    assert stockroom("--on", "2026-11-26", "import", str(path)).code == 2
    line = f'"{code}","ethanol","shelf","","mL"'
    assert line in path.read_text("utf-8")
    path.write_text(path.read_text("utf-8").replace(line, line.replace('""', '"950"')), "utf-8")
    done = stockroom.json("--on", "2026-11-27", "import", str(path), "--day", "2026-11-26")
    assert (done["what"], done["codes"], done["left_out"]) == ("counts", [code], 1)
    history = stockroom.json("--on", "2026-11-27", "lot", code)["history"]
    assert (history[-1]["day"], history[-1]["amount"]) == ("2026-11-26", "-50")
    assert stockroom.json("--on", "2026-11-27", "lot", other)["amount"] == "1000"


def test_what_came_on_a_closed_day_is_booked_today_and_keeps_its_day(stockroom: CommandLine, tmp_path: Path) -> None:
    stockroom.json(*NOW, "close-books", "2026-10-31")
    file = sheet(tmp_path, "material | amount | cost | received_on\nwheat-starch | 1 kg | 9 | 2026-10-01")
    ended = stockroom(*NOW, "import", file)
    assert (ended.code, "booked today, naming 2026-10-01" in ended.err) == (0, True)
    path = tmp_path / "lots.csv"
    stockroom.json("export", "lots", "--out", str(path))
    assert '"2026-10-01"' in path.read_text("utf-8")
    assert stockroom.json("import", str(path))["here"] == 1


def test_a_code_on_a_label_is_kept_and_never_given_out_again(stockroom: CommandLine, tmp_path: Path) -> None:
    file = sheet(tmp_path, "code | material | amount | cost\nL00A9 | ethanol | 1 L | 13.90")
    assert stockroom("import", file).code == 2  # one character of it is wrong
    file = sheet(tmp_path, "code | material | amount | cost\nL006M | ethanol | 1 L | 13.90\nL006M | ethanol | 2 L | 20")
    assert places_of(stockroom.json("import", file, code=2)["problems"]) == [(3, "amount"), (3, "cost")]
    file = sheet(tmp_path, "code | material | amount | cost\nL006M | ethanol | 1 L | 13.90")
    assert stockroom.json("import", file)["codes"] == ["L006M"]
    given = [stockroom.json("receive", "acetone", "1 L", "--cost", "9")["code"] for _ in range(4)]
    assert "L006M" not in given
    assert min(given) > "L006M"


HOSTILE = {
    "formula": "=1+1",
    "plus": "+1",
    "minus": "-1+1",
    "at": "@SUM(A1)",
    "tab": "a\tb",
    "return": "a\rb",
    "quotes": "He said \"flat\" and 'dry'",
    "markup": "[bold]x[/bold]",
    "escape": "\x1b[31mred",
    "sql": "'); DROP TABLE lot; --",
    "path": "../../etc/passwd",
}


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("form", ["csv", "xlsx", "json"])
def test_a_hostile_cell_ends_as_the_text_it_is(stockroom: CommandLine, tmp_path: Path, name: str, form: str) -> None:
    """OWASP, "CSV Injection", for the first four."""
    text = HOSTILE[name]
    stockroom.json("place", "new", "Drawer 9", "--note", text)
    path = str(tmp_path / f"places.{form}")
    stockroom.json("export", "places", "--out", path)
    other = CommandLine(tmp_path / "other.db")
    other.json("--by", "AB", "init", "--empty")
    other.json("import", path)
    assert [one.get("note") for one in other.json("place", "list")["places"] if one["name"] == "Drawer 9"] == [text]


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("x" * 10_000, "too long"),
        ("x" * 200_000, "at most 32,767"),
        ("a\0b", "NUL"),
    ],
)
def test_a_cell_that_cannot_be_kept_is_a_listed_problem(
    stockroom: CommandLine, tmp_path: Path, cell: str, words: str
) -> None:
    before = everything_in(stockroom)
    file = sheet(tmp_path, f"name | note\nDrawer 9 | {cell}")
    (problem,) = stockroom.json("import", file, "--as", "places", code=2)["problems"]
    assert (problem["row"], words in problem["problem"]) == (2, True)
    assert everything_in(stockroom) == before


@pytest.mark.parametrize(
    "arguments",
    [
        ("nothing-there.csv",),
        (".",),
        ("table.ods",),
        ("table.csv", "--sheet", "x"),
        ("table.json", "--encoding", "utf-8"),
        ("table.csv", "--out", "x.csv"),
        ("--template", "lots"),
        (),
    ],
)
def test_what_cannot_be_asked_is_bad_usage(stockroom: CommandLine, arguments: tuple[str, ...]) -> None:
    assert stockroom("import", *arguments).code == 2


def test_a_file_larger_than_is_read_is_refused(stockroom: CommandLine, tmp_path: Path) -> None:
    path = tmp_path / "large.csv"
    with path.open("wb") as file:
        file.truncate(20_000_001)
    ended = stockroom("import", str(path))
    assert (ended.code, "20,000,000" in ended.err) == (2, True)


def test_a_file_that_grew_brings_its_old_lots_no_second_time(stockroom: CommandLine, tmp_path: Path) -> None:
    first = sheet(tmp_path, "material | amount | cost\nethanol | 2 x 1 L | 27.80", "first.csv")
    codes = stockroom.json(*NOW, "import", first)["codes"]
    grown = sheet(tmp_path, "material | amount | cost\nethanol | 2 x 1 L | 27.80\nacetone | 1 L | 9", "grown.csv")
    (problem,) = stockroom.json(*NOW, "import", grown, code=2)["problems"]
    assert problem["row"] == 2
    assert f"imported already, as {' '.join(codes)}" in problem["problem"]
    assert stockroom.json(*NOW, "import", grown, "--again")["taken"] == 2


def test_a_lot_that_was_imported_by_mistake_is_undone_and_may_come_again(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    file = sheet(tmp_path, "material | amount | cost\nethanol | 1 L | 13.90")
    action = stockroom.json(*NOW, "import", file)["action"]
    stockroom.json(*NOW, "undo", action, "--why", "mistyped")
    assert not stockroom.json("shelf")["lots"]
    other = sheet(tmp_path, "material | amount | cost\nethanol | 1 L | 13.90\nacetone | 1 L | 9")
    assert stockroom.json(*NOW, "import", other)["taken"] == 2
    assert stockroom.json("verify")["problems"] == []
