"""Giving a quote for a job, and saying that one was accepted or is taken back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from textual.content import Content

from stockroom.actions.quote_papers import percent_words, show_range
from stockroom.actions.quoting import VALID_DAYS, QuoteChanged, accept_quote, give_quote, withdraw_quote
from stockroom.domain.occasion import Occasion
from stockroom.domain.quotes import NOTHING, Quote
from stockroom.science.days import read_day
from stockroom.science.handling import handling_on, percent_of
from stockroom.store.open import Store
from stockroom.store.quotes import quotes
from stockroom.store.stockroom_settings import setting
from stockroom.tui.forms.fields import JOB, REASON, WHY, fixed, read_any_day, split
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import rows

SEES = (
    ("total", "the sum alone"),
    ("treatments", "what each treatment costs"),
    ("materials", "and each material with its amount"),
    ("prices", "and where each price is from"),
)
"""What a client may see, from least to most."""


def _give(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Quote | None) -> Quote:
    until = answers.get("valid")
    return give_quote(
        store,
        occasion,
        answers["job"],
        valid_until=read_day(until, today=occasion.today) if until else None,
        fills=split(answers.get("fills")),
        waste=answers.get("waste"),
        handling=answers.get("handling"),
        shows=answers.get("shows", "treatments"),
        note=answers.get("note"),
        dry_run=dry_run,
        confirmed=confirmed,
    )


def quote_text(quote: Quote, currency: str) -> Content:
    """Write a quote: its treatments by their bookings, what comes on top, and how long it holds."""
    told: list[tuple[str, str]] = []
    for booking in dict.fromkeys(line.booking for line in quote.lines):
        lines = [line for line in quote.lines if line.booking == booking]
        fills, value = lines[0].fills, sum((line.value for line in lines), NOTHING)
        number = f"{fills.best}" if fills.certain else f"{fills.low} to {fills.high}"
        least = "" if all(line.complete for line in lines) else "at least "
        told.append(
            (
                booking,
                f"{lines[0].recipe_name}, {number} {'fill' if number == '1' else 'fills'}: "
                f"{least}{show_range(value, currency)}",
            )
        )
    sums = [("materials", quote.materials)]
    if quote.waste is not None:
        sums.append((f"waste, {percent_words(quote.waste)}", quote.for_waste))
    if quote.handling is not None:
        sums.append((f"handling, {quote.handling}", quote.for_handling(currency)))
    if len(sums) > 1:
        sums.append(("in all", quote.whole(currency)))
    told += [(name, show_range(value, currency)) for name, value in sums]
    if not quote.complete:
        told.append(("! at least", "some prices are not known: an offer or the cost of a lot is missing"))
    told.append(("holds until", quote.valid_until))
    told.append(("client sees", dict(SEES)[quote.shows]))
    return rows(told)


def _read_on_top(read: Callable[[str, str], object], key: str) -> Callable[[Store, Answers], object]:
    return lambda store, answers: read(answers[key], setting(store, "currency"))


SHOWS = Asked(key="shows", words="Client sees", hint="what each treatment costs", choose=fixed(*SEES))
HANDLING = Asked(
    key="handling",
    words="Handling",
    hint="none; or 12 %, or a sum: 5.00",
    read=_read_on_top(lambda typed, currency: handling_on(typed, 0, currency), "handling"),
)

GIVE_QUOTE = Form(
    name="quote",
    title="Give a quote for a job",
    help="""
Quoting what all booked treatments of a job are expected to cost: materials only, never labour.
It is frozen as it is given, with today's prices. Where the number of fills is uncertain, Fills
takes the least and the most: K0015=2-4, with the code of the booking from the plan below.

Waste and handling are lines of their own on top. Client sees chooses how much the sheet says.
""",
    fields=(
        replace(JOB, needed=True),
        Asked(
            key="valid",
            words="Holds until",
            hint=f"{VALID_DAYS} days; or in 14 days, 2026-12-31",
            read=lambda store, answers: read_any_day(store, answers, "valid"),
        ),
        Asked(key="fills", words="Fills", hint="as booked; or least and most: 2-4, or K0015=2-4"),
        Asked(
            key="waste",
            words="For waste",
            hint="none; or 10 %",
            read=lambda store, answers: percent_of(answers["waste"], 0),
        ),
        HANDLING,
        SHOWS,
        Asked(key="note", words="Note", hint="a line for the client"),
    ),
    act=_give,
    plan=quote_text,
    verb="Give",
    question=lambda answers: f"Give this quote for {answers['job']}?",
    done=lambda done, currency: (f"Quote {done.code} is given", quote_text(done, currency)),
    opens=lambda done: done.code,
)


def offer_quotes(*states: str) -> Callable[[Store, Answers], Sequence[Offer]]:
    """Offer the quotes that stand so, newest first."""

    def offer(store: Store, answers: Answers) -> Sequence[Offer]:
        currency = setting(store, "currency")
        return [
            Offer(
                key=one.code,
                words=f"{one.code} {one.job.title}",
                detail=f"{one.state}, {one.day}, {show_range(one.whole(currency), currency)}",
            )
            for one in quotes(store)
            if one.state in states
        ]

    return offer


def _quote_field(*states: str) -> Asked:
    return Asked(
        key="quote",
        words="Quote",
        hint="Enter chooses a quote",
        needed=True,
        choose=offer_quotes(*states),
        none="There is no such quote: Q on a job's page gives one.",
    )


def _accept(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: QuoteChanged | None
) -> QuoteChanged:
    return accept_quote(store, occasion, answers["quote"], dry_run=dry_run, confirmed=confirmed)


def _withdraw(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: QuoteChanged | None
) -> QuoteChanged:
    return withdraw_quote(store, occasion, answers["quote"], dry_run=dry_run, confirmed=confirmed)


def _changed_text(plan: QuoteChanged, currency: str) -> Content:
    quote = plan.quote
    told = [
        ("quote", f"{quote.code} of {quote.day}, {show_range(quote.whole(currency), currency)}"),
        ("job", f"{quote.job.code} {quote.job.title}"),
        ("then", _THEN[quote.state]),
    ]
    told += [("replaces", f"{plan.replaces}, accepted before")] if plan.replaces else []
    return rows(told)


_THEN = {
    "accepted": "accepted: the final sheet compares what was used with it",
    "withdrawn": "withdrawn: it stays on the list with its reason",
}

ACCEPT_QUOTE = Form(
    name="accept-quote",
    title="A quote was accepted",
    help="""
Saying that a quote was accepted: the job's final sheet compares what was used with it, line by
line. One that was accepted before is replaced. Past its day it is accepted only with a reason.
""",
    fields=(_quote_field("given", "replaced"), replace(WHY, rare=False, hint="needed only past the day it held until")),
    act=_accept,
    plan=_changed_text,
    verb="Accept",
    question=lambda answers: f"{answers['quote']} was accepted?",
    done=lambda done, currency: (f"Quote {done.quote.code} is accepted", _changed_text(done, currency)),
)

WITHDRAW_QUOTE = Form(
    name="withdraw-quote",
    title="Take a quote back",
    help="Taking a quote back, an accepted one too. It stays on the list with its reason.",
    fields=(_quote_field("given", "accepted", "replaced"), REASON),
    act=_withdraw,
    plan=_changed_text,
    verb="Withdraw",
    question=lambda answers: f"Take {answers['quote']} back?",
    done=lambda done, currency: (f"Quote {done.quote.code} is withdrawn", _changed_text(done, currency)),
)
