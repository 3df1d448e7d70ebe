"""The paper of a recall: what became of a maker's lot."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from stockroom.domain.papers import Paper
from stockroom.store.fold import fold
from stockroom.store.lots import all_lots, lots_of_maker
from stockroom.store.open import Store
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.papers.asked import AskedPaper
from stockroom.tui.questions.offer import Offer


def _offer_materials(store: Store, answers: Answers) -> Sequence[Offer]:
    wanted = fold(answers.get("maker_lot", ""))
    materials = {lot.material.key: lot.material.name for lot in all_lots(store) if fold(lot.maker_lot or "") == wanted}
    return [Offer(key=key, words=name) for key, name in materials.items()]


def _draw(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.recall_paper import recall_paper
    from stockroom.actions.tracing import trace

    traced = trace(store, maker_lot=answers["maker_lot"], material=answers.get("material"))
    return recall_paper(store, traced, local.date().isoformat())


RECALL = AskedPaper(
    name="recall",
    title="Recall by maker's lot",
    use="what to pull, and what it touched",
    help="""
What became of every lot with a maker's lot number, through any depth: what to take off the shelf
and where it stands, what is lent out, and each treatment and object that it touched. This page
withdraws nothing: "Withdraw a lot" does, with its reason.
""",
    fields=(
        Asked(
            key="maker_lot",
            words="Maker's lot",
            hint="the number, as the recall names it",
            needed=True,
            read=lambda store, answers: lots_of_maker(store, answers["maker_lot"], answers.get("material")),
        ),
        Asked(
            key="material",
            words="Material",
            hint="only where several have that number",
            choose=_offer_materials,
            none="No lot has that number.",
            shown=lambda answers: "maker_lot" in answers,
        ),
    ),
    draw=_draw,
)
