"""Recipes read from a file as the trade writes them, and written back."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.media import MEDIA_TESTS
from stockroom.domain.recipe_files import EVAPORATION, read_recipe, write_recipe
from stockroom.domain.recipes import Line, Recipe, RecipeCheck, RecipeVersion, Step
from stockroom.domain.starter_files import starter_recipes
from stockroom.errors import BadInput
from stockroom.science.amounts import Amount, AreaTimes, Each, Fixed, MakeUp, OfStrength, Share, ToReading
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.strengths import UNITS, Strength

STOCK = """
[recipe]
key = "gel-5"
name = "Gel, 5 %"
kind = "stock"
makes = "gel"
batch = "500 mL"
life = "14 days"
life_opened = "7 days"
ready_after = "24 h"
check_every = "1 month"
strength_line = "powder"
over_solid = true
ingredients_limit = true
leftover = "Discard."
storage = "cold"
note = "Weigh it."
source = "Common practice, no source."

[check]
method = "peroxide strip"
low = "0.5"
high = "1.5"
unit = "% w/v"
error = "0.25"
spoilt = ["Smells  off", "mould"]
extends = false
source = "Own trial."

[[line]]
material = "powder"
amount = "5 % w/v"
stand_ins = ["flakes", "granules"]
note = "Fresh."

[[line]]
material = "water"
amount = "make up"

[[step]]
words = "Gloves."
caution = true

[[step]]
words = "Stir {powder} in and make up to {total}."
wait = "20 min"
"""


def write(head: str = "", lines: str = '[[line]]\nmaterial = "water"\namount = "make up"\n', rest: str = "") -> str:
    """Build a bath's file; `head` adds to or overrides its first table, one key a line."""
    values = {"key": '"b"', "name": '"B"', "kind": '"bath"'}
    values |= {key: value for key, _, value in (line.partition(" = ") for line in head.splitlines())}
    table = "".join(f"{key} = {value}\n" for key, value in values.items() if value)
    return f"[recipe]\n{table}{lines}{rest}"


RANGE = '[check]\nmethod = "strip"\nunit = "%"\n'


def line(material: str, amount: str, more: str = "") -> str:
    return f'[[line]]\nmaterial = "{material}"\namount = "{amount}"\n{more}\n'


def problems(text: str) -> list[str]:
    with pytest.raises(BadInput) as caught:
        read_recipe(text, "b.toml")
    assert caught.value.message.splitlines() == caught.value.details["problems"]
    return list(caught.value.details["problems"])


def test_every_key_of_a_recipe_is_read() -> None:
    """Head, lines and steps arrive where they belong, in their order."""
    recipe = read_recipe(STOCK, "gel.toml")
    version = recipe.version
    assert (recipe.key, recipe.name, recipe.kind, recipe.makes) == ("gel-5", "Gel, 5 %", "stock", "gel")
    assert (version.batch, version.fills) == (Quantity(Dimension.VOLUME, 500_000), 1)
    assert (version.life, version.life_opened, version.ready_after) == ("14 days", "7 days", "24 h")
    assert (version.check_every, version.strength_line, version.strength) == ("1 month", 1, None)
    assert (version.over_solid, version.ingredients_limit) == (True, True)
    assert (version.leftover, version.storage, version.note) == ("Discard.", "cold", "Weigh it.")
    assert version.check == RecipeCheck(
        method="peroxide strip",
        low=Decimal("0.5"),
        high=Decimal("1.5"),
        unit="% w/v",
        error=Decimal("0.25"),
        spoilt=("smells off", "mould"),
        extends=False,
        source="Own trial.",
    )
    assert version.lines == (
        Line(
            position=1,
            material="powder",
            amount=OfStrength(strength=Strength(number=Decimal(5), unit="% w/v")),
            stand_ins=("flakes", "granules"),
            note="Fresh.",
        ),
        Line(position=2, material="water", amount=MakeUp()),
    )
    assert version.steps == (
        Step(words="Gloves.", caution=True),
        Step(words="Stir {powder} in and make up to {total}.", wait="20 min"),
    )


@pytest.mark.parametrize(
    ("batch", "expected"),
    [
        ("1 L", Quantity(Dimension.VOLUME, 1_000_000)),
        ("500 g", Quantity(Dimension.MASS, 500_000_000)),
        ("60 x 90 cm", Quantity(Dimension.AREA, 540_000)),
        ("10 pieces", Quantity(Dimension.PIECES, 10_000)),
    ],
)
def test_a_stock_may_be_made_by_volume_mass_area_or_pieces(batch: str, expected: Quantity) -> None:
    """Paste is weighed, a prepared sheet has an area."""
    assert read_recipe(STOCK.replace("500 mL", batch), "gel.toml").version.batch == expected


