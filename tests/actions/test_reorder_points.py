"""When to order a material, from what the books tell."""

from __future__ import annotations

from datetime import date

from builders import STUFF, Bench
from conftest import CommandLine

from stockroom.actions.reorder_points import order_point_of
from stockroom.planning.demand import OrderWhenBelow
from stockroom.store.materials import find_material
from stockroom.store.open import open_store


def asked(bench: Bench, today: date = date(2026, 3, 31)) -> OrderWhenBelow:
    return order_point_of(bench.store, find_material(bench.store, STUFF.key), today, 7)


def test_a_material_that_never_was_here_has_no_history(bench: Bench) -> None:
    assert (asked(bench).rule, asked(bench).uses, asked(bench).below) == ("by hand", 0, None)


def test_the_history_begins_with_the_first_delivery(bench: Bench) -> None:
    bench.do("day 2", "receive A 1000 for 0", "day 12", "take A 20 for J", "day 20", "take A 30 cleaning")
    assert asked(bench).why[0].startswith("2 uses not booked ahead in 1 month: ")
    bench.do("day 25", "take A 10 test")
    answer = asked(bench)
    assert (answer.rule, answer.uses) == ("plain rate", 3)
    assert answer.below is not None and answer.below.quanta >= 30


def test_what_a_booking_announced_is_not_foretold_a_second_time(stockroom: CommandLine) -> None:
    """Not even where it was put right afterwards."""
    stockroom.json("--on", "2026-01-02", "receive", "ethanol", "5 L", "--cost", "50")
    stockroom.json("--on", "2026-01-03", "recipe", "new", "--from", _rinse(stockroom))
    job = stockroom.json("--on", "2026-01-03", "job", "new", "Sea chart", "--object", "chart, 30 x 40 cm")["code"]
    booked = stockroom.json("--on", "2026-01-03", "book", "rinse", "--job", job, "--for", "2026-01-10")["code"]
    used = stockroom.json("--on", "2026-01-10", "use", "rinse", "--job", job, "--booking", booked)
    stockroom.json("--on", "2026-01-12", "use", "rinse", "--job", job)
    stockroom.json("--on", "2026-01-13", "put-right", used["action"], "--amount", "60 mL", "--why", "misread")
    with open_store(stockroom.path) as store:
        answer = order_point_of(store, find_material(store, "ethanol"), date(2026, 1, 20), 7)
    assert answer.uses == 1


def _rinse(stockroom: CommandLine) -> str:
    path = stockroom.path.parent / "rinse.toml"
    path.write_text(
        """
        [recipe]
        key = "rinse"
        name = "Rinse"
        kind = "treatment"
        [[line]]
        material = "ethanol"
        amount = "50 mL"
        """,
        "utf-8",
    )
    return str(path)


def test_how_surely_stock_is_to_last_is_for_the_studio_to_choose(stockroom: CommandLine) -> None:
    code = stockroom.json("--on", "2026-01-02", "receive", "blotter", "100 sheets", "--cost", "90")["code"]
    for day in range(3, 28, 4):
        stockroom.json("--on", f"2026-01-{day:02}", "take", code, "4 sheets", "--why", "test")

    def asked() -> OrderWhenBelow:
        with open_store(stockroom.path) as store:
            return order_point_of(store, find_material(store, "blotter"), date(2026, 1, 31), 14)

    usual = asked()
    assert usual.chance == 0.05
    stockroom.json("studio", "edit", "--running-out", "0.5 %", "--why", "far from any shop")
    surer = asked()
    assert surer.chance == 0.005
    assert usual.below is not None and surer.below is not None and surer.below.quanta > usual.below.quanta
    shown = stockroom.json("studio", "show")
    assert shown["running_out_percent"] == 0.5 and "far from any shop" in shown["running_out_source"]
    assert stockroom("studio", "edit", "--running-out", "70 %").code == 2
