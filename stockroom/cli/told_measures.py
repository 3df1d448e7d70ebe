"""What commands say and print of how a recipe's amounts are measured."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from stockroom.cli.output import Output
from stockroom.science.quantities import Quantity, amount_and_unit, amount_text

if TYPE_CHECKING:
    from stockroom.actions.measuring import LineMeasured
    from stockroom.science.measuring import Way


def measures_document(measured: Iterable[LineMeasured]) -> list[dict[str, Any]]:
    """Return what programs get: each line's amount for one fill, with the ways to measure it."""
    return [
        {
            "material": line.material.key,
            "name": line.material.name,
            **amount_and_unit(line.need.made_up_to or line.amount),
            "made_up_to": line.need.made_up_to is not None,
            "fills": line.need.fills,
            "tolerance_percent": float(line.tolerance * 100),
            "tolerance_from": "recipe" if line.need.line.tolerance else "judgement",
            "ways": [_way_document(line, way) for way in line.ways],
            "warning": line.warning,
        }
        for line in measured
    ]


def _way_document(line: LineMeasured, way: Way) -> dict[str, Any]:
    low, high = ends_document(way.low, way.high)
    document: dict[str, Any] = {
        "kind": way.kind,
        "with": list(way.measures),
        "low": low,
        "high": high,
        "error": float(amount_text(way.error)[0]),
        "unit": amount_text(way.error)[1],
        "error_percent": float(f"{float(way.off * 100):.2g}"),
        "fine_enough": line.fine_enough(way),
        "ground": way.ground,
    }
    if strength := line.strength(way):
        weakest, strongest, unit = strength
        document["strength"] = {"low": float(f"{weakest:.3g}"), "high": float(f"{strongest:.3g}"), "unit": unit}
    return document


def ends_document(low: Quantity, high: Quantity) -> tuple[float, float]:
    """Return both ends of a range as numbers, with the digits that its width is worth."""
    from stockroom.science.measuring import rounded_ends

    least, most = rounded_ends(low, high)
    return float(amount_text(least)[0]), float(amount_text(most)[0])


def say_measures(output: Output, measured: Iterable[LineMeasured]) -> None:
    """Say with what each line is measured, and where nothing here is fine enough."""
    from stockroom.actions.measuring import strength_words

    lines = list(measured)
    if lines:
        output.say("Measure:")
    for line in lines:
        for index, way in enumerate(line.ways):
            told = way.words()
            if way.by_spoon:
                strength = line.strength(way)
                told += f", {strength_words(*strength)}" if strength else ""
                told += f" ({way.ground})"
            output.say(f"  {line.what}: {told}" if index == 0 else f"      or {told}")
        if line.warning:
            output.say(f"  ! {line.warning}")