def test_a_line_may_be_a_bath_which_takes_the_whole_fill() -> None:
    """Such a line has no amount of its own."""
    recipe = read_recipe(write('kind = "treatment"', '[[line]]\nrecipe = "weak-bath"\n'), "b.toml")
    assert recipe.version.lines == (Line(position=1, recipe="weak-bath"),)


def test_a_reading_has_a_first_dose_that_is_kept_as_typed() -> None:
    """Where to begin is said beside the range to reach."""
    text = write(lines=line("lime", "to pH 8.0-8.5", 'first_dose = "0,5 mL"'))
    (read,) = read_recipe(text, "b.toml").version.lines
    assert read.first_dose == "0,5 mL"
    assert read.amount == ToReading(measure="pH", low=Decimal("8.0"), high=Decimal("8.5"))


@pytest.mark.parametrize(
    ("text", "place", "said"),
    [
        (write('kind = "soup"'), "[recipe], kind", "stock, bath, treatment"),
        (write('kind = "stock"'), "[recipe], makes", "names the material it makes"),
        (write('makes = "gel"'), "[recipe], makes", "makes none"),
        (write('batch = "500 g"'), "[recipe], batch", "500 mL"),
        (write('batch = "about 1 L"'), "[recipe], batch", "not exact"),
        (write('batch = "1,500 mL"'), "[recipe], batch", "1500 mL or as 1.5 mL"),
        (write("fills = 0"), "[recipe], fills", "1 to 50"),
        (write("fills = true"), "[recipe], fills", "whole number"),
        (write('kind = "stock"\nmakes = "gel"\nfills = 2'), "[recipe], fills", "not filled"),
        (write('life = "long"'), "[recipe], life", "14 days"),
        (write('ready_after = "20 min"'), "[recipe], ready_after", "24 h"),
        (write('strength_line = "water"'), "[recipe], strength_line", "5 % w/v"),
        (write('life_open = "1 h"'), "[recipe], life_open", "life_opened"),
        (write(lines=""), "the file, line", "at least one"),
        (write(lines="[[line]]\n"), "[[line]] 1, material", "either a material or a recipe"),
        (write(lines='[[line]]\nmaterial = "a"\nrecipe = "b"'), "[[line]] 1, material", "either"),
        (write(lines='[[line]]\nmaterial = "a"'), "[[line]] 1, amount", "1 in 4"),
        (write(lines='[[line]]\nrecipe = "a"\namount = "1 in 4"'), "[[line]] 1, recipe", "whole fill"),
        (write(lines='[[line]]\nrecipe = "b"'), "[recipe], key", "cannot hold itself"),
        (write(lines=line("a", "1:4")), "[[line]] 1, amount", "1 in 4 or as 1 + 4"),
        (write(lines=line("a", "5 %")), "[[line]] 1, amount", "w/v"),
        (write(lines=line("a", "some")), "[[line]] 1, amount", "“some”"),
        (write(lines=line("a", "make up", 'first_dose = "1 mL"')), "[[line]] 1, first_dose", "reading"),
        (write(lines=line("a", "make up", 'stand_ins = ["a"]')), "[[line]] 1, stand_ins", "never the material"),
        (write(lines=line("a", "make up", 'stand_ins = ["b", "b"]')), "[[line]] 1, stand_ins", "once"),
        (write(lines=line("a", "make up", 'stand_ins = ["B b"]')), "[[line]] 1, stand_ins", "small letters"),
        (write(lines=line("a", "make up") + line("b", "make up")), "[[line]] 2, amount", "only one"),
        (write(lines=line("a", "1 in 4") + line("a", "make up")), "[[line]] 2, material", "earlier line"),
        (write(lines=line("a", "3 in 4") + line("b", "1 in 2")), "[[line]] 2, amount", "5 in 4"),
        (write(rest="[[step]]\n"), "[[step]] 1, words", "missing"),
        (write(rest='[[step]]\nwords = "Wait."\nwait = "1 m"'), "[[step]] 1, wait", "20 min"),
        (write(rest='[[step]]\nwords = "Add {salt}."'), "[[step]] 1, words", "“{salt}”"),
        (write(rest='[[step]]\nwords = "Add {water."'), "[[step]] 1, words", "brace"),
        (write(rest='[[step]]\nwords = "Go."\nhurry = true'), "[[step]] 1, hurry", "caution, wait, words"),
        (write(rest="[stepp]\n"), "the file, stepp", "check, line, recipe, step"),
        (write(rest="[check]\n"), "[check], spoilt", "no reading and no look"),
        (write(rest='[check]\nlow = "1"\n'), "[check], method", "method, unit and low"),
        (write(rest='[check]\nmethod = "strip"\nunit = "%"\n'), "[check], method", "all of them"),
        (write(rest='[check]\nspoilt = ["a"]\nerror = "1"\n'), "[check], method", "all of them"),
        (write(rest=RANGE + 'low = "2"\nhigh = "1"\n'), "[check], low", "more than high"),
        (write(rest=RANGE + 'low = "-2"\n'), "[check], low", "negative"),
        (write(rest='[check]\nspoilt = ["mould", "Mould"]\n'), "[check], spoilt", "once"),
        (write(rest='[check]\nspoilt = ["good"]\n'), "[check], spoilt", "none of good"),
        (write('kind = "treatment"', rest='[check]\nspoilt = ["mould"]\n'), "[recipe], kind", "not kept"),
        ("", "the file, recipe", "[recipe]"),
        ("[[recipe]]\n", "the file, recipe", "[recipe]"),
    ],
)
def test_a_problem_names_file_table_key_what_was_read_and_what_is_accepted(text: str, place: str, said: str) -> None:
    """The message leads to the place, and says how to put it right."""
    fits = [problem for problem in problems(text) if problem.startswith(f"b.toml, {place}: ")]
    assert len(fits) == 1, problems(text)
    assert said in fits[0]


