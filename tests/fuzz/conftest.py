"""How hard to try: a few examples of each as a rule; `STOCKROOM_FUZZ=400 python -m pytest tests/fuzz` tries long."""

from __future__ import annotations

import os
import shutil
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from types import FrameType

import pytest
from conftest import CommandLine, Ran
from hypothesis import HealthCheck, settings

from demo_db.build import build_demo

EXAMPLES = int(os.environ.get("STOCKROOM_FUZZ", "3"))
MOST_SECONDS = 20.0 if EXAMPLES == 3 else 2.0
"""CPU time that a command may take before it counts as hanging; what loads for the first time gets a second try."""
NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)

settings.register_profile(
    "fuzz",
    deadline=None,
    max_examples=EXAMPLES,
    derandomize=EXAMPLES == 3,  # the short form tries the same each time, so that it fails by what was changed
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


class Hangs(BaseException):
    """Raised in the middle of what takes too long; nothing in the program catches it."""


@contextmanager
def guarded() -> Iterator[None]:
    """Raise Hangs where the body takes more CPU time than it may."""

    def end(_signal: int, _frame: FrameType | None) -> None:
        raise Hangs

    before = signal.signal(signal.SIGPROF, end)
    signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def promptly(run: Callable[[], Ran]) -> Ran:
    """Run a command that must not hang."""
    try:
        with guarded():
            return run()
    except Hangs:
        with guarded():
            return run()


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo stockroom; never written to."""
    path = tmp_path_factory.mktemp("fuzz") / "demo.db"
    build_demo(path, NOW)
    return path


@pytest.fixture
def studio(demo_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CommandLine:
    """The command line on a copy of the demo, in a folder deep enough that `../..` stays inside this test's own."""
    work = tmp_path / "a" / "b" / "c" / "d"
    work.mkdir(parents=True)
    monkeypatch.chdir(work)
    path = tmp_path / "demo.db"
    shutil.copyfile(demo_file, path)
    return CommandLine(path)
