"""In what order materials are planned: each after everything that it is needed for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.requirements import Book
from stockroom.planning.ways import HowMade


def from_the_top(start: Iterable[int], made: Mapping[int, HowMade], book: Book) -> list[int]:
    """Order materials, and all that they are made of, so that each comes after everything it is needed for.

    Raises BadInput, naming the ring, where that cannot be done.
    """
    below: dict[int, list[int]] = {}
    waiting = list(start)
    while waiting:
        key = waiting.pop()
        if key not in below:
            below[key] = ingredients(made[key].recipe, book) if key in made else []
            waiting += below[key]
    above: dict[int, set[int]] = {key: set() for key in below}
    for key, keys in below.items():
        for each in keys:
            above[each].add(key)
    left = {key: len(keys) for key, keys in above.items()}
    order = [key for key, number in left.items() if not number]
    for key in order:
        for each in below[key]:
            left[each] -= 1
            if not left[each]:
                order.append(each)
    if len(order) < len(below):
        _refuse_ring({key: above[key] - set(order) for key in below if key not in order}, made)
    return order


def _refuse_ring(above: Mapping[int, set[int]], made: Mapping[int, HowMade]) -> None:
    """Walk up from what could not be put in order until something comes again, and name the recipes on the way."""
    path = [next(iter(above))]
    while path[-1] not in path[:-1]:
        path.append(min(above[path[-1]]))
    ring = reversed(path[path.index(path[-1]) :])
    keys = " → ".join(made[key].recipe.key for key in ring)
    raise BadInput(f"These recipes go round in a ring: {keys}. Edit one of them.")


def ingredients(recipe: Recipe, book: Book) -> list[int]:
    """Return the metered materials a recipe draws, those of recipes mixed in place included."""
    found: dict[int, None] = {}
    seen: set[str] = set()
    waiting = [recipe]
    while waiting:
        one = waiting.pop()
        if one.key in seen:
            continue
        seen.add(one.key)
        for line in one.version.lines:
            if line.recipe is not None:
                waiting.append(book.recipes[line.recipe])
            elif line.material is not None and book.materials[line.material].metered:
                found[book.materials[line.material].id] = None
    return list(found)