def test_shares_may_fill_the_whole_and_no_more() -> None:
    """Three in four and one in four are all of it."""
    assert len(read_recipe(write(lines=line("a", "3 in 4") + line("b", "1 in 4")), "b.toml").version.lines) == 2


def test_every_problem_of_a_file_is_told_at_once() -> None:
    """Nobody should have to mend a file one message at a time."""
    text = write('life = "long"\nfills = 99', line("a", "1:4") + line("b", "some"), '[[step]]\nwords = "{c}"')
    assert [problem.split(": ")[0].removeprefix("b.toml, ") for problem in problems(text)] == [
        "[[line]] 1, amount",
        "[[line]] 2, amount",
        "[[step]] 1, words",
        "[recipe], fills",
        "[recipe], life",
    ]


@given(st.text(max_size=200))
def test_no_text_makes_the_reader_fall_over(text: str) -> None:
    """Whatever stands in the file, or in an amount, it is read or refused as bad input."""
    for file in (text, write(lines=f"[[line]]\nmaterial = 'a'\namount = '{text}'\n")):
        try:
            read_recipe(file, "b.toml")
        except BadInput as error:
            assert error.message


KEYS = st.from_regex(r"[a-z0-9]{1,8}(-[a-z0-9]{1,8}){0,2}", fullmatch=True)
WORDS = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], include_characters="\n", exclude_characters="{}"), min_size=1
).filter(str.strip)
NAMES = WORDS.filter(lambda text: "\n" not in text)
TOLERANCES = st.integers(1, 500_000).map(lambda millionths: Fraction(millionths, 1_000_000))
LIVES = st.none() | st.sampled_from(["4 h", "14 days", "1 month", "2 years", "3 days counting the day of making"])
POSITIVE = st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=50)
DECIMALS = st.decimals(min_value="0.001", max_value=100, places=3)
AMOUNTS: st.SearchStrategy[Amount] = st.one_of(
    st.builds(Each, number=POSITIVE),
    st.builds(
        lambda number, sides, grain: Each(number=number, sides_um=sides, grain=grain),
        POSITIVE,
        st.tuples(st.integers(1, 3000), st.integers(1, 3000)).map(lambda sides: (sides[0] * 1000, sides[1] * 1000)),
        st.none() | st.sampled_from(["along", "across"]),
    ),
    st.builds(AreaTimes, times=POSITIVE, margin_um=st.integers(0, 10**6)),
    st.builds(OfStrength, strength=st.builds(Strength, number=DECIMALS, unit=st.sampled_from(UNITS))),
    st.builds(Fixed, quantity=st.builds(Quantity, st.sampled_from(Dimension), st.integers(1, 10**12))),
    st.builds(lambda low: ToReading(measure="pH", low=low, high=low + 1), DECIMALS),
    st.builds(Share, parts=st.fractions(min_value=Fraction(1, 99), max_value=Fraction(1, 5))),
)


