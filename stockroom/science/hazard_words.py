"""What a label shows for hazard statements: pictograms, signal word, precautions, and which of them give way.

Pictograms and signal words by statement: label elements of the hazard classes, CLP Annex I (from memory, save those of
flammable liquids, Table 2.6.2). Which pictogram gives way: CLP Article 26. At most six precautions: CLP Article 28(3).
Which precaution answers which statement, and their order: common practice, after the tables of CLP Annex I.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from stockroom.errors import NotFound
from stockroom.science.reference import Row, rows
from stockroom.science.substance_groups import codes_of

MOST_PRECAUTIONS = 6

_PICTOGRAMS = {
    "GHS02": ("H224", "H225", "H226", "H228", "H260", "H261"),
    "GHS03": ("H271", "H272"),
    "GHS05": ("H290", "H314", "H318"),
    "GHS06": ("H300", "H301", "H310", "H311", "H330", "H331"),
    "GHS07": ("H302", "H312", "H315", "H317", "H319", "H332", "H335", "H336"),
    "GHS08": ("H304", "H334", "H340", "H341", "H350", "H351", "H360", "H361", "H370", "H371", "H372", "H373"),
    "GHS09": ("H400", "H410", "H411"),
}
_DANGER = (
    *("H224", "H225", "H260", "H271", "H300", "H301", "H304", "H310", "H311", "H314", "H318", "H330", "H331"),
    *("H334", "H340", "H350", "H360", "H370", "H372"),
)
_SIGNALS = (None, "Warning", "Danger")
_WITHOUT_SIGNAL = ("H411", "H412", "H413")
_IRRITATION = ("H315", "H319")
_GIVES_WAY = {
    "H314": ("H315", "H318", "H319"),
    "H318": ("H319",),
    "H271": ("H272",),
    "H224": ("H225", "H226"),
    "H225": ("H226",),
    "H301": ("H302",),
}
"""What a weightier statement covers; H318 beside H314 is left off as said already (CLP Article 27)."""

_EYES_AND_SKIN = ("H314", "H315", "H318", "H319")
_FLAMMABLE = ("H224", "H225", "H226")
_OXIDISING = ("H271", "H272")
_AIRWAYS = ("H332", "H335", "H336")
_PRECAUTIONS = (
    ("P280", (*_EYES_AND_SKIN, *_FLAMMABLE, *_OXIDISING, "H290", "H301", "H302")),
    ("P305+P351+P338", ("H314", "H318", "H319")),
    ("P310", ("H301", "H314", "H318")),
    ("P303+P361+P353", ("H314",)),
    ("P301+P330+P331", ("H314",)),
    ("P210", (*_FLAMMABLE, *_OXIDISING)),
    ("P233", _FLAMMABLE),
    ("P220", _OXIDISING),
    ("P302+P352", ("H315",)),
    ("P260", ("H314",)),
    ("P261", _AIRWAYS),
    ("P304+P340", _AIRWAYS),
    ("P301+P312", ("H302",)),
    ("P403+P235", _FLAMMABLE),
    ("P273", ("H400", "H410", "H411", "H412")),
)
"""The weightiest first: protection, first aid for what cannot be undone, fire, then the rest."""


def find_words(code: str) -> Row:
    """Find the row with the wording of a statement's code. Raises NotFound."""
    for row in rows("hazard_statements"):
        if row.of == code:
            return row
    raise NotFound(f"{code} has no wording here; copy its words from the maker's sheet.", read=code)


def write_statement(code: str) -> str:
    """Write a statement with its code and words, `H318 Causes serious eye damage`. Raises NotFound."""
    return f"{code} {find_words(code).what}"


def drop_covered(codes: Collection[str]) -> tuple[str, ...]:
    """Leave out the statements that a weightier one covers; the others keep their order."""
    covered = {weaker for code in codes for weaker in _GIVES_WAY.get(code, ())}
    return tuple(dict.fromkeys(code for code in codes if code not in covered))


def choose_pictograms(statements: Iterable[str]) -> tuple[str, ...]:
    """Choose the pictograms for statements, after CLP Article 26(1)(b) and (c).

    The exclamation mark gives way to the skull, and to corrosion for skin and eye irritation only; where an airway,
    narcosis or swallowing statement calls for it, it stays.
    """
    codes = {code[:4] for code in codes_of(statements)}
    found = {pictogram for pictogram, shown_for in _PICTOGRAMS.items() if codes.intersection(shown_for)}
    other_calls = codes.intersection(_PICTOGRAMS["GHS07"]).difference(_IRRITATION)
    if "GHS06" in found or ("GHS05" in found and not other_calls):
        found.discard("GHS07")
    return tuple(sorted(found))


def choose_signal_word(statements: Iterable[str]) -> str | None:
    """Choose Danger, else Warning, else none: one word alone (CLP Article 20(3), from memory)."""
    codes = {code[:4] for code in codes_of(statements) if code.startswith("H")}
    if codes.intersection(_DANGER):
        return "Danger"
    return "Warning" if codes.difference(_WITHOUT_SIGNAL) else None


def choose_precautions(statements: Iterable[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Choose at most six precautions, the weightiest first, and give those left off beside them."""
    wanted = tuple(write_statement(code) for code in _fitting(codes_of(statements)))
    return wanted[:MOST_PRECAUTIONS], wanted[MOST_PRECAUTIONS:]


def _fitting(codes: Collection[str]) -> Iterator[str]:
    chosen: set[str] = set()
    for precaution, answers in _PRECAUTIONS:
        # "Do not breathe" says more than "avoid breathing".
        if set(answers) & set(codes) and not (precaution == "P261" and "P260" in chosen):
            chosen.add(precaution)
            yield precaution


def left_out(
    statements: Iterable[str],
    signal_word: str | None,
    pictograms: Iterable[str],
    *,
    own_statements: Iterable[str],
    own_signal_word: str | None,
    own_pictograms: Collection[str],
) -> tuple[str, ...]:
    """Name what a suggestion warns of and an own label does not; what a weightier statement covers is not left out."""
    own = codes_of(own_statements)
    covered = own.union(*(_GIVES_WAY.get(code, ()) for code in own))
    missing = [code for code in (words.split()[0] for words in statements if words.strip()) if code not in covered]
    if _SIGNALS.index(own_signal_word) < _SIGNALS.index(signal_word):
        missing.append(f"the word {signal_word}")
    gives_way = "GHS05" in own_pictograms or "GHS06" in own_pictograms
    missing += [p for p in pictograms if p not in own_pictograms and not (p == "GHS07" and gives_way)]
    return tuple(missing)
