"""Which groups a material belongs to, for pairs to keep apart and limits of its own, read from its key and name."""

from __future__ import annotations

from collections.abc import Iterable

_GROUPS: dict[str, tuple[str, ...]] = {
    "hydrogen peroxide": ("peroxide", "oxidiser"),
    "peroxide": ("peroxide", "oxidiser"),
    "alkaline peroxide": ("alkaline peroxide", "peroxide", "oxidiser"),
    "perborate": ("peroxide", "oxidiser"),
    "percarbonate": ("peroxide", "oxidiser"),
    "permanganate": ("oxidiser",),
    "nitrate": ("oxidiser",),
    "nitric acid": ("acid", "oxidiser"),
    "hypochlorite": ("hypochlorite", "oxidiser"),
    "chloramine": ("hypochlorite", "oxidiser"),
    "bleach": ("hypochlorite", "oxidiser"),
    "borohydride": ("borohydride", "reducer"),
    "dithionite": ("reducer",),
    "hydrosulfite": ("reducer",),
    "sulfite": ("reducer",),
    "bisulfite": ("reducer",),
    "thiosulfate": ("reducer",),
    "ethanol": ("alcohol", "flammable liquid"),
    "alcohol": ("alcohol", "flammable liquid"),
    "methanol": ("alcohol", "flammable liquid"),
    "isopropanol": ("alcohol", "flammable liquid"),
    "propanol": ("alcohol", "flammable liquid"),
    "acetone": ("flammable liquid",),
    "acid": ("acid",),
    "vinegar": ("acid",),
    "ammonia": ("ammonia",),
    "ammonium": ("ammonium salt",),
    "calcium hydroxide": ("calcium hydroxide", "strong alkali"),
    "limewater": ("calcium hydroxide", "strong alkali"),
    "lime": ("calcium hydroxide", "strong alkali"),
    "hydroxide": ("strong alkali",),
    "carbonate": ("carbonate",),
    "chalk": ("carbonate",),
    "bicarbonate": ("bicarbonate", "carbonate"),
    "iron": ("metal salt",),
    "ferrous": ("metal salt",),
    "ferric": ("metal salt",),
    "copper": ("metal salt",),
    "chromium": ("metal salt",),
    "aluminium": ("light metal",),
    "aluminum": ("light metal",),
    "zinc": ("light metal",),
    "water": ("water",),
    "tap water": ("water", "carbonated or hard water"),
    "hard water": ("water", "carbonated or hard water"),
    "carbonated water": ("water", "carbonated or hard water"),
    "sparkling water": ("water", "carbonated or hard water"),
}
_BY_STATEMENT = {
    "H224": "flammable liquid",
    "H225": "flammable liquid",
    "H226": "flammable liquid",
    "H271": "oxidiser",
    "H272": "oxidiser",
}
_ONLY_NAMED_AFTER = ("strip", "strips", "paper", "free")
"""Peroxide strips hold no peroxide to speak of, and acid-free board no acid."""


def codes_of(statements: Iterable[str]) -> frozenset[str]:
    """Give the codes of statements that are written with their words: `H318` of `H318 Causes serious eye damage`."""
    return frozenset(words.split()[0] for words in statements if words.strip())


def groups_of(key: str, name: str = "", statements: Iterable[str] = ()) -> frozenset[str]:
    """Give the groups of a material, by whole words of its key and name and by its hazard statements.

    A group that is missing here says nothing: the maker's sheet may still know of a danger.
    """
    found = {_BY_STATEMENT[code] for code in codes_of(statements) if code in _BY_STATEMENT}
    for text in (key, name):
        plain = f" {_plain(text)} "
        if any(f" {word} " in plain for word in _ONLY_NAMED_AFTER):
            continue
        for words, groups in _GROUPS.items():
            if f" {words} " in plain:
                found.update(groups)
    return frozenset(found)


def limits_of(key: str) -> str | None:
    """Name the substance whose own limits hold for a material: `hydrogen peroxide`, `ammonia`, or none."""
    plain = f" {_plain(key)} "
    return next((name for name in ("hydrogen peroxide", "ammonia") if f" {name} " in plain), None)


def _plain(text: str) -> str:
    return " ".join("".join(sign if sign.isalnum() else " " for sign in text.casefold()).split())
