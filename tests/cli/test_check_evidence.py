"""What counts as evidence: of carbonate in the solid, of saturation without a handbook, of humidity over a salt."""

from __future__ import annotations

import pytest
from conftest import CommandLine
from titrations import titrate


def fit(jar: CommandLine, on: str) -> bool:
    return bool(jar.json("--on", on, "lot", "L002U")["fit"])


def test_weak_although_shaken_and_settled_is_carbonated_and_weak_alone_is_not(jar: CommandLine) -> None:
    weak = titrate(jar, "7.56 mL")
    assert (weak["verdict"], weak["carbonated_residue"]) == ("weak", False)
    assert "titrate again" in weak["next"]
    again = titrate(jar, "7.56 mL", "--shaken", on="2026-01-07")
    assert (again["verdict"], again["carbonated_residue"]) == ("carbonated", True)
    assert "do not top up" in again["next"]
    assert not fit(jar, "2026-01-07")


def test_a_pinch_that_fizzes_is_carbonate_and_one_that_does_not_proves_nothing(jar: CommandLine) -> None:
    """Common practice, no source."""
    quiet = jar.json("--on", "2026-01-05", "check", "L002U", "fizz", "no fizz")
    assert (quiet["verdict"], fit(jar, "2026-01-05")) == ("cannot tell", True)
    found = jar.json("--on", "2026-01-05", "check", "L002U", "fizz", "fizzes")
    assert (found["verdict"], found["carbonated_residue"], fit(jar, "2026-01-05")) == ("carbonated", True, False)
    assert any("Eye protection" in caution for caution in found["cautions"])
    assert "fizzes or no fizz" in jar.json("check", "L002U", "fizz", "maybe", code=2)["error"]["message"]


def test_no_rise_after_shaking_and_settling_means_saturated_and_is_kept_as_the_reference(jar: CommandLine) -> None:
    """1.50 g/L at 22 °C is 88 to 98 % by the sources. Shaken, settled and titrated again it is 1.50 still: saturated.

    From then on a reading at that temperature is a share of 1.50 g/L: 10.0 mL are 99 %, and 8.5 mL are 84 %.
    """
    assert titrate(jar, "10.12 mL")["verdict"] == "cannot tell"
    again = titrate(jar, "10.12 mL", "--shaken", on="2026-01-07")
    assert (again["verdict"], again["reference_kept"]) == ("saturated", True)
    assert "no rise" in again["why"]
    later = titrate(jar, "10.0 mL", on="2026-02-05")
    assert later["verdict"] == "saturated"
    assert later["percent_of_saturation"]["best"] == pytest.approx(99, abs=1)
    assert any("own reference at 22 °C" in source and again["action"] in source for source in later["sources"])
    assert titrate(jar, "8.5 mL", on="2026-02-06")["verdict"] == "weak"


def test_one_reading_after_shaking_asks_for_a_second(jar: CommandLine) -> None:
    found = titrate(jar, "10.12 mL", "--shaken")
    assert (found["verdict"], found["reference_kept"]) == ("cannot tell", False)
    assert "once more" in found["next"]


def test_a_rise_says_that_it_was_not_saturated_before(jar: CommandLine) -> None:
    titrate(jar, "9.6 mL")
    again = titrate(jar, "10.1 mL", "--shaken", on="2026-01-07")
    assert (again["verdict"], again["reference_kept"]) == ("cannot tell", False)
    assert "rises no more" in again["next"]


def test_a_fresh_jar_of_the_same_lot_of_solid_replaces_the_handbooks_spread(jar: CommandLine) -> None:
    """By hand: 10.4 mL on 25 mL are 1.54 g/L; 10.12 mL are 97 % of that. At 15 °C it says nothing."""
    kept = titrate(jar, "10.4 mL", "--own-reference")
    assert (kept["verdict"], kept["reference_kept"]) == ("saturated", True)
    other = jar.json(
        "--on", "2026-01-06", "make", "calcium-hydroxide-saturated", "1 L", "--took", "calcium-hydroxide=5 g"
    )["code"]
    check = ("check", other, "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.12 mL")
    told = jar.json("--on", "2026-01-10", *check, "--temperature", "22")
    assert (told["verdict"], told["percent_of_saturation"]["best"]) == ("saturated", pytest.approx(97, abs=1))
    colder = jar.json("--on", "2026-01-11", *check, "--temperature", "15")
    assert not any("own reference" in source for source in colder["sources"])


