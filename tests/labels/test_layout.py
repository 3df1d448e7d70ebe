"""Everything stands inside the label, and what does not fit is left off in a fixed order and told."""

from __future__ import annotations

from dataclasses import fields, replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput, Refused, Unreadable
from stockroom.labels.compose import compose
from stockroom.labels.content import LabelContent
from stockroom.labels.fonts import fit_to_font, measure
from stockroom.labels.layout import Layout
from stockroom.labels.placing import SYMBOL_MARGIN_MM, Size
from stockroom.labels.plain_text import make_visible
from stockroom.labels.wording import MAJOR, MINOR

SIZES: list[Size] = [(70, 40), (74, 52), (105, 74), (50, 25), (30, 50), (48, 17), (24, 60), (200, 20)]
TEXT_FIELDS = [
    field.name
    for field in fields(LabelContent)
    if "str" in str(field.type) and field.name not in ("code", "use_by_word")
]


def check_inside(label: Layout) -> None:
    """Nothing overflows or overlaps, and each line is as wide as it says."""
    square = label.symbol
    boxes = [(line.x_mm, line.top_mm, line.x_mm + line.width_mm, line.bottom_mm) for line in label.lines]
    boxes.append((square.x_mm, square.y_mm, square.x_mm + square.side_mm, square.y_mm + square.side_mm))
    for left, top, right, bottom in boxes:
        assert SYMBOL_MARGIN_MM - 1e-9 <= left < right <= label.width_mm - SYMBOL_MARGIN_MM + 1e-9
        assert SYMBOL_MARGIN_MM - 1e-9 <= top < bottom <= label.height_mm - SYMBOL_MARGIN_MM + 1e-9
    for one, other in combinations(boxes, 2):
        apart = (
            one[2] <= other[0] + 1e-9
            or other[2] <= one[0] + 1e-9
            or one[3] <= other[1] + 1e-9
            or other[3] <= one[1] + 1e-9
        )
        assert apart, (one, other)
    for line in label.lines:
        assert line.width_mm == pytest.approx(measure(line.text, line.size_mm, line.bold))


def words_on(label: Layout) -> str:
    return " ".join(line.text for line in label.lines)


@pytest.mark.parametrize("field", TEXT_FIELDS)
def test_hostile_text_stays_inside_and_is_never_lost_silently(hostile: str, field: str) -> None:
    """In every field and size the text stands whole on the label, or is reported, or the label is refused."""
    many = field in ("hazards", "precautions", "pictograms")
    content = replace(LabelContent(code="L001W", name="wash water"), **{field: (hostile,) if many else hostile})
    expected = fit_to_font(make_visible(hostile))[0].replace(" ", "")
    for size_mm in SIZES:
        try:
            label = compose(content, size_mm)
        except Refused as refusal:
            assert field in ("name", "hazards", "signal_word")
            assert "cannot hold name, hazards and code" in refusal.message
            continue
        check_inside(label)
        assert label.lines[0].text == "L001W"
        assert label.dropped or expected in words_on(label).replace(" ", "")


@given(
    st.builds(
        LabelContent,
        code=st.just("L001W"),
        name=st.text(min_size=1, max_size=220).filter(lambda text: bool(text.strip())),
        strength=st.none() | st.text(max_size=60),
        hazards=st.lists(st.text(max_size=60), max_size=3).map(tuple),
        precautions=st.lists(st.text(max_size=80), max_size=4).map(tuple),
        note=st.none() | st.text(max_size=200),
        fresh_until=st.none() | st.text(max_size=20),
    ),
    st.tuples(st.floats(20, 150), st.floats(16, 150)),
)
def test_any_text_on_any_size_stays_inside_or_is_refused(content: LabelContent, size_mm: Size) -> None:
    """No text overflows a label of any size; a refused one names a height that holds it."""
    try:
        check_inside(compose(content, size_mm))
    except Refused as refusal:
        height = refusal.details["least_height_mm"]
        if height:
            check_inside(compose(content, (size_mm[0], height)))


def test_a_full_label_drops_nothing_where_there_is_room(jar: LabelContent) -> None:
    """On 70 x 40 mm an ordinary jar label is whole."""
    label = compose(jar)
    assert label.dropped == ()
    for text in ("check by 24 May 2027", "H318 Causes serious eye damage.", "made 25 Nov 2026", "by MK"):
        assert text in words_on(label)


