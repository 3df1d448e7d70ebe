"""A materials statement as a report: plain enough to paste into any treatment record."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from stockroom.domain.papers import Block, Column, Heading, Paper, Points, Rows, Words
from stockroom.domain.statement import Bought, Solution, Statement, Treated, Used
from stockroom.science.quantities import show

NOT_STATED = "job, object not stated"


def statement_paper(said: Statement) -> Paper:
    """Lay a statement out."""
    return Paper(
        title=f"Materials statement: {said.thing.name if said.thing else said.job.title}", blocks=_blocks(said)
    )


def _blocks(said: Statement) -> tuple[Block, ...]:
    job = said.job
    about = [f"Job: {job.code} {job.title}", *([f"For: {job.client}"] if job.client else [])]
    names = [said.thing.name] if said.thing else [one.name for one in job.objects]
    about.append(f"{'Object' if said.thing else 'Objects'}: {'; '.join(names) or 'none named'}")
    about.append(f"Drawn up on {said.on} from the stockroom's books. It says what was used, not why.")
    blocks: list[Block] = [Points(items=tuple(about)), Heading(text="Treatments")]
    if not said.treatments:
        blocks.append(Words(text="Nothing is booked as used."))
    blocks += chain.from_iterable(_treatment(one) for one in said.treatments)
    if said.solutions:
        blocks += [
            Heading(text="Solutions, as they were made"),
            Points(items=tuple(_solution(one) for one in said.solutions)),
        ]
    lots: tuple[Solution | Bought, ...] = (*said.solutions, *said.materials)
    withdrawn = tuple(f"{one.code} {one.name}: {one.withdrawn}" for one in lots if one.withdrawn)
    if withdrawn:
        blocks += [Words(text="Withdrawn since then:", strong=True), Points(items=withdrawn)]
    blocks += _materials(said)
    if said.people:
        blocks += [Heading(text="Initials"), Words(text="; ".join(f"{by}: {name}" for by, name in said.people))]
    return tuple(blocks)


def _treatment(done: Treated) -> Iterator[Block]:
    clock = f", {done.clock}" if done.clock else ""
    yield Heading(text=f"{done.day}{clock}: {done.what}", level=2)
    yield Points(items=tuple(_said_of(done)))
    if done.used or done.not_metered:
        yield Rows(
            columns=(
                Column(title="Material", share=2.2),
                Column(title="Lot", share=0.8),
                Column(title="Amount", share=1.6),
                Column(title="Strength, and how it is known", share=3.4),
            ),
            rows=(
                *((one.name, one.code, _amount(one, done), _strength(one)) for one in done.used),
                *((name, "", show(amount), "not metered") for name, amount in done.not_metered),
            ),
        )
    overrides = [f"{one.code} {one.name}: {one.override}" for one in done.used if one.override]
    if overrides:
        yield Words(text="Used against what spoke against it:", strong=True)
        yield Points(items=tuple(overrides))


def _said_of(done: Treated) -> Iterator[str]:
    yield f"On: {'; '.join(done.objects) or NOT_STATED}"
    yield f"By: {done.by}"
    if done.recipe:
        yield f"Recipe: {done.recipe}, version {done.version}"
    if done.fill:
        tray = f", {done.tray}" if done.tray else ""
        yield f"Fills: {done.fills} of {show(done.fill)}{tray}"
    if done.strength:
        yield f"Strength: {done.strength}"
    if done.waits:
        yield "Times that its recipe names: " + "; ".join(f"{wait} ({step.rstrip('.')})" for wait, step in done.waits)
    yield from (f"Seen: {note}" for note in done.notes)
    if done.media:
        yield done.media[0].upper() + done.media[1:]
    if done.reason and not any(one.override for one in done.used):
        yield f"Reason given: {done.reason}"
    if done.put_right:
        yield f"Put right later, amounts as put right: {', '.join(done.put_right)}"
    yield f"Booked as {done.action}"


def _amount(used: Used, done: Treated) -> str:
    return f"{show(used.amount)} ({done.fills} x {show(used.per_fill)})" if used.per_fill else show(used.amount)


def _strength(used: Used) -> str:
    said = [used.strength or ""]
    mixed = ", ".join(filter(None, (used.share, used.in_bath)))
    if mixed:
        said.append(f"in the bath {mixed}")
    if used.check:
        said.append(f"checked {used.check.day} by {used.check.method}: {used.check.verdict} ({used.check.by})")
    return "; ".join(filter(None, said))


def _solution(one: Solution) -> str:
    what = "" if one.kind == "jar" else f", {one.kind}"
    recipe = f" by the recipe {one.recipe}, version {one.version}" if one.recipe else ""
    parts = "; ".join(one.parts) or "not known"
    return f"{one.code} {one.name}{what}: {show(one.amount)} made {one.made} by {one.by}{recipe}. Of: {parts}"


def _materials(said: Statement) -> Iterator[Block]:
    if not said.materials:
        return
    yield Heading(text="Materials")
    yield Rows(
        columns=(
            Column(title="Material", share=2),
            Column(title="What it is", share=3),
            Column(title="Lot", share=0.8),
            Column(title="Maker's lot", share=1.2),
            Column(title="From", share=1.5),
        ),
        rows=tuple(_bought(one) for one in said.materials),
    )


def _bought(one: Bought) -> tuple[str, ...]:
    return (one.name, one.identity, one.code, one.maker_lot or "not known", one.supplier or "not known")
