"""`stockroom check` and `stockroom top-up`: what a jar still is, and water over its solid."""

from __future__ import annotations

import click

from stockroom.cli.label import say_old_label
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options
from stockroom.cli.sources import optional_range

METHODS = ("titration", "ph", "conductivity", "fizz", "humidity", "looks", "reading")


class _Signed(click.Command):
    """Takes `-1` for a reading, so that it is told to be negative, and not for an option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        return super().parse_args(
            ctx, [f"−{one[1:]}" if one[:1] == "-" and one[1:2].isdigit() else one for one in args]
        )


@click.command(cls=_Signed)
@click.argument("code")
@click.argument("method", type=click.Choice(METHODS))
@click.argument("reading", required=False)
@click.option(
    "--sample", metavar="AMOUNT", help="Clear liquid taken from the jar, 25 mL or 30 drops; it is drawn as studio use."
)
@click.option("--acid", metavar="STRENGTH", help="Titration: the acid, '0.1 mol/L' of hydrochloric acid.")
@click.option("--used", metavar="AMOUNT", help="Titration: acid used to the end point, 10.8 mL or 17 drops.")
@click.option("--sample-error", metavar="VOLUME", help="Titration: of the pipette, such as 0.06 mL.")
@click.option("--acid-error", metavar="PERCENT", help="Titration: of the acid's strength, such as 0.5 %.")
@click.option("--used-error", metavar="VOLUME", help="Titration: of the burette, such as 0.05 mL.")
@click.option("--indicator", metavar="NAME", help="Titration: the indicator.")
@click.option("--temperature", metavar="'22 °C'", help="At the reading; for a titration, when last shaken and settled.")
@click.option("--error", metavar="NUMBER", help="The instrument's own error, either way; else the recipe's.")
@click.option("--buffers", metavar="'7, 10'", help="pH: the buffers the meter was set with.")
@click.option(
    "--reference", metavar="NUMBER", help="Conductivity: that of a fresh jar of the studio's own, where none is kept."
)
@click.option("--reference-temperature", metavar="'22 °C'", help="Conductivity: that of the reference.")
@click.option("--ph-change", metavar="NUMBER", help="Conductivity: how far the pH differs from the reference's.")
@click.option("--low", metavar="NUMBER", help="Reading: least that is fit, in place of the recipe's own (with --why).")
@click.option("--high", metavar="NUMBER", help="Reading: most that is fit, in place of the recipe's own (with --why).")
@click.option("--sources", is_flag=True, help="List every reference value the verdict rests on, with its source.")
@click.option("--shaken", is_flag=True, help="It was shaken over the solid and settled just before.")
@click.option(
    "--own-reference",
    is_flag=True,
    help="A fresh jar, shaken and settled: keep its reading as the studio's own reference, for this lot of solid and"
    " this temperature, in place of the handbooks' spread.",
)
@booking_options
@json_option
@click.pass_obj
def check(
    session: Session,
    /,
    code: str,
    method: str,
    shaken: bool,
    own_reference: bool,
    sources: bool,
    day: str | None,
    why: str | None,
    dry_run: bool,
    **typed: str | None,
) -> None:
    """Check a jar: is it still what its label says, and how is that known?

    \b
    stockroom check L001W titration --sample '25 mL' --acid '0.1 mol/L' --used '10.8 mL' --temperature 22
    stockroom check L001W ph 12.35 --error 0.1 --temperature 25
    stockroom check L001W looks cloudy
    stockroom check L001W fizz fizzes
    stockroom check L002U reading 'pH 4.3'
    stockroom check L003N humidity 75 --error 2 --temperature 21

    Titrate twice, the second time with --shaken: where it does not rise, the jar is saturated, whatever the
    handbooks say, and its strength is the studio's own reference from then on.
    """
    from stockroom.actions.checking import check as look_at
    from stockroom.actions.judging import Readings
    from stockroom.cli.told import say_not_booked
    from stockroom.planning.fitness import spoken
    from stockroom.science.ranges import show_best, show_range

    values = {name.replace("_", "-"): text for name, text in typed.items() if text is not None}
    readings = Readings(
        method=method,
        values=values,
        sample=typed["sample"],
        shaken_and_settled=shaken or own_reference,
        own_reference=own_reference,
    )
    found = look_at(session.store, session.occasion(day, why), code, readings, dry_run=dry_run)
    verdict = found.verdict
    session.document(
        {
            "action": found.action,
            "code": found.code,
            "method": found.method,
            "verdict": verdict.word,
            "why": verdict.why,
            "next": verdict.next_step,
            "strength": optional_range(verdict.strength),
            "percent_of_saturation": optional_range(verdict.percent),
            "carbonated_residue": verdict.carbonated_residue,
            "reference_kept": verdict.reference is not None,
            "check_by": found.check_by,
            "unfit": found.unfit,
            "cautions": list(verdict.cautions),
            "sources": list(verdict.sources),
        }
    )
    session.say(f"{found.code}  {found.name}: {verdict.word.upper()}")
    session.say(f"  {verdict.why}")
    if verdict.strength:
        session.say(f"  strength  {show_best(verdict.strength)}")
    if verdict.percent:
        session.say(f"  that is   {show_range(verdict.percent)} of saturation")
    session.say(f"  next      {verdict.next_step}")
    if found.unfit:
        session.say("  unfit     not to be used, but with a reason, until a check passes")
    elif found.check_by:
        session.say(f"  check by  {spoken(found.check_by)}")
    say_old_label(session, found.code, found.action)
    for caution in verdict.cautions:
        session.say(f"  ! {caution}")
    if verdict.sources and not sources:
        session.say(f"  It rests on {len(verdict.sources)} reference values; --sources lists them.")
    for source in verdict.sources if sources else ():
        session.say(f"  from {source}")
    if found.action is None:
        say_not_booked(session)


@click.command("top-up")
@click.argument("code")
@click.argument("quantity")
@click.option("--temperature", metavar="'22 °C'", help="At which it is shaken and settles; strength follows it.")
@click.option("--hardness", default="0", metavar="MG/L", help="Of the water, mg/L as calcium carbonate (0).")
@booking_options
@json_option
@click.pass_obj
def top_up(
    session: Session,
    code: str,
    quantity: str,
    temperature: str | None,
    hardness: str,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Add water to a jar; over solid it is saturated again once it was shaken and has settled.

    Example: stockroom top-up L001W '500 mL' --temperature 21
    """
    from stockroom.actions.topping_up import top_up as fill_up
    from stockroom.cli.told import say_not_booked
    from stockroom.planning.fitness import spoken
    from stockroom.science.numerals import read_decimal
    from stockroom.science.quantities import amount_and_unit, show
    from stockroom.science.ranges import show_range

    done = fill_up(
        session.store,
        session.occasion(day, why),
        code,
        quantity,
        temperature=temperature,
        hardness_mg_per_l=float(read_decimal(hardness)),
        dry_run=dry_run,
    )
    session.document(
        {
            "action": done.action,
            "code": done.code,
            **amount_and_unit(done.holds),
            "strength": done.strength,
            "ready_on": done.ready_on,
            "verdict": done.verdict,
            "refills_left": done.refills_left,
            "refills": optional_range(done.refills),
            "solid_left": optional_range(done.solid_left),
            "rewettings": done.rewettings,
            "cautions": list(done.cautions),
            "sources": list(done.sources),
        }
    )
    session.say(f"{done.code}  {done.name}: {show(done.added)} added, {show(done.holds)} in all")
    session.say(f"  {done.verdict}")
    if done.refills:
        session.say(f"  refills   {show_range(done.refills)} of {show(done.added)}")
    if done.ready_on:
        session.say(f"  ready     {spoken(done.ready_on)}; not to be used before")
    if done.strength:
        session.say(f"  strength  {done.strength}")
    say_old_label(session, done.code, done.action)
    for caution in done.cautions:
        session.say(f"  ! {caution}")
    if done.action is None:
        say_not_booked(session)
