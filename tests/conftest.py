"""What every test can ask for: a stockroom of its own, and the command line run inside this process."""

from __future__ import annotations

import io
import json
import shutil
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import settings

from stockroom.actions.beginning import begin
from stockroom.cli.main import run_for_code
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store, open_store

settings.register_profile("stockroom", deadline=None)
settings.load_profile("stockroom")

ZONE = ZoneInfo("Europe/Berlin")
"""The zone of every stockroom in the tests, so that local days and UTC differ."""


@pytest.fixture(autouse=True)
def _own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep each test away from the person's own settings, stockroom and notes."""
    for name in ("STOCKROOM_DB", "STOCKROOM_SETTINGS", "TZ", "NO_COLOR", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    for name in ("DATA", "CONFIG", "STATE", "CACHE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / "home" / name.lower()))


@pytest.fixture(scope="session")
def starter_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A stockroom just begun: starter materials and recipes, one person AB, EUR, Europe/Berlin. Never written to."""
    path = tmp_path_factory.mktemp("begun") / "starter.db"
    begin(path, initials="AB", name="A. Bauer", currency="EUR", time_zone=ZONE.key)
    return path


@pytest.fixture(scope="session")
def new_store(starter_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[], Store]]:
    """Call it for a fresh stockroom; for properties, where each example needs its own."""
    opened: list[Store] = []

    def make() -> Store:
        path = tmp_path_factory.mktemp("fresh") / "stockroom.db"
        shutil.copy(starter_file, path)
        opened.append(open_store(path))
        return opened[-1]

    yield make
    for store in opened:
        store.close()


@pytest.fixture
def store(starter_file: Path, tmp_path: Path) -> Iterator[Store]:
    """A fresh stockroom of this test's own."""
    path = tmp_path / "stockroom.db"
    shutil.copy(starter_file, path)
    with open_store(path) as opened:
        yield opened


@pytest.fixture
def occasion() -> Callable[..., Occasion]:
    """Call it for an occasion: AB at a local time, by default 25 November 2026, 14:10."""

    def make(
        at: str = "2026-11-25T14:10", *, now: str | None = None, by: str = "AB", why: str | None = None
    ) -> Occasion:
        moment = _moment(at)
        return Occasion(by=by, now=_moment(now) if now else moment, at=moment, zone=ZONE, reason=why or None)

    return make


def _moment(text: str) -> datetime:
    """Read `2026-11-25` (noon) or `2026-11-25T14:10`, local time."""
    local = datetime.fromisoformat(text if "T" in text else f"{text}T12:00").replace(tzinfo=ZONE)
    return local.astimezone(UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ran:
    """How a run of the command line ended."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> dict[str, Any]:
        """The one document on stdout; anything else there fails the test."""
        document: dict[str, Any] = json.loads(self.out)
        return document


class CommandLine:
    """Runs the command line inside this process on one stockroom file."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __call__(self, *arguments: str) -> Ran:
        """Run it with these arguments after --db; a fault in the program itself fails the test."""
        out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True) for _ in range(2))
        with redirect_stdout(out), redirect_stderr(err):
            code = run_for_code(["--db", str(self.path), *arguments])
        ran = Ran(code=int(code), out=_written(out), err=_written(err))
        if "wrong in the program itself" in ran.err:
            pytest.fail(f"stockroom {' '.join(arguments)}\n{ran.err}\n{_fault()}")
        return ran

    def json(self, *arguments: str, code: int = 0) -> dict[str, Any]:
        """Run it with --json, and return its document; ending with another code fails the test."""
        ran = self("--json", *arguments)
        assert ran.code == code, f"stockroom {' '.join(arguments)} ended with {ran.code}: {ran.err}{ran.out}"
        return ran.json

    def on(self, at: str, *arguments: str, code: int = 0) -> dict[str, Any]:
        """Do the same as if it were another day or moment."""
        return self.json("--on", at, *arguments, code=code)


def _written(stream: io.TextIOWrapper) -> str:
    return stream.buffer.getvalue().decode("utf-8")  # type: ignore[attr-defined, no-any-return]


def _fault() -> str:
    from stockroom.paths import state_folder

    return "\n".join(path.read_text("utf-8") for path in state_folder().glob("fault-*.txt"))


@pytest.fixture
def stockroom(store: Store) -> CommandLine:
    """The command line on this test's stockroom: `stockroom("shelf").out`, `stockroom.json("shelf")["lots"]`."""
    return CommandLine(store.path)


@pytest.fixture
def command_line() -> Callable[[Path], CommandLine]:
    """Call it with a path for a command line on another file, such as one that is not there yet."""
    return CommandLine
