"""The materials statement says what was used on an object, as it was used and not as it was wished."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pdf_pages import words_on

STOCK, BATH = "calcium-hydroxide-saturated", "calcium-hydroxide-1-in-4"


@pytest.fixture
def studio(stockroom: Any) -> Any:
    """Powder of maker's lot 7731, a jar of it titrated on 4 November, two jobs."""
    stockroom.on("2026-11-01", "receive", "calcium-hydroxide", "100 g", "--cost", "10.00", "--lot-number", "7731")
    stockroom.on("2026-11-02", "make", STOCK, "1 L", "--temperature", "20 °C")
    stockroom.on("2026-11-02", "job", "new", "Sea chart", "--object", "North, 60 x 40 cm", "--object", "South")
    stockroom.on("2026-11-02", "job", "new", "Ferns", "--object", "Plate 3")
    titrated = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.8 mL", "--temperature", "22")
    stockroom.on("2026-11-04", "check", "L002U", *titrated)
    return stockroom


def bathed(studio: Any, at: str = "2026-11-05T10:00", *more: str, recipe: str = BATH) -> Any:
    told = ("--job", "Sea chart", "--object", "North", "--qty", "400 mL", "--fills", "2", "--tested", "AB")
    return studio.on(at, "use", recipe, *told, *more)


def test_a_treatment_stands_with_strength_check_fills_and_by_whom(studio: Any) -> None:
    """Titrated at 1.6 g/L: 10.8 mL x 0.1 mol/L x 74.093 g/mol / 2 / 25 mL (worked by hand); 1 in 4 of it is 0.4 g/L."""
    bathed(studio)
    said = studio.json("statement", "Sea chart")
    (done,) = said["treatments"]
    assert (done["day"], done["clock"], done["by"], done["objects"]) == ("2026-11-05", "10:00", "AB", ["North"])
    assert (done["recipe"], done["version"], done["fills"], done["fill"]["amount"]) == (BATH, 1, 2, "400")
    (jar,) = done["used"]
    assert (jar["code"], jar["amount"], jar["unit"]) == ("L002U", "200", "mL")
    assert jar["strength"].startswith("about 1.60 g/L (saturated") and (jar["share"], jar["in_bath"]) == (
        "1 in 4",
        "about 0.4 g/L",
    )
    assert jar["check"] == {"day": "2026-11-04", "method": "titration", "verdict": "saturated"}
    assert done["media"] == "media, inks and colours tested by AB"
    assert done["not_metered"] == [{"name": "Deionised water", "amount": "600", "unit": "mL"}]


def test_behind_it_stand_the_jar_and_the_powder_with_its_makers_number(studio: Any) -> None:
    bathed(studio)
    said = studio.json("statement", "Sea chart")
    (jar,) = said["solutions"]
    assert (jar["code"], jar["version"], jar["by"]) == ("L002U", 1, "AB")
    assert jar["of"] == ["3 g of Calcium hydroxide (L001W)", "Deionised water (not metered)"]
    (powder,) = said["materials"]
    assert (powder["code"], powder["maker_lot"]) == ("L001W", "7731")
    assert powder["identity"] == "reagent; powder, pharmacopoeial; 95 % w/w"


def test_where_no_object_was_said_the_statement_says_so_for_each(studio: Any) -> None:
    studio.on("2026-11-06T10:00", "use", BATH, "--job", "Sea chart", "--qty", "400 mL", "--tested", "AB")
    for words in (["North"], ["Sea chart"], ["Sea chart", "--object", "South"]):
        assert "On: job, object not stated" in studio("statement", *words).out
    bathed(studio, "2026-11-07T10:00")
    assert len(studio.json("statement", "South")["treatments"]) == 1
    assert len(studio.json("statement", "North")["treatments"]) == 2
    assert studio.json("statement", "North")["object"] == "North"


def test_what_came_later_does_not_change_what_was_used(studio: Any) -> None:
    """A weak titration after the treatment leaves its strength and its check as they were."""
    bathed(studio)
    before = studio.json("statement", "North")["treatments"]
    weak = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "7 mL", "--temperature", "22")
    studio.on("2026-11-09", "check", "L002U", *weak)
    assert studio.json("statement", "North")["treatments"] == before


def test_an_override_stands_with_what_spoke_against_it_and_why(studio: Any) -> None:
    weak = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "7 mL", "--temperature", "22")
    studio.on("2026-11-09", "check", "L002U", *weak)
    bathed(studio, "2026-11-10T09:30", "--from", "L002U", "--why", "only the margin")
    (jar,) = studio.json("statement", "North")["treatments"][0]["used"]
    assert "weak" in jar["override"] and jar["override"].endswith("used all the same: only the margin")
    assert "Used against what spoke against it:" in studio("statement", "North").out


RINSE = """
[recipe]
key = "rinse"
name = "Rinse"
kind = "bath"
batch = "1 L"
[[line]]
material = "tap-water"
amount = "make up"
"""


