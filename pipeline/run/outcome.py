"""How a run ended: what the command prints and its exit status."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

from pipeline.intake.query import Query

UNREAD = ("UNREADABLE_FILE", "NO_HEADINGS")
"""Queries about a file as a whole, of which nothing could be read."""
ALL_QUOTED, SOME_HELD, REFUSED, FAILED = 0, 1, 2, 3
"""Exit statuses. Source: contract section 4."""


def waiting(q: Query) -> bool:
    """Whether a row or a whole file waits for this query's answer."""
    return q.holds_row or q.code in UNREAD


def in_one_line(q: Query) -> str:
    """A query in one line: sheet and cell, what is wrong, and what to type instead where that is not said yet."""
    place = ", ".join(filter(None, (q.sheet and f"sheet {q.sheet}", q.cell)))
    instead = f" Instead: {q.suggestion}" if q.suggestion and q.suggestion not in q.message else ""
    return f"{place}: {q.message}{instead}".removeprefix(": ")


@dataclass(frozen=True)
class Outcome:
    """Counts and sentences; plain, so that an unchanged run can say again what the one before said."""

    exit_status: int
    sites: int
    posts: int  # quoted
    posts_held: int
    posts_with_kit: int
    rows_read: int
    rows_quoted: int
    rows_held: int
    rows_replaced: int  # by a later word, or by a row that says the same
    files: int
    files_not_read: int  # nothing of them could be read
    ready: int
    to_confirm: int
    incomplete: int
    total: str  # of all sites, with the currency
    new_revisions: int
    rewritten: int  # files of the folder that were written
    waits: tuple[str, ...]  # what waits for a sender: the file, and on the next line 'sheet, cell: what'
    failures: tuple[str, ...]
    notes: tuple[str, ...]
    expired: tuple[str, ...]  # 'SITE-r1, valid until ...'
    broken: tuple[str, ...] = ()  # what no longer holds of promised quotations
    slips: tuple[str, ...] = ()  # prices that may be slips
    unchanged: bool = False

    def as_text(self) -> str:
        """For the ledger."""
        return json.dumps(asdict(self))

    @staticmethod
    def from_text(text: str) -> Outcome:
        """The inverse of `as_text`."""
        plain: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in json.loads(text).items()}
        return Outcome(**plain)
