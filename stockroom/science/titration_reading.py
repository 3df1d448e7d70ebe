"""A titration as people type it: sample, acid and acid used, in volumes or in drops, each with its error or without."""

from __future__ import annotations

from stockroom.errors import BadInput
from stockroom.science.numerals import read_numeral
from stockroom.science.quantities import Dimension
from stockroom.science.reading import read_quantity
from stockroom.science.temperature import row_of
from stockroom.science.titration import Titration, count_drops, measure_titration, read_acid, read_drops


def read_titration(
    sample: str,
    acid: str,
    used: str,
    *,
    sample_error: str | None = None,
    acid_error: str | None = None,
    used_error: str | None = None,
) -> Titration:
    """Read `25 mL`, `0.1 mol/L` and `10.8 mL`, or `30 drops` against `17 drops`. Raises Unreadable, BadInput."""
    mol_per_l, sample_drops, used_drops = read_acid(acid), read_drops(sample), read_drops(used)
    if used_drops is None and sample_drops is None:
        return measure_titration(
            sample_ml=_millilitres(sample),
            acid_mol_per_l=mol_per_l,
            used_ml=_millilitres(used),
            sample_error_ml=_millilitres(sample_error) if sample_error else None,
            acid_error_percent=read_percent(acid_error),
            used_error_ml=_millilitres(used_error) if used_error else None,
        )
    if used_drops is None:
        raise BadInput("A sample in drops needs the acid in drops of the same dropper: write --used like 17 drops.")
    if sample_error or used_error:
        raise BadInput("Counted drops are off by one drop and by their size: leave the error out.")
    return count_drops(
        acid_drops=used_drops,
        acid_mol_per_l=mol_per_l,
        sample_drops=sample_drops,
        sample_ml=None if sample_drops is not None else _millilitres(sample),
        acid_error_percent=read_percent(acid_error),
    )


def read_percent(text: str | None) -> float | None:
    """Read a share in per cent; None where none was typed. Raises Unreadable."""
    return float(read_numeral(text.strip().removesuffix("%"))) if text else None


def drops_ul(drops: int) -> int:
    """Give about how many microlitres so many drops are."""
    return round(drops * float(row_of("titration", "drop", "volume").span[0]) * 1_000)


def _millilitres(text: str) -> float:
    return read_quantity(text, expect=Dimension.VOLUME, allow_zero=True).quantity.quanta / 1_000
