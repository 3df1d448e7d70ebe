"""Codes that lots, jobs, actions, bookings, orders, counts and cards are known by.

A code is a prefix letter for the noun, a body of three or more characters that writes a number, and one check
character by ISO/IEC 7064 MOD 37-36 over prefix and body. Body and check character use an alphabet without the
letters that look like digits, so a letter that looks like a digit can only have been meant as that digit.

Some numbers have no code: where the check character would be a letter outside the alphabet, and where swapping two
neighbours would give another valid code (the standard's hybrid systems let a few swaps through).
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.errors import Unreadable

NOUNS = {
    "L": "lot",
    "J": "job",
    "A": "action",
    "K": "booking",
    "P": "order",
    "E": "quote",
    "R": "round of counting",
    "T": "card",
}
ALPHABET = "0123456789ACDEFHJKLMNPRTUVWXY"
_CHECKED = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
LEAST_BODY = 3
MOST_CHARACTERS = 12

_LOOK_ALIKES = str.maketrans("BGIOQSZ", "8610052", "-‐‑‒–—−")
_WHAT_A_CODE_LOOKS_LIKE = (
    "a code is a letter ("
    + ", ".join(f"{prefix} {noun}" for prefix, noun in NOUNS.items())
    + ") followed by four or more letters and digits, for example L001W"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """A code that was read: its noun's letter, its number, and the code as it is stored."""

    prefix: str
    number: int
    text: str


def encode(prefix: str, number: int) -> str | None:
    """Write the code of a number, or None where that number has no code.

    Raises ValueError for a prefix that is not in NOUNS or a number below nothing.
    """
    if prefix not in NOUNS or number < 0:
        raise ValueError(f"no code for {prefix!r} {number}")
    stem = prefix + _write_body(number)
    code = stem + _check_character(stem)
    if code[-1] not in ALPHABET:
        return None
    swaps = (code[:i] + code[i + 1] + code[i] + code[i + 2 :] for i in range(len(code) - 1))
    if any(swap != code and swap[-1] == _check_character(swap[:-1]) for swap in swaps):
        return None
    return code


def _check_character(stem: str) -> str:
    """Return the check character of ISO/IEC 7064 MOD 37-36 over digits and capital letters.

    Four lines here spare every command that reads a code the loading of python-stdnum, a tenth of the time of its
    start; the tests hold the two against each other.
    """
    carried = 36
    for character in stem:
        carried = ((carried + _CHECKED.index(character)) % 36 or 36) * 2 % 37
    return _CHECKED[(1 - carried) % 36]


def next_code(prefix: str, after: int) -> tuple[int, str]:
    """Give the first number above `after` that has a code, and that code."""
    number = after + 1
    while (code := encode(prefix, number)) is None:
        number += 1
    return number, code


def number_of(code: str) -> int:
    """Read the number of a code; raises Unreadable as read_code does."""
    return read_code(code).number


def show(code: str) -> str:
    """Write a code for reading aloud: five characters as they are, longer ones in two groups."""
    if len(code) <= 5:
        return code
    return f"{code[: len(code) // 2]}-{code[len(code) // 2 :]}"


def read_code(text: str) -> Code:
    """Read a typed or scanned code.

    Lower case, spaces and hyphens are forgiven, and letters that look like digits are read as those digits.
    What follows a valid code after white space is ignored. Raises Unreadable: a wrong check character is named as a
    mistyped character; text that could be several codes lists them in `details["readings"]`.
    """
    words = text[:200].split()
    beginnings = [_fold("".join(words[:count])) for count in range(1, len(words) + 1)]
    codes = [code for beginning in beginnings if (code := _parse(beginning))]
    if codes and (len(codes) == 1 or codes[0].text == beginnings[0]):
        return codes[0]
    typed = repr(" ".join(words)[:40])
    if codes:
        readings = [code.text for code in codes]
        raise Unreadable(f"{typed} can be read as {' or '.join(readings)}: type it without spaces", readings=readings)
    for count, beginning in enumerate(beginnings, start=1):
        if _looks_like_a_code(beginning):
            raise Unreadable(
                f"{' '.join(words[:count])}: one character is wrong; check it against the label", readings=[]
            )
    raise Unreadable(f"{typed} is not a code: {_WHAT_A_CODE_LOOKS_LIKE}", readings=[])


def prefix_of(code: str) -> str:
    """Return the letter of a code's noun, or nothing for the key of a material."""
    try:
        found = read_code(code)
    except Unreadable:
        return ""
    return found.prefix if found.text == code else ""


def could_be(typed: str, code: str) -> bool:
    """Say whether a code is what was typed with `?` for each character that cannot be read."""
    pattern = _fold("".join(typed.split()))
    return len(pattern) == len(code) and all(seen in ("?", real) for seen, real in zip(pattern, code, strict=True))


def _fold(word: str) -> str:
    return word.upper().translate(_LOOK_ALIKES)


def _looks_like_a_code(word: str) -> bool:
    """Tell a mistyped code from other text: its length, its characters, and a noun's letter or a digit."""
    return (
        LEAST_BODY + 2 <= len(word) <= MOST_CHARACTERS
        and all(character in ALPHABET for character in word)
        and (word[0] in NOUNS or any(character.isdigit() for character in word))
    )


def _parse(word: str) -> Code | None:
    if not (LEAST_BODY + 2 <= len(word) <= MOST_CHARACTERS) or word[0] not in NOUNS:
        return None
    number = 0
    for character in word[1:-1]:
        if character not in ALPHABET:
            return None
        number = number * len(ALPHABET) + ALPHABET.index(character)
    return Code(prefix=word[0], number=number, text=word) if encode(word[0], number) == word else None


def _write_body(number: int) -> str:
    body = ""
    while number:
        number, remainder = divmod(number, len(ALPHABET))
        body = ALPHABET[remainder] + body
    return body.rjust(LEAST_BODY, ALPHABET[0])
