"""What became of the quotations: marks in the ledger, of which the last of a site counts."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import astuple, fields

from pipeline.ledger.records import Mark

SENT, ACCEPTED, DECLINED, OPEN = "sent", "accepted", "declined", "open"
STATES = (SENT, ACCEPTED, DECLINED, OPEN)
_NAMES = ", ".join(f.name for f in fields(Mark))


class Marks:
    """The part of the ledger that holds marks; `_db` is its connection."""

    _db: sqlite3.Connection

    def put_marks(self, marks: Iterable[Mark]) -> None:
        """Add marks; call within `together`."""
        self._db.executemany(f"INSERT INTO marks ({_NAMES}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", map(astuple, marks))

    def marks(self, since: int = 0) -> list[Mark]:
        """All marks since run `since`, oldest first; none in a ledger of a program that knew of none."""
        if not self._db.execute("SELECT 1 FROM sqlite_master WHERE name = 'marks'").fetchone():
            return []
        rows = self._db.execute(f"SELECT {_NAMES} FROM marks WHERE run >= ? ORDER BY mark", (since,))
        return [Mark(*row) for row in rows]

    def marks_in_force(self, until: int, day: str) -> dict[str, Mark]:
        """The mark of each site that holds on a day after the runs up to `until`, by folded code.

        One ends with a newer revision, with `open`, and what was only sent with its last valid day. Source: design section 13.
        """
        last = {mark.site: mark for mark in self.marks()}
        query = "SELECT MAX(revision), MAX(CASE revision WHEN ? THEN valid_until END) FROM revisions WHERE site = ? AND run <= ?"
        held = {}
        for site, mark in sorted(last.items()):
            newest, valid_until = self._db.execute(query, (mark.revision, site, until)).fetchone()
            expired = mark.state == SENT and (valid_until or "") < day
            if mark.state != OPEN and newest == mark.newest and not expired:
                held[site] = mark
        return held
