"""What a recipe needs at a scale: its lines worked out into amounts of materials, recipes within recipes included."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from stockroom.domain.jobs import JobObject
from stockroom.domain.materials import Material
from stockroom.domain.recipes import Line, Recipe, RecipeVersion
from stockroom.errors import BadInput
from stockroom.planning.sheets import Piece
from stockroom.science.amounts import AreaTimes, Each, Fixed, MakeUp, OfStrength, Share, ToReading
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.sharing import round_half_even_ratio
from stockroom.science.strengths import read_strength, solute_for

SIGNIFICANT_DIGITS = 4
"""How finely an amount is planned: to a part in a thousand or better, which hands and balances can follow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """The recipes and materials a plan may name, by key."""

    materials: Mapping[str, Material]
    recipes: Mapping[str, Recipe]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How much is made or treated."""

    total: Quantity | None = None
    """What is made, or one fill of the bath."""
    fills: int = 1
    objects: Sequence[JobObject] = ()
    whole_objects: int | None = None
    """How many pieces, where it is not the number of objects."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """So much of one material for one line of a recipe."""

    recipe: str
    line: Line
    material: Material
    per_fill: Quantity | None
    """None where it is measured to a reading and only known afterwards."""
    fills: int = 1
    purity: Fraction | None = None
    """The purity it was reckoned at, where a strength decides the amount."""
    made_up_to: Quantity | None = None
    """The volume that this liquid is made up to: what goes in is about so much."""
    exact: Fraction | None = None
    """Quanta for one fill before they are rounded to what a hand can measure, where a purity decides the amount."""
    pieces: tuple[Piece, ...] = ()
    """What is cut, where it is cut from sheets."""
    batches: Fraction = Fraction(1)
    """How many times the recipe's usual amount one fill is."""

    @property
    def total(self) -> Quantity | None:
        """All fills together; a second fill repeats the first one's amount exactly."""
        if self.per_fill is None:
            return None
        return Quantity(self.per_fill.dimension, self.per_fill.quanta * self.fills)


def needs_of(recipe: Recipe, scale: Scale, book: Book) -> list[Need]:
    """Work a recipe out into needs, to any depth.

    Raises BadInput when the total, an object's size, a density or a molar mass that a line needs is not known.
    """
    return _expand(recipe, recipe.version, scale, book, inside=())


def refuse_no_bath(recipe: Recipe) -> None:
    """Raise BadInput where a recipe fills no bath, so that neither --qty nor --fills means anything."""
    reckoned_on_a_bath = any(
        line.recipe or isinstance(line.amount, Share | OfStrength | MakeUp) for line in recipe.version.lines
    )
    if recipe.kind == "treatment" and not reckoned_on_a_bath:
        raise BadInput(
            f"{recipe.name} has no bath: what it takes follows from the objects. Leave --qty and --fills out; say "
            "what was really taken with --took."
        )


def _expand(recipe: Recipe, version: RecipeVersion, scale: Scale, book: Book, inside: tuple[str, ...]) -> list[Need]:
    if recipe.key in inside:
        ring = " → ".join((*inside[inside.index(recipe.key) :], recipe.key))
        raise BadInput(f"These recipes go round in a ring: {ring}. Edit one of them.")
    needs: list[Need] = []
    for line in version.lines:
        if line.recipe is not None:
            bath = book.recipes[line.recipe]
            fill = _total(recipe, bath.version, scale)
            inner = replace(scale, total=fill, fills=scale.fills)
            needs += _expand(bath, bath.version, inner, book, (*inside, recipe.key))
        elif line.material is not None:
            needs.append(_need(recipe, version, line, scale, book))
    return _with_make_up(recipe, version, scale, needs)


def _total(recipe: Recipe, version: RecipeVersion, scale: Scale) -> Quantity:
    total = scale.total or version.batch or recipe.version.batch
    if total is None:
        raise BadInput(f"How much is one fill of {recipe.name}? Say it, for example --qty '500 mL'.")
    return total


