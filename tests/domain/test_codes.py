"""Codes can be read aloud, typed with wet gloves, and a slip is told at once."""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from stockroom.domain.codes import ALPHABET, NOUNS, encode, next_code, number_of, read_code, show
from stockroom.errors import Unreadable

CHARACTERS = string.digits + string.ascii_uppercase
LOOK_ALIKES = {"O": "0", "Q": "0", "I": "1", "Z": "2", "S": "5", "G": "6", "B": "8"}

codes = st.builds(
    lambda prefix, after: next_code(prefix, after)[1], st.sampled_from(sorted(NOUNS)), st.integers(0, 29**5)
)


def check_character(text: str, alphabet: str = CHARACTERS) -> str:
    """Work out a check character by the hybrid recursive method, written down from its description.

    ISO/IEC 7064:2003, section 9: P starts at M; S = P + a, taken modulo M with M in place of nothing; the next P
    is 2S modulo M + 1; the check character makes P + a congruent to 1 modulo M.
    """
    modulus = len(alphabet)
    product = modulus
    for character in text:
        total = (product + alphabet.index(character)) % modulus or modulus
        product = 2 * total % (modulus + 1)
    return alphabet[(1 - product) % modulus]


@pytest.mark.parametrize(
    ("alphabet", "text", "check"),
    [
        (CHARACTERS, "A12425GABC1234002", "M"),
        (CHARACTERS, "B159D8FA01240000", "K"),
        (CHARACTERS[:16], "D98989898909898", "B"),
    ],
)
def test_published_examples_come_out(alphabet: str, text: str, check: str) -> None:
    """The method gives the check characters printed in published examples.

    MOD 37,36: A1-2425G-ABC1234002-M, the example of the Global Release Identifier standard (read at
    cryer.org.uk/Global_Release_Identifier); B159-D8FA-0124-0000-K, "ISAN check digit calculation" v2.0 of the ISAN
    International Agency (ISO 15706; quoted from there in public test suites, the paper itself not opened).
    MOD 17,16: ISO/TC 46/SC 9/WG 1 N 130 (2000), the same method with sixteen characters (as quoted, likewise).
    """
    assert mod_37_36.calc_check_digit(text, alphabet=alphabet) == check
    assert check_character(text, alphabet) == check


@given(codes)
def test_a_code_ends_in_the_standards_check_character(code: str) -> None:
    """The reference library finds every code valid, and the method written out agrees."""
    assert mod_37_36.is_valid(code)
    assert check_character(code[:-1]) == code[-1]


@given(codes)
def test_a_code_has_no_letter_that_looks_like_a_digit(code: str) -> None:
    """B, G, I, O, Q, S and Z occur nowhere, the check character included."""
    assert set(code) <= set(ALPHABET)
    assert not set(ALPHABET) & set(LOOK_ALIKES)


@given(codes, st.data())
def test_every_single_wrong_character_is_told_as_such(code: str, data: st.DataObject) -> None:
    """A substituted character, wherever it stands, is named as a mistyped one."""
    place = data.draw(st.integers(0, len(code) - 1))
    wrong = data.draw(st.sampled_from([c for c in CHARACTERS if LOOK_ALIKES.get(c, c) != code[place]]))
    with pytest.raises(Unreadable) as caught:
        read_code(code[:place] + wrong + code[place + 1 :])
    if place > 0:
        assert "one character is wrong; check it against the label" in caught.value.message


def test_every_swap_of_neighbours_is_caught() -> None:
    """Of all codes of three-character numbers of lots, none becomes another by swapping two neighbours."""
    given_out = {code for number in range(29**3) if (code := encode("L", number))}
    for code in given_out:
        for i in range(1, len(code) - 1):
            swapped = code[:i] + code[i + 1] + code[i] + code[i + 2 :]
            assert swapped == code or swapped not in given_out


@given(codes, st.data())
def test_a_swap_is_refused_on_reading(code: str, data: st.DataObject) -> None:
    """Swapped neighbours are never read as some other code, whatever the noun and the length."""
    i = data.draw(st.integers(0, len(code) - 2))
    swapped = code[:i] + code[i + 1] + code[i] + code[i + 2 :]
    if swapped != code:
        with pytest.raises(Unreadable):
            read_code(swapped)


