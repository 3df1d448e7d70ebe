"""What is due of jars kept over solid: let them settle, shake and titrate again, mind solid watered too often."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stockroom.domain.lots import Lot
from stockroom.planning.due import Due
from stockroom.science.numerals import counted


@dataclass(frozen=True, slots=True, kw_only=True)
class JarState:
    """What was kept of a jar over solid by what was done to it."""

    refills: int = 0
    """How often water was put on its solid again."""
    proved: bool = False
    """Whether a titration found it saturated since."""
    unsure: str | None = None
    """What the newest titration of this filling left open: "cannot tell by titration on 2026-01-05"."""


def settling(items: Sequence[Due], again: Mapping[str, str]) -> list[Due]:
    """Tell what is not ready because it settles again; `again` says why, by code."""
    return [
        replace(item, kind="settle", why=f"{again[item.code]}; {item.why}")
        if item.kind == "not-ready" and item.code in again
        else item
        for item in items
    ]


def due_jars(lots: Sequence[Lot], states: Mapping[int, JarState], allowed: int | None) -> list[Due]:
    """Judge jars over solid that are fit otherwise; `allowed` is how often solid may be watered again, None any."""
    items: list[Due] = []
    for lot in lots:
        state = states.get(lot.id)
        if state is None or not lot.over_solid or lot.unfit or lot.ended:
            continue
        if state.unsure:
            why = f"{state.unsure}: shake it over the solid, let it settle, titrate again; no rise means saturated"
            items.append(Due(kind="settle", code=lot.code, name=lot.material.name, by=None, why=why))
        if allowed is not None and state.refills > allowed and not state.proved:
            often = counted(state.refills, "time")
            limit = "never" if not allowed else f"at most {allowed}"
            why = f"its solid was watered again {often}, the studio allows {limit}: titrate it, or make it afresh"
            items.append(Due(kind="suspect-residue", code=lot.code, name=lot.material.name, by=None, why=why))
    return items
