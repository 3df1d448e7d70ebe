"""Recipes of the studio's own: written line by line, a trial batch beside them; the commonest start is a copy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime

from textual.content import Content

from stockroom.actions.recipe_trial import try_batch
from stockroom.actions.recipe_writing import (
    NEW_MATERIAL,
    Written,
    problems_of,
    read_typed,
    write_again,
    write_new,
)
from stockroom.domain.media import MEDIA_TESTS
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_files import EVAPORATION, KINDS, MOST_FILLS
from stockroom.domain.recipe_typed import typed_from
from stockroom.science.reading import read_quantity
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.tui.forms.fields import fixed, offer_materials, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import EDIT_WHY, OF, either, filled, which
from stockroom.tui.forms.own_studio import NAME
from stockroom.tui.forms.recipe_text import trial_parts, written_text
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import sections

COPY = "copy"
"""The answer that says which recipe a new one begins as; no field holds it."""
_WHAT = {
    "stock": "made ahead and kept in jars",
    "bath": "mixed for one use",
    "treatment": "what an object gets: baths, sheets, tissue",
}


def _rare(key: str, words: str, hint: str, *, shown: Callable[[Answers], bool] = lambda answers: True) -> Asked:
    return Asked(key=key, words=words, hint=hint, rare=True, shown=shown)


def _not(*kinds: str) -> Callable[[Answers], bool]:
    return lambda answers: answers.get("kind") not in kinds


def _offer_made(store: Store, answers: Answers) -> Sequence[Offer]:
    made = Offer(key=NEW_MATERIAL, words="a new material of this name", detail="a solution, added with the recipe")
    return [made, *_solutions(store, answers)]


def _solutions(store: Store, answers: Answers) -> list[Offer]:
    from stockroom.store.materials import all_materials

    found = [
        Offer(key=one.key, words=one.name, detail=one.kind)
        for one in all_materials(store)
        if one.kind == "solution" and one.metered
    ]
    return found + [offer for offer in offer_materials(store, answers) if offer.key not in {one.key for one in found}]


_HEAD = (
    replace(NAME, hint="Long wash; Starch paste, thin"),
    Asked(
        key="kind",
        words="Kind",
        hint="Enter: stock, bath or treatment",
        needed=True,
        choose=fixed(*((kind, _WHAT[kind]) for kind in KINDS)),
    ),
    Asked(
        key="makes",
        words="Makes",
        hint="Enter: a material, or a new one",
        needed=True,
        choose=_offer_made,
        shown=lambda answers: answers.get("kind") == "stock",
    ),
)
_BODY = (
    Asked(key="batch", words="Usual batch", hint="made at once, or one fill: 500 mL"),
    Asked(key="lines", words="Lines", hint="one a line: deionised-water = make up", needed=True, rows=5),
    Asked(key="steps", words="Steps", hint="one a line: Stir until it is clear. (wait 20 min)", rows=5),
    Asked(
        key="trial",
        words="Trial batch",
        hint="shown beside; the usual, or 250 mL",
        read=lambda store, answers: read_quantity(answers["trial"]),
    ),
    Asked(key="life", words="Keeps", hint="6 months; 4 h, made fresh", shown=_not("treatment")),
    Asked(key="storage", words="Storage", hint="closed, cool, dark", rows=2),
)
_MORE = (
    Asked(
        key="fills",
        words="Fills",
        hint="how often the bath is filled: 1",
        rare=True,
        read=lambda store, answers: whole_number(answers["fills"], "fills", MOST_FILLS),
        shown=_not("stock"),
    ),
    _rare("life_opened", "Keeps opened", "once its jar was opened: 1 month"),
    _rare("ready_after", "Ready after", "settling or swelling: 24 h"),
    _rare("check_every", "Check every", "6 weeks"),
    _rare("strength", "Strength", "as the label says it: about 1.6 g/L"),
    _rare("strength_line", "Strength of line", "key of the line that is its strength"),
    either("Over solid", "over_solid", "kept over solid, and topped up with water"),
    either("Oldest part", "ingredients_limit", "no part may be past its date before it is"),
    Asked(
        key="media_test",
        words="Media tested",
        hint="as its composition says",
        rare=True,
        choose=fixed(*((word, "before it is used") for word in MEDIA_TESTS)),
    ),
    Asked(
        key="evaporation",
        words="Evaporated",
        hint="its strength is then not known",
        rare=True,
        choose=fixed(*((word, "its strength is reckoned anew") for word in EVAPORATION)),
    ),
    Asked(key="leftover", words="Left over", hint="discard the same day", rare=True, rows=2),
    _rare("check_method", "Checked by", "pH by meter; peroxide strip; hydrometer"),
    _rare("check_low", "Fit from", "the least it may read: 8.0"),
    _rare("check_high", "Fit up to", "the most it may read: 9.0"),
    _rare("check_unit", "Reads in", "pH; % w/v; µS/cm"),
    _rare("check_error", "Reads off by", "either way, in the same unit: 0.1"),
    _rare("check_spoilt", "Spoilt when", "cloudy, mould"),
    Asked(
        key="check_extends",
        words="Check makes last",
        hint="yes: one that passes moves its day",
        rare=True,
        choose=fixed(("no", "a check never makes it last longer"), ("yes", "")),
    ),
    _rare("check_source", "Source of check", "where its range comes from"),
    Asked(key="note", words="Note", hint="whatever is to be known", rare=True, rows=3),
    Asked(key="source", words="Source", hint="handbook, course, own trial", rare=True, rows=3),
)


def _about(store: Store, answers: Answers, local: datetime) -> Content:
    """Work a trial batch out as soon as the lines can be read, whatever else is still to be filled in."""
    return sections(*trial_parts(try_batch(store, read_typed(store, answers, answers.get(OF)), answers.get("trial"))))


def _new(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Written | None) -> Written:
    return write_new(store, occasion, answers, copy_of=answers.get(COPY), dry_run=dry_run, confirmed=confirmed)


def _again(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Written | None) -> Written:
    key = which(answers, "recipe")
    return write_again(store, occasion, key, answers, dry_run=dry_run, confirmed=confirmed)


def _copied(store: Store, known: Answers, local: datetime) -> Answers:
    """Fill a new recipe with another's lines, steps and all but its name and key."""
    if set(known) != {COPY}:
        return known
    typed = typed_from(find_recipe(store, known[COPY]))
    return {**known, **{name: value for name, value in typed.items() if name not in ("key", "name")}}


