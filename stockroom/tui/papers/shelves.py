"""Papers of what is on the shelves: with its hazards, its value, and the register of a material."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from stockroom.domain.papers import Paper
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.tui.forms.fields import PLACE, whole_number, yes_or_no
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.papers.asked import SINCE, UNTIL, AskedPaper, day_field, day_of, first_day
from stockroom.tui.questions.offer import Offer

SHEET_YEARS = 3
ON = day_field("on", "On", "today; or yesterday, 2026-10-31")


def _sheet_years(answers: Answers) -> int:
    return whole_number(answers.get("years"), "years", 50) or SHEET_YEARS


def _held(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.held import held
    from stockroom.actions.held_paper import held_paper

    found = held(
        store,
        day_of(answers, "on"),
        place=answers.get("place"),
        hazard=answers.get("hazard"),
        sheet_years=_sheet_years(answers),
    )
    return held_paper(found, setting(store, "currency"))


HELD = AskedPaper(
    name="held",
    title="What is held",
    use="hazards and amounts, to hang at the door",
    help="""
What is held, to hang at the door: containers, amounts, pictograms and warnings, solutions and
waste included, with totals by hazard and place; safety sheets that are missing or old; and what
it would cost to have all of it again. Place and Hazard narrow it.
""",
    fields=(
        ON,
        Asked(key="place", words="Place", hint="everywhere; Enter chooses one", choose=PLACE.choose, none=PLACE.none),
        Asked(key="hazard", words="Hazard", hint="any; or H225, GHS02, flammable"),
        Asked(
            key="years",
            words="Safety sheets",
            hint=f"called old from {SHEET_YEARS} years on; or another number",
            read=lambda store, answers: _sheet_years(answers),
        ),
    ),
    draw=_held,
    named_after="place",
)


def _value(store: Store, answers: Answers, local: datetime) -> Paper:
    from zoneinfo import ZoneInfo

    from stockroom.actions.value_paper import value_paper
    from stockroom.actions.valuing import averages, stock_value

    zone, day = ZoneInfo(setting(store, "time_zone")), day_of(answers, "on")
    as_booked = answers.get("as_booked") == "yes"
    found = stock_value(store, day, zone, as_booked=as_booked, since=first_day(answers, "on"))
    average = averages(store, day, zone, as_booked=as_booked) if answers.get("average") == "yes" else None
    return value_paper(found, setting(store, "currency"), lots=answers.get("lots") == "yes", average=average)


VALUE = AskedPaper(
    name="value",
    title="Value of the shelves",
    use="what the stock was worth on a day",
    help="""
What the stock was worth at the end of a day, by place and kind; where all that was bought went,
and what was wasted. Each lot is worth its own cost. Things count from the day they happened,
as the books say now; As booked tells what the books said on that day.
""",
    fields=(
        ON,
        Asked(
            key="since",
            words="Wasted since",
            hint="New Year; or 2026-06-01",
            read=lambda store, answers: first_day(answers, "on"),
        ),
        yes_or_no("As booked", "as_booked", "without what was booked later"),
        yes_or_no("Every lot", "lots", "a line a lot"),
        yes_or_no("Averages", "average", "beside it, at the moving average of each material"),
    ),
    draw=_value,
)


def _offer_materials(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer those under a register first."""
    materials = [one for one in all_materials(store, retired=True) if one.metered]
    return [
        Offer(key=one.key, words=one.name, detail="under a register" if one.register else "")
        for one in sorted(materials, key=lambda one: (not one.register, one.name))
    ]


def _register(store: Store, answers: Answers, local: datetime) -> Paper:
    from stockroom.actions.register_paper import register_paper
    from stockroom.actions.registers import register_of

    return register_paper(register_of(store, answers["material"], day_of(answers, "until"), first_day(answers)))


REGISTER = AskedPaper(
    name="register",
    title="Register of a material",
    use="every gain and loss, to be signed",
    help="""
The running page of a material: every gain and loss with what was left, who did it and for what,
and what is missing without a reason, to be signed. Which materials need one is for local rules.
""",
    fields=(
        Asked(
            key="material",
            words="Material",
            hint="Enter chooses; those under a register first",
            needed=True,
            choose=_offer_materials,
        ),
        SINCE,
        UNTIL,
    ),
    draw=_register,
    named_after="material",
)