def test_what_does_not_fit_goes_in_the_documented_order(jar: LabelContent) -> None:
    """Lower and lower labels lose the note first and the use-by and clock time last; name, hazard and code never."""
    full = replace(
        jar, solvent="ethanol", received="1 Nov", opened="2 Nov", place="shelf 3", note="topped up", fresh_until="14:10"
    )
    precautions = ("precaution 2", "precaution 1")
    order = (*MINOR, *precautions, *MAJOR)
    lost: list[tuple[str, ...]] = []
    for height in range(59, 23, -1):
        try:
            label = compose(full, (70, height))
        except Refused:
            break
        lost.append(label.dropped)
        for text in ("Calcium hydroxide solution", "Danger", "H315", "H318", "L001W"):
            assert text in words_on(label)
    assert compose(full, (70, 90)).dropped == ()
    assert all(dropped == order[: len(dropped)] for dropped in lost)
    assert len(lost[-1]) > len(MINOR) + len(precautions)
    assert [len(dropped) for dropped in lost] == sorted(len(dropped) for dropped in lost)


def test_hazard_words_stay_readable(jar: LabelContent) -> None:
    """An x-height of 1.2 mm at least (BAuA on CLP labels): the typeface's is 0.522 of the letter size."""
    for size_mm in ((70, 40), (52, 40), (50, 30)):
        hazards = [line for line in compose(jar, size_mm).lines if line.text.startswith("H3")]
        assert hazards
        assert all(line.size_mm * 0.522 >= 1.2 for line in hazards)


def test_a_long_name_ends_in_an_ellipsis_and_says_so() -> None:
    """A name of 200 characters takes at most three lines."""
    label = compose(LabelContent(code="L001W", name="long name " * 20))
    assert len(label.lines) == 1 + 3
    assert label.lines[-1].text.endswith("…")
    assert label.dropped == ("name shortened",)


def test_a_date_or_strength_is_whole_or_absent() -> None:
    """Half a date would mislead: it takes more lines or goes, but is never cut."""
    for width in range(24, 70, 2):
        label = compose(
            LabelContent(code="L001W", name="paste", use_by="24 May 2027 14:10", strength="0.5 % w/v " * 9), (width, 40)
        )
        assert "…" not in words_on(label)
        assert ("use by 24 May 2027 14:10" in words_on(label)) != ("use by" in label.dropped)


def test_the_clock_time_of_a_fresh_solution_is_the_largest_text(jar: LabelContent) -> None:
    """It is read from across the bench."""
    label = compose(replace(jar, fresh_until="14:10", hazards=(), precautions=()))
    clock = next(line for line in label.lines if line.text == "14:10")
    assert clock.size_mm == max(line.size_mm for line in label.lines)


def test_a_vented_jar_says_so_on_every_size(jar: LabelContent) -> None:
    """A closed lid over gas can burst a jar, so these words are never left off."""
    for size_mm in ((70, 40), (50, 30), (30, 60)):
        assert "Keep vented" in words_on(compose(replace(jar, vented=True), size_mm))


def test_pictograms_that_are_not_drawn_are_reported(jar: LabelContent) -> None:
    """Nobody is left to think that they stand on the label."""
    assert compose(replace(jar, pictograms=("GHS05", "GHS07"))).dropped == ("pictograms GHS05, GHS07",)


def test_a_larger_label_has_larger_letters(jar: LabelContent) -> None:
    """Room is used for reading at arm's length."""
    small, large = compose(jar, (70, 40)), compose(jar, (140, 80))
    assert large.lines[1].size_mm > 1.3 * small.lines[1].size_mm


@pytest.mark.parametrize("size_mm", [(0, 40), (70, -1), (float("nan"), 40), (70, float("inf")), (301, 40)])
def test_a_size_that_cannot_be_is_named(jar: LabelContent, size_mm: Size) -> None:
    """The message says what is accepted."""
    with pytest.raises(BadInput, match="give width and height in mm, each up to 300"):
        compose(jar, size_mm)


def test_a_label_too_small_names_a_height_that_does(jar: LabelContent) -> None:
    """The height named holds the label."""
    with pytest.raises(Refused, match=r"L001W: a label of 40 x 18 mm .* one of 40 x \d+ mm does") as caught:
        compose(jar, (40, 18))
    check_inside(compose(jar, (40, caught.value.details["least_height_mm"])))
    with pytest.raises(Refused, match="it has to be wider"):
        compose(jar, (12, 40))


def test_a_label_needs_a_name_and_a_code(jar: LabelContent) -> None:
    """Identity is never left off, not even by leaving it empty."""
    with pytest.raises(BadInput, match="a label needs a name"):
        compose(replace(jar, name=" \n "))
    with pytest.raises(Unreadable):
        compose(replace(jar, code="L001X"))