def test_a_weak_jar_cannot_be_the_reference(jar: CommandLine) -> None:
    before = jar.json("lot", "L002U")
    assert "cannot be" in titrate(jar, "7.5 mL", "--own-reference", code=2)["error"]["message"]
    assert jar.json("lot", "L002U") == before


def test_a_jar_that_has_not_settled_is_not_ready_for_a_titration(jar: CommandLine) -> None:
    """Settling takes 24 hours (common practice, no source): the jar was made on 3 January at noon."""
    found = titrate(jar, "10.8 mL", on="2026-01-04T09:00")
    assert found["verdict"] == "not ready"
    assert "settling until 2026-01-04" in found["why"]
    assert titrate(jar, "10.8 mL", "--shaken", on="2026-01-04T09:30")["verdict"] == "saturated"


def test_a_cloudy_jar_is_let_settle_anew(jar: CommandLine) -> None:
    found = jar.json("--on", "2026-01-05T10:00", "check", "L002U", "looks", "cloudy")
    assert found["verdict"] == "not ready"
    assert not fit(jar, "2026-01-05T11:00")
    assert fit(jar, "2026-01-06T11:00")


def test_conductivity_is_held_against_the_studios_own_fresh_jar(jar: CommandLine) -> None:
    """Published as unsaturated: a loss over 30 % with a change of pH over 0.15 (Tashima et al. 2014)."""
    check = ("--on", "2026-01-05", "check", "L002U", "conductivity")
    assert "--reference" in jar.json(*check, "6.0", "--temperature", "22", code=2)["error"]["message"]
    assert jar.json(*check, "9.0", "--temperature", "22", "--own-reference")["reference_kept"]
    weak = jar.json(*check, "6.0", "--temperature", "22", "--ph-change", "0.2")
    assert weak["verdict"] == "weak"
    assert any("Tashima" in source for source in weak["sources"])
    assert any("own reference" in source for source in weak["sources"])
    assert jar.json(*check, "8.0", "--temperature", "22")["verdict"] == "cannot tell"
    assert jar.json(*check, "8.9", "--temperature", "22")["verdict"] == "saturated"


@pytest.mark.parametrize(
    ("buffers", "said"), [((), "Which buffers"), (("--buffers", "7, 10"), "7 and 10 do not reach")]
)
def test_the_buffers_of_a_ph_are_asked_for(jar: CommandLine, buffers: tuple[str, ...], said: str) -> None:
    found = jar.json(
        "--on", "2026-01-05", "check", "L002U", "ph", "12.35", "--error", "0.1", "--temperature", "25", *buffers
    )
    assert any(said in caution for caution in found["cautions"])


@pytest.fixture
def salt(stockroom: CommandLine) -> CommandLine:
    """A jar of saturated sodium chloride: lot L002U."""
    stockroom.json("--on", "2026-01-02", "receive", "sodium-chloride", "1 kg", "--cost", "4")
    stockroom.json("--on", "2026-01-03", "make", "sodium-chloride-saturated", "300 mL")
    return stockroom


@pytest.mark.parametrize(
    ("reading", "error", "verdict", "check_by"),
    [
        ("75", "2", "fit", "2026-04-05"),
        ("60", "2", "unfit", "2026-04-03"),
        ("72", "4", "cannot tell", "2026-04-03"),
    ],
)
def test_humidity_over_a_salt_is_held_against_the_table(
    salt: CommandLine, reading: str, error: str, verdict: str, check_by: str
) -> None:
    """Sodium chloride at 20 °C: 75.48 % (Greenspan 1977), 75.7 (Padfield), 75.4 (CRC), give or take 5."""
    found = salt.json(
        "--on", "2026-01-05", "check", "L002U", "humidity", reading, "--error", error, "--temperature", "20"
    )
    assert (found["verdict"], found["check_by"]) == (verdict, check_by)
    assert any("Greenspan" in source for source in found["sources"])
    assert fit(salt, "2026-01-05") is (verdict != "unfit")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("humidity", "75"), "--error"),
        (("humidity", "75", "--error", "2"), "--temperature"),
        (("humidity", "175", "--error", "2", "--temperature", "20"), "no humidity"),
        (("humidity", "75", "--error", "2", "--temperature", "60"), "from"),
        (("titration", "--sample", "5 mL"), "not a saturated solution of calcium hydroxide"),
        (("looks", "film"), "solid, no solid, creeping"),
    ],
)
def test_what_cannot_be_read_of_a_salt_is_said(salt: CommandLine, arguments: tuple[str, ...], words: str) -> None:
    before = salt.json("lot", "L002U")
    assert words in salt.json("--on", "2026-01-05", "check", "L002U", *arguments, code=2)["error"]["message"]
    assert salt.json("lot", "L002U") == before


