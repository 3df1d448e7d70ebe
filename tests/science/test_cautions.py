"""Pairs to keep apart, gas formers, and what is said before making, using, pouring away and bathing again."""

from __future__ import annotations

import pytest

from stockroom.domain.starter_files import starter_materials
from stockroom.science.cautions import (
    About,
    Caution,
    Thing,
    cautions_for_same_day,
    cautions_for_use,
    cautions_for_waste,
)
from stockroom.science.reference import rows
from stockroom.science.substance_groups import _GROUPS, groups_of

STARTER = {
    material.key: Thing(key=material.key, name=material.name, statements=material.hazards, vented=material.vented)
    for material in starter_materials()
}
OWN = {
    "sodium-borohydride": Thing(key="sodium-borohydride", name="Sodium borohydride", statements=("H260 x", "H301 x")),
    "hypochlorite": Thing(key="sodium-hypochlorite", name="Sodium hypochlorite"),
    "copper-sulfate": Thing(key="copper-sulfate", name="Copper sulfate"),
    "tray": Thing(key="zinc-tray", name="Zinc tray"),
}


def thing(key: str) -> Thing:
    return OWN.get(key) or STARTER[key]


def apart(cautions: tuple[Caution, ...]) -> list[Caution]:
    return [caution for caution in cautions if caution.about is About.APART]


PAIRS = [
    # AS 2243.10-2004, read
    ("hydrogen-peroxide-3", "ethanol", "fire"),
    ("hydrogen-peroxide-3", "acetone", "fire"),
    ("hydrogen-peroxide-35", "isopropanol", "fire"),
    ("hydrogen-peroxide-3", "copper-sulfate", "pressure"),
    ("magnesium-nitrate-hexahydrate", "acetone", "fire"),
    # Prudent Practices 1995 and ICSC 1670, read
    ("hydrogen-peroxide-3", "sodium-borohydride", "fire"),
    ("sodium-borohydride", "citric-acid", "fire"),
    ("sodium-borohydride", "deionised-water", "pressure"),
    # public table and Prudent Practices, read
    ("hypochlorite", "citric-acid", "toxic gas"),
    ("hypochlorite", "ammonia-solution", "toxic gas"),
    # ICSC 0044, read
    ("hypochlorite", "ethanol", "fire"),
    # GisChem sheet on ammonia, read; the case of citrate by inference
    ("ammonia-solution", "citric-acid", "heat"),
    ("calcium-hydroxide-solution", "ammonium-citrate-solution", "toxic gas"),
    # chemistry, from memory
    ("sodium-bicarbonate", "citric-acid", "pressure"),
    ("calcium-hydroxide", "tray", "pressure"),
    # AMA handbook, incompatibilities, read
    ("calcium-hydroxide-solution", "magnesium-bicarbonate-solution", "spoilt"),
    ("calcium-hydroxide-solution", "tap-water", "spoilt"),
]


@pytest.mark.parametrize(("first", "second", "harm"), PAIRS)
def test_pairs_to_keep_apart_are_found_either_way_round(first: str, second: str, harm: str) -> None:
    """Each with its source in the table above; the worst harm of the two is the one that is said."""
    for one, other in ((first, second), (second, first)):
        [caution] = apart(cautions_for_use([thing(one), thing(other)]))
        assert caution.harm == harm
        assert thing(one).name in caution.words and thing(other).name in caution.words
        assert caution.rows and all(row.source for row in caution.rows)
        assert caution.stops is (harm in ("toxic gas", "fire"))


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("calcium-hydroxide", "deionised-water"),
        ("calcium-hydroxide-solution", "methyl-cellulose-gel"),
        ("ethanol", "deionised-water"),
        ("ammonium-citrate", "deionised-water"),
        ("hydrogen-peroxide-3", "ammonia-solution"),
        ("wheat-starch", "tap-water"),
        ("peroxide-strips", "ethanol"),
    ],
)
def test_what_the_recipes_put_together_is_not_cried_at(first: str, second: str) -> None:
    """Common practice, no source: these are the studio's own makings."""
    assert apart(cautions_for_use([thing(first), thing(second)])) == []


def test_names_that_only_mention_a_substance_are_not_that_substance() -> None:
    """Acid-free board is no acid, and ammonium is not ammonia."""
    assert groups_of("board", "Acid-free board") == frozenset()
    assert "ammonia" not in groups_of("ammonium-citrate")
    assert groups_of("own-thing", "Household bleach") >= {"hypochlorite"}
    assert groups_of("thinner", "Thinner", ["H226 Flammable liquid and vapour"]) == {"flammable liquid"}


