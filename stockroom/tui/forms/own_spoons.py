"""What the studio's own spoons hold of a powder, by weighing."""

from __future__ import annotations

import re
from collections.abc import Sequence

from stockroom.actions.measures import weigh_spoon
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import SpoonWeighing
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import Kept, keep, kept_text, which
from stockroom.tui.forms.own_studio import measure_of
from stockroom.tui.questions.offer import Offer


def weighed_words(one: SpoonWeighing) -> str:
    """Say what each levelled spoonful weighed, and when."""
    masses = ", ".join(show(Quantity(Dimension.MASS, mass)) for mass in one.masses_ug)
    return f"{one.material_name}: {masses} ({one.day}, {one.initials})"


def _weigh(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        spoon = measure_of(store, which(answers, "measure"))
        kept = weigh_spoon(store, occasion, spoon.name, answers["material"], _masses(answers["masses"]))
        return Kept(noun="measure", name=spoon.name, told=(("levelled", weighed_words(kept)),))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _offer_powders(store: Store, answers: Answers) -> Sequence[Offer]:
    weighed = [one for one in all_materials(store) if one.dimension is Dimension.MASS and one.metered]
    return [Offer(key=one.key, words=one.name, detail=one.grade or "") for one in weighed]


def _masses(typed: str) -> list[str]:
    """Split weights at commas and semicolons; a comma between digits is a decimal sign."""
    return [text.strip() for text in re.split(r"(?<!\d),|,(?!\d)|;", typed) if text.strip()]


def _read_masses(store: Store, answers: Answers) -> object:
    return [read_quantity(text, expect=Dimension.MASS) for text in _masses(answers["masses"])]


WEIGH_SPOON = Form(
    name="weigh-spoon",
    title="Weigh what a spoon holds",
    help="""
Keeping what levelled spoonfuls of a powder weighed: level with a straight edge, and weigh five
or so. What is made by this spoon is then reckoned from these weights, and no longer from the
usual range for such powders.
""",
    fields=(
        Asked(key="material", words="Powder", hint="Enter chooses", needed=True, choose=_offer_powders),
        Asked(
            key="masses",
            words="Spoonfuls",
            hint="each levelled: 0.52 g, 0.55 g, 0.50 g",
            needed=True,
            read=_read_masses,
        ),
    ),
    act=_weigh,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: "Keep these weights?",
    done=lambda done, currency: (f"Kept: what {done.name} holds", kept_text(done, currency)),
)
