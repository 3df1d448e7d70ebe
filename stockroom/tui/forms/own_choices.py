"""What the studio chooses: for its saturated jars, for when to order, and for its screens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from stockroom.actions.studio_choices import (
    HUMIDITY,
    LIMIT,
    REFILLS,
    RUNNING_OUT,
    edit_choices,
    read_humidity,
    read_limit,
    read_refills,
    read_running_out,
)
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import (
    COMMA,
    DATES_ON_SCREEN,
    DAY_FIRST,
    DECIMAL_SIGN,
    POINT,
    YEAR_FIRST,
    choice,
)
from stockroom.tui.forms.fields import fixed
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import EDIT_WHY, Kept, keep, kept_text, kept_title

_KEPT_AS = {
    "dates": DATES_ON_SCREEN,
    "decimal_sign": DECIMAL_SIGN,
    "limit": LIMIT,
    "refills": REFILLS,
    "humidity": HUMIDITY,
    "running_out": RUNNING_OUT,
}
"""Each field and the setting it is kept as."""


def _choose(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        typed = {key: answers[key] for key in _KEPT_AS if key in answers}
        made = edit_choices(store, occasion, **typed) if typed else ()
        return Kept(noun="studio", name="what it chooses", changed=made)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _chosen(store: Store, known: Answers, local: datetime) -> Answers:
    """Fill in what was chosen; what was not stays empty, so that it is not taken for a choice."""
    kept = {key: choice(store, name) for key, name in _KEPT_AS.items()}
    if kept["refills"] == "0":
        kept["refills"] = "never"
    return {**{key: value for key, value in kept.items() if value is not None}, **known}


def _read(key: str, words: str, hint: str, read: Callable[[str], str]) -> Asked:
    return Asked(key=key, words=words, hint=hint, read=lambda store, answers: read(answers[key]))


# Examples stand in quotation marks, which keep them as they are in whatever form the screens are.
STUDIO_CHOICES = Form(
    name="studio-choices",
    title="What the studio chooses",
    help="""
How dates and numbers stand on the screens: “2026-11-25” or “25.11.2026”, “1.5 mL” or “1,5 mL”. What
is typed is read in both; labels, papers and files keep “2026-11-25” and “1.5”, which are read in one
way anywhere. It counts at once, in every window.

For saturated jars: below which share of saturation one is weak, how often the same solid may be
watered again, what the humidity over a salt may be off by. For ordering: how seldom stock may run
out before a delivery. An empty field stays as it is; what a choice was before, who changed it and
when are kept.
""",
    fields=(
        Asked(
            key="dates",
            words="Dates",
            hint="year first, until chosen",
            choose=fixed((YEAR_FIRST, "as in “2026-11-25”"), (DAY_FIRST, "as in “25.11.2026”")),
        ),
        Asked(
            key="decimal_sign",
            words="Decimal sign",
            hint="point, until chosen",
            choose=fixed((POINT, "as in “1.5 mL”"), (COMMA, "as in “1,5 mL”")),
        ),
        _read("limit", "Weak below", "90 % of saturation, until chosen", read_limit),
        _read("refills", "Refills", "2 on the same solid; never; or any", read_refills),
        _read("humidity", "Humidity", "may be off by 5 % RH, until chosen", read_humidity),
        _read("running_out", "Stock runs out", "in 5 % of orders, until chosen", read_running_out),
        replace(EDIT_WHY, rare=False),
    ),
    act=_choose,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: "Keep what the studio chooses so?",
    done=kept_title,
    expand=_chosen,
)
