"""How cautions and suggested hazards are said and printed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from stockroom.actions.material_hazards import MaterialHazards, material_hazards
from stockroom.actions.precautions import RecipeHazards
from stockroom.cli.session import Session
from stockroom.planning.steps import StepToDo, unsaid
from stockroom.science.cautions import Caution

DEFERENCE_SHORT = "Local rules, the maker's sheet and licensed practice come first."


def cautions_document(cautions: Sequence[Caution]) -> list[dict[str, Any]]:
    return [
        {
            "about": caution.about.value,
            "words": caution.words,
            "harm": caution.harm,
            "stops": caution.stops,
            "sources": [row.cite() for row in caution.rows],
        }
        for caution in cautions
    ]


def say_cautions(session: Session, cautions: Iterable[Caution]) -> None:
    """Say cautions, a line each, what stops first."""
    for caution in sorted(cautions, key=lambda one: not one.stops):
        session.say(f"  ! {'STOP: ' if caution.stops else ''}{caution.words}")


def say_cautions_and_steps(session: Session, cautions: Sequence[Caution], steps: Sequence[StepToDo]) -> None:
    """Say what stops, the recipe's own cautions, the common ones that it does not say, and the steps."""
    common = unsaid(cautions, steps)
    say_cautions(session, (one for one in common if one.stops))
    for step in steps:
        if step.caution:
            session.say(f"  ! {step.words}")
    say_cautions(session, (one for one in common if not one.stops))
    for number, step in enumerate((step for step in steps if not step.caution), 1):
        wait = f"  (wait {step.wait})" if step.wait else ""
        session.say(f"  {number}. {step.words}{wait}")


def hazards_document(found: RecipeHazards) -> dict[str, Any]:
    """Return the suggestion and, beside it, what the material's own entry says."""
    suggested, entry = found.suggested, found.entry
    return {
        "suggested": {
            "statements": list(suggested.hazards),
            "signal_word": suggested.signal_word,
            "pictograms": list(suggested.pictograms),
            "precautions": list(suggested.precautions),
            "ground": suggested.ground,
            "near_limit": suggested.near_limit,
            "notes": list(found.notes),
            "sources": [row.cite() for row in suggested.rows],
        },
        "entry": {
            "material": entry.key,
            "statements": list(entry.hazards),
            "signal_word": entry.signal_word,
            "pictograms": list(entry.pictograms),
            "ground": entry.hazard_ground,
        }
        if entry
        else None,
        "differs": found.differs,
    }


def say_hazards(session: Session, found: RecipeHazards) -> None:
    suggested, entry = found.suggested, found.entry
    words = _label(suggested.signal_word, suggested.hazards, suggested.pictograms)
    session.say(f"  hazards suggested: {words}")
    for words in (suggested.ground, *found.notes):
        session.say(f"    {words}")
    if entry and found.differs:
        words = _label(entry.signal_word, entry.hazards, entry.pictograms)
        session.say(f"  its own entry says otherwise, and stays: {words}")
        session.say(f"    {material_hazards(session.store, entry).words}")
        if entry.hazard_ground:
            session.say(f"    {entry.hazard_ground}")


def beside_document(found: MaterialHazards) -> dict[str, Any]:
    """Return the suggestion beside a material's own entry, and how the two stand to each other."""
    one = found.suggested
    return {
        "hazards_suggested": {
            "statements": list(one.hazards),
            "signal_word": one.signal_word,
            "pictograms": list(one.pictograms),
            "precautions": list(one.precautions),
            "ground": one.ground,
            "near_limit": one.near_limit,
        }
        if one
        else None,
        "hazards_differ": found.differs,
        "hazards_left_out": list(found.left_out),
        "hazards_because": found.because if found.differs else None,
    }


def say_beside(session: Session, found: MaterialHazards) -> None:
    """Say how a material's hazards stand to the suggestion, and what that is where they differ."""
    one = found.suggested
    if one is None or found.words is None:
        session.say(f"  {DEFERENCE_SHORT}")
        return
    session.say(f"  hazards: {found.words}")
    session.say(f"  suggested: {_label(one.signal_word, one.hazards, one.pictograms)}")
    session.say(f"    {one.ground}")


def _label(signal_word: str | None, statements: Sequence[str], pictograms: Sequence[str]) -> str:
    said = [*([signal_word] if signal_word else []), *statements, *([", ".join(pictograms)] if pictograms else [])]
    return "; ".join(said) or "none"
