"""Run every benchmark, one after another: `python tests/bench/all.py`. The first time it builds a large stockroom."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

BENCHES = ("start", "first_paint", "posting", "growth", "screens", "planning", "labels", "symbols")


def main() -> None:
    failed = []
    for name in BENCHES:
        print(f"\n{name}", flush=True)
        if subprocess.run([sys.executable, str(Path(__file__).with_name(f"{name}.py"))], check=False).returncode:
            failed.append(name)
    if failed:
        raise SystemExit(f"did not come to an end: {', '.join(failed)}")


if __name__ == "__main__":
    main()
