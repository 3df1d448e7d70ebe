"""Give a quote: freeze what a job's booked treatments are expected to cost; accept or withdraw it; compare it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.actions.carrying_out import carry_out
from stockroom.actions.editing import changes, keep_changes
from stockroom.actions.estimating import estimate
from stockroom.actions.jobs import refuse_closed
from stockroom.actions.naming import check_text
from stockroom.actions.recipe_book import load_book
from stockroom.domain.jobs import Booking
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.domain.quotes import SHOWS, Quote, QuoteLine, Range
from stockroom.domain.recipe_files import MOST_FILLS
from stockroom.errors import BadInput, Refused
from stockroom.planning.booked_needs import Booked, scaled_needs
from stockroom.planning.cost_causes import Amounts
from stockroom.planning.estimating import Expected
from stockroom.science.numerals import quoted
from stockroom.store import quotes
from stockroom.store.jobs import find_job, open_bookings
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.stockroom_settings import setting

VALID_DAYS = 30
"""How long a quote holds where nothing is said: a usual choice, no source."""


def give_quote(
    store: Store,
    occasion: Occasion,
    job_words: str,
    *,
    valid_until: date | None = None,
    fills: Sequence[str] = (),
    waste: str | None = None,
    handling: str | None = None,
    shows: str = "treatments",
    note: str | None = None,
    dry_run: bool = False,
    confirmed: Quote | None = None,
) -> Quote:
    """Freeze what all booked treatments of a job are expected to cost, at the prices of now.

    `fills` are ranges where the number of fills is uncertain: `K0015=2-4`, or `2-4` where one treatment is booked.
    Raises BadInput where a treatment cannot be worked out yet, Refused where nothing is booked, PlanChanged.
    """
    until = valid_until or occasion.day + timedelta(days=VALID_DAYS)
    if until < occasion.day:
        raise BadInput(f"{until} is before the quote's own day, {occasion.day}.", answer="valid")
    if shows not in SHOWS:
        raise BadInput(f"A quote shows one of: {', '.join(SHOWS)}.")
    if note is not None:
        check_text(note, "note")

    def build(booked_at: datetime) -> Quote:
        job = find_job(store, job_words)
        refuse_closed(job)
        bookings = open_bookings(store, job.id)
        if not bookings:
            raise Refused(
                f"No treatment is booked for {job.code}: book one first. That is B on the job's page, or "
                f"'stockroom book RECIPE --job {job.code} --for DATE'."
            )
        quote = Quote(
            job=job,
            day=occasion.day.isoformat(),
            valid_until=until.isoformat(),
            shows=shows,
            waste=waste,
            handling=handling,
            note=note,
            initials=occasion.by,
            lines=_lines(store, occasion, bookings, fills),
        )
        quote.whole(setting(store, "currency"))  # what was typed is read before it is kept
        return quotes.find_quote(store, quotes.add_quote(store, quote, utc_text(booked_at)))

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _lines(
    store: Store, occasion: Occasion, bookings: Sequence[Booking], typed: Sequence[str]
) -> tuple[QuoteLine, ...]:
    ranges = _fill_ranges(store, bookings, typed)
    by_fills = [
        _by_material(store, occasion, [replace(one, fills=numbers[one.code]) for one in bookings])
        for numbers in (
            {code: of.low for code, of in ranges.items()},
            {code: of.best for code, of in ranges.items()},
            {code: of.high for code, of in ranges.items()},
        )
    ]
    lines: list[QuoteLine] = []
    for booking in bookings:
        recipe = find_recipe(store, booking.recipe_key)
        for material_id, best in by_fills[1][booking.code].items():
            low, _, high = (_amounts(one[booking.code].get(material_id, [])) for one in by_fills)
            middle = _amounts(best)
            lines.append(
                QuoteLine(
                    booking=booking.code,
                    recipe=recipe.key,
                    recipe_name=recipe.name,
                    version_id=recipe.version.id,
                    version=recipe.version.number,
                    fills=ranges[booking.code],
                    material=best[0].material,
                    quantity=_range(low.quantity, middle.quantity, high.quantity),
                    value=_range(low.value, middle.value, high.value),
                    complete=low.complete and middle.complete and high.complete,
                    priced_by="; ".join(dict.fromkeys(one.priced_by for one in best)),
                )
            )
    return tuple(lines)


def _range(*figures: int) -> Range:
    return Range(low=min(figures), best=figures[1], high=max(figures))


def _by_material(
    store: Store, occasion: Occasion, bookings: Sequence[Booking]
) -> Mapping[str, Mapping[int, list[Expected]]]:
    """Return what each booking is expected to take, by its code and the material's id."""
    for one in bookings:
        # a quote that left a treatment out would mislead: what cannot be worked out is refused here
        recipe = find_recipe(store, one.recipe_key)
        scaled_needs(Booked(booking=one, job=find_job(store, one.job_code), recipe=recipe), load_book(store, recipe))
    found = estimate(store, bookings, occasion.local)
    sorted_out: dict[str, dict[int, list[Expected]]] = {one.code: {} for one in bookings}
    for one in bookings:
        for line in found[one.id]:
            sorted_out[one.code].setdefault(line.material.id, []).append(line)
    return sorted_out


