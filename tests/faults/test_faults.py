"""What goes wrong on a real machine loses nothing: the shortened form of `python tests/faults/run.py --long`."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that can be killed")
RUN = Path(__file__).with_name("run.py")


@pytest.mark.parametrize("fault", ["kill", "fill", "forbid", "cut-off", "foreign", "spoil", "at-once", "clock"])
def test_nothing_is_lost(fault: str, tmp_path: Path) -> None:
    """Every acknowledged action is there, nothing is half done, the books prove, and the words say what happened."""
    ran = subprocess.run(
        [sys.executable, str(RUN), "--json", fault],
        capture_output=True,
        text=True,
        timeout=600,
        env={**os.environ, "TMPDIR": str(tmp_path)},
        check=False,
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    tried = [json.loads(line) for line in ran.stdout.splitlines()]
    assert sum(one["times"] for one in tried) > 0
    assert [one["lost"] for one in tried if one["lost"]] == []
