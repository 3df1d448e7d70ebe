"""A jar in section: how full it is, and whether solid lies at its bottom."""

from __future__ import annotations

from textual.content import Content

WIDTH = 11
ROWS = 6
"""Of the jar's body, so that a row is a sixth of what it held."""


def draw_jar(held: int, full: int, solid: bool | None) -> Content:
    """Draw how much of a full jar is left; `solid` is whether any lies undissolved, None where nobody can tell."""
    filled = 0 if held <= 0 or full <= 0 else max(1, min(ROWS, round(held * ROWS / full)))
    inner = WIDTH - 2
    lines: list[Content] = [
        Content(f"  ╭{'─' * (inner - 4)}╮  "),
        Content(f"╭─╯{' ' * (inner - 4)}╰─╮"),
    ]
    for row in range(ROWS, 0, -1):
        within = " " * inner if row > filled else "≈" * inner if row == filled else "░" * inner
        lines.append(Content.assemble("│", (within, "$primary"), "│"))
    bottom = ("▓" * inner, "$secondary") if solid else ("?" * inner, "dim") if solid is None else ("─" * inner, "")
    lines.append(Content.assemble("╰" if bottom[0][0] == "─" else "│", bottom, "╯" if bottom[0][0] == "─" else "│"))
    if bottom[0][0] != "─":
        lines.append(Content(f"╰{'─' * inner}╯"))
    return Content("\n").join(lines)
