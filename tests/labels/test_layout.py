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
from stockroom.labels.pictograms import NAMES
from stockroom.labels.placing import SYMBOL_MARGIN_MM, Size
from stockroom.labels.plain_text import make_visible
from stockroom.labels.wording import MAJOR, MINOR

SIZES: list[Size] = [(70, 40), (74, 52), (105, 74), (50, 25), (30, 50), (48, 17), (24, 60), (200, 20)]
TEXT_FIELDS = [
    field.name
    for field in fields(LabelContent)
    if "str" in str(field.type) and field.name not in ("code", "use_by_word", "may_leave_off", "write_in", "in_symbol")
]
"""What people type. The rest are words of the program's own."""


def check_inside(label: Layout) -> None:
    """Nothing overflows or overlaps, and each line is as wide as it says."""
    square = label.symbol
    boxes = [(line.x_mm, line.top_mm, line.x_mm + line.width_mm, line.bottom_mm) for line in label.lines]
    boxes.append((square.x_mm, square.y_mm, square.x_mm + square.side_mm, square.y_mm + square.side_mm))
    boxes += [(p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.width_mm) for p in label.pictures]
    for left, top, right, bottom in boxes:
        assert SYMBOL_MARGIN_MM - 1e-9 <= left < right <= label.width_mm - SYMBOL_MARGIN_MM + 1e-9
        assert SYMBOL_MARGIN_MM - 1e-9 <= top < bottom <= label.height_mm - SYMBOL_MARGIN_MM + 1e-9
    to_write_in = [(b.x_mm, b.y_mm, b.x_mm + b.width_mm, b.y_mm + b.height_mm) for b in label.boxes]
    for left, top, right, bottom in to_write_in:
        assert 2 <= left < right <= label.width_mm - 2 and 2 <= top < bottom <= label.height_mm - 2
    captions = {box[:2] for box in boxes if any(is_in(box, frame) for frame in to_write_in)}
    assert len(captions) == len(to_write_in)  # each box holds its own caption and nothing else
    boxes = [box for box in boxes if box[:2] not in captions] + to_write_in
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


def is_in(box: tuple[float, ...], frame: tuple[float, ...]) -> bool:
    return frame[0] <= box[0] and frame[1] <= box[1] and box[2] <= frame[2] and box[3] <= frame[3]


def words_on(label: Layout) -> str:
    return " ".join(line.text for line in label.lines)


@pytest.mark.parametrize("field", TEXT_FIELDS)
def test_hostile_text_stays_inside_and_is_never_lost_silently(hostile: str, field: str) -> None:
    """In every field and size the text stands whole on the label, or is reported, or the label is refused."""
    many = field in ("hazards", "precautions", "pictograms", "left_off")
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
        pictograms=st.lists(st.sampled_from(sorted(NAMES)), max_size=4, unique=True).map(tuple),
        write_in=st.sampled_from([(), ("opened",), ("opened", "checked")]),
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
    """On 74 x 52 mm an ordinary jar label is whole."""
    label = compose(jar)
    assert label.dropped == ()
    for text in ("check by 24 May 2027", "H318 Causes serious eye damage.", "made 25 Nov 2026", "by MK"):
        assert text in words_on(label)


def test_what_does_not_fit_goes_in_the_documented_order(jar: LabelContent) -> None:
    """Lower and lower labels lose the note first and the use-by and clock time last; what must stay stays.

    Identity, strength, storage and expiry stay longest (21 CFR 58.83); name, hazards, pictograms and code always.
    """
    full = replace(
        jar,
        solvent="ethanol",
        received="1 Nov",
        opened="2 Nov",
        topped_up="3 Nov",
        place="shelf 3",
        note="for the sea charts",
        fresh_until="14:10",
        pictograms=("GHS05",),
        write_in=("opened", "checked"),
    )
    order = ("note", *MINOR, "P310", "P280", *MAJOR)
    lost: list[tuple[str, ...]] = []
    for height in range(79, 23, -1):
        try:
            label = compose(full, (70, height))
        except Refused:
            break
        lost.append(label.dropped)
        check_inside(label)
        assert [picture.code for picture in label.pictures] == ["GHS05"]
        for text in ("Calcium hydroxide solution", "Danger", "H315", "H318", "L001W"):
            assert text in words_on(label)
    assert compose(full, (70, 95)).dropped == ()
    assert all(dropped == order[: len(dropped)] for dropped in lost)
    assert len(lost[-1]) > len(MINOR) + 3
    assert [len(dropped) for dropped in lost] == sorted(len(dropped) for dropped in lost)


