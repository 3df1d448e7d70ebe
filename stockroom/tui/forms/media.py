"""Whether media, inks and colours were tested, asked before a treatment that wets, makes alkaline or bleaches."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.actions.recipe_book import load_book
from stockroom.actions.using import Using
from stockroom.errors import BadInput
from stockroom.planning.media import media_question
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.studio import all_people
from stockroom.tui.forms.form import Answers, Asked, Lack
from stockroom.tui.questions.offer import Offer
from stockroom.tui.studio import working_people

_NOT_TESTED, _NOT_ASKED = "not tested", "not asked"
"""Answers beside initials; with a space, so that no initials are taken for them."""


def _offer(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer who may have tested, that nobody did, and where the recipe allows it that nobody was asked."""
    offers = [
        Offer(key=one.initials, words=f"tested by {one.initials}", detail=one.name) for one in working_people(store)
    ]
    offers.append(Offer(key=_NOT_TESTED, words=_NOT_TESTED, detail="say why all the same; it stays in the record"))
    if not ("recipe" in answers and _must_be_told(store, answers["recipe"])):
        offers.append(Offer(key=_NOT_ASKED, words=_NOT_ASKED, detail="the record then says that nobody told"))
    return offers


def _must_be_told(store: Store, recipe: str) -> bool:
    found = find_recipe(store, recipe)
    return media_question(found, load_book(store, found)).asked == "required"


def _read(store: Store, answers: Answers) -> str:
    known = {person.initials for person in all_people(store)} | {_NOT_TESTED, _NOT_ASKED}
    if answers["tested"] not in known:
        raise BadInput("Choose who tested, or that nobody did: Enter shows the answers.")
    return answers["tested"]


MEDIA = (
    Asked(key="tested", words="Media tested", hint="Enter chooses by whom, or not", choose=_offer, read=_read),
    Asked(
        key="not_tested",
        words="Why all the same",
        hint="the reason stays in the record",
        needed=True,
        shown=lambda answers: answers.get("tested") == _NOT_TESTED,
    ),
)


def media_answer(answers: Answers) -> tuple[str | None, str | None]:
    """Return whose initials were given, or why nobody tested; neither where it is open."""
    tested = answers.get("tested")
    if tested == _NOT_TESTED:
        return None, answers["not_tested"]
    return None if tested == _NOT_ASKED else tested, None


def lacks_media_answer(plan: Using, answers: Answers) -> Lack | None:
    """Say that the question is open, where the plan asks it; where it must be told, that nobody was asked is none."""
    media = plan.media
    if media.asked == "not asked" or media.answered:
        return None
    if media.asked == "asked" and answers.get("tested") == _NOT_ASKED:
        return None
    return Lack(key="tested", words=media.question)
