"""What the studio chooses: below which share of saturation a jar is weak, how often its solid may be watered again, how
surely stock is to last until a delivery, how dates and numbers stand on the screens. Every change keeps who, when and
the old value."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockroom.actions.editing import changes, keep_changes
from stockroom.domain.edits import Change
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.science.numerals import quoted, read_decimal
from stockroom.store.edits import edits_of
from stockroom.store.open import Row, Store
from stockroom.store.stockroom_settings import (
    COMMA,
    DATES_ON_SCREEN,
    DAY_FIRST,
    DECIMAL_SIGN,
    POINT,
    YEAR_FIRST,
    choice,
    local_day,
    set_setting,
)

if TYPE_CHECKING:
    from stockroom.science.ranges import Used
    from stockroom.science.residue import Residue

NOUN, NAMED = "setting", "studio"
LIMIT, REFILLS, HUMIDITY = "saturation_limit", "refills_of_residue", "humidity_tolerance"
RUNNING_OUT = "running_out_percent"
DEFAULT_LIMIT = 90.0
"""As the reference table has it; kept here too, so that what is due is told without any table."""
DEFAULT_HUMIDITY = 5.0
"""Likewise, in % RH."""
DEFAULT_RUNNING_OUT = 5.0
"""In %, for each order."""
ANY_NUMBER = "any"
UNTIL_CHOSEN = "until the studio chooses"
_UNTIL = "until the studio chooses; common practice, no source"
_MOST_REFILLS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class StudioChoices:
    """What the studio has chosen; what it has not, is what serves until then."""

    limit_percent: float
    """Of saturation; a jar wholly below it is weak."""
    limit_source: str
    refills_allowed: int | None
    """How often the solid of a jar may be watered again; None for any number."""
    refills_source: str
    humidity_tolerance: float
    """What a jar of salt may be off by, in % RH."""
    humidity_source: str
    running_out_percent: float
    """For each order: how often stock may run out before the delivery comes."""
    running_out_source: str
    dates: str
    """On the screens: year-first, 2026-11-25, or day-first, 25.11.2026."""
    dates_source: str
    decimal_sign: str
    """On the screens: point or comma."""
    decimal_sign_source: str
    edits: tuple[Row, ...] = ()


def studio_choices(store: Store) -> StudioChoices:
    """Return what the studio has chosen, with who chose it and when."""
    edits = tuple(edits_of(store, NOUN, NAMED))
    refills = choice(store, REFILLS)
    return StudioChoices(
        limit_percent=limit_percent(store),
        limit_source=_source(store, edits, LIMIT, _UNTIL),
        refills_allowed=refills_allowed(store),
        refills_source=_source(store, edits, REFILLS, "the studio has not chosen; refills are only counted")
        if refills is None
        else _source(store, edits, REFILLS, ""),
        humidity_tolerance=float(choice(store, HUMIDITY) or DEFAULT_HUMIDITY),
        humidity_source=_source(store, edits, HUMIDITY, _UNTIL),
        running_out_percent=100 * running_out_chance(store),
        running_out_source=_source(store, edits, RUNNING_OUT, "until the studio chooses; a judgement, no source"),
        dates=choice(store, DATES_ON_SCREEN) or YEAR_FIRST,
        dates_source=_source(store, edits, DATES_ON_SCREEN, UNTIL_CHOSEN),
        decimal_sign=choice(store, DECIMAL_SIGN) or POINT,
        decimal_sign_source=_source(store, edits, DECIMAL_SIGN, UNTIL_CHOSEN),
        edits=edits,
    )


def limit_percent(store: Store) -> float:
    """Return the studio's limit in % of saturation."""
    chosen = choice(store, LIMIT)
    return DEFAULT_LIMIT if chosen is None else float(chosen)


def running_out_chance(store: Store) -> float:
    """Return how likely stock may run out before a delivery comes, for each order: the studio's choice, or 5 %."""
    return float(choice(store, RUNNING_OUT) or DEFAULT_RUNNING_OUT) / 100


def limit_used(store: Store) -> Used | None:
    """Return the studio's own limit with where it comes from; None where the table's serves."""
    return _own(store, LIMIT, "limit, of saturation", "%")


def humidity_used(store: Store) -> Used | None:
    """Return what the studio lets a jar of salt be off by, in % RH; None where the table's serves."""
    return _own(store, HUMIDITY, "may be off by", "% RH")


def _own(store: Store, name: str, what: str, unit: str) -> Used | None:
    from stockroom.science.ranges import Used, exactly

    chosen = choice(store, name)
    if chosen is None:
        return None
    source = _source(store, tuple(edits_of(store, NOUN, NAMED)), name, _UNTIL)
    return Used(what=what, figure=exactly(float(chosen), unit), own=f"{float(chosen):g} {unit}, {source}")


def refills_allowed(store: Store) -> int | None:
    """Return how often the solid of a jar may be watered again; None for any number."""
    chosen = choice(store, REFILLS)
    return None if chosen in (None, ANY_NUMBER) else int(str(chosen))