def test_a_treatment_that_drew_nothing_metered_is_told_and_one_undone_is_not(studio: Any, tmp_path: Path) -> None:
    """A wash in water alone is a treatment like any other."""
    (tmp_path / "rinse.toml").write_text(RINSE)
    studio.json("recipe", "new", "--from", str(tmp_path / "rinse.toml"))
    wash = studio.on("2026-11-06T10:00", "use", "rinse", "--job", "Ferns", "--qty", "2 L", "--tested", "AB")
    said = studio.json("statement", "Plate 3")["treatments"]
    assert [one["action"] for one in said] == [wash["action"]]
    assert said[0]["not_metered"] == [{"name": "Tap water", "amount": "2000", "unit": "mL"}]
    studio.json("undo", wash["action"], "--why", "mistyped")
    assert studio.json("statement", "Plate 3")["treatments"] == []
    assert "Nothing is booked as used." in studio("statement", "Plate 3").out


def test_what_was_put_right_or_brought_back_is_counted_in(studio: Any) -> None:
    taken = studio.on("2026-11-06", "take", "L002U", "50 mL", "--job", "Ferns")
    studio.on("2026-11-06", "bring-back", "L002U", "10 mL", "--job", "Ferns")
    (done,) = studio.json("statement", "Ferns")["treatments"]
    assert (done["what"], done["used"][0]["amount"], done["clock"]) == ("Taken for the job", "40", None)
    other = studio.on("2026-11-07", "take", "L002U", "30 mL", "--job", "Ferns")
    righted = studio.on("2026-11-08", "put-right", other["action"], "--amount", "25 mL", "--why", "misread")
    first, second = studio.json("statement", "Ferns")["treatments"]
    assert first["action"] == taken["action"]
    assert (second["action"], second["used"][0]["amount"]) == (other["action"], "25")
    assert second["put_right"] == [righted["action"]]


def test_text_markdown_and_pdf_say_the_same(studio: Any, tmp_path: Path) -> None:
    """Each sentence of the text is in the others, the PDF's text read back."""
    bathed(studio)
    for suffix in ("pdf", "md", "txt"):
        path = tmp_path / f"record.{suffix}"
        assert studio.json("statement", "North", "--out", str(path))["files"] == [str(path)]
    drawn = words_on(tmp_path / "record.pdf")
    text = " ".join((tmp_path / "record.txt").read_text("utf-8").split())
    for words in (
        "Materials statement: North", "On: North", "Fills: 2 of 400 mL", "200 mL (2 x 100 mL)", "7731",
        "Media, inks and colours tested by AB", "reagent; powder, pharmacopoeial; 95 % w/w",
    ):  # fmt: skip
        assert words in drawn and words in text and words in (tmp_path / "record.md").read_text("utf-8")
    again = studio("statement", "North", "--out", str(tmp_path / "record.md"))
    assert again.code == 1 and "exists already" in again.err


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["nothing"], "No object is called so"),
        (["Sea chart", "--object", "west"], "is not an object"),
        (["e"], "fits several"),
    ],
)
def test_what_cannot_be_found_is_told_with_what_there_is(studio: Any, words: list[str], message: str) -> None:
    ran = studio("statement", *words)
    assert ran.code == 2 and message in ran.err


def test_what_was_withdrawn_since_is_told(studio: Any) -> None:
    """The powder was recalled; the jar holds some of it."""
    bathed(studio)
    assert "Withdrawn since then" not in studio("statement", "North").out
    studio.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled")
    said = studio.json("statement", "North")
    assert "recalled" in said["materials"][0]["withdrawn"] and "L001W" in said["solutions"][0]["withdrawn"]
    assert "Withdrawn since then" in studio("statement", "North").out


def test_a_bath_that_was_changed_since_is_told_as_it_was_then(studio: Any, tmp_path: Path) -> None:
    """The treatment names the bath; the bath's next version waits longer and is of another size."""
    bath = RINSE + '[[step]]\nwords = "Rinse in {tap-water}."\nwait = "10 min"\n'
    whole = '[recipe]\nkey = "rinse-all"\nname = "Rinse all"\nkind = "treatment"\n[[line]]\nrecipe = "rinse"\n'
    for text in (bath, whole):
        (tmp_path / "new.toml").write_text(text)
        studio.json("recipe", "new", "--from", str(tmp_path / "new.toml"))
    studio.on("2026-11-06T10:00", "use", "rinse-all", "--job", "Ferns", "--tested", "AB")
    before = studio.json("statement", "Ferns")["treatments"]
    assert before[0]["fill"]["amount"] == "1000" and before[0]["waits"] == [["10 min", "Rinse in Tap water."]]
    (tmp_path / "new.toml").write_text(bath.replace("10 min", "40 min").replace("1 L", "3 L"))
    studio.json("recipe", "import", str(tmp_path / "new.toml"), "--yes")
    assert studio.json("statement", "Ferns")["treatments"] == before