@pytest.mark.parametrize("key", ["hydrogen-peroxide-3", "magnesium-bicarbonate-solution", "ammonia-solution"])
def test_what_gives_off_gas_goes_only_into_a_vented_can(key: str) -> None:
    """Gas volumes are computed below; ammonia and the closures are common practice."""
    closed = cautions_for_waste([thing(key)], [], can_is_vented=False)
    assert [caution.stops for caution in closed if caution.about is About.GAS] == [True]
    vented = cautions_for_waste([thing(key)], [], can_is_vented=True)
    assert not any(caution.stops for caution in vented)
    assert any("Vented closure" in caution.words for caution in cautions_for_use([thing(key)]))


def test_a_thing_that_the_studio_has_as_vented_needs_a_vented_can() -> None:
    """The studio's own word is enough, though no table names the thing."""
    own = Thing(key="own-ferment", name="Fermenting paste", vented=True)
    assert any(caution.stops for caution in cautions_for_waste([own], [], can_is_vented=False))


def test_gas_volumes_agree_with_the_gas_law() -> None:
    """24.47 L/mol at 25 °C and 1 atm: 3 g of peroxide (34.01) gives half a mole each, 1 g of NaBH4 (37.83) four."""
    said = {row.of: row.what for row in rows("incompatible_pairs")}
    assert f"about {3 / 34.01 / 2 * 24.47:.1f} L" in said["peroxide + closed jar"]
    assert f"about {1 / 37.83 * 4 * 24.47:.1f} L" in said["borohydride + closed jar"]


def test_what_is_poured_is_compared_with_what_is_in_the_can() -> None:
    """Bleach upon acid is chlorine; two things that are in the can already are not warned of again."""
    can = [thing("citric-acid"), thing("ammonia-solution")]
    found = apart(cautions_for_waste([thing("hypochlorite")], can, can_is_vented=True))
    assert [caution.harm for caution in found] == ["toxic gas", "toxic gas"]
    assert all(caution.stops and "hypochlorite" in caution.words for caution in found)


def test_pressure_stops_only_at_a_closed_can() -> None:
    """Bicarbonate upon acid froths: in a vented can a warning, in a closed one a stop (common practice)."""
    for vented in (True, False):
        found = cautions_for_waste([thing("sodium-bicarbonate")], [thing("citric-acid")], can_is_vented=vented)
        assert any(caution.stops for caution in found) is not vented


@pytest.mark.parametrize(
    ("earlier", "now"),
    [
        ("hydrogen-peroxide-3", "sodium-borohydride"),
        ("ammonium-citrate-solution", "calcium-hydroxide-solution"),
    ],
)
def test_one_object_is_rinsed_between_baths_that_do_not_agree(earlier: str, now: str) -> None:
    """Peroxide then reducer, citrate then calcium hydroxide: common practice, with the pairs' own sources."""
    [caution] = cautions_for_same_day([thing(earlier)], [thing(now)])
    assert "rinse well between" in caution.words and not caution.stops
    assert cautions_for_same_day([thing(now)], [thing(now)]) == ()


@pytest.mark.parametrize("key", ["calcium-hydroxide", "calcium-hydroxide-solution"])
def test_eye_protection_is_the_first_line_wherever_calcium_hydroxide_is(key: str) -> None:
    """Common practice, no source; it damages eyes (CLP Annex I, 3.3.3.1.2)."""
    first, second, *_ = cautions_for_use([thing("deionised-water"), thing(key)])
    assert first.words.startswith("Eye protection") and "rules come first" in first.words
    assert "call a doctor" in second.words


def test_cautions_come_in_their_order_and_end_by_deferring() -> None:
    """Protection, pairs, gas, fresh, jar, disposal, and that the list is not complete."""
    found = cautions_for_use([thing("alkaline-peroxide"), thing("ethanol"), thing("ammonia-solution")])
    order = list(About)
    places = [order.index(caution.about) for caution in found]
    assert places == sorted(places) and set(places) == set(range(len(order)))
    assert "ask before pouring" in found[-2].words and "Ethanol 96 %" in found[-2].words
    assert "licensed practice come first" in found[-1].words


def test_things_made_fresh_and_never_poured_back_say_so() -> None:
    """Alkaline peroxide breaks down (conservation text, read); nothing returns to a peroxide bottle (AS 2243.10)."""
    fresh = [caution.words for caution in cautions_for_use([thing("alkaline-peroxide")])]
    assert any("make it fresh" in words for words in fresh)
    back = [c.words for c in cautions_for_use([thing("hydrogen-peroxide-3")]) if c.about is About.JAR]
    assert "nothing goes back into its jar" in back[0] and len(back) == 2


def test_every_group_of_the_table_is_one_that_some_name_leads_to() -> None:
    """A pair that no material can belong to would never be warned of."""
    known = {group for groups in _GROUPS.values() for group in groups}
    happenings = {"closed jar", "keeping", "return to the jar", "anything"}
    named = {side for row in rows("incompatible_pairs") for side in row.of.split(" + ")}
    assert named - happenings <= known
