"""Fields that several forms ask for, and what they offer."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, datetime

from textual.content import Content

from stockroom.domain.lots import Lot
from stockroom.errors import BadInput
from stockroom.planning.fitness import fitness
from stockroom.science.days import read_day
from stockroom.science.money import read_money
from stockroom.store.jobs import all_jobs, find_job, find_object
from stockroom.store.lots import find_lot, shelf
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import all_places, find_place
from stockroom.tui.forms.form import Answers, Asked
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import day_words


def fixed(*pairs: tuple[str, str]) -> Callable[[Store, Answers], Sequence[Offer]]:
    """Offer the same few things always: what is kept, and how it is explained."""
    offers = [Offer(key=key, words=key, detail=detail) for key, detail in pairs]
    return lambda store, answers: offers


def lots_offered(wanted: Callable[[Lot], bool] = lambda lot: True) -> Callable[[Store, Answers], Sequence[Offer]]:
    """Offer the lots on the shelf that are wanted, by code, with what they hold and where they stand."""

    def offer(store: Store, answers: Answers) -> Sequence[Offer]:
        return [_lot_offer(lot) for lot in shelf(store) if wanted(lot)]

    return offer


def _lot_offer(lot: Lot) -> Offer:
    known = (lot.amount_words, lot.place)
    return Offer(
        key=lot.code, words=f"{lot.code}  {lot.material.name}", detail=", ".join(part for part in known if part)
    )


def lot_field(words: str = "Lot", **kept: object) -> Asked:
    """Ask for a lot on the shelf; other properties of the field may be given."""
    asked = Asked(
        key="lot",
        words=words,
        hint="Enter chooses; or scan its label",
        needed=True,
        takes="lot",
        choose=lots_offered(),
        none="Nothing is on the shelf yet: receive a delivery first.",
    )
    return replace(asked, **kept)  # type: ignore[arg-type]


def about_lot(store: Store, answers: Answers, local: datetime) -> Content:
    """Tell how the chosen lot stands; nothing before one is chosen."""
    if "lot" not in answers:
        return Content("")
    lot = find_lot(store, answers["lot"])
    verdict = fitness(lot, local)
    known = [
        ("holds", lot.amount_words),
        ("state", ("fit: " if verdict.fit else "! not fit: ") + verdict.why),
        ("strength", lot.strength),
        ("use by", day_words(lot.use_by) if lot.use_by else None),
        ("place", lot.place),
    ]
    title = Content.assemble((one_line(lot.material.name), "bold $text-primary"), f"  {lot.code}\n")
    return title + rows((name, value) for name, value in known if value)


def read_amount(store: Store, answers: Answers) -> object:
    """Read an amount of the chosen lot. Raises Unreadable."""
    from stockroom.actions.taking import read_amount_of

    return read_amount_of(find_lot(store, answers["lot"]), answers["amount"]) if "lot" in answers else None


AMOUNT = Asked(
    key="amount", words="How much", hint="as you say it: 20 mL, ½ L, 2 sheets", needed=True, read=read_amount
)


def offer_jobs(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer the jobs to which something can be booked."""
    return [
        Offer(
            key=one.code,
            words=f"{one.code} {one.title}",
            detail=", ".join(f"{thing.position} {thing.name}" for thing in one.objects),
        )
        for one in all_jobs(store, closed=False)
    ]


JOB = Asked(
    key="job",
    words="Job",
    hint="Enter chooses a job",
    choose=offer_jobs,
    none="No job is open: open one under F7 Jobs.",
    adds="new-job",
)


def split(text: str | None) -> tuple[str, ...]:
    """Split what stands between commas."""
    return tuple(word.strip() for word in (text or "").split(",") if word.strip())


def read_objects(store: Store, answers: Answers) -> object:
    """Find the objects of the chosen job. Raises NotFound listing those there are."""
    job = find_job(store, answers["job"]) if "job" in answers else None
    return [find_object(job, words) for words in split(answers["objects"])] if job else None


