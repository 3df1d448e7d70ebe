"""Recipe files, tables and settings, spoilt in every way: a clear message or a result; refusing changes nothing."""

from __future__ import annotations

import csv
import io
from hashlib import sha256
from importlib.resources import files
from pathlib import Path

import pytest
from conftest import CommandLine
from fuzz.conftest import promptly
from fuzz.hostile import HOSTILE, PLAUSIBLE
from hypothesis import given, settings
from hypothesis import strategies as st

RECIPES = sorted(
    (path for path in files("stockroom").joinpath("starter/recipes").iterdir() if path.name.endswith(".toml")),
    key=lambda path: path.name,
)
SETTINGS = 'by = "AM"\ndatabase = "x.db"\nlabel_size = "74 x 52 mm"\nlabel_dpi = 300\nlabel_symbol = "code"\n'

literals = st.one_of(
    st.sampled_from(["", "1", "-1", "1e400", "nan", "true", "[]", "[[]]", "{}", "2026-11-25", "1979-05-27T07:32:00Z"]),
    st.sampled_from(["'''", '"', "[1, 2", "{ a = ", "\\", "= 3"]),
    st.integers().map(str),
    st.sampled_from(HOSTILE + PLAUSIBLE).map(lambda text: "'" + text.replace("'", "") + "'"),
    st.sampled_from(HOSTILE),
)
"""What may stand after an equals sign, in TOML or not."""


@st.composite
def spoilt(draw: st.DrawFn, text: str) -> bytes:
    """Spoil a file: values changed, lines left out, doubled or put elsewhere, cut off, or bytes that are no text."""
    lines = text.splitlines()
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        name, equals, _ = lines[at].partition("=")
        match draw(st.integers(0, 5)):
            case 0 | 1 if equals:
                lines[at] = f"{name}= {draw(literals)}"
            case 2:
                lines[at] = ""
            case 3:
                lines.insert(draw(st.integers(0, len(lines))), lines[at])
            case 4:
                lines[at] = lines[at].replace(name.strip() or "=", draw(st.sampled_from(["", "x", "lines", "key"])), 1)
            case _:
                lines[at] = draw(
                    st.sampled_from(["[", "[[line]]", "[line]", "[check]", "a.b = 1", "\ufeff", "key = 1"])
                )
    spoilt_text = "\n".join(lines).encode("utf-8", "surrogatepass")
    return (
        spoilt_text[: draw(st.integers(0, len(spoilt_text)))]
        if draw(st.integers(0, 9)) == 0
        else (spoilt_text + draw(st.sampled_from([b"", b"", b"", b"\xff", b"\x00", b"\r\n"])))
    )


@pytest.mark.parametrize("recipe", RECIPES, ids=lambda path: path.name)
def test_a_spoilt_recipe_file_is_answered(recipe: Path, studio: CommandLine) -> None:
    key = recipe.name.removesuffix(".toml")
    ways = [["edit", key, "--why", "test"], ["new"]]

    @settings(settings.get_profile("fuzz"))
    @given(spoilt(recipe.read_text("utf-8")), st.sampled_from(ways))
    def tried(content: bytes, words: list[str]) -> None:
        Path("recipe.toml").write_bytes(
            content if words[0] == "edit" else content.replace(b'key = "', b'key = "new-', 1)
        )
        before = sha256(studio.path.read_bytes()).digest()
        ran = promptly(lambda: studio("--by", "AM", "recipe", *words, "--from", "recipe.toml"))
        assert ran.code in (0, 1, 2), ran.err
        if ran.code:
            assert ran.err.strip()
            assert sha256(studio.path.read_bytes()).digest() == before
        else:  # what is kept can be shown and read again
            assert studio("recipe", "show", key).code == 0
            exported = studio("recipe", "export", key)
            Path("again.toml").write_text(exported.out, "utf-8")
            assert studio("--by", "AM", "recipe", "edit", key, "--from", "again.toml", "--why", "same").code == 0

    tried()
    assert studio.json("verify")["problems"] == []


def test_spoilt_settings_are_answered(studio: CommandLine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "settings.toml"
    monkeypatch.setenv("STOCKROOM_SETTINGS", str(path))

    @settings(settings.get_profile("fuzz"), max_examples=20 * settings.get_profile("fuzz").max_examples)
    @given(spoilt(SETTINGS))
    def tried(content: bytes) -> None:
        path.write_bytes(content)
        before = sha256(studio.path.read_bytes()).digest()
        for words in (["take", "L001W", "1 g", "--why", "test"], ["label", "L001W"]):
            ran = promptly(lambda words=words: studio("--on", "2026-11-25T14:10", *words, "--dry-run"))  # type: ignore[misc]
            assert ran.code in (0, 1, 2), ran.err
            assert ran.code == 0 or ran.err.strip()
        assert sha256(studio.path.read_bytes()).digest() == before

    tried()


@pytest.mark.parametrize("kind", ["materials", "suppliers", "places", "people", "offers", "lots", "counts"])
def test_a_spoilt_table_is_answered(kind: str, studio: CommandLine) -> None:
    assert studio("import", "--template", kind, "--out", "template.csv").code == 0
    heading, _, example = Path("template.csv").read_text("utf-8").splitlines()
    cells = st.sampled_from(HOSTILE + PLAUSIBLE) | st.text(max_size=30)

    @settings(settings.get_profile("fuzz"), max_examples=10 * settings.get_profile("fuzz").max_examples)
    @given(st.data())
    def tried(data: st.DataObject) -> None:
        names, given_cells = (next(csv.reader([line])) for line in (heading, example))
        rows = [names, ["", *given_cells[1:]]] if names[0] == "#" else [names, given_cells]
        for _ in range(data.draw(st.integers(1, 4))):
            row = data.draw(st.sampled_from([1, 1, 1, 0]))
            rows[row][data.draw(st.integers(0, len(names) - 1))] = data.draw(cells)
        written = io.StringIO()
        csv.writer(written).writerows(rows)
        Path("table.csv").write_bytes(written.getvalue().encode("utf-8", "surrogatepass"))
        before = sha256(studio.path.read_bytes()).digest()
        ran = promptly(lambda: studio("--by", "AM", "--on", "2026-11-25T14:10", "import", "table.csv", "--as", kind))
        assert ran.code in (0, 1, 2), ran.err
        if ran.code:
            assert ran.err.strip()
            assert sha256(studio.path.read_bytes()).digest() == before

    tried()
    assert studio.json("verify")["problems"] == []
