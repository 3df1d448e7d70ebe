"""How an object with its size is read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.actions.jobs import read_object
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput, Unreadable


@pytest.mark.parametrize(
    ("text", "name", "size"),
    [
        ("Harbour chart, 30 x 40 cm", "Harbour chart", (300_000, 400_000)),
        ("Harbour chart,30x40cm", "Harbour chart", (300_000, 400_000)),
        ("Plate 3, verso, 210 × 297 mm", "Plate 3, verso", (210_000, 297_000)),
        ("Poster, 30,5 x 40,2 cm", "Poster", (305_000, 402_000)),
        ("Poster, 1 m x 70 cm", "Poster", (1_000_000, 700_000)),
        ("Plate, 8 x 10 in", "Plate", (203_200, 254_000)),
        ("Harbour chart", "Harbour chart", None),
        ("Harbour chart, 1852", "Harbour chart, 1852", None),
        ("Botanical plate, 2nd state", "Botanical plate, 2nd state", None),
        ("Plate, folded, after a drawing", "Plate, folded, after a drawing", None),
        ("30 x 40 cm", "30 x 40 cm", None),
        ("[A3], =1+1", "[A3], =1+1", None),
        ("1:100:5, 🗺", "1:100:5, 🗺", None),
    ],
)
def test_the_size_is_what_follows_the_last_comma_when_it_reads_as_one(
    text: str, name: str, size: tuple[int, int] | None
) -> None:
    read = read_object(text)
    assert read.name == name
    assert (read.length_um, read.width_um) == (size or (None, None))


@pytest.mark.parametrize(
    "size",
    [
        "30 x 40",
        "30 x 40 quires",
        "30 cm",
        "30 x 40 x 2 cm",
        "0 x 40 cm",
        "30 by 40 cm",
        "30 x 40 cm or so",
        "about 30 x 40 cm",
        "30 x 40 kg",
        "1,500 x 2,000 mm",
    ],
)
def test_what_looks_like_a_size_and_cannot_be_read_is_refused_not_guessed(size: str) -> None:
    with pytest.raises(Unreadable) as refused:
        read_object(f"Harbour chart, {size}")
    assert "30 x 40 cm" in refused.value.message
    assert size.split(",")[-1].strip() in refused.value.message


@pytest.mark.parametrize("text", ["", "  ", ", 30 x 40 cm", "x" * 201])
def test_an_object_has_a_name(text: str) -> None:
    with pytest.raises(BadInput):
        read_object(text)


@given(
    name=st.text(min_size=1, max_size=20).filter(lambda text: text.strip() and "\0" not in text and "," not in text),
    length=st.integers(min_value=1, max_value=9_999_999),
    width=st.integers(min_value=1, max_value=9_999_999),
)
def test_an_object_that_is_said_reads_back_as_the_same(name: str, length: int, width: int) -> None:
    first = read_object(f"{name}, {length / 1000:.3f} x {width / 1000:.3f} mm")
    assert (first.length_um, first.width_um) == (length, width)
    assert read_object(f"{first.name}, {show_size(first.length_um, first.width_um)}") == first