def _need(recipe: Recipe, version: RecipeVersion, line: Line, scale: Scale, book: Book) -> Need:
    material = book.materials[line.material or ""]
    # A treatment's own lines (sheets, tissue) are taken once; what is mixed is taken anew for every fill.
    fills = scale.fills if recipe.kind == "bath" else 1
    bare = Need(recipe=recipe.key, line=line, material=material, per_fill=None, fills=fills)
    match line.amount:
        case Share(parts=parts):
            exact = parts * _in_volume(recipe, version, scale)
            # one part of a liquid is a volume, one part of a solid a mass (USP general notices)
            return _measured(bare, _as(material, Dimension.VOLUME, exact, solid_by_mass=True))
        case OfStrength(strength=strength):
            total = Quantity(Dimension.VOLUME, _in_volume(recipe, version, scale))
            purity = purity_of(material, material.purity, strength.unit)
            pure = solute_for(strength, total, molar_mass=material.molar_mass, purity=purity)
            dimension, exact = _as(material, pure.dimension, Fraction(pure.quanta))
            need = _measured(bare, (dimension, exact))
            return replace(need, purity=purity or Fraction(1), exact=exact)
        case Each(number=number, sides_um=(length, width), grain=grain):
            piece = Piece(sides=(length, width), number=number * _count(recipe, version, scale), grain=grain)
            return replace(bare, per_fill=_area_of(material, (piece,)), pieces=(piece,))
        case Each(number=number):
            return replace(bare, per_fill=_pieces(material, number * _count(recipe, version, scale)))
        case AreaTimes(times=times) if recipe.kind != "treatment":
            total = _total(recipe, version, scale)
            return replace(bare, per_fill=_area_of(material, (), round(times * total.quanta)))
        case AreaTimes():
            pieces = _cut_to_objects(recipe, line.amount, scale)
            return replace(bare, per_fill=_area_of(material, pieces), pieces=pieces)
        case Fixed(quantity=quantity):
            exact = quantity.quanta * _batches(recipe, version, scale)
            return _measured(bare, _as(material, quantity.dimension, exact))
        case MakeUp():
            whole = Quantity(Dimension.VOLUME, _in_volume(recipe, version, scale))
            return replace(bare, per_fill=Quantity(material.dimension, 0), made_up_to=whole)
        case ToReading():
            return replace(bare, batches=_batches(recipe, version, scale))
        case None:
            return bare
    raise TypeError(line.amount)


def _batches(recipe: Recipe, version: RecipeVersion, scale: Scale) -> Fraction:
    """Return how many times a stock's or bath's usual amount is made; what a treatment takes is taken once."""
    if recipe.kind == "treatment" or version.batch is None:
        return Fraction(1)
    return Fraction(_total(recipe, version, scale).quanta, version.batch.quanta)


def _in_volume(recipe: Recipe, version: RecipeVersion, scale: Scale) -> int:
    total = _total(recipe, version, scale)
    if total.dimension is not Dimension.VOLUME:
        raise BadInput(f"{recipe.name} is reckoned on a volume; {show(total)} is not one.")
    return total.quanta


def _measured(need: Need, exact: tuple[Dimension, Fraction]) -> Need:
    dimension, quanta = exact
    return replace(need, per_fill=Quantity(dimension, measurable(quanta)))


def measurable(quanta: Fraction) -> int:
    """Round an exact amount to what a hand can measure: four significant digits, half-even, at least one quantum."""
    whole = round_half_even_ratio(quanta.numerator, quanta.denominator)
    step: int = 10 ** max(0, len(str(whole)) - SIGNIFICANT_DIGITS)
    rounded = round_half_even_ratio(quanta.numerator, quanta.denominator * step) * step
    return max(1, rounded)


def purity_of(material: Material, text: str | None, unit: str) -> Fraction | None:
    """Read what part of a material is the substance, on the basis that a strength's unit needs.

    Raises BadInput where the purity is by volume and the strength by mass, or the other way round.
    """
    if text is None:
        return None
    purity = read_strength(text)
    by_volume = unit == "% v/v"
    if purity.unit == ("% v/v" if by_volume else "% w/w"):
        return Fraction(purity.number) / 100
    if by_volume is False and purity.unit == "% w/v" and material.density is not None:
        return Fraction(purity.number) / 100 / Fraction(material.density)
    basis = "by volume (% v/v)" if by_volume else "by mass (% w/w)"
    raise BadInput(f"{material.name} is given as {text}; a strength in {unit} needs its purity {basis}.")


