"""What to be careful of when things are used together, poured into a waste can, or met by one object on one day.

The pairs are the common ones of stockroom/reference/incompatible_pairs.toml, each with its source. Local rules, the
maker's sheet and licensed practice come first, and disposal is left to them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from stockroom.science.reference import Row, rows
from stockroom.science.substance_groups import codes_of, groups_of

Pair = tuple[Row, "Thing", "Thing"]

_CLOSED, _KEEPING, _RETURN = "closed jar", "keeping", "return to the jar"
_ANYTHING = "anything"
_HARMS = ("toxic gas", "fire", "pressure", "heat", "spoilt")
"""The worst first."""
_STOPPING = ("toxic gas", "fire")


class About(StrEnum):
    """What a caution is about, in the order in which they are shown."""

    PROTECTION = "protection"
    APART = "keep apart"
    GAS = "gas"
    FRESH = "make fresh"
    JAR = "not back into the jar"
    DISPOSAL = "disposal"
    LIMITS = "limits of this list"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A material as far as cautions need it."""

    key: str
    name: str
    statements: tuple[str, ...] = ()
    """Hazard statements, the code first."""
    vented: bool = False
    """The studio has it as giving off gas."""
    holds: frozenset[str] = frozenset()
    """Groups of what it was made from, where its own name does not tell: a bath's remainder, a jar."""

    @property
    def groups(self) -> frozenset[str]:
        return groups_of(self.key, self.name, self.statements) | self.holds

    @property
    def codes(self) -> frozenset[str]:
        return codes_of(self.statements)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution, with the reference rows behind it."""

    about: About
    words: str
    harm: str | None = None
    stops: bool = False
    """Going on all the same needs a reason, which is recorded."""
    rows: tuple[Row, ...] = ()


def cautions_for_use(things: Sequence[Thing]) -> tuple[Caution, ...]:
    """Give the cautions for making or using something from these things, eye protection and the like first."""
    return (
        *_protection(things),
        *(_keep_apart(pairs) for pairs in _pairs_within(things)),
        *_gas(things),
        *_fresh(things),
        *_not_back(things),
        *_disposal(things),
        _limits(),
    )


def cautions_for_waste(poured: Sequence[Thing], in_can: Sequence[Thing], *, can_is_vented: bool) -> tuple[Caution, ...]:
    """Give the cautions for pouring things into a waste can that holds others; what gives off gas needs a vent."""
    together = [*poured, *in_can]
    gas = () if can_is_vented else _gas(together)
    return (
        *_protection(poured),
        *(_keep_apart(pairs, closed=not can_is_vented) for pairs in _pairs_within(together) if _touches(pairs, poured)),
        *(replace(caution, words=f"{caution.words} This can is not vented.", stops=True) for caution in gas),
        *_disposal(poured),
        _limits(),
    )


def cautions_for_spill(spilt: Thing) -> tuple[Caution, ...]:
    """Give what to do first when something is spilt or its jar breaks; common practice, no source."""
    burns = "flammable liquid" in spilt.groups
    first = "First keep others away and air the room."
    first += " Put out flames; switch nothing on or off." if burns else ""
    return (
        Caution(about=About.PROTECTION, words=first),
        *_protection([spilt]),
        Caution(
            about=About.PROTECTION,
            words="Never pick up broken glass by hand. Soak up what is liquid; wipe dust up damp, never sweep it dry.",
        ),
        Caution(about=About.PROTECTION, words="On skin or clothes: take the wet clothes off and rinse with water."),
        *_disposal([spilt]),
        _limits(),
    )


def cautions_for_same_day(earlier: Sequence[Thing], now: Sequence[Thing]) -> tuple[Caution, ...]:
    """Give what one object must be rinsed of before it meets the next bath on the same day."""
    found = []
    for first in earlier:
        for second in now:
            pairs = _pairs_between(first, second)
            if pairs and first.key != second.key:
                row = _worst(pairs)
                words = f"{first.name} earlier today, now {second.name}: rinse well between. {_sentence(row.what)}"
                found.append(Caution(about=About.APART, words=words, harm=row.conditions, rows=_rows(pairs)))
    return tuple(dict.fromkeys(found))


def _pairs_within(things: Sequence[Thing]) -> Iterator[list[Pair]]:
    """Give, for every two different things that must not meet, all rows that say so."""
    different = list({thing.key: thing for thing in things}.values())
    for number, first in enumerate(different):
        for second in different[number + 1 :]:
            pairs = _pairs_between(first, second)
            if pairs:
                yield pairs


def _pairs_between(first: Thing, second: Thing) -> list[Pair]:
    found: list[Pair] = []
    for row, one, other in _table():
        either_way = ((first, second), (second, first))
        if any(one in left.groups and other in right.groups for left, right in either_way):
            found.append((row, first, second))
    return found


def _touches(pairs: Sequence[Pair], poured: Sequence[Thing]) -> bool:
    keys = {thing.key for thing in poured}
    return any(first.key in keys or second.key in keys for _, first, second in pairs)


def _keep_apart(pairs: Sequence[Pair], *, closed: bool = False) -> Caution:
    row = _worst(pairs)
    _, first, second = pairs[0]
    words = f"{first.name} and {second.name}: {row.what}."
    stops = row.conditions in _STOPPING or (closed and row.conditions == "pressure")
    return Caution(about=About.APART, words=words, harm=row.conditions, stops=stops, rows=_rows(pairs))


def _protection(things: Sequence[Thing]) -> Iterator[Caution]:
    """Eye protection is the first line wherever calcium hydroxide is in it."""
    codes = frozenset(code for thing in things for code in thing.codes)
    lime = any("calcium hydroxide" in thing.groups for thing in things)
    said = []
    if lime or codes & {"H314", "H318", "H319", "H315"}:
        said.append("Eye protection and gloves on before anything is opened. Your workplace's rules come first.")
    if codes & {"H314", "H318"} or lime:
        said.append("In the eyes: rinse with water for minutes on end and call a doctor at once.")
    if codes & {"H330", "H331", "H332", "H335", "H336"}:
        said.append("Air the room; do not breathe dust or vapour.")
    if codes & {"H224", "H225", "H226"}:
        said.append("No flame, no spark, nothing hot near it.")
    if codes & {"H300", "H301", "H310", "H311"} or any(code.startswith(("H34", "H35", "H36", "H37")) for code in codes):
        said.append("Read the maker's sheet before it is opened: it can do lasting harm.")
    yield from (Caution(about=About.PROTECTION, words=words) for words in said)


def _gas(things: Sequence[Thing]) -> Iterator[Caution]:
    for thing in things:
        found = _said_of(thing, _CLOSED)
        if found or thing.vented:
            why = found[0].what if found else "it gives off gas"
            words = f"{thing.name}: {why}. Vented closure only, never a tight jar."
            yield Caution(about=About.GAS, words=words, harm="pressure", rows=tuple(found))


def _fresh(things: Sequence[Thing]) -> Iterator[Caution]:
    for thing in things:
        for row in _said_of(thing, _KEEPING)[:1]:
            yield Caution(about=About.FRESH, words=f"{thing.name}: {row.what}.", harm=row.conditions, rows=(row,))


def _not_back(things: Sequence[Thing]) -> Iterator[Caution]:
    of: dict[str, tuple[Row, list[str]]] = {}
    for thing in things:
        for row in _said_of(thing, _RETURN)[:1]:
            of.setdefault(row.what, (row, []))[1].append(thing.name)
    for row, names in of.values():
        named = ", ".join(dict.fromkeys(names))
        words = f"{named}: nothing goes back into its jar. {_sentence(row.what)}"
        yield Caution(about=About.JAR, words=words, harm=row.conditions, rows=(row,))
    for row, one, other in _table():
        if (one, other) == (_ANYTHING, _RETURN):
            yield Caution(about=About.JAR, words=_sentence(row.what), harm=row.conditions, rows=(row,))


def _disposal(things: Sequence[Thing]) -> Iterator[Caution]:
    words = "Local rules say what may go down the drain, into the bin or into a waste can: ask before pouring."
    careful = sorted({t.name for t in things if t.codes & {"H224", "H225", "H226", "H400", "H410", "H411"}})
    if careful:
        words += f" Burns or harms water life: {', '.join(careful)}."
    yield Caution(about=About.DISPOSAL, words=words)


def _limits() -> Caution:
    words = "These are the common cautions, not all: the maker's sheet, local rules and licensed practice come first."
    return Caution(about=About.LIMITS, words=words)


def _said_of(thing: Thing, happening: str) -> list[Row]:
    return [row for row, one, other in _table() if other == happening and one in thing.groups]


def _table() -> Iterator[tuple[Row, str, str]]:
    for row in rows("incompatible_pairs"):
        one, _, other = row.of.partition(" + ")
        yield row, one, other


def _worst(pairs: Iterable[Pair]) -> Row:
    return min((row for row, _, _ in pairs), key=lambda row: _HARMS.index(row.conditions))


def _rows(pairs: Iterable[Pair]) -> tuple[Row, ...]:
    return tuple(row for row, _, _ in pairs)


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."
