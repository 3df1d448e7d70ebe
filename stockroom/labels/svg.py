"""Labels as SVG. The typeface is named, not embedded; each line keeps its measured width in any other one."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from stockroom.labels.layout import Layout
from stockroom.labels.pictograms import RED, shapes_of, write_path
from stockroom.labels.placing import LINE_MM
from stockroom.labels.symbol import find_runs, make_symbol

_FAMILY = "'IBM Plex Sans Condensed', sans-serif"
_FILLS = {"red": "#" + "".join(f"{round(255 * part):02x}" for part in RED), "white": "#fff", "black": "#000"}


def draw_svg(label: Layout, dpi: int = 300) -> bytes:
    """Draw a label with its size in mm, one user unit a mm, the symbol's modules whole dots of so many an inch."""
    matrix = make_symbol(label.symbol.text, small=label.symbol.small)
    module_mm, x_mm, y_mm = (dots * 25.4 / dpi for dots in label.symbol.snap(len(matrix), dpi / 25.4))
    runs = "".join(f"M{column} {row}h{length}v1h-{length}z" for row, column, length in find_runs(matrix))
    drawn = "".join(
        f'<g transform="translate({picture.x_mm:.4f} {picture.y_mm:.4f}) scale({picture.width_mm / 100:.6f})">'
        + "".join(f'<path fill="{_FILLS[shape.fill]}" d="{write_path(shape)}"/>' for shape in shapes_of(picture.code))
        + "</g>\n"
        for picture in label.pictures
    )
    drawn += "".join(
        f'<rect x="{box.x_mm:.3f}" y="{box.y_mm:.3f}" width="{box.width_mm:.3f}" height="{box.height_mm:.3f}" '
        f'fill="none" stroke="#000" stroke-width="{LINE_MM}"/>\n'
        for box in label.boxes
    )
    texts = "\n".join(
        f'<text x="{line.x_mm:.3f}" y="{line.baseline_mm:.3f}" font-size="{line.size_mm:.3f}" '
        f'font-weight="{600 if line.bold else 400}" textLength="{line.width_mm:.3f}" '
        f'lengthAdjust="spacingAndGlyphs">{escape(line.text)}</text>'
        for line in label.lines
    )
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="{label.width_mm:g}mm" height="{label.height_mm:g}mm" \
viewBox="0 0 {label.width_mm:g} {label.height_mm:g}">
<rect width="100%" height="100%" fill="#fff"/>
<path transform="translate({x_mm:.4f} {y_mm:.4f}) scale({module_mm:.6f})" \
shape-rendering="crispEdges" d="{runs}"/>
{drawn}<g font-family={quoteattr(_FAMILY)}>
{texts}
</g>
</svg>
""".encode()
