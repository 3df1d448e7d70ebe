"""A label file appears whole or not at all, in the form its name says."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from stockroom.errors import BadInput, Refused
from stockroom.labels.content import LabelContent
from stockroom.labels.write import Form, write_label


@pytest.mark.parametrize(("name", "start"), [("a.pdf", b"%PDF-"), ("b.PNG", b"\x89PNG"), ("c.svg", b"<?xml")])
def test_the_suffix_says_the_form(jar: LabelContent, tmp_path: Path, name: str, start: bytes) -> None:
    """One file of that name and no other, replaced when written again."""
    (tmp_path / name).write_text("old")
    written = write_label([jar], tmp_path / name)
    assert written.files == (tmp_path / name,)
    assert written.dropped == ()
    assert (tmp_path / name).read_bytes().startswith(start)
    assert list(tmp_path.glob("*")) == [tmp_path / name] and not list(tmp_path.glob(".*"))


def test_size_and_resolution_are_passed_on(jar: LabelContent, tmp_path: Path) -> None:
    """A PNG of 50.8 x 76.2 mm at 200 dpi has 400 x 600 dots."""
    write_label([jar], tmp_path / "a.png", Form(size_mm=(50.8, 76.2), dpi=200))
    with Image.open(tmp_path / "a.png") as picture:
        assert picture.size == (400, 600)


def test_several_pictures_are_numbered(jar: LabelContent, tmp_path: Path) -> None:
    """So that they sort in order; a PDF takes them all."""
    labels = [jar] * 10
    files = write_label(labels, tmp_path / "jar.png").files
    assert [file.name for file in files] == [f"jar-{number:02}.png" for number in range(1, 11)]
    assert all(file.exists() for file in files)
    assert write_label(labels, tmp_path / "jar.pdf").files == (tmp_path / "jar.pdf",)


def test_what_was_dropped_names_its_label(jar: LabelContent, tmp_path: Path) -> None:
    """A person printing many knows which to look at."""
    long = replace(jar, code="L002U", note="n " * 500, precautions=("P280 Wear gloves. " * 30,))
    written = write_label([jar, long], tmp_path / "a.pdf")
    assert written.dropped == ("L002U: note", "L002U: P280")


@pytest.mark.parametrize("name", ["label", "label.doc", "label.pdf.txt", ".pdf"])
def test_an_unknown_suffix_is_named(jar: LabelContent, tmp_path: Path, name: str) -> None:
    """The message says which there are."""
    with pytest.raises(BadInput, match=r"\.pdf, \.png or \.svg"):
        write_label([jar], tmp_path / name)
    assert not list(tmp_path.iterdir())


def test_a_missing_folder_and_a_folder_as_target_are_named(jar: LabelContent, tmp_path: Path) -> None:
    """Neither is made or overwritten."""
    with pytest.raises(BadInput, match="There is no folder"):
        write_label([jar], tmp_path / "missing" / "a.pdf")
    (tmp_path / "folder.pdf").mkdir()
    with pytest.raises(BadInput, match="is a folder: add the name of a file"):
        write_label([jar], tmp_path / "folder.pdf")
    (tmp_path / "file").write_text("")
    with pytest.raises(BadInput, match="There is no folder"):
        write_label([jar], tmp_path / "file" / "a.pdf")


def test_a_place_that_cannot_be_written_is_refused_and_left_clean(
    jar: LabelContent, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An old file stays as it was, and nothing half-written lies beside it."""
    for name in (f"{'n' * 300}.pdf", "nothing\x00here.pdf"):
        with pytest.raises(Refused, match="cannot be written"):
            write_label([jar], tmp_path / name)
    (tmp_path / "a.pdf").write_text("old")

    def fail(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("os.replace", fail)
    with pytest.raises(Refused, match="permission denied"):
        write_label([jar], tmp_path / "a.pdf")
    assert [path.name for path in tmp_path.iterdir()] == ["a.pdf"]
    assert (tmp_path / "a.pdf").read_text() == "old"


def test_one_bad_label_writes_none(jar: LabelContent, tmp_path: Path) -> None:
    """All are drawn before the first file appears."""
    with pytest.raises(BadInput):
        write_label([jar, replace(jar, code="L001X")], tmp_path / "a.png")
    with pytest.raises(BadInput, match="no label to write"):
        write_label([], tmp_path / "a.pdf")
    assert not list(tmp_path.iterdir())


def test_drawing_libraries_are_loaded_late() -> None:
    """Importing the labels loads neither the symbol, PDF, picture nor font library."""
    program = (
        "import sys, stockroom.labels.write, stockroom.labels.terminal, stockroom.labels.pdf, stockroom.labels.png\n"
        "print(sorted({'qrcode', 'reportlab', 'PIL', 'fontpkg', 'stdnum'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
