"""DIR/data/*.csv: values as text, rows as lines."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from schemas.column import Table
from schemas.results import EXTENSIONS_NEEDED, KITS, MOUNT_FIT, POSTS, QUOTE_LINES

BY_SITE: tuple[Table, ...] = (POSTS, MOUNT_FIT, KITS, EXTENSIONS_NEEDED, QUOTE_LINES)
"""Files whose lines are made with each site and lie in the ledger; the others are made at a run's end."""


def heading(table: Table) -> str:
    """The first line of a data file."""
    return ",".join(table.names) + "\n"


def lines(table: Table, rows: Iterable[Mapping[str, Any]]) -> str:
    """Rows as lines of the table's file; None is blank, True and False are `true` and `false`."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    for row in rows:
        writer.writerow([_plain(row[name]) for name in table.names])
    return text.getvalue()


def _plain(value: Any) -> Any:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return number(value)
    return guarded(value) if isinstance(value, str) else value


_STARTS = ("'", "=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
_HIDDEN = re.compile("[\\\\\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]")


def guarded(text: str) -> str:
    """A text that no spreadsheet program takes for a formula and no screen for a command; `schemas.datapackage` says how.

    An apostrophe goes before a text that begins with one, or with what a formula can begin with (half and full width);
    a backslash is doubled, and a control character, a sign that turns the direction of writing and a separator of lines
    is written as \\uXXXX. A decimal with a minus sign is no text that comes from outside: it is left as it is.

    Source: OWASP, CSV Injection; Unicode Standard Annex 9 (directions).
    """
    if text[:1] in _STARTS and text and not _NUMBER.fullmatch(text):
        text = f"'{text}"
    return _HIDDEN.sub(lambda m: "\\\\" if m[0] == "\\" else f"\\u{ord(m[0]):04x}", text)


def unguarded(text: str) -> str:
    """The inverse of `guarded`."""
    text = re.sub(r"\\(\\|u[0-9a-f]{4})", lambda m: "\\" if m[1] == "\\" else chr(int(m[1][1:], 16)), text)
    return text.removeprefix("'")


_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def number(value: float) -> str:
    """A float for a data file: shortest form, `INF`, blank where not known; results come rounded already."""
    if value != value:
        return ""
    if value in (float("inf"), float("-inf")):
        return "INF" if value > 0 else "-INF"
    return repr(value + 0.0)


def whole(table: Table, rows: Sequence[Mapping[str, Any]]) -> bytes:
    """A data file that is made in one go."""
    return encoded(heading(table) + lines(table, rows))


def encoded(text: str) -> bytes:
    """Text of a data file as bytes; half of a surrogate pair, which no file can hold, as `?`."""
    return text.encode("utf-8", "replace")