def _amounts(lines: Sequence[Expected]) -> Amounts:
    return Amounts(
        quantity=sum(line.quantity for line in lines),
        value=sum(line.value or 0 for line in lines),
        complete=all(line.complete for line in lines),
    )


def _fill_ranges(store: Store, bookings: Sequence[Booking], typed: Sequence[str]) -> dict[str, Range]:
    """Read `K0015=2-4`; what is not named has the number that was booked. Raises BadInput."""
    ranges: dict[str, Range] = {}
    for one in bookings:
        number = one.fills or find_recipe(store, one.recipe_key).version.fills
        ranges[one.code] = Range(low=number, best=number, high=number)
    for text in typed:
        match = re.fullmatch(r"\s*(?:(\w+)\s*=)?\s*(\d{1,4})\s*(?:-|–|to)\s*(\d{1,4})\s*", text, re.ASCII)
        if match is None or (match[1] is None and len(ranges) > 1):
            example = next(iter(ranges))
            raise BadInput(
                f"{quoted(text)} is not read. Write the booking and its least and most fills: {example}=2-4. "
                f"Booked are: {', '.join(ranges)}.",
                answer="fills",
            )
        code, low, high = (match[1] or next(iter(ranges))).upper(), int(match[2]), int(match[3])
        if code not in ranges:
            booked = ", ".join(ranges)
            raise BadInput(f"{code} is not a treatment booked for this job. Booked are: {booked}.", answer="fills")
        best = ranges[code].best
        if not 1 <= low <= best <= high <= MOST_FILLS:
            raise BadInput(
                f"{quoted(text)}: the range must hold the number booked, {best}, and lie within 1 and {MOST_FILLS}.",
                answer="fills",
            )
        ranges[code] = Range(low=low, best=best, high=high)
    return ranges


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteChanged:
    """A quote that was accepted or withdrawn."""

    quote: Quote
    replaces: str | None = None
    """The code of the quote accepted before, which it takes the place of."""

    def as_plan(self) -> QuoteChanged:
        return self


def accept_quote(
    store: Store, occasion: Occasion, code: str, *, dry_run: bool = False, confirmed: QuoteChanged | None = None
) -> QuoteChanged:
    """Mark a quote as accepted; one accepted before is replaced by it.

    Raises Refused where it is accepted or withdrawn, and without a reason where it held only to an earlier day.
    """

    def build(booked_at: datetime) -> QuoteChanged:
        quote = quotes.find_quote(store, code)
        if quote.state in ("accepted", "withdrawn"):
            raise Refused(f"Quote {quote.code} is {quote.state} already.")
        if occasion.day.isoformat() > quote.valid_until and not occasion.reason:
            raise Refused(
                f"Quote {quote.code} held until {quote.valid_until}. Give a new one, or say with --why why it is "
                "accepted all the same."
            )
        before = quotes.accepted_quote(store, quote.job.id)
        if before is not None:
            _set(store, occasion, before, "replaced", booked_at)
        _set(store, occasion, quote, "accepted", booked_at)
        return QuoteChanged(quote=quotes.find_quote(store, quote.code), replaces=before.code if before else None)

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def withdraw_quote(
    store: Store, occasion: Occasion, code: str, *, dry_run: bool = False, confirmed: QuoteChanged | None = None
) -> QuoteChanged:
    """Take a quote back, an accepted one too. Raises BadInput without a reason, Refused where it was taken back."""
    if not occasion.reason:
        raise BadInput("Why is it taken back? Say --why; the reason is kept.")

    def build(booked_at: datetime) -> QuoteChanged:
        quote = quotes.find_quote(store, code)
        if quote.state == "withdrawn":
            raise Refused(f"Quote {quote.code} is withdrawn already.")
        _set(store, occasion, quote, "withdrawn", booked_at)
        return QuoteChanged(quote=quotes.find_quote(store, quote.code))

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _set(store: Store, occasion: Occasion, quote: Quote, state: str, booked_at: datetime) -> None:
    quotes.set_quote_state(store, quote.id, state, occasion.day.isoformat() if state == "accepted" else None)
    made = changes({"state": quote.state}, {"state": state})
    keep_changes(store, "quote", quote.code, made, occasion, booked_at)
