"""Plans, results and facts as text for the screens. Whatever a person typed goes through `one_line` into Content."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from stockroom.domain.codes import show as show_code
from stockroom.labels.plain_text import make_visible as one_line
from stockroom.planning.fitness import spoken
from stockroom.planning.steps import StepToDo, unsaid
from stockroom.science.cautions import Caution
from stockroom.science.money import show_money
from stockroom.science.quantities import show

if TYPE_CHECKING:  # the opening screen shows no plan, and is not to wait for what makes one
    from stockroom.actions.drawn import Drawn
    from stockroom.actions.making import Making
    from stockroom.actions.measuring import LineMeasured
    from stockroom.actions.offcuts import KeptOffcut
    from stockroom.actions.taking import Taking
    from stockroom.actions.using import Using

__all__ = [
    "drawn_text",
    "made_text",
    "making_text",
    "one_line",
    "rows",
    "sections",
    "steps_text",
    "taking_text",
    "using_text",
]


def rows(pairs: Iterable[tuple[str, str]]) -> Content:
    """Write names and values beneath each other, the names in a column of their own."""
    kept = [(name, one_line(value)) for name, value in pairs]
    width = max((len(name) for name, _ in kept), default=0)
    return Content("\n").join(Content.assemble((f"{name.ljust(width)}  ", "dim"), value) for name, value in kept)


def drawn_text(drawn: Sequence[Drawn], currency: str) -> Content:
    """Write what is drawn, a line a lot."""
    if not drawn:
        return Content("Nothing is drawn.")
    amounts = [show(one.quantity) for one in drawn]
    width = max(map(len, amounts))
    lines = []
    for one, amount in zip(drawn, amounts, strict=True):
        cost = show_money(one.value, currency) if one.cost_known else f"at least {show_money(one.value, currency)}"
        line = Content.assemble(
            (f"{amount:>{width}}", "bold"), "  ", one_line(one.name), "  ", one.code, ("  " + cost, "dim")
        )
        if one.stands_in_for:
            line = Content.assemble(line, f"  instead of {one_line(one.stands_in_for)}")
        if one.override:
            line = Content.assemble(line, "\n", (f"{' ' * width}  ! {one_line(one.override)}", "$text-warning"))
        lines.append(line)
    return Content("\n").join(lines)


def offcuts_text(offcuts: Sequence[KeptOffcut], currency: str) -> Content:
    """Write what goes back to the shelf of a sheet that is cut."""
    return rows((one.code or "a new lot", f"{one.size}, {show_money(one.value, currency)}") for one in offcuts)


def cautions_text(steps: Sequence[StepToDo], cautions: Sequence[Caution]) -> Content:
    """Write what stops the work, then the recipe's own cautions, each behind a sign."""
    words = [f"STOP: {one.words}" for one in cautions if one.stops]
    words += [one.words for one in steps if one.caution]
    return _behind_signs(words)


def common_cautions_text(steps: Sequence[StepToDo], cautions: Sequence[Caution]) -> Content:
    """Write the common cautions that the steps do not say already; they stand below what is to be done."""
    return _behind_signs([one.words for one in unsaid(cautions, steps) if not one.stops])


def _behind_signs(words: Sequence[str]) -> Content:
    return Content("\n").join(Content.styled(f"! {one_line(one)}", "$text-warning") for one in words)


def measured_text(measured: Sequence[LineMeasured]) -> Content:
    """Write with what of the studio's own each line is measured, and where nothing here is fine enough."""
    from stockroom.actions.measuring import strength_words

    lines: list[Content] = []
    for line in measured:
        for index, way in enumerate(line.ways):
            strength = line.strength(way) if way.by_spoon else None
            told = way.words() + (f", {strength_words(*strength)} ({way.ground})" if strength else "")
            lines.append(Content(one_line(f"{line.what}: {told}") if index == 0 else f"    or {one_line(told)}"))
        if line.warning:
            lines.append(Content.styled(f"! {one_line(line.warning)}", "$text-warning"))
    return Content("\n").join(lines)


def steps_text(steps: Sequence[StepToDo]) -> Content:
    """Write the steps by number, each with its wait."""
    lines = []
    for number, one in enumerate((one for one in steps if not one.caution), start=1):
        wait = f"  (then wait {one_line(one.wait)})" if one.wait else ""
        lines.append(Content(f"{number:>2}. {one_line(one.words)}{wait}"))
    return Content("\n").join(lines)


