"""What is typed where it does not belong: nearly right, spoilt on purpose, or at random."""

from __future__ import annotations

from hypothesis import strategies as st

HOSTILE = (
    "", " ", "\t", "two\nlines", "\x1b[31mred\x1b[0m", "\x1b]0;title\x07", "\x9b31m", "\r", "\x00",
    "[/]", "[/red]", "[A3] kozo", "[@click=app.quit]x[/]", "$name", "{lot}", "%s%n", "\\",
    "'; DROP TABLE entry; --", "' OR '1'='1", "\" OR 1=1", "1); DELETE FROM lot", ":id", "?1", "%", "_", "*", "a%_",
    "=1+1", "+1", "-1", "@SUM(A1)", "=HYPERLINK(\"x\")", "--json", "--",
    "../../x", "..", ".", "x/../../y", "C:\\x", "con", "a\\..\\b", "file:x?mode=ro",
    "e\u0301", "\u202eright to left", "مرحبا", "😀", "ﬁ", "İ", "ß", "\u200b", "\ufeff", "Ⅷ", "²", "٣", "１２",
    "9" * 400, "a" * 5000, "½" * 50, "1e999", "1e-999", "NaN", "inf", "-0", "0", "0 mL", "-5 mL", "1.234.567,8 g",
    "1:4", "5 % w/w", "0.1 mol/L", "1_000 g", "0x10 g", "1/0 mL", "10**9 L", "999999999999999 kg", "1 g g", "3 x 0 L",
    "0000-00-00", "2026-02-30", "9999-12-31", "1-1-1", "3/4/2026", "2026-11-25T25:00", "2026-W01", "tomorrow",
    "2026-11-25T02:30", "1970-01-01",
)  # fmt: skip

PLAUSIBLE = (
    "20 mL", "1 L", "2.5 g", "500 g", "3 x 1 L", "1 sheets", "2 pieces", "30 x 40 cm", "8 mm", "22 °C", "22", "12.35",
    "2026-11-20", "2026-12-01", "2026-11-25T09:00", "5", "12.50", "0", "12 %", "AM", "TK", "cleaning", "spilled",
    "ethanol", "calcium-hydroxide", "methyl-cellulose", "blotter", "calcium-hydroxide-solution", "wash",
    "calcium-hydroxide-saturated", "deacidify-and-size", "wheat-starch-paste", "Plan chest", "poster tray", "Monday",
    "pH 8.2 at 21 °C", "a reason", "cloudy", "1 in 4", "10.8 mL", "EUR", "L?1W", "harbour",
)  # fmt: skip

hostile = st.sampled_from(HOSTILE) | st.text(max_size=40)
"""Text that fits nowhere."""


def value(known: tuple[str, ...]) -> st.SearchStrategy[str]:
    """Draw something to type: more often what could be right, so that commands get beyond reading."""
    return st.one_of(st.sampled_from(PLAUSIBLE), st.sampled_from(known), st.sampled_from(PLAUSIBLE + known), hostile)
