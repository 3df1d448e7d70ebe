"""Checking a jar: the fields follow the method, the verdict stands beside them while one types."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from textual.content import Content

from stockroom.actions.checking import Checked, check
from stockroom.actions.judging import LIME, Known, Readings
from stockroom.actions.judging_looks import FIZZ, OVER_LIME, OVER_SALT, SPOILT
from stockroom.actions.knowing import what_is_known
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_checks import FINE_LOOKS
from stockroom.science.ranges import show_best, show_range
from stockroom.science.strengths import read_strength
from stockroom.science.temperature import read_celsius
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.tui.forms.fields import AMOUNT, DAY, WHY, about_lot, lot_field, lots_offered, read_amount, yes_or_no
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.questions.offer import Offer
from stockroom.tui.texts import one_line, rows
from stockroom.tui.words import day_words

_METHODS = {
    "titration": "with acid of known strength; decides",
    "ph": "can show weak, never saturated",
    "conductivity": "against your own fresh reference",
    "fizz": "a rinsed pinch of the solid with a drop of acid",
    "humidity": "over a saturated salt",
    "looks": "evidence, not proof",
    "reading": "against the solution's own range",
}
_OF_LIME = ("titration", "ph", "conductivity", "fizz")


def _known(store: Store, answers: Answers) -> tuple[Lot, Known] | None:
    """Return the chosen jar with what is known of it."""
    if "lot" not in answers:
        return None
    lot = find_lot(store, answers["lot"])
    now = datetime.now(UTC)
    occasion = Occasion(by="", now=now, at=now, zone=ZoneInfo("UTC"))
    return lot, what_is_known(store, lot, Readings(method="looks"), occasion)


def _offer_methods(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer the ways that say something of the chosen jar."""
    found, ways = _known(store, answers), list(_METHODS)
    if found:
        lot, known = found
        of_lime = lot.over_solid and known.solid in (LIME, None)
        of_salt = lot.over_solid and not of_lime
        ways = [way for way in ways if (of_lime or way not in _OF_LIME) and (of_salt or way != "humidity")]
    return [Offer(key=way, words=way.replace("ph", "pH"), detail=_METHODS[way]) for way in ways]


def _offer_looks(store: Store, answers: Answers) -> Sequence[Offer]:
    """Offer the looks that are read of the chosen jar, in its recipe's own words."""
    if answers.get("method") == "fizz":
        return [Offer(key=word, words=word) for word in FIZZ]
    found = _known(store, answers)
    check = found[1].check if found else None
    own = check.spoilt if check else ()
    if found and found[0].over_solid:
        over = OVER_LIME if found[1].solid in (LIME, None) else OVER_SALT
        return [Offer(key=word, words=word) for word in dict.fromkeys((*over, *own))]
    good = [Offer(key=word, words=word) for word in FINE_LOOKS]
    return [*good, *(Offer(key=word, words=word, detail="spoilt") for word in own or SPOILT)]


def _of(key: str, words: str, hint: str, *methods: str, **kept: object) -> Asked:
    """Ask for a reading that some methods need."""
    asked = Asked(key=key, words=words, hint=hint, shown=lambda answers: answers.get("method") in methods)
    return replace(asked, **kept)  # type: ignore[arg-type]


_IN_WORDS = ("looks", "fizz")


def readings_of(answers: Answers) -> Readings:
    """Return what was read, under the names that judging knows."""
    reading = answers.get("looks") if answers["method"] in _IN_WORDS else answers.get("reading")
    names = ("acid", "used", "indicator", "temperature", "error", "buffers", "reference", "low", "high")
    values = {name: answers[name] for name in names if name in answers}
    values |= {"sample": answers["amount"]} if "amount" in answers else {}
    values |= {"reading": reading} if reading else {}
    for name in ("reference-temperature", "ph-change", "sample-error", "acid-error", "used-error"):
        if name.replace("-", "_") in answers:
            values[name] = answers[name.replace("-", "_")]
    return Readings(
        method=answers["method"],
        values=values,
        sample=answers.get("amount"),
        shaken_and_settled=answers.get("shaken") == "yes",
        own_reference=answers.get("own_reference") == "yes",
    )


def _check(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Checked | None) -> Checked:
    return check(store, occasion, answers["lot"], readings_of(answers), dry_run=dry_run, confirmed=confirmed)


