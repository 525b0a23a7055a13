"""Text that is safe in a spreadsheet cell, and how much room it takes."""

from __future__ import annotations

import re
from functools import lru_cache
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


def width(text: str) -> int:
    """Room that a line of text takes, in widths of a digit; wide scripts count double."""
    if text.isascii():
        return len(text)
    return sum(2 if east_asian_width(c) in "WF" else 1 for c in text)


def longest_line(text: str) -> int:
    """Room of the longest line of a text with line ends."""
    return width(text) if "\n" not in text else max(width(line) for line in text.split("\n"))


@lru_cache(maxsize=4096)  # most paragraphs stand in every workbook
def lines(text: str, room: float) -> int:
    """Lines that a text takes when it is wrapped at words within `room` digit widths (at least one)."""
    total = 0
    for line in text.split("\n"):
        used = 0.0
        total += 1
        for word in line.split(" "):
            size = width(word)
            if used and used + 1 + size > room:
                total, used = total + 1, 0.0
            if size > room:  # broken inside the word
                extra = int((size - 1) // room)
                total, size = total + extra, int(size - extra * room)
            used += size + (1 if used else 0)
    return total


def fitted(text: str, room: int) -> str:
    """`text` cut to `room` digit widths, with an ellipsis where something is left out."""
    if width(text) <= room:
        return text
    while width(text) > room - 1:
        text = text[:-1]
    return text.rstrip() + "…"
