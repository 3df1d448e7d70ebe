"""One treatment as a materials statement tells it."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from fractions import Fraction
from typing import Any
from zoneinfo import ZoneInfo

from stockroom.actions.mixing import show_share
from stockroom.actions.tracing import MIXED, Weave
from stockroom.domain.media import media_test_of
from stockroom.domain.recipes import Recipe, Step
from stockroom.domain.statement import Treated, Used
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.said_strengths import thinned
from stockroom.store.history import WorkDone
from stockroom.store.materials import materials_named
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.records import version_used
from stockroom.store.stockroom_settings import setting
from stockroom.store.tracing import DrawnOff

OTHERWISE = {"take": "Taken for the job", "cut": "Cut for the job"}
"""What is done for a job without a recipe."""


def say_treatment(
    store: Store,
    weave: Weave,
    actions: Sequence[WorkDone],
    draws: Sequence[DrawnOff],
    objects: tuple[str, ...],
) -> Treated:
    """Tell one thing done by its action, by those that put it right (later in `actions`), and by what stands of it."""
    first = actions[0]
    details = json.loads(first.details)
    by_recipe = version_used(store, first.version_id)
    recipe = find_recipe(store, by_recipe.key, by_recipe.number) if by_recipe else None
    recipes = tuple(_with_its_baths(store, recipe, details.get("baths", {}))) if recipe else ()
    fills = int(details.get("fills", 1))
    fill = _fill(recipes, details)
    media = media_test_of(details)
    day, at_text = (draws[0].day, draws[0].at) if draws else (first.day, first.at)
    at = datetime.fromisoformat(at_text).astimezone(ZoneInfo(setting(store, "time_zone")))
    return Treated(
        action=first.code,
        day=day,
        clock=None if (at.hour, at.minute) == (12, 0) else f"{at:%H:%M}",  # a day alone is kept as noon
        by=first.initials,
        what=by_recipe.name if by_recipe else OTHERWISE.get(first.kind, first.kind.replace("-", " ")),
        recipe=by_recipe.key if by_recipe else None,
        version=by_recipe.number if by_recipe else None,
        objects=objects,
        fill=fill,
        fills=fills,
        tray=details.get("tray"),
        strength=details.get("strength"),
        used=tuple(_used(weave, draws, fill, fills)),
        not_metered=tuple(_not_metered(store, details)),
        waits=tuple(wait for one in recipes for wait in _waits(store, one, fill)),
        notes=tuple(details.get("notes", ())),
        media=media.words if media else None,
        reason=first.reason,
        put_right=tuple(one.code for one in actions[1:]),
    )


def _with_its_baths(store: Store, recipe: Recipe, versions: Mapping[str, int]) -> Iterator[Recipe]:
    """Give the baths that a recipe names, at the versions that were used, and then itself."""
    for line in recipe.version.lines:
        if line.recipe:
            yield from _with_its_baths(store, find_recipe(store, line.recipe, versions.get(line.recipe)), versions)
    yield recipe


def _fill(recipes: Sequence[Recipe], details: Mapping[str, Any]) -> Quantity | None:
    """Return how much one fill was: as it was said, else as the recipe, or a bath that it names, has it."""
    if details.get("fill") is not None:
        return Quantity(Dimension.VOLUME, details["fill"])
    return next((one.version.batch for one in reversed(recipes) if one.version.batch), None)


def _used(weave: Weave, draws: Sequence[DrawnOff], fill: Quantity | None, fills: int) -> Iterator[Used]:
    by_lot: dict[int, list[DrawnOff]] = defaultdict(list)
    for draw in draws:
        by_lot[draw.lot].append(draw)
    for own in by_lot.values():
        then = weave.drawn(own)
        lot, amount = then.lot, then.lot.material.quantity(sum(draw.quanta for draw in own))
        strength = then.strength or lot.purity
        per_fill, odd = divmod(amount.quanta, fills)
        mixed = fill is not None and amount.dimension in MIXED
        yield Used(
            code=lot.code,
            name=lot.material.name,
            amount=amount,
            per_fill=lot.material.quantity(per_fill) if mixed and fills > 1 and not odd else None,
            strength=strength,
            share=_share(amount, fill.quanta * fills) if fill and mixed else None,
            in_bath=_in_bath(amount, strength, fill.quanta * fills) if fill and mixed else None,
            check=then.check,
            override=then.override,
        )


def _share(amount: Quantity, bath_ul: int) -> str | None:
    return show_share(Fraction(amount.quanta, bath_ul)) if amount.dimension is Dimension.VOLUME else None


def _in_bath(amount: Quantity, strength: str | None, bath_ul: int) -> str | None:
    """Return the strength that an amount of a solution or a powder gives to a bath."""
    if amount.dimension is Dimension.MASS:  # a microgram in a microlitre is a gram in a litre
        return thinned("100 % w/v", Fraction(amount.quanta, 1_000 * bath_ul))
    return thinned(strength, Fraction(amount.quanta, bath_ul))


def _not_metered(store: Store, details: Mapping[str, Any]) -> Iterator[tuple[str, Quantity]]:
    """Give what the action took that stands in no balance."""
    lines = details.get("lines", {})
    for key, material in materials_named(store, set(lines)).items():
        if not material.metered:
            yield material.name, material.quantity(lines[key])


def _waits(store: Store, recipe: Recipe, fill: Quantity | None) -> Iterator[tuple[str, str]]:
    """Give the times that a recipe asks for, each with the words of its step."""
    keys = {line.material for line in recipe.version.lines if line.material}
    names = {key: material.name for key, material in materials_named(store, keys).items()}
    for step in recipe.version.steps:
        if step.wait and not step.caution:
            yield step.wait, _filled(step, names, fill)


def _filled(step: Step, names: Mapping[str, str], fill: Quantity | None) -> str:
    words = step.words.replace("{total}", show(fill) if fill else "the whole")
    for key, name in names.items():
        words = words.replace("{" + key + "}", name)
    return words