def _as(
    material: Material, dimension: Dimension, quanta: Fraction, *, solid_by_mass: bool = False
) -> tuple[Dimension, Fraction]:
    """Turn an exact amount into the dimension its material is measured by."""
    if material.dimension is dimension:
        return dimension, quanta
    pair = (dimension, material.dimension)
    if pair == (Dimension.VOLUME, Dimension.MASS) and solid_by_mass:
        return Dimension.MASS, quanta * 1000
    if pair == (Dimension.MASS, Dimension.VOLUME):
        if material.density is None:
            raise BadInput(
                f"{material.name} is measured by volume: its density is needed to turn a mass into one. Set it with "
                f"'stockroom material edit {material.key} --density'."
            )
        return Dimension.VOLUME, quanta / (Fraction(material.density) * 1000)
    if pair == (Dimension.VOLUME, Dimension.MASS):
        # the density of particles says nothing of poured powder, which holds air
        raise BadInput(f"{material.name} is weighed: give its line as a mass or a strength, not as a volume.")
    raise BadInput(f"{material.name} is measured by {material.dimension.value}, not by {dimension.value}.")


def _count(recipe: Recipe, version: RecipeVersion, scale: Scale) -> Fraction:
    if scale.whole_objects is not None:
        return Fraction(scale.whole_objects)
    if recipe.kind == "treatment":
        if not scale.objects:
            raise BadInput(f"{recipe.name} is reckoned for each object, and the job has none. Add its objects.")
        return Fraction(len(scale.objects))
    total = _total(recipe, version, scale)
    if total.dimension not in (Dimension.PIECES, Dimension.USES):
        raise BadInput(f"{recipe.name} counts pieces; {show(total)} is not a number of pieces.")
    return Fraction(total.quanta, 1000)


def _pieces(material: Material, number: Fraction) -> Quantity:
    if material.dimension is Dimension.AREA:
        sheet = material.packs.get("sheet")
        if sheet is None:
            raise BadInput(f"{material.name} has no sheet size. Set it with 'stockroom material edit'.")
        return Quantity(Dimension.AREA, round(number * sheet.quanta))
    if material.dimension not in (Dimension.PIECES, Dimension.USES):
        raise BadInput(f"{material.name} is measured by {material.dimension.value}, not counted.")
    return Quantity(material.dimension, round(number * 1000))


def _area_of(material: Material, pieces: Sequence[Piece], mm2: int = 0) -> Quantity:
    if material.dimension is not Dimension.AREA:
        raise BadInput(f"{material.name} is not measured by area; change the recipe's line.")
    areas = (round(one.number * Fraction(one.sides[0] * one.sides[1], 1_000_000)) for one in pieces)
    return Quantity(Dimension.AREA, mm2 + sum(areas))


def _cut_to_objects(recipe: Recipe, amount: AreaTimes, scale: Scale) -> tuple[Piece, ...]:
    if not scale.objects:
        raise BadInput(f"{recipe.name} is cut to the objects, and the job has none. Add them with their sizes.")
    pieces: list[Piece] = []
    for thing in scale.objects:
        if thing.length_um is None or thing.width_um is None:
            raise BadInput(
                f"{recipe.name} is cut to the object: the size of {thing.name} is not known. Give it with "
                "'stockroom job object', or say what was taken with --took."
            )
        margin = 2 * amount.margin_um
        pieces.append(Piece(sides=(thing.length_um + margin, thing.width_um + margin), number=amount.times))
    return tuple(pieces)


def _with_make_up(recipe: Recipe, version: RecipeVersion, scale: Scale, needs: list[Need]) -> list[Need]:
    """Work out the liquid made up to volume: the whole less the other liquids of this recipe."""
    finished: list[Need] = []
    for need in needs:
        if not need.made_up_to or need.recipe != recipe.key or need.per_fill is None or need.per_fill.quanta:
            finished.append(need)
            continue
        total = need.made_up_to.quanta
        others = sum(
            other.per_fill.quanta
            for other in needs
            if other.recipe == recipe.key and other.per_fill and other.per_fill.dimension is Dimension.VOLUME
        )
        if others > total:
            raise BadInput(f"The liquids of {recipe.name} come to more than {show(Quantity(Dimension.VOLUME, total))}.")
        rest = Fraction(total - others)
        dimension, quanta = _as(need.material, Dimension.VOLUME, rest)
        finished.append(replace(need, per_fill=Quantity(dimension, round(quanta))))
    return finished
