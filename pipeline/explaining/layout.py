"""Lines of plain text: folded to the screen, aligned, the same on a terminal and in a pipe."""

from __future__ import annotations

import math
import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence

WIDTH = 79
LABEL = 26
"""Width of the column in which labels stand."""

_GAP = "  "
_NARROWEST = 16
_GLUE = "\0"
_TOGETHER = re.compile(r"\d (?:N m|mm|m[234]?|m/s2?|in|ft|kg|N|Pa/m|Pa|rad|deg|%)(?![\w/])|(?:^|(?<=, ))\w+ = (?=-?\d)")
"""A figure stays with its unit, and with its name where numbers are listed."""


def clean(text: str) -> str:
    """Text from outside on one line, with nothing in it that a terminal could take for an order."""
    return _printable(" ".join(text.split()))


def _printable(text: str) -> str:
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else "�" for c in text)


def heading(text: str) -> Iterator[str]:
    """A heading, with a blank line before it and a rule under it; codes in it stand as they are."""
    lines = list(_folded(text, "", ""))
    yield from ("", *lines, "-" * max(map(len, lines)))


def paragraph(text: str, indent: int = 2) -> Iterator[str]:
    """A paragraph, indented."""
    yield from _folded(text, " " * indent, " " * indent)


def item(label: str, text: str, indent: int = 2, width: int = LABEL) -> Iterator[str]:
    """A label with text beside it, the text folded under itself; a long label has a line to itself."""
    label = _printable(label)
    start = f"{' ' * indent}{label}"
    if len(label) >= width:
        yield from _folded(label, " " * indent, " " * indent)
        start = ""
    yield from _folded(text, start.ljust(indent + width), " " * (indent + width))


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], indent: int = 2) -> Iterator[str]:
    """Rows under their heads, the last column folded; where that would be too narrow, each row as a sentence."""
    cells = [[clean(c) for c in row] for row in rows]
    widths = [max(len(c) for c in column) for column in zip(heads[:-1], *(r[:-1] for r in cells), strict=True)]
    at = indent + sum(w + len(_GAP) for w in widths)
    if WIDTH - at < _NARROWEST:
        for row in cells:
            line = ", ".join(f"{h} {c}" for h, c in zip(heads, row, strict=True) if c)
            yield from _folded(line, " " * indent, " " * (indent + 4))
        return
    for row in (list(heads), *cells):
        start = " " * indent + "".join(c.ljust(w) + _GAP for c, w in zip(row, widths, strict=False))
        yield from _folded(row[-1], start, " " * at)


def _folded(text: str, first: str, rest: str) -> Iterator[str]:
    text = clean(text)
    if len(first) + len(text) <= WIDTH:
        yield f"{first}{text}".rstrip()
        return
    glued = _TOGETHER.sub(lambda m: m[0].replace(" ", _GLUE), text)
    lines = textwrap.wrap(glued, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
    yield from (line.replace(_GLUE, " ").rstrip() for line in lines)


def number(value: float) -> str:
    """A figure with nine significant digits, as in the data files; `not known`, `INF`."""
    if math.isnan(value):
        return "not known"
    if math.isinf(value):
        return "INF" if value > 0 else "-INF"
    return _shortest(float(f"{value:.9g}") + 0.0)


def filed(value: float) -> str:
    """A length as it stands in the data files: metres to the nanometre."""
    return number(value) if not math.isfinite(value) else _shortest(round(value, 9) + 0.0)


def _shortest(value: float) -> str:
    return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)


def metres(value: float) -> str:
    """A length with its unit, to a tenth of a micrometre, so that sixteenths of an inch are whole: `2.7432 m`."""
    return "not known" if math.isnan(value) else f"{_shortest(round(value, 7) + 0.0)} m"


def listed(parts: Iterable[str], nothing: str) -> str:
    """`a, b, c`, or what to say where there is nothing."""
    return ", ".join(parts) or nothing
