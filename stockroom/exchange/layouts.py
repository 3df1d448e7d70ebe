"""The tables that can be taken in: their columns, what is written in each, and an example of an invented studio."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.errors import BadInput
from stockroom.exchange.sheet import Column, Table

LEFT_OUT = "#"
"""A column of this name is for people: a row that says anything in it is not taken in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """One table that can be taken in and written out."""

    name: str
    columns: tuple[Column, ...]

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(column.name for column in self.columns)

    @property
    def needed(self) -> tuple[str, ...]:
        return tuple(column.name for column in self.columns if column.needed)


def _needed(name: str, words: str, example: str, *, number: bool = False) -> Column:
    return Column(name=name, words=words, example=example, number=number, needed=True)


def _column(name: str, words: str, example: str = "", *, number: bool = False) -> Column:
    return Column(name=name, words=words, example=example, number=number)


_RETIRED = _column("retired_on", "the day from which it is offered no more")

MATERIALS = Layout(
    name="materials",
    columns=(
        _column(
            "key", "a short name to type: small letters, digits and hyphens; else made from the name", "chart-linen"
        ),
        _needed("name", "its name", "Linen for sea charts"),
        _needed("measured_by", "mass, volume, area, length, pieces or uses; fixed afterwards", "area"),
        _column("kind", "reagent, solvent, sheet, solution … in your own words", "sheet"),
        _column("grade", "viscosity, weight, quality: part of what it is", "120 g/m2"),
        _column("metered", "no for tap water and the like: in steps, never in balances", "yes"),
        _column("vented", "yes where it gives off gas and is never kept tight", "no"),
        _column("density", "g/mL of the liquid, or of the solid itself"),
        _column("purity", "what part of it is the substance: 95 % w/w"),
        _column("molar_mass", "g/mol as it is weighed, water of crystallisation included"),
        _column("pack_word", "what a pack is called: roll, ream; with pack"),
        _column("pack", "how much such a pack holds, with its unit: 50 m2"),
        _column("sheet", "one sheet's sides", "90 x 60 cm"),
        _column("grain", "along, across or none, against the first side", "along"),
        _column("life_closed", "how long it keeps unopened: 24 months"),
        _column("life_opened", "how long it keeps once opened: 6 months"),
        _column("low", "below this it is due to be bought or made", "2 sheets"),
        _column("storage", "how to keep it", "flat, dry"),
        _column("signal_word", "Danger or Warning"),
        _column("hazards", "statements, each on a line of its own: H318 Causes serious eye damage"),
        _column("precautions", "precautions, each on a line of its own"),
        _column("pictograms", "GHS01 to GHS09, each on a line of its own"),
        _column("hazard_ground", "where its classification comes from"),
        _column("source", "where these numbers come from", "sample card of the weaver"),
        _column("identity", "what it is whatever it is sold as", "linen, plain weave"),
        _column("safety_sheet", "where its safety sheet is kept"),
        _column("safety_sheet_date", "the day of that sheet, such as 2026-11-25"),
        _column("register", "yes where the studio keeps a register of it", "no"),
        _RETIRED,
    ),
)
SUPPLIERS = Layout(
    name="suppliers",
    columns=(
        _needed("name", "its name", "Harbour weavers"),
        _column("delivery_days", "days from order to delivery, as promised", "12", number=True),
        _column("minimum_order", "the least an order must come to, in the stockroom's currency", "40.00"),
        _column("note", "what to know about it", "closed in August"),
        _RETIRED,
    ),
)
OFFERS = Layout(
    name="offers",
    columns=(
        _needed("supplier", "its name, as under suppliers", "Harbour weavers"),
        _needed("material", "the material's key or full name", "chart-linen"),
        _needed("pack", "what one pack holds, with its unit", "5 sheets"),
        _needed("price", "of one pack, in the offer's currency", "37.50", number=True),
        _column("seen_on", "the day on which this was asked, such as 2026-11-25; else today", "2026-11-02"),
        _column("minimum_packs", "the fewest packs that are sold", "1", number=True),
        _column("breaks", "cheaper from so many packs on, each on a line of its own: 10 = 8.50", "4 = 35.00"),
        _column("catalogue_number", "the supplier's number for it", "CL-120"),
        _column("currency", "where it is not the stockroom's: EUR, USD …"),
        _column("rate", "what one unit of that currency costs in the stockroom's"),
        _column("tax", "its rate in percent", "19"),
        _column("ended_on", "the day from which it is not sold any more"),
    ),
)
PLACES = Layout(
    name="places",
    columns=(
        _needed("name", "what it is called", "chart drawer 3"),
        _column("note", "what to know about it", "wide enough for 90 x 60 cm"),
        _RETIRED,
    ),
)
PEOPLE = Layout(
    name="people",
    columns=(
        _needed("initials", "one to eight letters or digits; they belong to one person for ever", "NK"),
        _needed("name", "the whole name", "N. Keller"),
        _column("retired_on", "the day from which they book nothing more"),
    ),
)
LOTS = Layout(
    name="lots",
    columns=(
        _column("code", "its code, where it has a label of this program already; else one is given"),
        _needed("material", "the material's key or full name", "chart-linen"),
        _column("kind", "bought (else), found, jar or offcut", "bought"),
        _needed("amount", "how much is there; packs alike as 3 x 5 sheets: a lot each", "5", number=True),
        _column("unit", "the amount's unit, where it does not stand beside the amount", "sheets"),
        _column("about", "yes where the amount is not exact", "no"),
        _needed("cost", "of all of it; 0 where it was free, unknown where nobody knows", "37.50", number=True),
        _column("supplier", "where it was bought", "Harbour weavers"),
        _column("lot_number", "the maker's", "HW-2291"),
        _column("use_by", "the maker's date, 2028-06-30; a month alone, 2028-06, means its last day; of a jar its own"),
        _column("received_on", "the day it came, 2026-11-25, with the hour where it matters; else today", "2026-11-10"),
        _column("opened_on", "the day it was opened"),
        _column("place", "where it is kept", "chart drawer 3"),
        _column("purity", "what part of it is the substance: 95 % w/w"),
        _column("strength", "of a solution: 1.6 g/L"),
        _column("sheet", "one sheet's sides, where it is not the material's: 90 x 60 cm"),
        _column("grain", "along, across or none, where it is not the material's"),
        _column("life_closed", "how long it keeps unopened, where it is not the material's; none for no limit"),
        _column("life_opened", "how long it keeps once opened, where it is not the material's; none for no limit"),
        _column("unfit", "why it is not to be used, where it is not"),
        _column("made_at", "of a jar: when it was made, such as 2026-11-25T14:10"),
        _column("over_solid", "of a jar: yes where it is kept over undissolved solid"),
        _column("ready_on", "of a jar: from when it is ready"),
        _column("check_by", "of a jar: when it must be checked"),
    ),
)
COUNTS = Layout(
    name="counts",
    columns=(
        _needed("code", "the lot's code", "L001W"),
        _column("material", "for you: it must fit the code", "calcium-hydroxide"),
        _column("place", "for you: where it is kept", "shelf"),
        _needed("amount", "what was found; a row without it was not counted", "480", number=True),
        _column("unit", "the amount's unit, where it does not stand beside the amount", "g"),
        _column("method", "measured (else), weighed or by eye", "weighed"),
        _column("counted_at", "the day, or 2026-11-25T14:10; else now", "2026-11-25"),
        _column("reason", "why it differs, where you know", "measured short"),
    ),
)