@pytest.mark.parametrize(
    ("size_mm", "codes"),
    [
        ((74, 52), ("GHS05",)),
        ((74, 52), ("GHS02", "GHS07")),
        ((74, 52), ("GHS05", "GHS07", "GHS09")),
        ((50, 40), ("GHS05",)),
        ((40, 70), ("GHS05", "GHS07")),
        ((105, 74), ("GHS02", "GHS06", "GHS08")),
    ],
)
def test_no_pictogram_covers_less_than_a_square_centimetre(size_mm: Size, codes: tuple[str, ...]) -> None:
    """CLP Annex I, 1.2.1: each at least 1 cm², measured as the diamond itself; where there is room, a 15th."""
    label = compose(LabelContent(code="L001W", name="reagent", signal_word="Danger", pictograms=codes), size_mm)
    check_inside(label)
    assert [picture.code for picture in label.pictures] == list(codes)
    for picture in label.pictures:
        assert picture.width_mm**2 / 2 >= 100 - 1e-9
        assert picture.side_mm <= 46


def test_a_single_pictogram_has_the_full_size_of_the_table() -> None:
    """CLP Annex I, Table 1.3: 16 mm on 52 x 74 mm, 23 mm on 74 x 105 mm, a 15th of the label each."""
    for size_mm, side in (((74, 52), 16), ((105, 74), 23)):
        content = LabelContent(code="L001W", name="limewater", signal_word="Danger", pictograms=("GHS05",))
        assert compose(content, size_mm).pictures[0].side_mm == pytest.approx(side, abs=0.25)


def test_a_small_container_may_go_without_some_statements_but_only_where_there_is_no_room(jar: LabelContent) -> None:
    """CLP Annex I, 1.5.2: skin irritation up to 125 mL, after the precautions; eye damage never."""
    small = replace(jar, may_leave_off=("H315",), pictograms=("GHS05",))
    assert compose(small).dropped == ()
    heights = [height for height in range(52, 20, -1) if fits(small, (48, height))]
    least = compose(small, (48, heights[-1]))
    assert "H315" in least.dropped
    assert list(least.dropped).index("H315") > list(least.dropped).index("P280")
    assert "H318" in words_on(least) and "H315" not in words_on(least)
    assert not fits(replace(small, may_leave_off=()), (48, heights[-1]))


def fits(content: LabelContent, size_mm: Size) -> bool:
    try:
        check_inside(compose(content, size_mm))
    except Refused:
        return False
    return True


def test_a_label_too_small_for_its_pictograms_is_refused_naming_a_height_that_does(jar: LabelContent) -> None:
    with pytest.raises(Refused, match=r"cannot hold name, hazards, pictograms and code: one of 50 x \d+ mm does"):
        compose(replace(jar, pictograms=("GHS05",)), (50, 24))


def test_boxes_to_write_in_are_empty_and_large_enough_for_a_day_by_hand(jar: LabelContent) -> None:
    """Pencil survives water and alcohol (common practice, no source)."""
    label = compose(replace(jar, write_in=("opened", "checked"), precautions=()))
    check_inside(label)
    assert [(box.width_mm >= 16, box.height_mm >= 6) for box in label.boxes] == [(True, True)] * 2


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
    """It is read from across the bench; the day stands above it."""
    label = compose(replace(jar, fresh_until="2026-11-25, 14:10", hazards=(), precautions=()))
    clock = next(line for line in label.lines if line.text == "14:10")
    assert clock.size_mm == max(line.size_mm for line in label.lines) > 8
    assert "fresh until 2026-11-25 14:10" in words_on(label)


def test_a_vented_jar_says_so_on_every_size(jar: LabelContent) -> None:
    """A closed lid over gas can burst a jar, so these words are never left off."""
    for size_mm in ((70, 40), (50, 30), (30, 60)):
        assert "Keep vented" in words_on(compose(replace(jar, vented=True), size_mm))


def test_an_unknown_pictogram_is_reported(jar: LabelContent) -> None:
    """Nobody is left to think that it stands on the label."""
    label = compose(replace(jar, pictograms=("GHS05", "GHS17"), left_off=("pictogram GHS07, as asked",)))
    assert label.dropped == ("pictogram GHS07, as asked", "pictograms GHS17")
    assert [picture.code for picture in label.pictures] == ["GHS05"]


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
