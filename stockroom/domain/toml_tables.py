"""Tables of a file that a person wrote, read so that every problem in it is told at once."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Callable, Collection, Mapping
from typing import Any, TypeVar

from stockroom.errors import BadInput
from stockroom.science.numerals import quoted

Value = TypeVar("Value")

LONGEST_TEXT = 2_000
KEY = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_LONGEST_KEY = 80


class Problems:
    """What is wrong in one file, gathered until all of it has been read."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.found: list[str] = []

    def add(self, place: str, message: str) -> None:
        self.found.append(f"{self.where}, {place}: {message}")

    def raise_if_any(self) -> None:
        """Raise BadInput with one line a problem, also in `details["problems"]`."""
        if self.found:
            raise BadInput("\n".join(self.found), problems=self.found)


class Table:
    """One table of a file. Each method takes a key, notes what is wrong with it and then answers None."""

    def __init__(self, values: dict[str, Any], place: str, problems: Problems) -> None:
        self._values = values
        self._asked: set[str] = set()
        self.place = place
        self.problems = problems

    def refuse(self, key: str, message: str) -> None:
        self.problems.add(f"{self.place}, {key}", message)

    def has(self, key: str) -> bool:
        """Say whether a key is there; asking makes it one that is known."""
        self._asked.add(key)
        return key in self._values

    def text(self, key: str, *, needed: bool = False) -> str | None:
        """Read text that is not empty. Line breaks are kept; other control characters are refused."""
        value = self._get(key, str, 'text in quotes, such as "…"', needed)
        return None if value is None else self._checked(key, value)

    def line(self, key: str, *, needed: bool = False) -> str | None:
        """Read text of one line, such as a name."""
        value = self.text(key, needed=needed)
        if value is None or "\n" not in value:
            return value
        self.refuse(key, f"read {quoted(value)}; accepted is one line.")
        return None

    def key(self, key: str, *, needed: bool = False) -> str | None:
        """Read the key of a material or recipe."""
        value = self.text(key, needed=needed)
        if value is None or (len(value) <= _LONGEST_KEY and KEY.fullmatch(value)):
            return value
        self.refuse(key, f"read {quoted(value)}; a key is small letters, digits and hyphens.")
        return None

    def texts(self, key: str, shape: re.Pattern[str] | None = None, accepted: str = "") -> tuple[str, ...]:
        """Read a list of texts, each of a shape that `accepted` describes; none when the key is absent."""
        values = self._get(key, list, 'a list of texts, such as ["…", "…"]', False) or []
        for value in values:
            if not isinstance(value, str):
                self.refuse(key, f"read {quoted(str(value))}; every item must be text in quotes.")
            elif self._checked(key, value) and shape and not shape.fullmatch(value):
                self.refuse(key, f"read {quoted(value)}; accepted is {accepted}.")
        return tuple(value for value in values if isinstance(value, str))

    def keys(self, key: str) -> tuple[str, ...]:
        """Read a list of keys of materials."""
        return self.texts(key, KEY, "a key: small letters, digits and hyphens")

    def choice(self, key: str, among: Collection[str], *, needed: bool = False) -> str | None:
        value = self.text(key, needed=needed)
        if value is None or value in among:
            return value
        self.refuse(key, f"read {quoted(value)}; accepted are {', '.join(among)}.")
        return None

    def flag(self, key: str, default: bool) -> bool:
        value = self._get(key, bool, "true or false, without quotes", False)
        return default if value is None else bool(value)

    def whole(self, key: str, default: int, most: int) -> int:
        value = self._get(key, int, f"a whole number from 1 to {most}, without quotes", False)
        if value is None:
            return default
        if not 1 <= value <= most:
            self.refuse(key, f"read {value}; accepted is a whole number from 1 to {most}.")
            return default
        return int(value)

    def read(self, key: str, reader: Callable[[str], Value]) -> Value | None:
        """Read a text through a reader that raises BadInput; its message is the problem."""
        text = self.text(key)
        if text is None:
            return None
        try:
            return reader(text)
        except BadInput as error:
            self.refuse(key, error.message)
            return None

    def checked(self, key: str, reader: Callable[[str], object]) -> str | None:
        """Read a text and keep it as typed, where a reader takes it."""
        return None if self.read(key, reader) is None else self.text(key)

    def tables(self, key: str) -> list[Table]:
        """Read the tables `[[key]]` in their order."""
        values = self._get(key, list, f"tables that begin with [[{key}]]", False) or []
        if not all(isinstance(value, dict) for value in values):
            self.refuse(key, f"read a list; accepted are tables that begin with [[{key}]].")
            return []
        return [Table(value, f"[[{key}]] {number}", self.problems) for number, value in enumerate(values, 1)]

    def table(self, key: str) -> Table:
        """Read the one table `[key]`, which must be there."""
        values = self._get(key, dict, f"a table that begins with [{key}]", True)
        return Table(values or {}, f"[{key}]", self.problems)

    def finish(self) -> None:
        """Name the keys that nobody asked for: a slip of the pen must not be passed over."""
        for key in self._values.keys() - self._asked:
            self.refuse(key, f"this key is not known here; accepted are {', '.join(sorted(self._asked))}.")

    def _get(self, key: str, kind: type, accepted: str, needed: bool) -> Any:
        self._asked.add(key)
        if key not in self._values:
            if needed:
                self.refuse(key, f"this is missing; write {accepted}.")
            return None
        value = self._values[key]
        if not isinstance(value, kind) or (kind is int and isinstance(value, bool)):
            self.refuse(key, f"read {quoted(str(value))}; accepted is {accepted}.")
            return None
        return value

    def _checked(self, key: str, text: str) -> str | None:
        if not text.strip():
            self.refuse(key, "this is empty; write something or leave the key out.")
        elif len(text) > LONGEST_TEXT:
            self.refuse(key, f"this is {len(text)} characters long; at most {LONGEST_TEXT} are kept.")
        elif any(unicodedata.category(sign) == "Cc" and sign != "\n" for sign in text):
            self.refuse(key, f"read {quoted(text)}; control characters are not kept.")
        else:
            return text
        return None


def read_tables(text: str, where: str) -> Table:
    """Read a whole file as its outermost table. Raises BadInput where it is not TOML, naming the line."""
    try:
        values = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise BadInput(f"{where} cannot be read as TOML: {error or 'it is nested too deeply'}.") from None
    return Table(values, "the file", Problems(where))


def write_table(title: str, values: Mapping[str, object]) -> str:
    """Write a table under its title, so that TOML reads the same values; None is left out."""
    return "".join([f"{title}\n", *(f"{key} = {_value(each)}\n" for key, each in values.items() if each is not None)])


def _value(value: object) -> str:
    match value:
        case bool():
            return str(value).lower()
        case int():
            return str(value)
        case tuple() | list():
            return f"[{', '.join(write_text(text) for text in value)}]"
    return write_text(str(value))


def write_text(text: str) -> str:
    """Write a text in quotes, so that TOML reads the same text."""
    import json

    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
