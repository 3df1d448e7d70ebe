"""What the studio chooses for its saturated jars: below which share of saturation one is weak, and how often its solid
may be watered again. Every change keeps who, when and the old value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockroom.actions.editing import changes, keep_changes
from stockroom.domain.edits import Change
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.science.numerals import quoted, read_decimal
from stockroom.store.edits import edits_of
from stockroom.store.open import Row, Store
from stockroom.store.stockroom_settings import choice, set_setting

if TYPE_CHECKING:
    from stockroom.science.ranges import Used
    from stockroom.science.residue import Residue

NOUN, NAMED = "setting", "studio"
LIMIT, REFILLS = "saturation_limit", "refills_of_residue"
DEFAULT_LIMIT = 90.0
"""As the reference table has it; kept here too, so that what is due is told without any table."""
ANY_NUMBER = "any"
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
    edits: tuple[Row, ...] = ()


def studio_choices(store: Store) -> StudioChoices:
    """Return what the studio has chosen, with who chose it and when."""
    edits = tuple(edits_of(store, NOUN, NAMED))
    refills = choice(store, REFILLS)
    return StudioChoices(
        limit_percent=limit_percent(store),
        limit_source=_source(edits, LIMIT, "until the studio chooses; common practice, no source"),
        refills_allowed=refills_allowed(store),
        refills_source=_source(edits, REFILLS, "the studio has not chosen; refills are only counted")
        if refills is None
        else _source(edits, REFILLS, ""),
        edits=edits,
    )


def limit_percent(store: Store) -> float:
    """Return the studio's limit in % of saturation."""
    chosen = choice(store, LIMIT)
    return DEFAULT_LIMIT if chosen is None else float(chosen)


def limit_used(store: Store) -> Used | None:
    """Return the studio's own limit with where it comes from; None where the table's serves."""
    from stockroom.science.ranges import Used, exactly

    if choice(store, LIMIT) is None:
        return None
    choices = studio_choices(store)
    return Used(what="limit, of saturation", figure=exactly(choices.limit_percent, "%"), own=choices.limit_source)


def refills_allowed(store: Store) -> int | None:
    """Return how often the solid of a jar may be watered again; None for any number."""
    chosen = choice(store, REFILLS)
    return None if chosen in (None, ANY_NUMBER) else int(str(chosen))


def residue_of(store: Store, rewettings: int) -> Residue:
    """Judge solid that was watered again so often by what the studio has chosen."""
    from stockroom.science.residue import judge_residue

    return judge_residue(rewettings, refills_allowed(store), chosen=choice(store, REFILLS) is not None)


def edit_choices(
    store: Store, occasion: Occasion, *, limit: str | None = None, refills: str | None = None
) -> tuple[Change, ...]:
    """Choose the limit (`85 %`) or how often solid may be watered again (`never`, `2`, `any`).

    Raises BadInput for what is neither, and where nothing is chosen.
    """
    if limit is None and refills is None:
        raise BadInput("Nothing to change: give --limit or --refills.")
    chosen: dict[str, str | None] = {}
    if limit is not None:
        chosen[LIMIT] = read_limit(limit)
    if refills is not None:
        chosen[REFILLS] = read_refills(refills)

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


def _source(edits: tuple[Row, ...], field: str, otherwise: str) -> str:
    last = next((edit for edit in reversed(edits) if edit["field"] == field), None)
    if last is None:
        return otherwise
    why = f": {last['reason']}" if last["reason"] else ""
    return f"chosen by the studio, {last['initials']} on {last['booked_at'][:10]}{why}"
