"""A bench for every test of what people do."""

from __future__ import annotations

import pytest
from builders import Bench

from stockroom.store.open import Store


@pytest.fixture
def bench(store: Store) -> Bench:
    """A stockroom told in sentences; see builders."""
    return Bench(store)
