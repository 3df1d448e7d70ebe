"""Labels to draw, and an independent decoder to read them back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
import zxingcpp
from PIL import Image

from stockroom.labels.content import LabelContent

HOSTILE = (
    "[A3]",
    "[/]",
    "[/red] a [b=1",
    "=1+1",
    "1:100:5",
    "\"double\" 'single' <b>&amp;</b> (a\\)b",
    "😀 👩‍🔬",
    "مرحبا بك",
    "a\x00b\x07c\x1b[31md\u202ee\ud800f",
    "line one\nline two\ttab",
    "x" * 200,
    "wash water " * 18,
    "e\u0301" * 40,
    "½ ⅛ µ μ ° ≥ ₂ → – × é",
)


@pytest.fixture(params=HOSTILE, ids=lambda text: ascii(text[:12]))
def hostile(request: pytest.FixtureRequest) -> str:
    """Text that markup, spreadsheets, terminals or small boxes would trip over."""
    text: str = request.param
    return text


@pytest.fixture
def jar() -> LabelContent:
    """A full jar label."""
    return LabelContent(
        code="L001W",
        name="Calcium hydroxide solution",
        strength="about 1.6 g/L (saturated)",
        made="25 Nov 2026",
        use_by="24 May 2027",
        use_by_word="check by",
        initials="MK",
        storage="closed, over its solid",
        signal_word="Danger",
        hazards=("H315 Causes skin irritation.", "H318 Causes serious eye damage."),
        precautions=("P280 Wear eye protection and gloves.", "P310 Immediately call a doctor."),
    )


@pytest.fixture
def read_symbols() -> Callable[[Image.Image], list[str]]:
    """Read every symbol of an image with zxing-cpp."""

    def read(image: Image.Image) -> list[str]:
        found = zxingcpp.read_barcodes(image.convert("L"), formats=zxingcpp.BarcodeFormat.QRCode)
        return [symbol.text for symbol in found]

    return read
