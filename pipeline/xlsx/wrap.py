"""Text that is safe in a spreadsheet cell, and how much room it takes."""

from __future__ import annotations

import re
from functools import lru_cache
from math import ceil
from unicodedata import east_asian_width

MOST = 32_767
"""Most UTF-16 units in a cell. Source: Excel specifications and limits, Microsoft."""

_HARMFUL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_BREAKS = re.compile("\r\n|[\r\u2028\u2029]")


def clean(text: str) -> str:
    """`text` without control characters and lone surrogates, with plain line ends, cut to what a cell holds."""
    if text.isprintable() and len(text) < MOST // 2:
        tidy = text
    else:
        tidy = _HARMFUL.sub("\N{REPLACEMENT CHARACTER}", _BREAKS.sub("\n", text.replace("\t", " ")))
        tidy = _cut(tidy)
    # The spreadsheet library writes a string of this form as raw markup.
    return " " + tidy if tidy.startswith("<r>") else tidy


def _cut(text: str) -> str:
    units = len(text.encode("utf-16-le")) // 2
    if units <= MOST:
        return text
    return text.encode("utf-16-le")[: 2 * (MOST - 1)].decode("utf-16-le", "ignore") + "…"


_ADVANCE = {
    222: "ijl'|`",
    278: "ftI !,./:;[]\\",
    355: 'r()-*"{}',
    500: "ckJsvxyz^",
    584: "L+<=>~FTZ",
    667: "ABEKPSVXY&?",
    722: "CDHNRUw",
    778: "GOQ",
    889: "mM%",
    1015: "W@",
}
"""Advance of a letter in thousandths of its size, as sorted into a few; the others take 556, as a digit does.

Source: metrics of the sans-serif face that Arial and Liberation Sans share (memory), rounded up where sorted.
"""
_DIGIT = 556
_STEP = 4  # one byte holds an advance in steps of four thousandths
_TABLE = bytes(next((a // _STEP for a, letters in _ADVANCE.items() if chr(c) in letters), _DIGIT // _STEP) for c in range(256))
BOLDER = 1.08
"""How much wider bold letters are. Source: metrics of the same face (memory)."""


def width(text: str) -> float:
    """Room that a line of text takes, in widths of a digit; wide scripts count double."""
    if text.isascii():
        return sum(text.encode("ascii").translate(_TABLE)) * _STEP / _DIGIT
    return sum(2.0 if east_asian_width(c) in "WF" or c > "\uffff" else 1.15 for c in text)


def longest_line(text: str) -> float:
    """Room of the longest line of a text with line ends."""
    return width(text) if "\n" not in text else max(width(line) for line in text.split("\n"))


_SPACE = width(" ")


_PIECES = re.compile(r"[^\s-]+-?|-")


@lru_cache(maxsize=4096)  # most paragraphs stand in every workbook
def lines(text: str, room: float) -> int:
    """Lines that a text takes when it is wrapped at words within `room` digit widths (at least one)."""
    total = 0
    for line in text.split("\n"):
        used = 0.0
        total += 1
        for word in line.split(" "):
            gap = _SPACE if used else 0.0
            for piece in _PIECES.findall(word) if "-" in word else (word,):  # programs break after a hyphen too
                size = width(piece)
                if used and used + gap + size > room:
                    total, used, gap = total + 1, 0.0, 0.0
                if size > room:  # broken inside the word
                    extra = max(1, ceil(size / room) - 1)
                    total, size = total + extra, size - extra * room
                used, gap = used + size + gap, 0.0
    return total


def parts_unit(heading: str, room: float) -> bool:
    """Whether wrapping a heading within `room` would break inside its brackets: `[N` and `m]`."""
    used, inside = 0.0, False
    for piece in _PIECES.finditer(heading):
        gap = _SPACE if heading[piece.start() - 1 : piece.start()] == " " and used else 0.0
        size = width(piece.group())
        if used and used + gap + size > room:
            if inside:
                return True
            used, gap = 0.0, 0.0
        used += gap + size
        inside = (inside or "[" in piece.group()) and "]" not in piece.group()
    return False


def fitted(text: str, room: int) -> str:
    """`text` cut to `room` digit widths, with an ellipsis where something is left out."""
    if width(text) <= room:
        return text
    while text and width(text.rstrip() + "…") > room:
        text = text[:-1]
    return text.rstrip() + "…"
