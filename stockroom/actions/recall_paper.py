"""What lots reached, as a paper to go to the shelf with: what to pull, what to call back, which objects to look at."""

from __future__ import annotations

from collections.abc import Iterator

from stockroom.actions.losses import loan_words
from stockroom.actions.statement_treatments import OTHERWISE
from stockroom.domain.lots import Lot
from stockroom.domain.papers import Block, Column, Heading, Lines, Paper, Points, Rows, Words
from stockroom.domain.trace import Trace, TracedTreatment
from stockroom.errors import BadInput
from stockroom.planning.fitness import is_withdrawn
from stockroom.store.left_open import loans_out
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe

_LOT = (
    Column(title="Lot"),
    Column(title="Material", share=2.6),
    Column(title="Holds", share=1.3, right=True),
    Column(title="Place", share=1.6),
    Column(title="How it stands", share=3),
)


def recall_paper(store: Store, traced: Trace, day: str) -> Paper:
    """Lay out what lots reached. Raises BadInput for the trace of a job."""
    if not traced.starts:
        raise BadInput("A paper is drawn up of what lots reached: say the code of a lot, or a maker's lot number.")
    return Paper(title=f"What became of {traced.of}", blocks=tuple(_blocks(store, traced, day)))


def _blocks(store: Store, traced: Trace, day: str) -> Iterator[Block]:
    withdrawn = all(is_withdrawn(lot) for lot in traced.starts)
    said = "" if withdrawn else " Nothing is withdrawn by this page: 'stockroom withdraw' makes it unfit at once."
    yield Lines(items=(f"Drawn up on {day} from the stockroom's books.{said}",))
    lots = {lot.id: lot for lot in (*traced.starts, *(one.lot for one in traced.lots_reached))}
    there = [lot for lot in lots.values() if not lot.ended and (lot.balance.quantity or lot.state == "solid only")]
    own = {lot.id for lot in traced.starts}
    yield Heading(text="To take off the shelf")
    if there:
        yield Rows(columns=_LOT, rows=tuple(_row(lot, own) for lot in there))
    else:
        yield Words(text="Nothing of it is left here.")
    codes = {lot.code for lot in lots.values()}
    lent = [loan_words(loan) for loan in loans_out(store) if loan.lot in codes]
    if lent:
        yield Heading(text="Lent out, to be called back")
        yield Points(items=tuple(lent))
    yield Heading(text="Objects and jobs that it touched")
    done = sorted(_treatments(traced), key=lambda one: (one.day, one.action))
    if done:
        yield Rows(
            columns=(
                Column(title="Day", share=1.3),
                Column(title="Job", share=2.2),
                Column(title="Objects", share=2.2),
                Column(title="What was done", share=2.6),
                Column(title="By", share=0.6),
                Column(title="Action"),
            ),
            rows=tuple(_treated(store, one) for one in done),
        )
    else:
        yield Words(text="None is in the books.")
    gone = [lot for lot in lots.values() if lot not in there]
    if gone:
        yield Heading(text="Used up or ended")
        yield Points(items=tuple(f"{lot.code} {lot.material.name}" for lot in gone))


def _row(lot: Lot, own: set[int]) -> tuple[str, ...]:
    how = "the lot itself" if lot.id in own else "holds some of it"
    if lot.unfit:
        how = lot.unfit if is_withdrawn(lot) else f"{how}; {lot.unfit}"
    amount = lot.amount_words if lot.balance.quantity else lot.state
    return lot.code, lot.material.name, amount, lot.place or "no place stated", how


def _treatments(traced: Trace) -> list[TracedTreatment]:
    found = (thing for branch in traced.reached for thing in branch.walk())
    return list(dict.fromkeys(thing for thing in found if isinstance(thing, TracedTreatment)))


def _treated(store: Store, one: TracedTreatment) -> tuple[str, ...]:
    otherwise = OTHERWISE.get(one.kind, one.kind.replace("-", " "))
    what = find_recipe(store, one.recipe).name if one.recipe else otherwise
    objects = "; ".join(one.objects) or "not stated: any of the job"
    return one.day, f"{one.job} {one.title}", objects, what, one.by, one.action
