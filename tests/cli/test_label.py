"""`label`: what it writes, prints, keeps and says."""

from __future__ import annotations

import stat
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from conftest import CommandLine
from pdf_pages import words_on

from stockroom.store.labels import labels_made
from stockroom.store.lots import find_lot
from stockroom.store.open import Store

BEFORE, AFTER = "2026-11-25T14:10", "2026-12-20T10:00"


@pytest.fixture
def jar(stockroom: CommandLine) -> str:
    """A jar of saturated calcium hydroxide solution, settled by AFTER."""
    stockroom.json("--on", BEFORE, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    return str(stockroom.json("--on", BEFORE, "make", "calcium-hydroxide-saturated", "1 L")["code"])


def check(stockroom: CommandLine, jar: str) -> str:
    readings = ("--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.8 mL", "--temperature", "22")
    ran = stockroom("--on", AFTER, "check", jar, "titration", *readings)
    assert ran.code == 0
    return ran.out


def test_a_jars_label_says_what_the_rules_ask_for(stockroom: CommandLine, jar: str, tmp_path: Path) -> None:
    """21 CFR 58.83: identity, concentration, storage, expiry; WHO TRS 957 Annex 1, 10.5: made on, by whom, re-test."""
    stockroom.json("--on", BEFORE, "label", jar, "--out", str(tmp_path / "a.pdf"))
    words = words_on(tmp_path / "a.pdf")
    for text in (
        "Calcium hydroxide solution",
        "About 1.6 g/L (saturated)",
        "storage: well filled and tightly closed",
        "check by 2026-12-25",
        "made 2026-11-25",
        "by AB",
        "Danger",
        "H318",
        "P280",
        "opened",
        "checked",
        jar,
    ):
        assert text in words
    assert "place" not in words


def test_a_bought_bottle_says_received_and_opened_and_a_month_means_its_last_day(
    stockroom: CommandLine, tmp_path: Path
) -> None:
    """WHO TRS 957 Annex 1, 10.5: received and opened. A month alone is its last day (common practice, no source)."""
    code = stockroom.json(
        "--on", BEFORE, "receive", "ethanol", "1 L", "--cost", "9", "--use-by", "2028-02", "--place", "shelf"
    )["code"]
    stockroom.json("--on", BEFORE, "label", code, "--out", str(tmp_path / "a.pdf"))
    assert "use by 2028-02-29" in words_on(tmp_path / "a.pdf")
    assert "received 2026-11-25" in words_on(tmp_path / "a.pdf")
    stockroom.json("--on", AFTER, "open", code)
    stockroom.json("--on", AFTER, "label", code, "--place", "--out", str(tmp_path / "b.pdf"))
    assert "opened 2026-12-20" in words_on(tmp_path / "b.pdf")
    assert "place: shelf" in words_on(tmp_path / "b.pdf")


def test_every_label_made_is_kept_with_what_it_said(
    stockroom: CommandLine, jar: str, store: Store, tmp_path: Path
) -> None:
    stockroom.json("--on", BEFORE, "label", jar)  # in the terminal nothing is made
    stockroom.json("--by", "AB", "--on", BEFORE, "label", jar, "--copies", "2", "--out", str(tmp_path / "a.pdf"))
    (made,) = labels_made(store, find_lot(store, jar).id)
    assert (made.day, made.initials, made.copies, made.way) == ("2026-11-25", "AB", 2, "file")
    assert made.said["use_by"] == "2026-12-25"
    assert len(pypdfium2.PdfDocument((tmp_path / "a.pdf").read_bytes())) == 2


def test_a_label_made_before_a_check_is_named_and_the_new_one_shows_the_new_day(
    stockroom: CommandLine, jar: str, tmp_path: Path
) -> None:
    stockroom.json("--on", BEFORE, "label", jar, "--out", str(tmp_path / "a.pdf"))
    assert stockroom.json("--on", BEFORE, "label", "--out-of-date")["payloads"] == []
    assert "before the check of 2026-12-20, is out of date" in check(stockroom, jar)
    said = stockroom("--on", AFTER, "label", jar, "--out", str(tmp_path / "b.pdf"))
    assert f"the label of {jar} made on 2026-11-25, before the check of 2026-12-20, is out of date" in said.out
    assert "check by 2026-12-25 → 2027-01-20" in said.out
    assert "check by 2027-01-20" in words_on(tmp_path / "b.pdf")
    assert "out of date" not in stockroom("--on", AFTER, "label", jar, "--out", str(tmp_path / "c.pdf")).out


def test_all_labels_out_of_date_are_printed_at_once(stockroom: CommandLine, jar: str, tmp_path: Path) -> None:
    stockroom.json("--on", BEFORE, "label", jar, "--out", str(tmp_path / "a.pdf"))
    stockroom.json("--on", AFTER, "top-up", jar, "50 mL")
    document = stockroom.json("--on", AFTER, "label", "--out-of-date", "--out", str(tmp_path / "b.pdf"))
    assert document["payloads"] == [jar]
    assert document["replaces"][0]["made_on"] == "2026-11-25"
    assert "topped up 2026-12-20" in words_on(tmp_path / "b.pdf")
    assert stockroom("--on", AFTER, "label", "--out-of-date").out == "No label on the shelf is out of date.\n"


@pytest.fixture
def queue(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Path]:
    """Call it with a shell line to put a printer queue of that behaviour on the path; returns what it was asked."""

    def make(line: str) -> Path:
        folder = tmp_path / "bin"
        folder.mkdir(exist_ok=True)
        asked = tmp_path / "asked"
        script = folder / "lp"
        script.write_text(f'#!/bin/sh\necho "$@" > {asked}\n{line}\n')
        script.chmod(script.stat().st_mode | stat.S_IXUSR)
        monkeypatch.setenv("PATH", f"{folder}:/bin:/usr/bin")
        return asked

    return make


def test_printing_shows_what_the_queue_answers(
    stockroom: CommandLine, jar: str, store: Store, queue: Callable[[str], Path], tmp_path: Path
) -> None:
    asked = queue("echo 'request id is labels-7 (1 file(s))'")
    said = stockroom("label", jar, "--print", "labels")
    assert said.out.startswith("Printed: request id is labels-7")
    assert "-o print-scaling=none -o media=Custom.74x52mm -d labels -- " in asked.read_text()
    assert stockroom.json("label", "--print", jar)["payload"] == jar  # no printer named: the system's own
    assert "-d" not in asked.read_text().split()
    assert [made.way for made in labels_made(store, find_lot(store, jar).id)] == ["printer", "printer"]
    both = stockroom.json("label", jar, "--print", "--out", str(tmp_path / "a.pdf"))
    assert (both["files"], both["printed"]) == ([str(tmp_path / "a.pdf")], "request id is labels-7 (1 file(s))")
    assert len(labels_made(store, find_lot(store, jar).id)) == 3


def test_a_queue_that_does_not_take_it_is_told_and_nothing_is_counted(
    stockroom: CommandLine, jar: str, store: Store, queue: Callable[[str], Path]
) -> None:
    queue("echo 'lp: The printer or class does not exist.' >&2; exit 1")
    failed = stockroom("label", jar, "--print", "nowhere")
    assert (failed.code, "The printer or class does not exist" in failed.err) == (1, True)
    assert labels_made(store, find_lot(store, jar).id) == []


def test_without_a_queue_the_file_is_written(
    stockroom: CommandLine, jar: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    said = stockroom("label", jar, "--print")
    assert (said.code, f"Written: label-{jar}.pdf" in said.out, "no lp command" in said.err) == (0, True, True)
    assert (tmp_path / f"label-{jar}.pdf").exists()


def test_a_label_too_small_for_its_pictograms_can_go_without_them_when_asked(
    stockroom: CommandLine, jar: str, tmp_path: Path
) -> None:
    out = str(tmp_path / "a.png")
    failed = stockroom("label", jar, "--size", "34 x 40 mm", "--out", out)
    assert (failed.code, "pictograms" in failed.err) == (1, True)
    document = stockroom.json("label", jar, "--size", "34 x 40 mm", "--no-pictograms", "--out", out)
    assert f"{jar}: pictograms GHS05, as asked: signal word and statements stay" in document["dropped"]
    assert any("52 x 74 mm if possible" in words for words in document["warnings"])


def test_a_small_jar_may_go_without_skin_irritation_but_not_eye_damage(stockroom: CommandLine, tmp_path: Path) -> None:
    """CLP Annex I, 1.5.2: up to 125 mL, the words of H315; a larger jar keeps them or is refused."""
    stockroom.json("--on", BEFORE, "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    small, large = (
        stockroom.json("--on", BEFORE, "make", "calcium-hydroxide-saturated", quantity)["code"]
        for quantity in ("125 mL", "126 mL")
    )
    out = tmp_path / "a.pdf"

    def least_height(code: str) -> int:
        failed = stockroom.json("--on", BEFORE, "label", code, "--size", "40 x 20 mm", "--out", str(out), code=1)
        return int(failed["error"]["details"]["least_height_mm"])

    assert least_height(small) < least_height(large)
    size = f"40 x {least_height(small)} mm"
    document = stockroom.json("--on", BEFORE, "label", small, "--size", size, "--out", str(out))
    assert f"{small}: H315" in document["dropped"]
    assert "H318" in words_on(out) and "H315" not in words_on(out)
    assert stockroom("--on", BEFORE, "label", large, "--size", size, "--out", str(out)).code == 1


def test_a_waste_can_says_what_is_in_it_and_warns_of_it(stockroom: CommandLine, tmp_path: Path) -> None:
    ethanol = stockroom.json("--on", BEFORE, "receive", "ethanol", "1 L", "--cost", "9")["code"]
    can = stockroom.json("--on", BEFORE, "waste-can", "new", "Alcohol waste", "--capacity", "5 L")["code"]
    stockroom.json("--on", BEFORE, "discard", ethanol, "100 mL", "--to", can, "--why", "swabs")
    stockroom.json("--on", BEFORE, "label", can, "--out", str(tmp_path / "can.pdf"))
    words = words_on(tmp_path / "can.pdf")
    assert "Alcohol waste" in words and "H225" in words and "checked" not in words


def test_what_is_left_of_a_bath_says_what_it_was_mixed_as_and_until_when(
    stockroom: CommandLine, jar: str, tmp_path: Path
) -> None:
    """Mixed as so much, strength not known since; its clock time is the largest text where its life is in hours."""
    job = stockroom.json("job", "new", "Sea chart", "--object", "North sheet, 65 x 48 cm")["code"]
    use = ("use", "calcium-hydroxide-1-in-4", "--job", job, "--qty", "400 mL")
    action = stockroom.json("--on", AFTER, *use)["action"]
    kept = stockroom.json("--on", AFTER, "bring-back", action, "100 mL")["code"]
    stockroom.json("--on", AFTER, "label", kept, "--out", str(tmp_path / "a.pdf"))
    words = words_on(tmp_path / "a.pdf")
    assert "not known since" in words and kept in words


def test_the_solvent_is_named_where_it_is_not_water(stockroom: CommandLine, jar: str, tmp_path: Path) -> None:
    """ISO/IEC 17025 accreditation guidance for chemistry: solvent when not water (secondary, see the reference)."""
    stockroom.json("label", jar, "--out", str(tmp_path / "water.pdf"))
    assert "in Deionised water" not in words_on(tmp_path / "water.pdf")
    stockroom.json("material", "new", "Test resin", "--measured-by", "mass")
    stockroom.json("material", "new", "Test resin solution", "--measured-by", "volume")
    file = tmp_path / "recipe.toml"
    file.write_text(
        '[recipe]\nkey = "resin"\nname = "Resin"\nkind = "stock"\nmakes = "test-resin-solution"\nbatch = "100 mL"\n'
        '[[line]]\nmaterial = "test-resin"\namount = "5 % w/v"\n'
        '[[line]]\nmaterial = "ethanol"\namount = "make up"\n'
    )
    stockroom.json("recipe", "new", "--from", str(file))
    stockroom.json("receive", "test-resin", "100 g", "--cost", "9")
    stockroom.json("receive", "ethanol", "1 L", "--cost", "9")
    code = stockroom.json("make", "resin", "100 mL")["code"]
    stockroom.json("label", code, "--out", str(tmp_path / "a.pdf"))
    assert "in Ethanol" in words_on(tmp_path / "a.pdf")


def test_a_label_without_pictograms_is_not_out_of_date_for_that(
    stockroom: CommandLine, jar: str, tmp_path: Path
) -> None:
    stockroom.json("--on", BEFORE, "label", jar, "--no-pictograms", "--out", str(tmp_path / "a.pdf"))
    assert "label_out_of_date" not in stockroom.json("--on", BEFORE, "scan", jar)


def test_the_symbol_may_hold_words_by_the_settings(
    stockroom: CommandLine, jar: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings = tmp_path / "settings.toml"
    monkeypatch.setenv("STOCKROOM_SETTINGS", str(settings))
    settings.write_text('label_symbol = "code and words"')
    document = stockroom.json("--on", BEFORE, "label", jar, "--out", str(tmp_path / "a.png"))
    assert document["payload"].startswith(f"{jar} Calcium hydroxide solution")
    assert stockroom.json("scan", str(tmp_path / "a.png"))["code"] == jar
    settings.write_text('label_symbol = "everything"')
    assert stockroom("label", jar, "--out", str(tmp_path / "a.png")).code == 2


def test_no_code_and_a_code_that_is_none_are_told(stockroom: CommandLine) -> None:
    assert (stockroom("label").code, stockroom("label", "L001X").code) == (2, 2)
