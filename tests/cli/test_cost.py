"""What a job's materials were expected to cost, what they cost, and why the two differ."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from conftest import CommandLine

DAY = ("--on", "2026-11-28T10:00")
LATER = ("--on", "2026-12-01T15:00")


def booked(room: CommandLine, *more: str, recipe: str = "rinse") -> str:
    words = ("book", recipe, "--job", "railway", "--for", "2026-12-01", *more)
    return str(room.json(*DAY, *words)["code"])


def cost(room: CommandLine, *more: str) -> dict[str, Any]:
    return room.json(*LATER, "cost", "railway", *more)


def used(room: CommandLine, booking: str, *more: str) -> None:
    room.json(*LATER, "use", "rinse", "--job", "railway", "--booking", booking, *more)


def test_estimate_and_actual_are_the_same_where_nothing_differed(rinse: CommandLine) -> None:
    """400 mL of 1 in 4 take 100 mL: a millilitre is a cent."""
    booking = booked(rinse)
    assert cost(rinse)["estimate"] == {
        "done": "0.00",
        "to_come": "1.00",
        "cost_incomplete": False,
        "not_worked_out": [],
    }
    used(rinse, booking)
    found = cost(rinse)
    assert (found["total"], found["estimate"]["done"], found["estimate"]["to_come"]) == ("1.00", "1.00", "0.00")
    assert found["difference"]["value"] == "0.00"
    assert found["difference"]["causes"] == []


def test_a_larger_fill_costs_more_by_quantity_and_another_lot_by_price(rinse: CommandLine) -> None:
    """Booked 100 mL at a cent; took 150 mL of a lot at 2 cents: 0.50 by quantity, 1.50 by price."""
    booking = booked(rinse)
    dear = rinse.json(*LATER, "receive", "rinse-spirit", "1 L", "--cost", "20.00")["code"]
    used(rinse, booking, "--from", dear, "--took", "rinse-spirit=150 mL")
    found = cost(rinse)
    assert found["total"] == "3.00"
    assert found["difference"]["value"] == "2.00"
    assert found["difference"]["causes"] == [
        {"cause": "price", "value": "1.50"},
        {"cause": "quantity", "value": "0.50"},
    ]
    told = rinse(*LATER, "cost", "railway").out
    assert "1.50 EUR  more: at another price" in told


def test_what_was_not_booked_is_told_as_such(rinse: CommandLine) -> None:
    rinse.json(*LATER, "take", "L001W", "20 mL", "--job", "railway")
    found = cost(rinse)
    assert found["difference"]["causes"] == [{"cause": "not expected", "value": "0.20"}]
    assert found["difference"]["lines"][0]["treatment"] is None


def test_what_the_shelf_lacks_is_priced_by_the_cheapest_offer(rinse: CommandLine) -> None:
    """Ten fills take 1,000 mL, twenty 2,000: a litre from the shelf at 10.00, a litre by the offer of 3 L for 24.00."""
    rinse.json(*DAY, "supplier", "new", "Spirit stores")
    rinse.json(*DAY, "supplier", "offer", "spirit", "rinse-spirit", "3 L", "24.00")
    rinse.json(*DAY, "supplier", "offer", "spirit", "rinse-spirit", "1 L", "9.00")
    booked(rinse, "--fills", "20")
    assert cost(rinse)["estimate"]["to_come"] == "18.00"


def test_without_any_price_the_estimate_is_at_least(rinse: CommandLine) -> None:
    rinse.json(*DAY, "receive", "rinse-spirit", "1 L", "--found")
    rinse.json(*DAY, "take", "L001W", "950 mL", "--why", "test")
    booked(rinse)
    assert cost(rinse)["estimate"] == {"done": "0.00", "to_come": "0.50", "cost_incomplete": True, "not_worked_out": []}
    assert "Expected at least: some prices are not known" in rinse(*LATER, "cost", "railway").out


def test_a_booking_that_cannot_be_worked_out_yet_is_named(stockroom: CommandLine) -> None:
    stockroom.json(*DAY, "job", "new", "Railway poster", "--object", "Poster")
    code = booked(stockroom, recipe="press-between-webs")
    assert cost(stockroom)["estimate"] == {
        "done": "0.00", "to_come": "0.00", "cost_incomplete": True, "not_worked_out": [code]
    }  # fmt: skip
    assert f"at least: {code} cannot be worked out yet" in stockroom(*LATER, "cost", "railway").out


def test_a_job_may_be_added_up_by_material_and_by_treatment_to_the_same_total(rinse: CommandLine) -> None:
    used(rinse, booked(rinse))
    rinse.json(*LATER, "take", "L001W", "20 mL", "--job", "railway")
    lots, materials, treatments = (cost(rinse, "--by", how) for how in ("lot", "material", "treatment"))
    assert [line["cost"] for line in lots["lines"]] == ["1.20"]
    assert [(line["key"], line["cost"]) for line in materials["lines"]] == [("rinse-spirit", "1.20")]
    assert [(line["key"], line["cost"]) for line in treatments["lines"]] == [("rinse", "1.00"), ("", "0.20")]
    assert {one["total"] for one in (lots, materials, treatments)} == {"1.20"}


def test_a_solution_is_traced_down_to_what_it_was_made_of(jar: CommandLine) -> None:
    """The powder is all a jar of limewater costs: 5 g of 500 g for 12.50 are 0.12 or 0.13."""
    jar.json(*DAY, "job", "new", "Herbarium plate")
    jar.json(*DAY, "take", "L002U", "500 mL", "--job", "herbarium", "--why", "past its date")
    found = jar.json(*DAY, "cost", "herbarium", "--ingredients")
    assert found["lines"][0]["code"] == "L002U"
    assert found["ingredients"] == [{"code": "L001W", "name": "Calcium hydroxide", "cost": found["total"]}]
    assert float(found["total"]) > 0


def test_what_was_wasted_of_a_jar_is_shared_over_the_jobs_that_used_it_in_a_view_alone(jar: CommandLine) -> None:
    """A jar of 0.13: 300 mL and 100 mL for two jobs, 600 mL discarded: three quarters and a quarter of 0.08."""
    for title, amount in (("Herbarium plate", "300 mL"), ("Sea chart", "100 mL")):
        jar.json(*DAY, "job", "new", title)
        jar.json(*DAY, "take", "L002U", amount, "--job", title, "--why", "past its date")
    jar.json(*DAY, "discard", "L002U", "--why", "past its date", "--to", "drain")
    before = jar.json("verify")["sums"]
    plain = [jar.json(*DAY, "cost", title)["total"] for title in ("Herbarium plate", "Sea chart")]
    views = [jar.json(*DAY, "cost", title, "--with-waste") for title in ("Herbarium plate", "Sea chart")]
    assert [view["total"] for view in views] == plain
    shares = [view["waste"][0]["share"] for view in views]
    assert sum(int(share.replace(".", "")) for share in shares) == int(before["wasted"].replace(".", ""))
    assert shares[0] > shares[1]
    assert jar.json("verify")["sums"] == before


def test_handling_on_materials_and_their_share_of_waste_is_the_same_on_screen_and_on_the_sheet(
    jar: CommandLine, tmp_path: Path
) -> None:
    """A jar of 0.13, a tenth of it for the one job that used it and the rest thrown away: 0.13, and as much on top."""
    jar.json(*DAY, "job", "new", "Herbarium plate")
    jar.json(*DAY, "take", "L002U", "100 mL", "--job", "herbarium", "--why", "past its date")
    jar.json(*DAY, "discard", "L002U", "--why", "past its date", "--to", "drain")
    path = tmp_path / "final.txt"
    found = jar.json(*DAY, "cost", "herbarium", "--with-waste", "--handling", "100 %", "--out", str(path))
    assert (found["total"], found["total_with_waste"], found["total_with_handling"]) == ("0.01", "0.13", "0.26")
    assert found["handling"] == {"words": "100 %", "value": "0.13"}
    assert "In all: 0.26 EUR" in path.read_text()


def test_an_allowance_for_waste_that_was_accepted_stands_against_what_was_wasted(
    jar: CommandLine, tmp_path: Path
) -> None:
    """A jar of 0.13, a tenth of it used and the rest thrown away: 0.12 wasted is no allowance "not used"."""
    jar.json(*DAY, "job", "new", "Herbarium plate")
    bath = ("calcium-hydroxide-1-in-2", "--job", "herbarium")
    booking = str(jar.json(*DAY, "book", *bath, "--for", "2026-11-28", "--qty", "200 mL")["code"])
    jar.json(*DAY, "quote", "accept", str(jar.json(*DAY, "quote", "herbarium", "--waste", "10 %")["code"]))
    jar.json(*DAY, "use", *bath, "--booking", booking, "--tested", "AB", "--from", "L002U", "--why", "past its date")
    jar.json(*DAY, "discard", "L002U", "--why", "past its date", "--to", "drain")
    path = tmp_path / "final.txt"
    jar.json(*DAY, "cost", "herbarium", "--out", str(path))
    assert "Share of what was wasted: 0.12 EUR" in path.read_text()
    assert "not used" not in path.read_text()


def test_what_the_sheet_shows_is_not_asked_without_a_sheet(rinse: CommandLine) -> None:
    asked = rinse(*LATER, "cost", "railway", "--shows", "total")
    assert (asked.code, asked.out) == (2, "") and "--out FILE" in asked.err


def test_handling_is_a_line_of_its_own_and_never_in_the_prices(rinse: CommandLine) -> None:
    used(rinse, booked(rinse))
    percent, flat = cost(rinse, "--handling", "12 %"), cost(rinse, "--handling", "5.00")
    assert percent["handling"] == {"words": "12 %", "value": "0.12"}
    assert (percent["total"], percent["total_with_handling"]) == ("1.00", "1.12")
    assert (flat["total"], flat["total_with_handling"]) == ("1.00", "6.00")
    assert [line["cost"] for line in percent["lines"]] == ["1.00"]
    assert rinse(*LATER, "cost", "railway", "--handling", "-5").code == 2
    assert rinse(*LATER, "cost", "railway", "--handling", "5000 %").code == 2


def test_a_web_used_again_costs_its_share_by_use(stockroom: CommandLine) -> None:
    """Cut for 10 uses out of a sheet: each use costs a tenth of it."""
    stockroom.json(*DAY, "material", "new", "Support web", "--measured-by", "uses")
    stockroom.json(*DAY, "receive", "support-web", "10 uses", "--cost", "4.00")
    stockroom.json(*DAY, "job", "new", "Sea chart")
    stockroom.json(*DAY, "take", "L001W", "1 use", "--job", "sea chart")
    assert stockroom.json(*DAY, "cost", "sea chart")["total"] == "0.40"


def test_what_was_trimmed_off_a_sheet_is_told_as_waste(stockroom: CommandLine, tmp_path: Path) -> None:
    """Booked: a piece of 70 x 38 cm, 2.66. Of a sheet for 7.00 an offcut of 70 x 60 is kept: 70 x 2 more, 0.14."""
    stockroom.json(*DAY, "receive", "polyester-web-light", "10 sheets", "--cost", "70.00", "--as-one")
    recipe = tmp_path / "support.toml"
    recipe.write_text(
        '[recipe]\nkey = "support"\nname = "Support"\nkind = "treatment"\n'
        '[[line]]\nmaterial = "polyester-web-light"\namount = "1 each of 70 x 38 cm"\n',
        encoding="utf-8",
    )
    stockroom.json(*DAY, "recipe", "new", "--from", str(recipe))
    stockroom.json(*DAY, "job", "new", "Railway poster", "--object", "Poster, 60 x 30 cm")
    booking = booked(stockroom, recipe="support")
    stockroom.json(
        *LATER, "use", "support", "--job", "railway", "--booking", booking, "--keep-offcut", "70 x 60 cm"
    )  # fmt: skip
    found = cost(stockroom)
    assert (found["estimate"]["done"], found["total"]) == ("2.66", "2.80")
    assert found["difference"]["causes"] == [{"cause": "waste", "value": "0.14"}]
