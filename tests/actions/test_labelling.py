"""What a lot's label says, from what the books hold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from stockroom.actions.labelling import content_of
from stockroom.actions.making import make
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


@pytest.fixture
def jar(store: Store, occasion: Callable[..., Occasion]) -> Lot:
    receive(store, occasion(), Delivery(material="calcium-hydroxide", quantity="500 g", cost=1250))
    return find_lot(store, str(make(store, occasion(), "calcium-hydroxide-saturated", "1 L").codes[0]))


@pytest.mark.parametrize(
    ("kept", "said"),
    [
        ("about 1.6 g/L (saturated)", "About 1.6 g/L (saturated)"),
        ("about 1.60 g/L (saturated, 2026-12-20)", "About 1.6 g/L (saturated, 2026-12-20)"),
        ("about 0.954 g/L", "About 0.95 g/L"),
        ("about 12.34 g/L", "About 12 g/L"),
        ("about 0.0412 mol/L", "About 0.041 mol/L"),
        ("0.5 % w/v", "0.5 % w/v"),
        ("to pH 8.2 at 21 °C, 14:10", "to pH 8.2 at 21 °C, 14:10"),
    ],
)
def test_an_uncertain_strength_has_never_a_third_digit(jar: Lot, kept: str, said: str) -> None:
    """What was weighed and what was read by meter stand as they are (common practice, no source)."""
    assert content_of(replace(jar, strength=kept)).strength == said


@pytest.mark.parametrize(
    ("recorded", "hazards", "shown"),
    [
        (("GHS05", "GHS07"), ("H315 x", "H318 x"), ("GHS05",)),
        (("GHS05", "GHS07"), ("H315 x", "H318 x", "H335 x"), ("GHS05", "GHS07")),
        (("GHS06", "GHS07"), ("H301 x", "H315 x"), ("GHS06",)),
        (("GHS07",), ("H315 x",), ("GHS07",)),
        (("GHS05", "GHS07"), (), ("GHS05", "GHS07")),
    ],
)
def test_the_exclamation_mark_gives_way_and_nothing_else_that_was_recorded(
    jar: Lot, recorded: tuple[str, ...], hazards: tuple[str, ...], shown: tuple[str, ...]
) -> None:
    """CLP Article 26(1): to the skull, and to corrosion where it stands for skin and eye irritation alone."""
    material = replace(jar.material, pictograms=recorded, hazards=hazards)
    assert content_of(replace(jar, material=material)).pictograms == shown


def test_boxes_to_write_in_are_for_what_is_not_known_yet(jar: Lot) -> None:
    """Opened until it was; checked on jars; none on what is gone within hours."""
    assert content_of(jar).write_in == ("opened", "checked")
    assert content_of(replace(jar, opened_on="2026-12-01")).write_in == ("checked",)
    assert content_of(replace(jar, kind="bought")).write_in == ("opened",)
    assert content_of(replace(jar, kind="remainder")).write_in == ()
    fresh = content_of(replace(jar, use_by="2026-11-25T18:10"))
    assert (fresh.write_in, fresh.fresh_until, fresh.use_by) == ((), "2026-11-25, 18:10", None)


def test_the_place_stands_on_a_label_only_when_asked_for(jar: Lot) -> None:
    shelved = replace(jar, place="shelf")
    assert content_of(shelved).place is None
    assert content_of(shelved, with_place=True).place == "shelf"
