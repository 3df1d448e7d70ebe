"""Recipes from the command line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_files import read_recipe, write_recipe
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes, find_recipe

SIZE = """
[recipe]
key = "weak-size"
name = "Weak size"
kind = "bath"
batch = "500 mL"

[[line]]
material = "methyl-cellulose"
amount = "0.5 % w/v"

[[line]]
material = "deionised-water"
amount = "make up"

[[step]]
words = "Swell {methyl-cellulose} in part of the water and make up to {total}."
"""


@pytest.fixture
def file(tmp_path: Path) -> Callable[..., str]:
    """Call it with the text of a recipe for the path of a file that holds it."""

    def write(text: str, name: str = "recipe.toml") -> str:
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


def bath(key: str, holds: str) -> str:
    """Write a bath that is mixed in another recipe."""
    return f'[recipe]\nkey = "{key}"\nname = "{key}"\nkind = "bath"\nbatch = "1 L"\n[[line]]\nrecipe = "{holds}"\n'


def stock(key: str, makes: str, of: str, batch: str = "1 L") -> str:
    """Write a stock made of one material."""
    return (
        f'[recipe]\nkey = "{key}"\nname = "{key}"\nkind = "stock"\nmakes = "{makes}"\nbatch = "{batch}"\n'
        f'[[line]]\nmaterial = "{of}"\namount = "make up"\n'
    )


def test_a_recipe_of_a_file_is_listed_and_shown_as_the_trade_writes_it(stockroom: Any, file: Any) -> None:
    added = stockroom.json("recipe", "new", "--from", file(SIZE))
    assert (added["key"], added["version"], added["batch"], added["unit"]) == ("weak-size", 1, "500", "mL")
    assert "weak-size" in [each["key"] for each in stockroom.json("recipe", "list", "size")["recipes"]]
    shown = stockroom.json("recipe", "show", "weak size")
    assert shown["lines"] == [
        {"material": "methyl-cellulose", "amount": "0.5 % w/v"},
        {"material": "deionised-water", "amount": "make up"},
    ]
    assert shown["versions"][0]["by"] == "AB"
    assert (
        "Swell Methyl cellulose in part of the water and make up to 500 mL."
        in stockroom("recipe", "show", "weak-size").out
    )


def test_a_dry_run_adds_nothing(stockroom: Any, file: Any) -> None:
    planned = stockroom.json("recipe", "new", "--from", file(SIZE), "--dry-run")
    assert (planned["key"], planned["version"]) == ("weak-size", None)
    assert stockroom.json("recipe", "show", "weak-size", code=2)["error"]["kind"] == "not-found"


def test_a_key_is_taken_once(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    assert stockroom.json("recipe", "new", "--from", file(SIZE), code=1)["error"]["kind"] == "already-exists"


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("[recipe", "TOML"),
        ("", "recipe"),
        (SIZE.replace("0.5 % w/v", "1:4"), "1:4"),
        (SIZE.replace("methyl-cellulose", "unheard-of"), "unheard-of"),
        (SIZE.replace("500 mL", "500 g"), "500 g"),
    ],
)
def test_a_file_that_cannot_be_used_names_what_is_wrong(stockroom: Any, file: Any, text: str, named: str) -> None:
    failed = stockroom("recipe", "new", "--from", file(text))
    assert failed.code == 2
    assert named in failed.err
    assert stockroom.json("recipe", "list", "weak")["recipes"] == []


def test_a_file_that_is_not_there_not_text_or_a_folder_is_told(stockroom: Any, tmp_path: Path) -> None:
    (tmp_path / "latin.toml").write_bytes(b'name = "gr\xfcn"')
    for path in (tmp_path / "none.toml", tmp_path, tmp_path / "latin.toml"):
        failed = stockroom("recipe", "new", "--from", str(path))
        assert failed.code == 2
        assert str(path) in failed.err


def test_an_edit_adds_the_next_version_and_says_what_differs_line_by_line(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    stronger = SIZE.replace("0.5 % w/v", "1 % w/v").replace('batch = "500 mL"', 'batch = "500 mL"\nlife = "3 days"')
    planned = stockroom("recipe", "edit", "weak-size", "--from", file(stronger), "--dry-run")
    assert "- line: methyl-cellulose, 0.5 % w/v\n+ line: methyl-cellulose, 1 % w/v" in planned.out
    assert "+ life: 3 days" in planned.out
    assert stockroom.json("recipe", "show", "weak-size")["version"] == 1
    edited = stockroom.json("recipe", "edit", "weak-size", "--from", file(stronger))
    assert edited["version"] == 2
    assert {"was": "line: methyl-cellulose, 0.5 % w/v", "became": "line: methyl-cellulose, 1 % w/v"} in edited[
        "differences"
    ]


def test_an_earlier_version_stays_as_it_was(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    before = stockroom.json("recipe", "show", "weak-size")
    stockroom.json("recipe", "edit", "weak-size", "--from", file(SIZE.replace("0.5 %", "1 %")))
    first = stockroom.json("recipe", "show", "weak-size", "--version", "1")
    assert (first["version"], first["lines"], first["steps"]) == (1, before["lines"], before["steps"])
    assert [each["number"] for each in first["versions"]] == [1, 2]
    assert stockroom.json("recipe", "show", "weak-size", "--version", "3", code=2)


def test_a_file_that_says_nothing_new_makes_no_version(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    same = stockroom.json("recipe", "edit", "weak-size", "--from", file("# a remark\n" + SIZE))
    assert (same["version"], same["differences"]) == (1, [])


def test_a_new_name_is_an_edit_not_a_version(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    renamed = file(SIZE.replace("Weak size", "Thin size [/]"))
    assert stockroom.json("recipe", "edit", "weak-size", "--from", renamed, "--why", "as we say it")["version"] == 1
    shown = stockroom.json("recipe", "show", "thin size")
    assert shown["name"] == "Thin size [/]"
    assert [(edit["was"], edit["became"], edit["by"]) for edit in shown["edits"]] == [
        ("Weak size", "Thin size [/]", "AB")
    ]


def test_what_a_recipe_is_never_changes_by_an_edit(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    for changed in (SIZE.replace('"weak-size"', '"other"'), SIZE.replace('"bath"', '"treatment"')):
        assert (
            stockroom.json("recipe", "edit", "weak-size", "--from", file(changed), code=1)["error"]["kind"] == "refused"
        )


def test_a_ring_of_recipes_is_refused_and_named(stockroom: Any, file: Any) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    stockroom.json("recipe", "new", "--from", file(bath("one", "weak-size")))
    stockroom.json("recipe", "new", "--from", file(bath("two", "one")))
    ring = stockroom.json("recipe", "edit", "one", "--from", file(bath("one", "two")), code=2)
    assert "one → two → one" in ring["error"]["message"]
    assert stockroom.json("recipe", "show", "one")["version"] == 1


def test_a_ring_through_the_materials_that_stocks_make_is_refused_too(stockroom: Any, file: Any) -> None:
    for name in ("first liquor", "second liquor"):
        stockroom.json("material", "new", name, "--measured-by", "volume")
    stockroom.json("recipe", "new", "--from", file(stock("make-first", "first-liquor", "second-liquor")))
    ring = stockroom.json(
        "recipe", "new", "--from", file(stock("make-second", "second-liquor", "first-liquor")), code=2
    )
    assert "make-second → make-first → make-second" in ring["error"]["message"]


def test_a_batch_is_an_amount_of_what_the_stock_makes(stockroom: Any, file: Any) -> None:
    stockroom.json("material", "new", "coated tissue", "--measured-by", "area")
    text = stock("coat", "coated-tissue", "deionised-water", batch="1 L")
    failed = stockroom.json("recipe", "new", "--from", file(text), code=2)
    assert "measured by area" in failed["error"]["message"]
    assert "1 L" in failed["error"]["message"]


def test_a_recipe_that_cannot_be_worked_out_yet_is_kept_with_a_warning(stockroom: Any, file: Any) -> None:
    stockroom.json("material", "new", "thick syrup", "--measured-by", "mass")
    kept = stockroom.json("recipe", "new", "--from", file(SIZE.replace("deionised-water", "thick-syrup")))
    assert "is weighed" in kept["warnings"][0]
    assert stockroom.json("recipe", "show", "weak-size")["version"] == 1


def test_a_copy_begins_as_the_original_under_a_name_of_its_own(stockroom: Any) -> None:
    copied = stockroom.json("recipe", "copy", "wash", "long-wash", "Long wash =1+1")
    original = stockroom.json("recipe", "show", "wash")
    assert (copied["name"], copied["version"]) == ("Long wash =1+1", 1)
    assert (copied["lines"], copied["steps"]) == (original["lines"], original["steps"])
    assert stockroom.json("recipe", "copy", "wash", "long-wash", "Again", code=1)
    assert stockroom.json("recipe", "copy", "wash", "Long Wash", "Again", code=2)


def test_an_exported_recipe_is_the_file_of_that_recipe(stockroom: Any, file: Any) -> None:
    for key in [each["key"] for each in stockroom.json("recipe", "list")["recipes"]]:
        text = stockroom("recipe", "export", key).out
        assert stockroom.json("recipe", "edit", key, "--from", file(text))["differences"] == []


def test_retiring_a_recipe_names_what_still_speaks_of_it(
    stockroom: Any, store: Store, occasion: Callable[..., Occasion], file: Any
) -> None:
    stockroom.json("recipe", "new", "--from", file(SIZE))
    stockroom.json("recipe", "new", "--from", file(bath("one", "weak-size")))
    job = stockroom.json("job", "new", "Harbour charts")["code"]
    booked = stockroom.json("book", "weak-size", "--job", job, "--for", "tomorrow")["code"]
    ended = stockroom.json("recipe", "retire", "weak-size")
    assert (ended["recipes"], ended["bookings"]) == (["one"], [booked])
    assert stockroom.json("recipe", "list", "weak")["recipes"] == []
    assert len(stockroom.json("recipe", "list", "weak", "--all")["recipes"]) == 1
    assert "retired_on" not in stockroom.json("recipe", "retire", "weak-size", "--undo")


def test_every_starter_recipe_reads_back_from_what_is_written_of_it(store: Store) -> None:
    for recipe in all_recipes(store):
        assert write_recipe(read_recipe(write_recipe(recipe), "written")) == write_recipe(recipe)
        assert find_recipe(store, recipe.key) == recipe