def residue_of(store: Store, rewettings: int) -> Residue:
    """Judge solid that was watered again so often by what the studio has chosen."""
    from stockroom.science.residue import judge_residue

    return judge_residue(rewettings, refills_allowed(store), chosen=choice(store, REFILLS) is not None)


def edit_choices(
    store: Store,
    occasion: Occasion,
    *,
    limit: str | None = None,
    refills: str | None = None,
    humidity: str | None = None,
    running_out: str | None = None,
    dates: str | None = None,
    decimal_sign: str | None = None,
) -> tuple[Change, ...]:
    """Choose the limit (`85 %`), how often solid may be watered again (`never`, `2`, `any`), what humidity is off by,
    how likely stock may run out before a delivery comes (`5 %`), and how dates (`day-first`) and numbers (`comma`)
    stand on the screens.

    Raises BadInput for what is neither, and where nothing is chosen.
    """
    typed = (
        (LIMIT, limit, read_limit),
        (REFILLS, refills, read_refills),
        (HUMIDITY, humidity, read_humidity),
        (RUNNING_OUT, running_out, read_running_out),
        (DATES_ON_SCREEN, dates, read_dates),
        (DECIMAL_SIGN, decimal_sign, read_decimal_sign),
    )
    chosen: dict[str, str | None] = {name: read(text) for name, text, read in typed if text is not None}
    if not chosen:
        raise BadInput(
            "Nothing to change: give --limit, --refills, --humidity, --running-out, --dates or --decimal-sign."
        )

    with store.write() as booked_at:
        made = changes({name: choice(store, name) for name in chosen}, chosen)
        for change in made:
            set_setting(store, change.field, str(change.became))
        keep_changes(store, NOUN, NAMED, made, occasion, booked_at)
    return made


def read_limit(text: str) -> str:
    """Read a limit in % of saturation. Raises BadInput outside of more than 0 and less than 100."""
    percent = read_decimal(text.strip().removesuffix("%").strip())
    if not 0 < percent < 100:
        raise BadInput(f"A limit of {quoted(text)} is none: write more than 0 and less than 100 % of saturation.")
    return f"{percent:f}"


def read_humidity(text: str) -> str:
    """Read what humidity over a salt may be off by, in % RH. Raises BadInput for nothing or more than 20."""
    percent = read_decimal(text.casefold().removesuffix("rh").strip().removesuffix("%").strip())
    if not 0 < percent <= 20:
        raise BadInput(f"{quoted(text)} is not what humidity may be off by: write more than 0 and at most 20 % RH.")
    return f"{percent:f}"


def read_running_out(text: str) -> str:
    """Read how likely stock may run out before a delivery comes, in %. Raises BadInput."""
    from stockroom.science.delivery_demand import check_chance

    percent = read_decimal(text.strip().removesuffix("%").strip())
    check_chance(float(percent) / 100)
    return f"{percent:f}"


def read_refills(text: str) -> str:
    """Read how often solid may be watered again. Raises BadInput."""
    plain = " ".join(text.casefold().split())
    if plain in ("any", "any number"):
        return ANY_NUMBER
    if plain == "never":
        return "0"
    if plain.isascii() and plain.isdigit() and int(plain) <= _MOST_REFILLS:
        return str(int(plain))
    raise BadInput(f"{quoted(text)} is not how often: write never, a whole number up to {_MOST_REFILLS}, or any.")


def read_dates(text: str) -> str:
    """Read how dates are to stand on the screens, in words or as a date so written. Raises BadInput."""
    plain = "-".join(text.casefold().replace("-", " ").split())
    if plain == YEAR_FIRST or re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", plain):
        return YEAR_FIRST
    if plain == DAY_FIRST or re.fullmatch(r"[0-9]{2}\.[0-9]{2}\.[0-9]{4}", plain):
        return DAY_FIRST
    raise BadInput(
        f"{quoted(text)} is no form that everyone reads as the same day. Write {YEAR_FIRST}, for 2026-11-25, or "
        f"{DAY_FIRST}, for 25.11.2026."
    )


def read_decimal_sign(text: str) -> str:
    """Read which decimal sign is to stand on the screens. Raises BadInput."""
    plain = text.strip().casefold()
    for name, sign in ((POINT, "."), (COMMA, ",")):
        if plain in (name, sign):
            return name
    raise BadInput(f"{quoted(text)} is no decimal sign: write {POINT}, for 1.5 mL, or {COMMA}, for 1,5 mL.")


def _source(store: Store, edits: tuple[Row, ...], field: str, otherwise: str) -> str:
    last = next((edit for edit in reversed(edits) if edit["field"] == field), None)
    if last is None:
        return otherwise
    why = f": {last['reason']}" if last["reason"] else ""
    return f"chosen by the studio, {last['initials']} on {local_day(store, last['booked_at'])}{why}"