def _text(plan: Checked, currency: str) -> Content:
    verdict = plan.verdict
    title = Content.assemble((verdict.word.upper(), "bold $text-primary"), f"  {one_line(plan.name)}  {plan.code}\n")
    known = [
        ("why", verdict.why),
        ("strength", show_best(verdict.strength) if verdict.strength else None),
        ("saturation", show_range(verdict.percent) if verdict.percent else None),
        ("next", verdict.next_step),
        ("check by", day_words(plan.check_by) if plan.check_by else None),
        ("then", f"marked not fit: {plan.unfit}" if plan.unfit else None),
    ]
    told = title + rows((name, value) for name, value in known if value)
    cautions = [Content.styled(f"\n! {one_line(caution)}", "$text-warning") for caution in verdict.cautions]
    sources = [Content.styled(f"\nfrom {one_line(row.cite())}", "dim") for row in verdict.rows]
    return Content("").join([told, *cautions, *([Content("\n"), *sources] if sources else [])])


CHECK = Form(
    name="check",
    title="Check a jar",
    help="""
Checking whether a jar is still what its label says. Choose the jar and the method; the
verdict, the reasoning and the next step are worked out while you type, and every figure it
rests on is named with its source. The sample is drawn from the jar when it is booked.

By the whole range: saturated when all of it is above the limit, weak when all is below,
otherwise it cannot be told. A pH can show weak, never saturated. Looks are evidence, not
proof.
""",
    fields=(
        lot_field(
            "Jar",
            choose=lots_offered(lambda lot: lot.is_jar and lot.kind != "waste can" and lot.balance.quantity > 0),
            none="There is no jar on the shelf.",
        ),
        Asked(key="method", words="Method", hint="Enter chooses", needed=True, choose=_offer_methods),
        Asked(
            key="looks",
            words="It looks",
            hint="Enter chooses",
            needed=True,
            choose=_offer_looks,
            shown=lambda answers: answers.get("method") in _IN_WORDS,
        ),
        _of(
            "reading", "Reading", "what the instrument shows", "ph", "conductivity", "humidity", "reading", needed=True
        ),
        replace(
            AMOUNT,
            words="Sample",
            hint="clear liquid taken from the jar: 25 mL",
            needed=False,
            read=read_amount,
            shown=lambda answers: answers.get("method") in ("titration", "ph", "conductivity", "reading"),
        ),
        _of(
            "acid",
            "Acid",
            "its strength: 0.1 mol/L",
            "titration",
            needed=True,
            read=lambda store, answers: read_strength(answers["acid"]),
        ),
        _of("used", "Acid used", "to the end point: 10.8 mL", "titration", needed=True),
        _of("indicator", "Indicator", "which", "titration", rare=True),
        _of("sample_error", "Pipette, ±", "such as 0.06 mL", "titration", rare=True),
        _of("acid_error", "Acid, ±", "of its strength, such as 0.5 %", "titration", rare=True),
        _of("used_error", "Burette, ±", "such as 0.05 mL", "titration", rare=True),
        _of("error", "Error", "of the meter, such as 0.1", "ph", "humidity", needed=True),
        _of("buffers", "Buffers", "that it was set with: 7, 10", "ph"),
        _of("reference", "Reference", "the one kept; or that of a fresh jar", "conductivity"),
        _of(
            "temperature",
            "Temperature",
            "22 °C",
            "titration",
            "ph",
            "conductivity",
            "humidity",
            read=lambda store, answers: read_celsius(answers["temperature"]),
        ),
        _of("reference_temperature", "Its temp.", "of the reference: the same", "conductivity", rare=True),
        _of("ph_change", "pH change", "from the reference's, if measured", "conductivity", rare=True),
        _of("low", "Least", "that is fit, in place of the recipe's own", "reading", rare=True),
        _of("high", "Most", "that is fit, in place of the recipe's own", "reading", rare=True),
        yes_or_no(
            "Shaken",
            "shaken",
            "over its solid, and settled, just before",
            shown=lambda answers: answers.get("method") in ("titration", "ph", "conductivity", "humidity"),
        ),
        yes_or_no(
            "Own reference",
            "own_reference",
            "a fresh jar, shaken and settled: its reading is kept as yours",
            shown=lambda answers: answers.get("method") in ("titration", "conductivity"),
            rare=True,
        ),
        WHY,
        DAY,
    ),
    act=_check,
    plan=_text,
    question=lambda answers: f"Book this check of {answers['lot']}?",
    done=lambda done, currency: (f"Checked: {done.name} ({done.code})", _text(done, currency)),
    lot=lambda done: done.code,
    about=about_lot,
)
