"""What was read and what came of it: surveys by their bytes, sites by what they were made from."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from pipeline.ledger.pack import unpack
from pipeline.ledger.records import Known, SiteEntry

_AT_ONCE = 500


class Results:
    """The part of the ledger from which a run takes what it need not do again; `_db` is its connection."""

    _db: sqlite3.Connection

    # surveys

    def surveys(self, keys: Sequence[str]) -> dict[str, bytes]:
        """Surveys as read, packed, by key; those that are known."""
        found: dict[str, bytes] = {}
        for start in range(0, len(keys), _AT_ONCE):
            some = keys[start : start + _AT_ONCE]
            marks = ",".join("?" * len(some))
            found.update(self._db.execute(f"SELECT key, content FROM surveys WHERE key IN ({marks})", some).fetchall())
        return found

    def survey_named(self, file: str) -> tuple[str, bytes] | None:
        """Key and content of a file as the last finished run had it; None where none of that name could be read."""
        query = "SELECT key, content FROM surveys WHERE file = ? ORDER BY run DESC, key LIMIT 1"
        found: tuple[str, bytes] | None = self._db.execute(query, (file,)).fetchone()
        return found

    def all_surveys(self) -> list[bytes]:
        """Every file as the last finished run read it, packed, in order of its name."""
        return [r[0] for r in self._db.execute("SELECT content FROM surveys ORDER BY file, key")]

    def keep_surveys(self, run: int, read: Mapping[str, tuple[str, bytes]], used: Iterable[str]) -> None:
        """Add surveys (key -> file, content), and forget those that this run did not use; call within `together`."""
        rows = [(key, file, run, content) for key, (file, content) in sorted(read.items())]
        self._db.executemany("INSERT OR REPLACE INTO surveys VALUES (?, ?, ?, ?)", rows)
        self._db.executemany("UPDATE surveys SET run = ? WHERE key = ?", [(run, k) for k in used])
        self._db.execute("DELETE FROM surveys WHERE run < ?", (run,))

    def put_marked(self, files: Iterable[tuple[str, str]]) -> None:
        """Remember files (name, content as a copy's identity has it) of which marked copies went out; call within `together`."""
        self._db.executemany("INSERT OR IGNORE INTO marked VALUES (?, ?)", sorted(set(files)))

    def marked(self) -> frozenset[tuple[str, str]]:
        """Files (name, content) of which marked copies have gone out."""
        return frozenset(self._db.execute("SELECT file, content FROM marked"))

    # sites

    def known_sites(self) -> dict[str, Known]:
        """What is known of every site, by folded code."""
        rows = self._db.execute("SELECT site, site_code, run, inputs, catalogue, result FROM sites")
        return {r[0]: Known(*r) for r in rows}

    def site_rows(self, site: str) -> tuple[Any, str] | None:
        """Rows of one site as last read (`quoted`, `held`), and the fingerprint of the catalogue used; None for no such site."""
        row = self._db.execute("SELECT rows, catalogue FROM sites WHERE site = ?", (site,)).fetchone()
        return (unpack(row[0]), row[1]) if row else None

    def site_result(self, site: str) -> Mapping[str, Any]:
        """What was worked out of one site; empty for no such site."""
        row = self._db.execute("SELECT result FROM sites WHERE site = ?", (site,)).fetchone()
        return unpack(row[0]) if row else {}

    def site_codes(self) -> list[str]:
        """Folded codes of all sites that are known."""
        return [r[0] for r in self._db.execute("SELECT site FROM sites ORDER BY site")]

    def run_of(self, site: str) -> int:
        """The run in which a known site was last asked for."""
        return int(self._db.execute("SELECT run FROM sites WHERE site = ?", (site,)).fetchone()[0])

    def put_sites(self, run: int, catalogue: str, sites: Iterable[SiteEntry]) -> None:
        """Keep what was worked out of sites; call within `together`."""
        self._db.executemany(
            "INSERT OR REPLACE INTO sites VALUES (?, ?, ?, ?, ?, ?, ?)",
            ((s.site, s.site_code, run, s.inputs, catalogue, s.rows, s.result) for s in sites),
        )

    def end_with_sites(self, run: int, catalogue: str, sites: Iterable[str], closed: Iterable[str]) -> None:
        """Say which sites a run came out with, `closed` ones as they were, and forget lines that none needs any more.

        Call within `together`, last.
        """
        self._db.executemany("UPDATE sites SET run = ?, catalogue = ? WHERE site = ?", [(run, catalogue, s) for s in sites])
        self._db.executemany("UPDATE sites SET run = ? WHERE site = ?", [(run, s) for s in closed])
        self._db.execute("DELETE FROM lines WHERE (site, inputs) NOT IN (SELECT site, inputs FROM sites)")

    # lines of the data files

    def put_lines(self, site: str, inputs: str, blocks: Sequence[tuple[str, bytes]]) -> None:
        """Keep a site's lines (data file, packed text) in place of any from the same inputs; call within `together`."""
        self._db.execute("DELETE FROM lines WHERE site = ? AND inputs = ?", (site, inputs))
        some = [(site, inputs, name, place, content) for place, (name, content) in enumerate(blocks)]
        self._db.executemany("INSERT INTO lines VALUES (?, ?, ?, ?, ?)", some)

    def with_lines(self) -> set[tuple[str, str]]:
        """(folded site, inputs) of all lines that are kept."""
        return set(self._db.execute("SELECT DISTINCT site, inputs FROM lines"))

    def lines(self, site: str, inputs: str, name: str) -> Iterator[str]:
        """A site's lines of one data file, in blocks."""
        query = "SELECT content FROM lines WHERE site = ? AND inputs = ? AND name = ? ORDER BY place"
        yield from (unpack(content) for (content,) in self._db.execute(query, (site, inputs, name)))
