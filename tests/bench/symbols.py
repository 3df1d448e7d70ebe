"""How often spoilt symbols are read back, with many samples. Run it as `python tests/bench/symbols.py`."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from label_damage import DAMAGES, LEAST, count_read

TIMES = 500


def main() -> None:
    for name, size_mm, tries, least in LEAST:
        right, wrong = count_read(size_mm, DAMAGES[name], TIMES, tries=tries)
        print(
            f"{100 * right / TIMES:5.1f} % (at least {least:3}), {wrong} wrong: {name}, "
            f"label {size_mm[0]:g} x {size_mm[1]:g} mm, {tries.__name__}"
        )


if __name__ == "__main__":
    main()
