"""A job's last treatment is repeated as it was asked for, from what is on the shelf now."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

BATH = "calcium-hydroxide-1-in-4"


@pytest.fixture
def studio(stockroom: Any) -> Any:
    """Two jars, and a job whose north sheet was bathed twice in 400 mL."""
    stockroom.on("2026-11-01", "receive", "calcium-hydroxide", "100 g", "--cost", "10.00")
    stockroom.on("2026-11-02", "make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L")
    stockroom.on("2026-11-02", "job", "new", "Sea chart", "--object", "North, 60 x 40 cm", "--object", "South")
    told = ("--job", "Sea chart", "--object", "North", "--qty", "400 mL", "--fills", "3", "--tested", "AB")
    stockroom.on("2026-11-05", "use", BATH, *told)
    return stockroom


def again(studio: Any, *more: str, at: str = "2026-11-06") -> Any:
    return studio.on(at, "use", "--again", "--job", "Sea chart", *more)


def test_recipe_fill_fills_and_objects_are_those_of_the_last_time(studio: Any) -> None:
    done = again(studio, "--tested", "AB")
    assert (done["recipe"], done["fill"], done["fills"], done["objects"]) == (BATH, "400", 3, ["North"])
    assert done["drawn"][0]["amount"] == "300"
    assert done["again"]["day"] == "2026-11-05"


def test_media_are_asked_for_anew(studio: Any) -> None:
    """The object has been wet since: nobody answers for it by repeating."""
    assert again(studio)["media_test"]["by"] is None
    assert again(studio, "--tested", "AB")["media_test"]["by"] == "AB"


def test_what_is_said_beside_it_differs(studio: Any) -> None:
    done = again(studio, "--tested", "AB", "--fills", "1", "--qty", "200 mL", "--object", "South")
    assert (done["fill"], done["fills"], done["objects"]) == ("200", 1, ["South"])
    assert again(studio, "--dry-run", at="2026-11-07")["objects"] == ["South"]


def test_one_that_was_undone_is_not_repeated(studio: Any) -> None:
    other = studio.on("2026-11-06", "use", BATH, "--job", "Sea chart", "--qty", "1 L", "--tested", "AB")
    assert again(studio, "--dry-run")["fill"] == "1000"
    studio.json("undo", other["action"], "--why", "mistyped")
    assert again(studio, "--dry-run")["fill"] == "400"


def test_a_newer_version_of_the_recipe_is_told(studio: Any, tmp_path: Path) -> None:
    path = tmp_path / "bath.toml"
    path.write_text(studio.json("recipe", "export", BATH)["toml"].replace('"1 in 4"', '"1 in 2"'))
    studio.json("recipe", "import", str(path), "--yes")
    ran = studio("--on", "2026-11-06", "use", "--again", "--job", "Sea chart", "--dry-run")
    assert "version 1 then and is at 2 now" in ran.err and "As A" in ran.out


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--again", BATH, "--job", "Sea chart"], "leave the recipe out"),
        (["--job", "Sea chart"], "Which treatment?"),
        (["--again", "--job", "Ferns"], "No treatment is booked as done"),
    ],
)
def test_what_cannot_be_repeated_is_told(studio: Any, words: list[str], message: str) -> None:
    studio.on("2026-11-02", "job", "new", "Ferns")
    ran = studio("use", *words)
    assert ran.code == 2 and message in ran.err
