"""Whether a recipe makes an object wet, alkaline or bleached, so that its media are tested first.

Some pigments, inks and dyes are harmed by alkali and bleach (common practice, no source); water moves more of them.
"""

from __future__ import annotations

from collections.abc import Iterator

from stockroom.domain.media import MEDIA_TESTS, MediaTest
from stockroom.domain.recipes import Recipe
from stockroom.planning.requirements import Book
from stockroom.science.quantities import Dimension
from stockroom.science.substance_groups import groups_of

_ALKALINE = frozenset({"strong alkali", "ammonia", "carbonate"})
_BLEACHING = frozenset({"oxidiser", "reducer"})


def media_question(recipe: Recipe, book: Book, holds: frozenset[str] = frozenset()) -> MediaTest:
    """Say what is asked before a recipe is used: as it or a bath of it says, else by what it holds.

    A recipe that says nothing asks where it fills a bath or draws a liquid, and is not used without an answer where
    it bleaches. `holds` are groups of what the lots drawn from were made of.
    """
    own = list(_all_of(recipe, book))
    materials = [book.materials[line.material] for one in own for line in one.version.lines if line.material]
    groups = holds.union(*(groups_of(one.key, one.name, one.hazards) for one in materials))
    liquid = any(one.dimension is Dimension.VOLUME for one in materials)
    wet = liquid or any(one.kind == "bath" for one in own)
    bath = "bleaching" if groups & _BLEACHING else "alkaline" if groups & _ALKALINE else "wet"
    said = [one.version.media_test for one in own if one.version.media_test]
    derived = "not asked" if not wet else "required" if bath == "bleaching" else "asked"
    return MediaTest(asked=min(said, key=MEDIA_TESTS.index) if said else derived, bath=bath)


def _all_of(recipe: Recipe, book: Book) -> Iterator[Recipe]:
    yield recipe
    for line in recipe.version.lines:
        if line.recipe:
            yield from _all_of(book.recipes[line.recipe], book)
