"""What is told of a jar: its solid, its checks with what they rest on, and when it must be made afresh."""

from __future__ import annotations

from typing import Any

from stockroom.actions.lot_page import LotPage
from stockroom.cli.sources import optional_range, range_document
from stockroom.planning.fitness import spoken
from stockroom.science.quantities import amount_and_unit, show
from stockroom.store.checks import CheckDone


def jar_document(page: LotPage) -> dict[str, Any]:
    """Return what programs get of a jar; of any other lot, that there is none of it."""
    return {
        "check_every": page.recipe.check_every,
        "ready_after": page.recipe.ready_after,
        "checks": [_check_document(one) for one in page.checks],
        "solid": _solid_document(page),
        "remake": _remake_document(page),
        "standing": _standing_document(page),
    }


def jar_lines(page: LotPage, *, sources: bool) -> list[str]:
    """Say it in lines; with `sources`, every figure that its checks rest on."""
    lines: list[str] = []
    if page.balance is not None:
        lines += [f"  {'solid' if index == 0 else '':9} {words}" for index, words in enumerate(page.balance.words())]
    if page.residue and page.residue.rewettings:
        lines.append(f"            {'! SUSPECT: ' if page.residue.suspect else ''}{page.residue.why}")
    if page.choices:
        lines.append(f"  limit     {page.choices.limit_percent:g} % of saturation ({page.choices.limit_source})")
    if page.standing:
        lines += [f"  now       {page.standing.state}: {page.standing.why}", f"            {page.standing.next_step}"]
    rest: dict[str, None] = {}
    for one in page.checks:
        lines.append(f"  check     {one.day} {one.check.method}: {one.check.verdict}, {one.initials} ({one.action})")
        rest |= dict.fromkeys(one.details.get("sources", ()))
    if page.checks:
        lines.append(f"            {page.checks[-1].check.why}")
    if sources:
        lines += [f"  from      {source}" for source in rest]
    elif rest:
        lines.append(f"            They rest on {len(rest)} reference values; --sources lists them.")
    return lines


def _check_document(one: CheckDone) -> dict[str, Any]:
    from stockroom.actions.jar_history import kept_range

    return {
        "action": one.action,
        "day": one.day,
        "by": one.initials,
        "method": one.check.method,
        "verdict": one.check.verdict,
        "why": one.check.why,
        "next": one.details.get("next"),
        "celsius": one.details.get("celsius"),
        "strength": optional_range(kept_range(one.details.get("strength"))),
        "percent_of_saturation": optional_range(kept_range(one.details.get("percent"))),
        "sources": one.details.get("sources", []),
    }


def _solid_document(page: LotPage) -> dict[str, Any] | None:
    if page.balance is None or page.residue is None or page.choices is None:
        return None
    return {
        "undissolved": range_document(page.balance.balance.undissolved),
        "rewettings": page.residue.rewettings,
        "refills_allowed": page.choices.refills_allowed,
        "suspect": page.residue.suspect,
        "why": page.residue.why,
        "limit_percent": page.choices.limit_percent,
        "limit_source": page.choices.limit_source,
        "celsius": page.balance.celsius,
        "temperature_assumed": page.balance.assumed,
        "sources": list(dict.fromkeys(row.cite() for one in page.balance.balance.used for row in one.rows)),
    }


def _standing_document(page: LotPage) -> dict[str, Any] | None:
    if page.standing is None:
        return None
    return {
        "state": page.standing.state,
        "strength": range_document(page.standing.strength),
        "percent_of_saturation": range_document(page.standing.percent),
        "why": page.standing.why,
        "next": page.standing.next_step,
        "sources": list(dict.fromkeys(row.cite() for one in page.standing.used for row in one.rows)),
    }


def _remake_document(page: LotPage) -> dict[str, Any] | None:
    plan = page.remake
    if plan is None:
        return None
    return {
        "by": plan.by,
        "reason": plan.reason,
        "why": plan.why,
        "make": amount_and_unit(plan.make) if plan.make else None,
        "start_by": plan.start_by,
        "others": [{"by": one.by, "reason": one.reason, "why": one.why} for one in plan.others],
    }


def remake_lines(page: LotPage) -> list[str]:
    """Say when a jar must be made afresh and why, and what would end it otherwise."""
    plan = page.remake
    if plan is None:
        return []
    make = f"make {show(plan.make)}" if plan.make else "nothing booked would lack it"
    start = f", begin by {spoken(plan.start_by)}" if plan.make and plan.start_by else ""
    when = spoken(plan.by) if plan.by else "when its liquid is used up"
    lines = [f"  remake    by {when}: {plan.why}" if plan.by else f"  remake    {when}: {plan.why}"]
    lines.append(f"            {make}{start}")
    lines += [f"            also {spoken(one.by) if one.by else 'then'}: {one.why}" for one in plan.others]
    return lines