@given(st.sampled_from(sorted(NOUNS)), st.integers(0, 29**5))
def test_giving_out_never_repeats_or_goes_back(prefix: str, after: int) -> None:
    """The next code has a greater number, which reading it gives back, and nothing usable was passed over."""
    number, code = next_code(prefix, after)
    assert number > after
    assert number_of(code) == number
    assert read_code(code).prefix == prefix
    assert all(encode(prefix, skipped) is None for skipped in range(after + 1, number))


def test_codes_start_short_and_grow() -> None:
    """The first lot has five characters, and the number after the last of that length has six."""
    assert next_code("L", 0) == (1, "L001W")
    assert len(next_code("L", 29**3 - 1)[1]) == 6


@given(codes, st.data())
def test_lower_case_spaces_hyphens_and_look_alikes_are_forgiven(code: str, data: st.DataObject) -> None:
    """However the right characters are set apart, the code they spell is read, or the several it could be are told."""
    spelt = ""
    for character in code:
        twins = [character, *(twin for twin, digit in LOOK_ALIKES.items() if digit == character)]
        typed = data.draw(st.sampled_from(twins))
        spelt += data.draw(st.sampled_from(["", "-", "–"])) + data.draw(st.sampled_from([typed, typed.lower()]))
    assert read_code(f" {spelt}\n").text == code
    for spaced in (f"{code[:2].lower()} {code[2:]}", " ".join(code)):
        try:
            assert read_code(spaced).text == code
        except Unreadable as asked:
            assert len(code) > 6 and code in asked.details["readings"]


@given(st.sampled_from(sorted(NOUNS)), st.integers(0, 29**4 - 2), st.data())
def test_a_space_anywhere_never_gives_another_code(prefix: str, after: int, data: st.DataObject) -> None:
    """Up to six characters (707,280 lots) a code broken by a space is that code, or is refused, never another one."""
    code = next_code(prefix, after)[1]
    place = data.draw(st.integers(1, len(code) - 1))
    if len(code) <= 6:
        assert read_code(f"{code[:place]} {code[place:]}").text == code


@given(codes)
def test_the_code_as_shown_is_read_back(code: str) -> None:
    """Groups made for reading aloud change nothing."""
    assert read_code(show(code)).text == code


@given(codes, st.text(max_size=250))
def test_what_follows_a_code_is_ignored(code: str, rest: str) -> None:
    """A scanned line may carry the name after the code."""
    assert read_code(f"{code} {rest}").text == code


def test_text_that_could_be_two_codes_is_asked_about() -> None:
    """Spaces may make two readings; then both are named and neither is taken."""
    prefixes_too = (
        code for number in range(29**4, 29**5) if (code := encode("L", number)) and mod_37_36.is_valid(code[:5])
    )
    long = next(code for code in prefixes_too if encode("L", number_of(code[:5])) == code[:5])
    typed = f"{long[:2]} {long[2:5]} {long[5:]}"
    with pytest.raises(Unreadable) as caught:
        read_code(typed)
    assert caught.value.details["readings"] == [long[:5], long]


@pytest.mark.parametrize(
    "junk", ["", "  ", "[A3]", "[/]", "=1+1", "1:100:5", "😀", "مرحبا", "L?01W", "\x1b[31m", "x" * 9999]
)
def test_junk_is_answered_with_what_a_code_looks_like(junk: str) -> None:
    """Other text is not called a mistyped code; the message says what one looks like, with one that is valid."""
    with pytest.raises(Unreadable, match=r"is not a code: a code is a letter .*, for example L001W") as caught:
        read_code(junk)
    assert len(caught.value.message) < 300
    assert read_code("L001W").number == 1


def test_a_mistyped_code_is_named_without_what_follows_it() -> None:
    """Typed text after it, which may hold anything, is not repeated."""
    for typed in ("l002w \x1b[31m[/red]", "L0 02W =1+1"):
        with pytest.raises(Unreadable, match=r"(?i)^L0 ?02W: one character is wrong; check it against the label$"):
            read_code(typed)


@pytest.mark.parametrize(("prefix", "number"), [("X", 1), ("", 1), ("L", -1)])
def test_a_number_below_nothing_or_an_unknown_noun_has_no_code(prefix: str, number: int) -> None:
    """Asking for such a code is a mistake in the program."""
    with pytest.raises(ValueError, match="no code for"):
        encode(prefix, number)
