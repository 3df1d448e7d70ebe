"""Make a table of what a command answers in JSON: a row an item, and a row each for the items inside it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from stockroom.errors import BadInput
from stockroom.exchange.sheet import Column, Table

_AMOUNTS = ("amount", "capacity", "net", "packs", "fills", "cost", "value", "price", "total", "share", "net_price")
"""Texts that are numbers: amounts and money are texts in JSON, so that nothing is lost."""


def parts_of(answer: Mapping[str, Any]) -> list[str]:
    """Return the names of the lists in an answer that make tables; those that hold nothing now come last."""
    full = [name for name, value in answer.items() if _is_list_of_items(value)]
    return full + [name for name, value in answer.items() if value == []]


def table_of(answer: Mapping[str, Any], name: str, part: str | None) -> Table:
    """Return one list of an answer as a table; without any list the answer itself is its one row.

    Raises BadInput for a part that is not there.
    """
    parts = parts_of(answer)
    if part is not None and part not in parts:
        raise BadInput(f"'{name}' has no part '{part}'. Its parts: {', '.join(parts) or 'none'}.")
    items: list[dict[str, Any]] = [dict(answer)] if part is None else answer[part]
    rows = [row for item in items for row in _rows(item)]
    names = list(dict.fromkeys(key for row in rows for key in row))
    columns = tuple(Column(name=each, number=_is_number(each, rows)) for each in names)
    return Table(name=name, columns=columns, rows=tuple(tuple(_text(row.get(each)) for each in names) for row in rows))


def _is_list_of_items(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(item, dict) for item in value)


def _rows(item: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Give an item's own values, beside each item of the one list inside it, where there is one.

    Its amounts stand beside the first alone, so that a column adds up.
    """
    inner = [key for key, value in item.items() if _is_list_of_items(value)]
    if len(inner) != 1:
        yield _flat(item)
        return
    own = _flat({key: value for key, value in item.items() if key != inner[0]})
    for number, row in enumerate(row for one in item[inner[0]] for row in _rows(one)):
        beside = {key: None if number and _adds_up(key, value) else value for key, value in own.items()}
        yield beside | {f"{inner[0]}_{key}": value for key, value in row.items()}


def _flat(item: Mapping[str, Any]) -> dict[str, Any]:
    """Put the values of an object inside, such as a range, beside the others."""
    flat: dict[str, Any] = {}
    for key, value in item.items():
        if isinstance(value, dict):
            flat |= {f"{key}_{name}": inner for name, inner in _flat(value).items()}
        else:
            flat[key] = value
    return flat


def _is_number(name: str, rows: list[dict[str, Any]]) -> bool:
    values = [row[name] for row in rows if row.get(name) is not None]
    return bool(values) and all(_adds_up(name, value) for value in values)


def _adds_up(name: str, value: object) -> bool:
    if isinstance(value, int | float):
        return not isinstance(value, bool)
    return value is not None and (name in _AMOUNTS or name.rpartition("_")[2] in _AMOUNTS)


def _text(value: Any) -> str | None:
    match value:
        case None | str():
            return value
        case bool():
            return "yes" if value else "no"
        case []:
            return None
        case list() if all(isinstance(item, str) for item in value):
            return "\n".join(value)
        case list() | dict():
            return json.dumps(value, ensure_ascii=False)
    return str(value)
