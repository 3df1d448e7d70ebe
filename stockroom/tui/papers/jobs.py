"""Papers of a job: what was used on it, and what that cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from stockroom.domain.papers import Paper
from stockroom.store.jobs import all_jobs, find_job
from stockroom.store.open import Store
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.forms.quoting import HANDLING, SHOWS
from stockroom.tui.papers.asked import AskedPaper
from stockroom.tui.questions.offer import Offer


def _offer_jobs(store: Store, answers: Answers) -> Sequence[Offer]:
    return [Offer(key=one.code, words=f"{one.code} {one.title}", detail=one.state) for one in all_jobs(store)]


def _offer_objects(store: Store, answers: Answers) -> Sequence[Offer]:
    objects = find_job(store, answers["job"]).objects if "job" in answers else ()
    return [Offer(key=str(one.position), words=f"{one.position} {one.name}") for one in objects]


_JOB = Asked(
    key="job",
    words="Job",
    hint="Enter chooses a job",
    needed=True,
    choose=_offer_jobs,
    none="No job is there yet: open one under F7 Jobs.",
)


def _statement(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.statement import statement
    from stockroom.actions.statement_paper import statement_paper

    return statement_paper(statement(store, answers["job"], local.date(), of=answers.get("object")))


STATEMENT = AskedPaper(
    name="statement",
    title="Materials statement",
    use="what was used, for the treatment record",
    help="""
What was used on a job or one of its objects, for the treatment record: solutions with their
strength as used, materials with their lots, by whom and when.
""",
    fields=(
        _JOB,
        Asked(
            key="object",
            words="Object",
            hint="all of them; Enter chooses one",
            choose=_offer_objects,
            none="The job names no object.",
            shown=lambda answers: "job" in answers,
        ),
    ),
    draw=_statement,
    named_after="job",
)


def _final(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.costing import costing
    from stockroom.actions.final_papers import final_paper
    from stockroom.store.quotes import accepted_quote

    quote = accepted_quote(store, find_job(store, answers["job"]).id)
    with_waste = quote is not None and quote.waste is not None
    return final_paper(
        store,
        costing(store, answers["job"], local, with_waste=with_waste),
        day=local.date().isoformat(),
        handling=answers.get("handling"),
        shows=answers.get("shows"),
    )


FINAL = AskedPaper(
    name="final",
    title="Final sheet of a job",
    use="what its materials cost, against the quote",
    help="""
What a job's materials cost, never labour, beside the quote that was accepted, line by line, each
difference with its reason. Handling and Client sees are the accepted quote's where nothing else
is said.
""",
    fields=(
        _JOB,
        replace(HANDLING, hint="as quoted; or 12 %, or a sum: 5.00"),
        replace(SHOWS, hint="as quoted, else each material"),
    ),
    draw=_final,
    named_after="job",
)
