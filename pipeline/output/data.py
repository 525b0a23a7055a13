"""DIR/data/*.csv: values as text, rows as lines."""

from __future__ import annotations

import csv
import io
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
    return number(value) if isinstance(value, float) else value


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