OBJECTS = Asked(
    key="objects",
    words="Objects",
    hint="not stated; or their numbers: 1, 3",
    read=read_objects,
    shown=lambda answers: "job" in answers,
)

WHY = Asked(key="why", words="Why", hint="only where a rule asks for a reason", rare=True)
REASON = replace(WHY, hint="the reason stays in the record", needed=True, rare=False)
DAY = Asked(
    key="day",
    words="When",
    hint="now; or yesterday, or 2026-11-20T14:00",
    rare=True,
)


EMPTY_WEIGHS = Asked(key="tare", words="Empty, it weighs", hint="with its lid: 310 g; or 310 g; 312 g", rare=True)
"""What each container weighs empty, so that what is in it can be weighed."""
OFFCUTS = Asked(key="offcuts", words="Offcuts kept", hint="none; or 20 x 76 cm; 15 x 30 cm", rare=True)
"""What goes back to the shelf of the sheets that are cut."""


def sizes_of(answers: Answers) -> tuple[str, ...]:
    """Return the sizes of the offcuts that are kept, as typed."""
    return parts(answers.get("offcuts"))


def parts(text: str | None) -> tuple[str, ...]:
    """Split what stands between semicolons: amounts and sizes may hold commas themselves."""
    return tuple(part.strip() for part in (text or "").split(";") if part.strip())


def offer_places(store: Store, answers: Answers) -> Sequence[Offer]:
    return [Offer(key=one.name, words=one.name, detail=one.note or "") for one in all_places(store)]


def read_place(store: Store, answers: Answers) -> object:
    return find_place(store, answers["place"])


PLACE = Asked(
    key="place",
    words="Place",
    hint="Enter chooses where it stands",
    choose=offer_places,
    none="No place is named yet: name one in the bench book (F12).",
    adds="new-place",
)


def offer_materials(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer the materials that are bought and metered."""
    return [
        Offer(key=one.key, words=one.name, detail=f"{one.kind}, by {one.dimension}")
        for one in all_materials(store)
        if one.metered and one.kind not in ("solution", "bath")
    ]


def offer_recipes(*kinds: str) -> Callable[[Store, Answers], Sequence[Offer]]:
    """Offer the recipes of some kinds."""
    from stockroom.science.quantities import show

    def offer(store: Store, answers: Answers) -> Sequence[Offer]:
        return [
            Offer(
                key=one.key,
                words=one.name,
                detail=f"usually {show(one.version.batch)}" if one.version.batch else one.kind,
            )
            for one in all_recipes(store)
            if one.kind in kinds
        ]

    return offer


def yes_or_no(words: str, key: str, detail: str, **kept: object) -> Asked:
    """Ask something that is no unless it is said; answered with `yes`."""
    asked = Asked(key=key, words=words, hint="no", choose=fixed(("yes", detail), ("no", "")))
    return replace(asked, **kept)  # type: ignore[arg-type]


MORE_THAN_BOOKED = yes_or_no(
    "More than booked", "count_first", "what the books do not hold is booked as found", rare=True
)
"""Whether a draw greater than the books hold books the rest as found first."""


def money(store: Store, typed: str) -> int:
    """Read money in the stockroom's currency. Raises Unreadable."""
    return read_money(typed, setting(store, "currency"))


def read_any_day(store: Store, answers: Answers, key: str = "day") -> object:
    """Read a day, whichever today is. Raises Unreadable."""
    return read_day(answers[key], today=date(2000, 1, 1))


def whole_number(typed: str | None, what: str, most: int = 999) -> int | None:
    """Read a whole number of something; raises BadInput for anything else."""
    if typed is None:
        return None
    if not (typed.isascii() and typed.isdecimal() and 0 < int(typed[:9]) <= most):
        raise BadInput(f"'{typed}' is not a number of {what}. Write a whole number, for example 2.")
    return int(typed)
