"""Mutants of files: bits flipped, pieces cut out, doubled or taken from others, lengths that lie."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

Chance = np.random.Generator
Change = Callable[[bytes, Sequence[bytes], Chance], bytes]

#: Where most formats have their heads, tags and tables; more than half of the changes meet these bytes.
_HEAD: Final = 700
#: What a count, a size or an offset may be turned into.
_LENGTHS: Final = (0, 1, 2, 0x7F, 0xFF, 0xFFFF, 0x10000, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFE, 0xFFFFFFFF)
#: What a number may be turned into, some of them digits of other scripts.
_NUMBERS: Final = (
    *("0", "-0", "-1", "1e999", "-1e999", "1e-400", "NaN", "Infinity", "-Infinity", "null", "true", "1e308"),
    *("9007199254740993", "0x10", "1_000", "1,5", "+3", ".5", "5.", "1e5000", "\u0663", "\u0967", "\u00bd"),
    *("[]", "{}", '""', "1e", "2147483648", "-2147483649", "18446744073709551616", "0.1e-5", "9" * 5000),
)
#: What may be put in anywhere: signs that other programs mind, and much of one thing.
_TEXTS: Final = (
    *("\0", "\ufeff", "\u202e", "\\ud800", "\\u0000", "\u2028", "\r", '"', "''", ",", ";", "\t", "=1+1"),
    *(
        "../" * 9,
        "C:\\",
        "a" * 5000,
        "\n" * 300,
        "[" * 3000,
        '{"a":' * 2000,
        "%n%s",
        "\U0001f9f5",
        "<script>",
    ),
)
_NUMBER: Final = re.compile(rb"-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")
_WORD: Final = re.compile(rb"[A-Za-z_][A-Za-z_0-9.-]*")


def _place(data: bytes, chance: Chance) -> int:
    end = min(_HEAD, len(data)) if chance.random() < 0.6 else len(data)
    return int(chance.integers(max(1, end)))


def _flipped(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    changed = bytearray(data)
    for _ in range(int(chance.choice([1, 1, 2, 4, 8]))):
        if changed:
            changed[_place(data, chance)] ^= 1 << int(chance.integers(8))
    return bytes(changed)


def _cut_off(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    return data[: _place(data, chance)]


def _cut_out(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    at = _place(data, chance)
    return data[:at] + data[at + int(chance.integers(1, 200)) :]


def _doubled(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    at, many = _place(data, chance), int(chance.integers(1, 40))
    return data[:at] + data[at : at + int(chance.integers(1, 300))] * many + data[at:]


def _spliced(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    other = others[int(chance.integers(len(others)))]
    at, there = _place(data, chance), _place(other, chance)
    long = int(chance.integers(1, 400))
    return data[:at] + other[there : there + long] + data[at + (long if chance.random() < 0.7 else 0) :]


def _length(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    changed = bytearray(data)
    for _ in range(int(chance.integers(1, 4))):
        size, at = int(chance.choice([1, 2, 4, 8])), _place(data, chance)
        value = int(_LENGTHS[int(chance.integers(len(_LENGTHS)))]) % (1 << 8 * size)
        changed[at : at + size] = value.to_bytes(size, "big" if chance.random() < 0.5 else "little")
    return bytes(changed)


def _number(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    return _replaced(data, _NUMBER, _NUMBERS[int(chance.integers(len(_NUMBERS)))].encode(), chance)


def _scaled(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    found = list(_NUMBER.finditer(data))
    if not found:
        return data
    one = found[int(chance.integers(len(found)))]
    value = float(one[0][:30]) * float(chance.uniform(0.4, 1.6))
    return data[: one.start()] + f"{value:.4g}".encode() + data[one.end() :]


def _word(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    words = _WORD.findall(others[int(chance.integers(len(others)))]) or [b"x"]
    return _replaced(data, _WORD, words[int(chance.integers(len(words)))], chance)


def _text(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    at = int(chance.integers(len(data) + 1))
    return data[:at] + _TEXTS[int(chance.integers(len(_TEXTS)))].encode() + data[at:]


def _lines(data: bytes, others: Sequence[bytes], chance: Chance) -> bytes:
    lines = data.splitlines(keepends=True)
    if not lines:
        return data
    one, other = (int(chance.integers(len(lines))) for _ in range(2))
    if chance.random() < 0.5:
        lines[one], lines[other] = lines[other], lines[one]
    else:
        lines[one:one] = [lines[other]] * int(chance.integers(1, 30))
    return b"".join(lines)


def _replaced(data: bytes, pattern: re.Pattern[bytes], by: bytes, chance: Chance) -> bytes:
    found = list(pattern.finditer(data))
    if not found:
        return data
    one = found[int(chance.integers(len(found)))]
    return data[: one.start()] + by + data[one.end() :]


BINARY: Final[tuple[Change, ...]] = (
    _flipped,
    _flipped,
    _cut_off,
    _cut_out,
    _doubled,
    _spliced,
    _length,
    _length,
)
TEXT: Final[tuple[Change, ...]] = (
    *BINARY[:6],
    *[_number] * 6,
    *[_scaled] * 6,
    *[_word] * 4,
    _text,
    _text,
    _lines,
)


def mutant(seeds: Sequence[bytes], number: int, *, changes: Sequence[Change]) -> bytes:
    """One mutant, always the same of the same number.

    Parameters
    ----------
    seeds : sequence of bytes
        Good files.
    number : int
        From 0.
    changes : sequence of callable
        `BINARY` or `TEXT`.

    Returns
    -------
    bytes
        A seed after one to three changes.

    Examples
    --------
    >>> mutant([b"a good file"], 3, changes=BINARY) == mutant([b"a good file"], 3, changes=BINARY)
    True
    """
    chance = np.random.default_rng(number)
    data = seeds[number % len(seeds)]
    for _ in range(int(chance.choice([1, 1, 1, 2, 3]))):
        data = changes[int(chance.integers(len(changes)))](data, seeds, chance)
    return data