FIGURES = st.none() | st.decimals(min_value=0, max_value=1000, places=2)


@st.composite
def checks(draw: st.DrawFn) -> RecipeCheck:
    """Draw any check that may be written down."""
    low, high = sorted(draw(st.tuples(DECIMALS, DECIMALS)))
    spoilt = st.lists(st.sampled_from(["mould", "smell", "thin", "no bubbles"]), min_size=1, unique=True).map(tuple)
    looks = RecipeCheck(spoilt=draw(spoilt), extends=draw(st.booleans()), source=draw(st.none() | WORDS))
    reading = {"method": draw(NAMES), "unit": draw(NAMES), "low": low, "error": draw(FIGURES)}
    return draw(st.sampled_from([looks, replace(looks, **reading), replace(looks, **reading, high=high)]))


@st.composite
def recipes(draw: st.DrawFn) -> Recipe:
    """Draw any recipe that may be written down: up to four lines of materials, a bath and a liquid making up."""
    kind = draw(st.sampled_from(["stock", "bath", "treatment"]))
    keys = draw(st.lists(KEYS, min_size=1, max_size=7, unique=True))
    own, *others = keys
    amounts = [*draw(st.lists(AMOUNTS, max_size=4)), MakeUp()][: len(others)]
    lines = [Line(position=0, material=key, amount=amount) for key, amount in zip(others, amounts, strict=False)]
    lines += [Line(position=0, recipe=key) for key in others[len(amounts) :]]
    lines = lines or [Line(position=0, material="water", amount=MakeUp())]
    strengths = [number for number, line in enumerate(lines, 1) if isinstance(line.amount, OfStrength)]
    strength_line = draw(st.none() | st.sampled_from(strengths)) if strengths else None
    dimension = draw(st.sampled_from(Dimension)) if kind == "stock" else Dimension.VOLUME
    version = RecipeVersion(
        batch=draw(st.none() | st.builds(Quantity, st.just(dimension), st.integers(1, 10**12))),
        fills=1 if kind == "stock" else draw(st.integers(1, 50)),
        life=draw(LIVES),
        life_opened=draw(LIVES),
        ready_after=draw(LIVES),
        check_every=draw(LIVES),
        strength=None if strength_line else draw(st.none() | NAMES),
        strength_line=strength_line,
        over_solid=draw(st.booleans()),
        ingredients_limit=draw(st.booleans()),
        media_test=draw(st.none() | st.sampled_from(MEDIA_TESTS)),
        evaporation=draw(st.none() | st.sampled_from(EVAPORATION)),
        leftover=draw(st.none() | WORDS),
        storage=draw(st.none() | WORDS),
        note=draw(st.none() | WORDS),
        source=draw(st.none() | WORDS),
        check=None if kind == "treatment" else draw(st.none() | checks()),
        lines=tuple(
            Line(
                position=number,
                material=line.material,
                recipe=line.recipe,
                amount=line.amount,
                first_dose="0,5 mL" if isinstance(line.amount, ToReading) else None,
                stand_ins=("stand-in-of-none",) if line.material else (),
                tolerance=draw(st.none() | TOLERANCES) if line.material else None,
                note=draw(st.none() | WORDS),
            )
            for number, line in enumerate(lines, 1)
        ),
        steps=draw(
            st.lists(
                st.builds(Step, words=WORDS, wait=LIVES | st.just("20 min"), caution=st.booleans()), max_size=3
            ).map(tuple)
        ),
    )
    return Recipe(key=own, name=draw(NAMES), kind=kind, makes="made" if kind == "stock" else None, version=version)


@given(recipes())
def test_what_was_written_reads_back_as_the_same_recipe(recipe: Recipe) -> None:
    """Writing loses nothing, whatever signs people typed."""
    assert read_recipe(write_recipe(recipe), "b.toml") == recipe


@pytest.mark.parametrize("recipe", starter_recipes(), ids=lambda recipe: recipe.key)
def test_every_starter_recipe_survives_being_written_and_read(recipe: Recipe) -> None:
    """So a copy of a starter recipe, the commonest start of an own one, is the same recipe."""
    assert read_recipe(write_recipe(recipe), "b.toml") == recipe
