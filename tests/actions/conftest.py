"""A bench for every test of what people do."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from builders import Bench, NewBench

from stockroom.store.open import Store, open_store


@pytest.fixture
def bench(store: Store) -> Bench:
    """A stockroom told in sentences; see builders."""
    return Bench(store)


@pytest.fixture(scope="session")
def new_bench(starter_file: Path, tmp_path_factory: pytest.TempPathFactory) -> NewBench:
    """Call it in a `with` for an empty bench, as often as a property needs one."""

    path = tmp_path_factory.mktemp("laws") / "law.db"

    @contextmanager
    def make() -> Iterator[Bench]:
        shutil.copy(starter_file, path)
        with open_store(path) as store:
            store.connection.execute("PRAGMA synchronous = OFF")  # the laws do not hang on the disk
            yield Bench(store)

    return make
