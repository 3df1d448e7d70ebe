"""Cutting pieces of a sheet that are used again and again."""

from __future__ import annotations

from textual.content import Content

from stockroom.actions.cutting import MOST_USES, Pieces, cut_pieces
from stockroom.actions.offcuts import read_piece
from stockroom.domain.codes import show as show_code
from stockroom.domain.occasion import Occasion
from stockroom.science.money import show_money
from stockroom.science.quantities import Dimension
from stockroom.store.open import Store
from stockroom.tui.forms.fields import (
    DAY,
    OFFCUTS,
    WHY,
    about_lot,
    lot_field,
    lots_offered,
    sizes_of,
    whole_number,
)
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.texts import offcuts_text, rows


def _cut(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Pieces | None) -> Pieces:
    return cut_pieces(
        store,
        occasion,
        answers["lot"],
        answers["size"],
        uses=whole_number(answers.get("uses"), "uses", MOST_USES),
        pieces=whole_number(answers.get("pieces"), "pieces") or 1,
        keep_offcuts=sizes_of(answers),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def _text(plan: Pieces, currency: str) -> Content:
    known = [
        (show_code(code) if code else "a new lot", f"{plan.name}, {plan.size}, for {plan.uses} uses")
        for code in plan.codes
    ]
    known.append(("cost", f"{show_money(plan.cost, currency)} in all; each use takes its share"))
    told = rows(known)
    if not plan.offcuts:
        return told
    return Content.assemble(told, "\n\n", ("Back to the shelf", "bold $text-primary"), "\n") + offcuts_text(
        plan.offcuts, currency
    )


CUT = Form(
    name="cut",
    title="Cut pieces to be used again",
    help="""
Cutting pieces that are used again and again, such as web that carries a sheet through a bath.
Each piece is a lot that holds its uses: take 1 use of it for a job, and the job bears that
share of its cost. Worn out before, throw it away with that reason.
""",
    fields=(
        lot_field("Sheets", choose=lots_offered(lambda lot: lot.material.dimension is Dimension.AREA)),
        Asked(
            key="size",
            words="A piece",
            hint="its two sides: 40 x 50 cm",
            needed=True,
            read=lambda store, answers: read_piece(answers["size"]),
        ),
        Asked(
            key="uses",
            words="Good for",
            hint="as many uses as before; or 10",
            read=lambda store, answers: whole_number(answers["uses"], "uses", MOST_USES),
        ),
        Asked(
            key="pieces",
            words="Pieces",
            hint="1",
            read=lambda store, answers: whole_number(answers["pieces"], "pieces"),
        ),
        OFFCUTS,
        WHY,
        DAY,
    ),
    act=_cut,
    plan=_text,
    question=lambda answers: f"Cut {answers['size']} of {answers['lot']}?",
    done=lambda done, currency: (f"Cut: {done.name}", _text(done, currency)),
    lot=lambda done: next((code for code in done.codes if code), None),
    labels=lambda done: [code for code in done.codes if code],
    about=about_lot,
)
