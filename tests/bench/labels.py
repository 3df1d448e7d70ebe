"""How long a thousand labels take in one PDF, against drawing the same lines and symbols with the PDF library alone.

The floor is told where everything stands: it lays nothing out, and looks for nothing that does not fit. Ratios of
child CPU time in one run, which hold beside other work; run it as `python tests/bench/labels.py`.
"""

from __future__ import annotations

import compileall
import json
import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 5
LABELS = 1000
AT_MOST = 1.5
MOST_MEGABYTES = 150

CONTENTS = """
import sys
from stockroom.domain.codes import next_code
from stockroom.labels.content import LabelContent

def contents(count):
    number = 0
    for index in range(count):
        number, code = next_code("L", number)
        day, jar = f"2026-{index % 12 + 1:02}-{index % 28 + 1:02}", index % 3
        yield LabelContent(
            code=code,
            name=("Calcium hydroxide solution", "Ethanol, denatured", "Methyl cellulose gel")[jar],
            strength=f"About {index % 40 / 10 + 0.5:.1f} g/L",
            made=day,
            use_by=f"2027-{index % 12 + 1:02}-28",
            initials=("AB", "MK")[index % 2],
            storage="well filled and tightly closed, not above 25 °C",
            signal_word=("Danger", "Danger", None)[jar],
            hazards=(("H318 Causes serious eye damage",), ("H225 Highly flammable liquid and vapour",), ())[jar],
            precautions=("P280 Wear eye protection and protective gloves",) if jar < 2 else (),
            pictograms=(("GHS05",), ("GHS02", "GHS07"), ())[jar],
            write_in=("opened", "checked"),
        )
"""

OURS = (
    CONTENTS
    + """
from pathlib import Path
from stockroom.labels.write import write_label
write_label(list(contents(int(sys.argv[1]))), Path(sys.argv[2]))
"""
)

PLACES = (
    CONTENTS
    + """
import json
from dataclasses import asdict
from stockroom.labels.compose import compose
places = []
for content in contents(int(sys.argv[1])):
    label = compose(content)
    places.append({
        "code": content.code, "size": (label.width_mm, label.height_mm), "symbol": asdict(label.symbol),
        "lines": [(line.text, line.x_mm, line.baseline_mm, line.size_mm, line.bold) for line in label.lines],
        "pictures": [asdict(picture) for picture in label.pictures],
        "boxes": [asdict(box) for box in label.boxes],
    })
json.dump(places, open(sys.argv[2], "w"))
"""
)

FLOOR = """
import json, sys
import fontpkg
from qrcode.constants import ERROR_CORRECT_H
from qrcode.main import QRCode
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
for name, weight in (("regular", 400), ("bold", 600)):
    pdfmetrics.registerFont(TTFont(name, str(fontpkg.path("IBM Plex Sans Condensed", weight=weight))))
canvas = Canvas(sys.argv[2], pageCompression=1)
for label in json.load(open(sys.argv[1])):
    width, height = label["size"]
    canvas.setPageSize((width * mm, height * mm))
    symbol = QRCode(2, error_correction=ERROR_CORRECT_H, border=4, mask_pattern=2)
    symbol.add_data(label["code"], optimize=0)
    symbol.make(fit=True)
    matrix = symbol.get_matrix()
    square = label["symbol"]
    module = square["side_mm"] / len(matrix) * mm
    left, top = square["x_mm"] * mm, (height - square["y_mm"]) * mm
    for y, row in enumerate(matrix):
        x = 0
        while x < len(row):
            if not row[x]:
                x += 1
                continue
            start = x
            while x < len(row) and row[x]:
                x += 1
            canvas.rect(left + start * module, top - (y + 1) * module, (x - start) * module, module, stroke=0, fill=1)
    for box in label["boxes"]:
        canvas.rect(box["x_mm"] * mm, (height - box["y_mm"] - box["height_mm"]) * mm,
                    box["width_mm"] * mm, box["height_mm"] * mm)
    for picture in label["pictures"]:
        canvas.rect(picture["x_mm"] * mm, (height - picture["y_mm"] - picture["width_mm"]) * mm,
                    picture["width_mm"] * mm, picture["width_mm"] * mm)
    for text, x, baseline, size, bold in label["lines"]:
        canvas.setFont("bold" if bold else "regular", size * mm)
        canvas.drawString(x * mm, (height - baseline) * mm, text)
    canvas.showPage()
canvas.save()
"""


def measure(program: str, *arguments: str) -> tuple[float, float]:
    """Run a program in a process of its own; return its CPU time, and its own peak memory in MB."""
    told = "\nimport resource, sys\nprint(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, file=sys.stderr)"
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    ran = subprocess.run(
        [sys.executable, "-c", program + told, *arguments], check=True, capture_output=True, text=True, cwd=ROOT
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, float(ran.stderr.split()[-1])


def main() -> None:
    compileall.compile_dir(ROOT / "stockroom", quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        places, out = f"{folder}/places.json", f"{folder}/out.pdf"
        measure(PLACES, str(LABELS), places)
        assert len(json.loads(Path(places).read_text())) == LABELS
        pairs = [(measure(FLOOR, places, out), measure(OURS, str(LABELS), out)) for _ in range(ROUNDS)]
        _, fourfold = measure(OURS, str(4 * LABELS), out)
    floor = statistics.median(one[0] for one, _ in pairs)
    ours = statistics.median(two[0] for _, two in pairs)
    memory = max(two[1] for _, two in pairs)
    print(f"{LABELS} labels: floor {floor:.2f} s, ours {ours:.2f} s: {ours / floor:.2f} times (at most {AT_MOST})")
    print(f"memory: {memory:.0f} MB, four times as many {fourfold:.0f} MB (at most {MOST_MEGABYTES})")


if __name__ == "__main__":
    main()