def _done(done: Written, currency: str) -> tuple[str, Content]:
    recipe = done.kept.recipe
    return f"Kept: {recipe.name}, version {recipe.version.number}", written_text(done, currency)


NEW_RECIPE = Form(
    name="new-recipe",
    title="Write a recipe",
    help="""
Writing a recipe, one line an ingredient: a material's key or name, =, and its amount as the
trade writes it: 1 in 4, 0.5 % w/v, 20 g/L, 50 mL, make up, to pH 8.0-8.5, 2 each,
2 x area + 3 cm. A bath mixed in place is written recipe = its key.

What else a line says stands beneath it: note = ..., stand_ins = other materials that may
replace it, first_dose = 0.1 mL, tolerance = 10 %.

Steps stand one a line; {key} stands for the amount of that line, {total} for the whole;
caution: begins what is to be read first, (wait 20 min) ends a step that is waited after.

Beside it a trial batch is worked out while you type, with hazards and cautions. Ctrl+L asks
for more: how it is checked, how long it keeps opened, its source.
""",
    fields=(
        *_HEAD,
        *_BODY,
        *_MORE,
        _rare("key", "Key", "short, to type; else from its name"),
    ),
    act=_new,
    plan=written_text,
    verb="Keep",
    question=lambda answers: f"Keep the recipe {answers['name']}?",
    done=_done,
    about=_about,
    expand=_copied,
    wrong=lambda store, answers: problems_of(store, answers),
    page=lambda done: ("recipe", done.kept.recipe.key),
)
EDIT_RECIPE = Form(
    name="edit-recipe",
    title="Change a recipe: a new version",
    help="""
Changing a recipe makes its next version; what was made by an earlier one stays as it was, and
so do its labels. Beside the fields stands what changes, line by line: - taken out, + put in.

Lines and steps are written as in a new recipe: key = amount, one a line; what else a line says
stands beneath it. {key} and {total} stand for amounts, caution: for what is read first,
(wait 20 min) for what is waited after.
""",
    fields=(NAME, *_BODY, *_MORE, EDIT_WHY),
    act=_again,
    plan=written_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']} so?",
    done=_done,
    about=_about,
    expand=lambda store, known, local: filled(known, lambda key: _values(store, key)),
    wrong=lambda store, answers: problems_of(store, answers, answers.get(OF)) if OF in answers else {},
)


def _values(store: Store, key: str) -> dict[str, str | None]:
    typed = typed_from(find_recipe(store, key))
    return {name: value for name, value in typed.items() if name not in ("key", "makes")}
