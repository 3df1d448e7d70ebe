"""`scan` and `card`: what a typed code, a photograph or a half-read code finds."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pypdfium2
import pytest
from conftest import CommandLine
from pdf_pages import words_on
from PIL import Image, ImageFilter

BEFORE, AFTER = "2026-11-25T14:10", "2026-12-20T10:00"


@pytest.fixture
def jars(stockroom: CommandLine) -> list[str]:
    """Two jars of saturated calcium hydroxide solution."""
    stockroom.json("--on", BEFORE, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50", "--place", "shelf")
    made = ("make", "calcium-hydroxide-saturated", "2 L", "--into", "2 x 1 L", "--place", "cupboard")
    for place in ("shelf", "cupboard"):
        stockroom("place", "new", place)
    return list(stockroom.json("--on", BEFORE, *made)["codes"])


@pytest.fixture(autouse=True)
def _places(stockroom: CommandLine) -> None:
    for place in ("shelf", "cupboard"):
        stockroom("place", "new", place)


def photograph(stockroom: CommandLine, code: str, path: Path, dpi: str = "300") -> Image.Image:
    stockroom.json("--on", BEFORE, "label", code, "--dpi", dpi, "--out", str(path))
    with Image.open(path) as drawn:
        return drawn.convert("L")


def test_text_after_the_code_and_small_letters_are_forgiven(stockroom: CommandLine, jars: list[str]) -> None:
    """A hand scanner types the whole line; what follows the code is ignored."""
    document = stockroom.json("scan", f"{jars[0].lower()} Calcium hydroxide solution, About 1.6 g/L")
    assert (document["code"], document["labels_made"]) == (jars[0], 0)


def test_a_wrong_check_character_is_told_at_once(stockroom: CommandLine, jars: list[str]) -> None:
    wrong = jars[0][:-1] + ("A" if jars[0][-1] != "A" else "C")
    failed = stockroom("scan", wrong)
    assert (failed.code, "one character is wrong" in failed.err) == (2, True)


def test_the_label_of_an_emptied_jar_says_to_take_it_off(stockroom: CommandLine, jars: list[str]) -> None:
    stockroom.json("--on", AFTER, "discard", jars[0], "--why", "spilled")
    said = stockroom("--on", AFTER, "scan", jars[0]).out
    assert "emptied on 2026-12-20" in said and "Take this label off" in said


def test_an_older_label_asks_whether_to_reprint(stockroom: CommandLine, jars: list[str], tmp_path: Path) -> None:
    photograph(stockroom, jars[0], tmp_path / "a.png")
    assert "label_out_of_date" not in stockroom.json("--on", BEFORE, "scan", jars[0])
    stockroom.json("--on", AFTER, "top-up", jars[0], "20 mL")
    said = stockroom("--on", AFTER, "scan", jars[0]).out
    assert "before the topping up of 2026-12-20" in said and "Reprint?" in said


def test_a_photograph_names_the_lot_even_blurred_and_small(
    stockroom: CommandLine, jars: list[str], tmp_path: Path
) -> None:
    """Half a module of blur is read at the second try, larger and sharpened."""
    sharp = photograph(stockroom, jars[0], tmp_path / "a.png")
    assert stockroom.json("scan", str(tmp_path / "a.png"))["code"] == jars[0]
    symbol = sharp.crop((sharp.width - 260, 0, sharp.width, 260))
    small = symbol.resize((78, 78), Image.Resampling.BOX).filter(ImageFilter.GaussianBlur(0.9))
    small.save(tmp_path / "b.jpg", quality=90)
    assert stockroom.json("scan", str(tmp_path / "b.jpg"))["code"] == jars[0]
    turned = Image.new("L", (900, 1600), 90)
    turned.paste(sharp.rotate(90, expand=True).resize((sharp.height // 2, sharp.width // 2)), (200, 400))
    turned.save(tmp_path / "c.webp")
    assert stockroom.json("scan", str(tmp_path / "c.webp"))["code"] == jars[0]


def test_a_photograph_of_a_shelf_names_every_label_on_it(
    stockroom: CommandLine, jars: list[str], tmp_path: Path
) -> None:
    one, other = (photograph(stockroom, code, tmp_path / f"{code}.png") for code in jars)
    shelf = Image.new("L", (one.width + 40, 2 * one.height + 80), 128)
    shelf.paste(one, (20, 20))
    shelf.paste(other, (20, one.height + 60))
    shelf.save(tmp_path / "shelf.png")
    document = stockroom.json("scan", str(tmp_path / "shelf.png"))
    assert document["codes"] == jars
    assert [found["name"] for found in document["found"]] == ["Calcium hydroxide solution"] * 2


def test_what_is_no_photograph_of_a_label_is_told(
    stockroom: CommandLine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Image.new("L", (300, 300), 200).save(tmp_path / "empty.png")
    (tmp_path / "text.png").write_text("no picture")
    for name, words in (
        ("empty.png", "No symbol"),
        ("text.png", "cannot be opened as a picture"),
        ("none.png", "no picture"),
    ):
        failed = stockroom("scan", str(tmp_path / name))
        assert (failed.code, words in failed.err) == (2, True), failed.err
    monkeypatch.setitem(sys.modules, "zxingcpp", None)
    failed = stockroom("scan", str(tmp_path / "empty.png"))
    assert (failed.code, "stockroom[scanning]" in failed.err) == (1, True)


def test_a_job_is_named_too(stockroom: CommandLine) -> None:
    code = stockroom.json("job", "new", "Sea chart")["code"]
    assert stockroom.json("scan", code)["title"] == "Sea chart"


def read_card(path: Path) -> tuple[str, Image.Image]:
    document = pypdfium2.PdfDocument(path.read_bytes())
    words = words_on(path)
    picture = document[0].render(scale=3).to_pil()
    document.close()
    return words, picture


def test_a_bench_card_has_steps_amounts_boxes_and_a_code_that_names_it(stockroom: CommandLine, tmp_path: Path) -> None:
    """Weighed, time, temperature, lot and initials stay empty; the code tells recipe and amount again."""
    card = stockroom.json("card", "calcium-hydroxide-saturated", "2 L", "--out", str(tmp_path / "card.pdf"))
    words, picture = read_card(tmp_path / "card.pdf")
    for text in ("2 L", "Weigh 6 g of Calcium hydroxide", "6 g", "planned", "weighed", "lot", "temperature"):
        assert text in words
    assert "Eye protection" in words and "initials" in words and "begun at" in words
    picture.save(tmp_path / "card.png")
    found = stockroom.json("scan", str(tmp_path / "card.png"))
    assert (found["code"], found["kind"], found["recipe"], found["quantity"]) == (
        card["code"],
        "card",
        "calcium-hydroxide-saturated",
        "2 L",
    )
    assert "2 L of Calcium hydroxide solution" in stockroom("scan", card["code"]).out


def test_a_filled_in_card_is_copied_into_a_making_by_its_code(stockroom: CommandLine, tmp_path: Path) -> None:
    stockroom.json("--on", BEFORE, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    out = str(tmp_path / "card.pdf")
    code = stockroom.json("card", "calcium-hydroxide-saturated", "2 L", "--out", out)["code"]
    made = stockroom.json("--on", BEFORE, "make", "--card", code.lower(), "--took", "calcium-hydroxide=6.2 g")
    assert (made["recipe"], made["amount"], made["drawn"][0]["amount"]) == (
        "calcium-hydroxide-saturated",
        "2000",
        "6.2",
    )
    for arguments in ((), ("calcium-hydroxide-saturated", "--card", code), ("--card", "L001W")):
        assert stockroom("make", *arguments).code == 2


def test_each_card_has_a_code_of_its_own_and_one_of_an_older_version_says_so(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    out = str(tmp_path / "card.pdf")
    one, other = (stockroom.json("card", "wheat-starch-paste", "--out", out)["code"] for _ in range(2))
    assert one != other
    assert stockroom.json("scan", one)["out_of_date"] is False
    file = tmp_path / "recipe.toml"
    file.write_text(stockroom("recipe", "export", "wheat-starch-paste").out.replace("7 days", "6 days"))
    stockroom.json("recipe", "edit", "wheat-starch-paste", "--from", str(file), "--why", "clearer")
    assert stockroom.json("scan", one)["out_of_date"] is True
    assert "version 2 now: print a new card" in stockroom("scan", other).out


def test_every_starter_stock_and_bath_has_a_card(stockroom: CommandLine, tmp_path: Path) -> None:
    """One page each, with every ingredient named."""
    for recipe in stockroom.json("recipe", "list")["recipes"]:
        if recipe["kind"] == "treatment":
            continue
        stockroom.json("card", recipe["key"], "--out", str(tmp_path / "card.pdf"))
        words, _ = read_card(tmp_path / "card.pdf")
        lines = stockroom.json("recipe", "show", recipe["key"])["lines"]
        assert words.count("planned") == 1 and len(lines) >= 1
        assert recipe["name"].split()[0] in words


def test_a_card_that_cannot_be_is_told(stockroom: CommandLine, tmp_path: Path) -> None:
    for arguments in (("facing",), ("no such recipe",), ("wheat-starch-paste", "a lot")):
        assert stockroom("card", *arguments, "--out", str(tmp_path / "card.pdf")).code == 2
    assert stockroom("card", "wheat-starch-paste", "--out", str(tmp_path / "card.png")).code == 2
    assert stockroom("card", "wheat-starch-paste", "--out", str(tmp_path / "none" / "card.pdf")).code == 1
    assert not list(tmp_path.glob("card*"))


def test_a_card_with_many_steps_goes_on_overleaf(tmp_path: Path) -> None:
    """Nothing runs over the foot of a page, and hostile words stay words."""
    from stockroom.labels.bench_card import BenchCard, CardLine, draw_card

    card = BenchCard(
        code="T001F",
        title="<b>paste</b> " * 20,
        amount="1 L",
        version=1,
        printed="2026-11-25",
        cautions=("مرحبا = 1+1",),
        lines=(CardLine(material="x" * 200, planned="about 1 g"),),
        steps=tuple(f"step {number} " + "and on " * 30 for number in range(1, 31)),
    )
    document = pypdfium2.PdfDocument(io.BytesIO(draw_card(card)))
    assert len(document) > 1
    words = words_on(draw_card(card))
    assert all(f"step {number} " in words for number in range(1, 31))
    for page in document:
        picture = page.render(scale=2).to_pil().convert("L").point(lambda grey: 255 if grey < 128 else 0)
        left, top, right, bottom = picture.getbbox()
        assert left > 15 and top > 8 and right < picture.width - 15 and bottom < picture.height - 15