def sections(*parts: tuple[str, Content]) -> Content:
    """Write parts beneath each other, each under its title if it has one; an empty part is left out."""
    shown = [
        Content.assemble((title, "bold $text-primary"), "\n", body) if title else body
        for title, body in parts
        if body.plain
    ]
    return Content("\n\n").join(shown)


def _cost(cost: int, complete: bool, currency: str) -> str:
    return show_money(cost, currency) if complete else f"at least {show_money(cost, currency)}: some cost is not known"


def _jars(making: Making) -> str:
    sizes = [show(jar) for jar in making.jars]
    if len(sizes) > 1 and len(set(sizes)) == 1:
        return f"{len(sizes)} jars of {sizes[0]}"
    return f"{len(sizes)} jar{'s' if len(sizes) > 1 else ''}: {', '.join(sizes)}"


def _making_facts(making: Making, currency: str) -> list[tuple[str, str]]:
    facts = [("makes", f"{making.material_name}, {_jars(making)}")]
    if making.strength:
        facts.append(("strength", making.strength))
    if making.use_by:
        rule = f" ({making.use_by_rule})" if making.use_by_rule else ""
        facts.append(("use by", f"{spoken(making.use_by)}{rule}"))
    if making.ready_on:
        facts.append(("ready", spoken(making.ready_on)))
    if making.check_by:
        facts.append(("check by", spoken(making.check_by)))
    facts.append(("cost", _cost(making.cost, making.cost_complete, currency)))
    if making.opened:
        facts.append(("opens", ", ".join(making.opened)))
    return facts


def making_text(making: Making, currency: str) -> Content:
    """Write the plan of a making."""
    return sections(
        ("", cautions_text(making.steps, making.cautions)),
        ("Waits for a reading", Content(_waiting(making.waits_for))),
        ("Jar", rows(_making_facts(making, currency))),
        ("Drawn", drawn_text(making.drawn, currency)),
        ("Measure", measured_text(making.measured)),
        ("Steps", steps_text(making.steps)),
        ("Common cautions", common_cautions_text(making.steps, making.cautions)),
    )


def made_text(making: Making, currency: str) -> Content:
    """Write what was made, its codes first."""
    codes = ", ".join(show_code(code) for code in making.codes if code)
    return sections(
        (f"Code{'s' if len(making.codes) > 1 else ''}: {codes}", rows(_making_facts(making, currency))),
        ("Drawn", drawn_text(making.drawn, currency)),
    )


def using_text(using: Using, currency: str, *, steps: bool = True) -> Content:
    """Write the plan of a treatment, or what was drawn for it."""
    facts = [("for", f"{using.job} {using.job_title}")]
    facts.append(("objects", ", ".join(using.objects) if using.objects else "not stated"))
    if using.fill:
        times = f"{using.fills} fills of {show(using.fill)}" if using.fills > 1 else f"one fill of {show(using.fill)}"
        facts.append(("bath", times))
    if using.media.words:
        facts.append(("media", using.media.words))
    if using.strength:
        facts.append(("strength", using.strength))
    facts.append(("cost", _cost(using.cost, using.cost_complete, currency)))
    if using.opened:
        facts.append(("opens", ", ".join(using.opened)))
    return sections(
        ("", cautions_text(using.steps, using.cautions) if steps else Content("")),
        ("Waits for a reading", Content(_waiting(using.waits_for))),
        (one_line(using.recipe_name), rows(facts)),
        ("Drawn", drawn_text(using.drawn, currency)),
        ("Back to the shelf", offcuts_text(using.offcuts, currency)),
        ("Measure", measured_text(using.measured if steps else ())),
        ("Steps", steps_text(using.steps if steps else ())),
        ("Common cautions", common_cautions_text(using.steps, using.cautions) if steps else Content("")),
    )


def _waiting(words: str | None) -> str:
    if words is None:
        return ""
    return f"{one_line(words)}.\nMeasure it, then fill in Added and Reached: only then it can be booked."


def taking_text(taking: Taking, currency: str) -> Content:
    """Write what leaves a lot, and what is left of it; what to do first where it was spilt stands above."""
    left = show(taking.left) if taking.left.quanta else "nothing: the lot ends" if taking.ended else "nothing"
    facts = [("value", show_money(taking.cost, currency)), ("left", left)]
    if taking.to:
        facts.append(("goes to", taking.to))
    if taking.loan:
        facts += [("lent to", taking.loan[0]), ("back by", taking.loan[1] or "no day said")]
    return sections(
        ("", _behind_signs([one.words for one in taking.cautions])),
        ("", drawn_text(taking.drawn, currency)),
        ("", rows(facts)),
        ("Back to the shelf", offcuts_text(taking.offcuts, currency)),
    )
