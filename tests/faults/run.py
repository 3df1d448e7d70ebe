"""Try what can go wrong on the real program, and print what was tried, how often, and what was lost.

    python tests/faults/run.py            a shortened form, as in the tests
    python tests/faults/run.py --long     the long form: 500 kills and hundreds of the rest

It needs a system with fork. A full disk is tried where a file system may be mounted (as root, or under `unshare -rm`);
rights are taken away from another user where it runs as root. Ends with 1 where anything was lost.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import asdict
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from faults import disk, files, killing, together  # noqa: E402
from faults.studio import Tried, begin, load  # noqa: E402

FAULTS: dict[str, tuple[Callable[[Path, Path, int, int], Iterator[Tried]], int, int]] = {
    "kill": (killing.kill, 36, 500),
    "fill": (disk.fill, 8, 120),
    "forbid": (disk.forbid, 10, 50),
    "cut-off": (disk.cut_off, 10, 100),
    "foreign": (files.foreign, 22, 88),
    "spoil": (files.spoil, 12, 200),
    "at-once": (together.at_once, 32, 320),
    "clock": (together.clock, 18, 180),
}
"""What is tried, and how often in the shortened and the long form."""


def main() -> int:
    """Try what is named, or all of it."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("fault", nargs="*", choices=[*FAULTS, []], help="all of them, if none is named")
    parser.add_argument("--long", action="store_true")
    parser.add_argument("--json", action="store_true", help="print the results as JSON lines")
    parser.add_argument("--seed", type=int, default=20260310)
    chosen = parser.parse_args()
    lost = 0
    with tempfile.TemporaryDirectory(prefix="faults-") as name:
        folder = Path(name)
        folder.chmod(0o755)  # for another user, where rights are taken away
        for part in ("base", "home"):
            (folder / part).mkdir()
        base = begin(folder / "base")
        commands = [*(killing.typed(command, base) for command in killing.EVERYTHING), *disk.BOOKINGS, *files.COMMANDS]
        load(base, folder / "home", commands)
        if not chosen.json:
            print("| what was tried | how often | how it ended | lost |\n| --- | ---: | --- | --- |", flush=True)
        for fault in chosen.fault or FAULTS:
            what, short, long = FAULTS[fault]
            for tried in what(base, folder / "tried" / fault / "work", long if chosen.long else short, chosen.seed):
                lost += len(tried.lost)
                print(json.dumps(asdict(tried)) if chosen.json else _row(tried), flush=True)
                for words in () if chosen.json else tried.lost:
                    print(f"    {words}", file=sys.stderr, flush=True)
    return 1 if lost else 0


def _row(tried: Tried) -> str:
    ended = "; ".join(f"{times} {words}" for words, times in sorted(tried.ended.items(), key=lambda one: -one[1]))
    return f"| {tried.what} | {tried.times} | {ended} | {len(tried.lost) or 'nothing'} |"


if __name__ == "__main__":
    sys.exit(main())