LAYOUTS = {layout.name: layout for layout in (MATERIALS, SUPPLIERS, PLACES, PEOPLE, OFFERS, LOTS, COUNTS)}
"""In the order in which a stockroom can take them in: what others name comes first."""


def layout_named(name: str) -> Layout:
    """Return a layout. Raises BadInput naming those there are."""
    if name not in LAYOUTS:
        raise BadInput(f"'{name}' cannot be taken in from a file. These can: {', '.join(LAYOUTS)}.")
    return LAYOUTS[name]


def layout_fitting(columns: tuple[str, ...]) -> Layout:
    """Return the layout that a file's headings fit. Raises BadInput where none does, or several do."""
    there = {name for name in columns if name != LEFT_OUT}
    fitting = [one for one in LAYOUTS.values() if there == set(one.names)]
    fitting = fitting or [one for one in LAYOUTS.values() if set(one.needed) <= there <= set(one.names)]
    fitting = fitting or [one for one in LAYOUTS.values() if set(one.needed) <= there]
    if len(fitting) == 1:
        return fitting[0]
    could = ", ".join(one.name for one in fitting or LAYOUTS.values())
    raise BadInput(f"What is in this file? Its headings do not tell. Say it with --as: {could}.")


def template(layout: Layout) -> Table:
    """Return an empty table to fill in: headings, what to write, and an example; import leaves both rows out."""
    columns = (Column(name=LEFT_OUT, words="a row that says anything here is not taken in"), *layout.columns)
    words = ("what to write", *(f"{'needed: ' if one.needed else ''}{one.words}" for one in layout.columns))
    example = ("example of an invented studio", *(one.example or None for one in layout.columns))
    return Table(name=layout.name, columns=columns, rows=(words, example))
