"""The screens killed, or their terminal closed: all or nothing is booked, and what was typed is offered again."""

from __future__ import annotations

import os
import random
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from screens_in_a_terminal import Terminal

from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.verifying import verify
from stockroom.domain.occasion import Occasion
from stockroom.store.lots import find_lot
from stockroom.store.open import Store, open_store

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs terminals that can be closed")
ON = "2026-11-25T14:10"
F4, BOOK = "\x1bOS", "\x13"


@pytest.fixture
def file(store: Store, occasion: Callable[..., Occasion]) -> tuple[Path, str]:
    came = Delivery(material="calcium-hydroxide", quantity="500 g", cost=1890)
    code = str(receive(store, occasion("2026-10-01"), came).codes[0])
    store.close()
    return store.path, code


def fill_in(terminal: Terminal) -> None:
    """Fill in the form for a jar of calcium hydroxide solution."""
    terminal.sees("days ahead")
    terminal.type(F4)
    terminal.sees("Make up a solution")
    terminal.type("\r")
    terminal.sees("Recipe?")
    terminal.type("saturated calcium")
    terminal.sees("1 of ")
    terminal.type("\r")
    terminal.sees("1 jar: ")
    terminal.type("500 mL")
    terminal.sees("500 mL", "1.5 g")


def left_behind(path: Path, code: str) -> tuple[int, str]:
    """Prove the books; return how many jars there are and what is left of the powder."""
    with open_store(path) as store:
        assert not verify(store).problems
        jars = store.rows("SELECT count(*) AS number FROM lot WHERE kind = 'jar'")[0]["number"]
        return int(jars), find_lot(store, code).amount_words


@pytest.mark.parametrize("end", ["kill", "hang_up"])
def test_a_form_that_was_filled_in_is_offered_again(file: tuple[Path, str], tmp_path: Path, end: str) -> None:
    path, code = file
    first = Terminal(path, home=tmp_path, on=ON)
    fill_in(first)
    getattr(first, end)()
    assert left_behind(path, code) == (0, "500 g")
    again = Terminal(path, home=tmp_path, on=ON)
    again.sees("begun, not booked", "Make up a solution", "500 mL", "booked last", "500 g of Calcium hydroxide")
    again.type("\r")
    again.sees("1.5 g", "500 mL")
    again.type(BOOK)
    again.sees("Book it")
    again.type("b")
    again.sees("Made:")
    again.kill()
    assert left_behind(path, code) == (1, "498.5 g")


def test_killed_between_confirming_and_the_result_all_or_nothing_is_booked(
    file: tuple[Path, str], tmp_path: Path
) -> None:
    """At moments of chance; what is offered afterwards says whether it may be booked."""
    path, code = file
    chance = random.Random(20261125)
    for number in range(int(os.environ.get("STOCKROOM_KILLS", "4"))):
        home = tmp_path / str(number)
        home.mkdir()
        before, _ = left_behind(path, code)
        terminal = Terminal(path, home=home, on=ON)
        fill_in(terminal)
        terminal.type(BOOK)
        terminal.sees("Book it")
        terminal.type("b")
        time.sleep(chance.uniform(0, 0.25))
        terminal.kill()
        jars, powder = left_behind(path, code)
        assert jars - before in (0, 1)
        assert powder == f"{500 - 1.5 * jars:g} g"
        again = Terminal(path, home=home, on=ON)
        again.sees("days ahead", "booked last")
        if jars == before:
            again.sees("begun, not booked", "Make up a solution")
        else:
            assert "begun, not booked" not in again.text  # perhaps booked, or not offered any more
        again.kill()
