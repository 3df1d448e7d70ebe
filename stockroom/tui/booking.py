"""How every screen books: plan, confirmation, booking; and undo after it."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Protocol, TypeVar

from textual.content import Content

from stockroom.actions.carrying_out import Outcome
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, PlanChanged, Refused, StockroomError
from stockroom.store.open import Store
from stockroom.tui.app import StockroomApp
from stockroom.tui.forms.form import Answers, Form
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.confirmation import Confirm
from stockroom.tui.questions.offer import Offer
from stockroom.tui.questions.text import ask_reason
from stockroom.tui.studio import working_people
from stockroom.tui.words import on_screen

Kind = TypeVar("Kind", bound=Outcome)


class Act(Protocol[Kind]):
    """An action with all its answers but who, when and whether it is only tried."""

    def __call__(self, store: Store, occasion: Occasion, *, dry_run: bool, confirmed: Kind | None) -> Kind: ...


async def who_books(app: StockroomApp) -> str | None:
    """Return the initials to book under, asked once where nobody said; None where it was left open."""
    if app.by is None:
        people = await app.ask_database(working_people)
        if people is None:
            return None
        offers = [Offer(key=one.initials, words=one.initials, detail=one.name) for one in people]
        answer = await app.push_screen_wait(Choose("Who is booking?", offers, none="Nobody is here."))
        app.by = answer.key if answer else None
    return app.by


_CLOCK = re.compile(r"\b(\d\d):(\d\d)\b")


async def book(
    app: StockroomApp,
    title: str,
    act: Act[Kind],
    describe: Callable[[Kind], Content],
    *,
    reason: str | None = None,
    day: str | None = None,
    verb: str = "Book",
) -> Kind | None:
    """Show the plan, book it once it is confirmed, and return what was booked; None where it was not.

    `day` is when it happened, as typed. Where the shelf changed in between, the new plan is shown and asked about
    again; where only the clock went on while the question stood there, it is booked as it is now.
    """
    by = await who_books(app)
    if by is None:
        return None
    changed = None
    try:
        occasion = app.occasion(by, reason, moment_of(app, day))
        plan = await app.database.run(lambda store: act(store, occasion, dry_run=True, confirmed=None))
        asked, since, ask = plan, app.local, True
        while True:
            if ask and not await app.push_screen_wait(Confirm(title, describe(plan), changed=changed, verb=verb)):
                return None
            try:
                return await app.database.run(_agreed(act, app.occasion(by, reason, moment_of(app, day)), plan))
            except PlanChanged as error:
                plan, changed = error.plan, error.message  # type: ignore[assignment]
                ask = not says_the_same(describe(asked).plain, describe(plan).plain, within=app.local - since)
                if ask:
                    asked, since = plan, app.local
    except StockroomError as error:
        await app.tell(error)
    finally:
        app.look_again()
    return None


async def book_form(
    app: StockroomApp, form: Form[Kind], answers: Answers, words: Answers, known: Answers
) -> Kind | None:
    """Confirm what a form describes, and book it; None where it was not booked.

    `words` are the answers as shown, `known` is what the form was opened with.
    """

    def act(store: Store, occasion: Occasion, *, dry_run: bool, confirmed: Kind | None) -> Kind:
        plan = confirmed or form.act(store, occasion, answers, dry_run=True, confirmed=None)
        if lack := form.lacks(plan, answers):
            raise Refused(f"{lack.words} Answer it in the field {_called(form, lack.key)}; nothing was booked.")
        if dry_run:
            return plan
        with app.drafts.being_booked(form.name, known, store, occasion.by):
            return form.act(store, occasion, answers, dry_run=False, confirmed=confirmed)

    def told(plan: Kind) -> Content:
        return form.plan(plan, app.studio.currency)

    why, day = answers.get("why"), answers.get("day")
    return await book(app, form.question(words), act, told, reason=why, day=day, verb=form.verb)


def _called(form: Form[Kind], key: str) -> str:
    return next(asked.words for asked in form.fields if asked.key == key)


def moment_of(app: StockroomApp, typed: str | None) -> datetime | None:
    """Read when something happened; None means now. Raises Unreadable, BadInput for what is still to come."""
    if typed is None:
        return None
    from stockroom.science.days import read_moment

    now = app.local
    at = read_moment(typed, zone=app.studio.zone, today=now.date())
    if at.date() == now.date() and ":" not in typed:
        return None  # a day alone is told as noon: on the day itself it means now
    if at > now:
        raise BadInput(f"{typed} is still to come. Something is booked when it has happened.")
    return at


def says_the_same(before: str, after: str, *, within: timedelta) -> bool:
    """Say whether two plans tell the same but for clock times, moved on by no more than the time in between."""
    if _CLOCK.sub("", before) != _CLOCK.sub("", after):
        return False
    most = within.total_seconds() // 60 + 1
    times = zip(_CLOCK.findall(before), _CLOCK.findall(after), strict=True)
    return all(0 <= 60 * (int(new[0]) - int(old[0])) + int(new[1]) - int(old[1]) <= most for old, new in times)


def _agreed(act: Act[Kind], occasion: Occasion, plan: Kind) -> Callable[[Store], Kind]:
    return lambda store: act(store, occasion, dry_run=False, confirmed=plan)


async def undo_action(app: StockroomApp, action: str, what: str) -> bool:
    """Undo an action, with a reason; say whether it was done."""
    reason = await app.push_screen_wait(ask_reason(f"Undo {action}?", f"{what} is taken back.", "mistyped"))
    by = await who_books(app) if reason else None
    if by is None:
        return False
    occasion = app.occasion(by, reason)

    def run(store: Store) -> object:
        from stockroom.actions.undoing import undo

        return undo(store, occasion, action)

    done = await app.ask_database(run)
    app.look_again()
    if done is None:
        return False
    app.notify(on_screen(f"{action} is undone: {reason}."), markup=False)
    return True