def test_humidity_is_read_of_salts_only(jar: CommandLine) -> None:
    failed = jar.json(
        "--on", "2026-01-05", "check", "L002U", "humidity", "75", "--error", "2", "--temperature", "20", code=2
    )
    assert "not kept over a salt" in failed["error"]["message"]


def test_drops_are_counted_where_there_is_no_burette_and_the_sample_is_drawn(jar: CommandLine) -> None:
    """A school laboratory's worked example: 30 drops took 17 of 0.1 mol/L, 2.1 g/L, give or take a drop of each.

    30 drops of about 0.05 mL (common practice, no source) are 1.5 mL.
    """
    found = jar.json(
        "--on", "2026-01-05", "check", "L002U", "titration", "--sample", "30 drops", "--acid", "0.1 mol/L", "--used",
        "17 drops", "--temperature", "22",
    )  # fmt: skip
    assert found["strength"]["low"] < 2.1 < found["strength"]["high"]
    assert float(jar.json("lot", "L002U")["amount"]) == 998.5
    assert any("20 drops a millilitre" in source for source in found["sources"])


def test_an_error_that_is_stated_widens_the_answer(jar: CommandLine) -> None:
    """By hand: 10.8 mL good to 0.5 mL is 5 %: 1.60 g/L good to 0.07 g/L."""
    found = titrate(jar, "10.8 mL", "--used-error", "0.5 mL")
    assert found["strength"]["high"] - found["strength"]["low"] == pytest.approx(0.15, abs=0.02)
    assert found["verdict"] == "cannot tell"


def test_a_check_booked_late_moves_nothing_that_a_later_one_has_settled(jar: CommandLine) -> None:
    titrate(jar, "10.8 mL", on="2026-02-05")
    late = jar.json(
        "--on", "2026-02-06", "check", "L002U", "titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used",
        "7.5 mL", "--temperature", "22", "--day", "2026-01-10",
    )  # fmt: skip
    assert (late["verdict"], late["check_by"], late["unfit"]) == ("weak", "2026-03-05", None)
    assert any("later day stands" in caution for caution in late["cautions"])
    page = jar.json("--on", "2026-02-06", "lot", "L002U")
    assert page["fit"] and "2026-02-05" in page["strength"]
    assert [one["day"] for one in page["checks"]] == ["2026-01-10", "2026-02-05"]


def test_the_studio_chooses_what_humidity_over_a_salt_may_be_off_by(salt: CommandLine) -> None:
    """5 % RH until then: common practice, no source. 72 with a meter good to 1 % is 3.4 to 3.7 from the tables."""
    check = ("--on", "2026-01-05", "check", "L002U", "humidity", "72", "--error", "1", "--temperature", "20")
    assert salt.json(*check)["verdict"] == "fit"
    salt.json("studio", "edit", "--humidity", "2 % RH", "--why", "loan asks for it")
    found = salt.json(*check)
    assert found["verdict"] == "unfit"
    assert any("loan asks for it" in source for source in found["sources"])
    assert "20 % RH" in salt.json("studio", "edit", "--humidity", "30 %", code=2)["error"]["message"]


def test_topping_up_names_what_its_figures_rest_on(jar: CommandLine) -> None:
    topped = jar.json("--on", "2026-01-06", "top-up", "L002U", "100 mL", "--temperature", "22")
    assert any("Bates" in source for source in topped["sources"])
    assert any("United States Pharmacopeia" in source for source in topped["sources"])


def test_what_reads_too_high_is_no_reference_yet(jar: CommandLine) -> None:
    failed = titrate(jar, "13 mL", "--own-reference", code=2)
    assert "No rise means" in failed["error"]["message"]


def test_a_temperature_that_nobody_wrote_down_is_said(stockroom: CommandLine) -> None:
    stockroom.json("--on", "2026-01-02", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json("--on", "2026-01-03", "make", "calcium-hydroxide-saturated", "1 L")
    check = ("--on", "2026-01-05", "check", "L002U", "titration", "--sample", "25 mL", "--acid", "0.1 mol/L")
    assert "20 °C was taken" in stockroom.json(*check, "--used", "10.8 mL")["cautions"][0]
    told = stockroom.json(*check, "--used", "10.8 mL", "--temperature", "20")
    assert not any("was taken" in caution for caution in told["cautions"])
