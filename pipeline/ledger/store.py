"""Reading and writing the ledger: one transaction per unit of work."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import fields
from pathlib import Path
from typing import Any

from pipeline.ledger.kept_catalogue import Kept, from_plain
from pipeline.ledger.marks import Marks
from pipeline.ledger.pack import pack, unpack
from pipeline.ledger.records import OF_A_CUSTOMER, Known, Latest, Output, Revision, Run, SiteEntry
from pipeline.ledger.results import Results
from pipeline.ledger.schema import open_ledger, open_to_read
from schemas.order import folded

GONE, BACK = "no longer asked for", "asked for again"
"""Kinds of change that are about a site as a whole."""

__all__ = ["Known", "Latest", "Ledger", "Output", "Revision", "Run", "SiteEntry"]


class Ledger(Results, Marks):
    """DIR/ledger.sqlite, open."""

    def __init__(self, path: Path, read_only: bool = False) -> None:
        """`read_only` writes nothing at all, so that a folder that may only be read will do."""
        self._db = open_to_read(path) if read_only else open_ledger(path)

    def close(self) -> None:
        """Let go of the file."""
        self._db.close()

    def copy_to(self, path: Path) -> None:
        """A copy of the whole ledger as it stands now at `path`, where no file may be; this one is only read."""
        with closing(sqlite3.connect(path)) as copy:
            self._db.backup(copy)

    @contextmanager
    def together(self) -> Iterator[None]:
        """All or nothing."""
        self._db.execute("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            if self._db.in_transaction:  # a full disk has rolled back already
                self._db.execute("ROLLBACK")
            raise
        self._db.execute("COMMIT")

    # runs

    def last_finished(self, before: int | None = None) -> Run | None:
        """The newest finished run, or the newest before run `before`."""
        row = self._db.execute(
            "SELECT run, date, started, program, catalogue, exit_status, prints, said, result_date FROM runs "
            "WHERE finished = 1 AND run < ? ORDER BY run DESC LIMIT 1",
            (before if before is not None else 1 << 60,),
        ).fetchone()
        return Run(*row) if row else None

    def runs(self) -> list[Run]:
        """All finished runs, oldest first."""
        rows = self._db.execute(
            "SELECT run, date, started, program, catalogue, exit_status, prints, said, result_date FROM runs "
            "WHERE finished = 1 ORDER BY run"
        )
        return [Run(*row) for row in rows]

    def begin(self, date: str, started: str, program: str, catalogue: str, content: bytes) -> int:
        """Start a run; one that was killed counts as none, so its number is used again."""
        with self.together():
            last = self.last_finished()
            run = last.run + 1 if last else 1
            self._db.execute("DELETE FROM runs WHERE run >= ?", (run,))
            self._db.execute("DELETE FROM changes WHERE run >= ?", (run,))
            self._db.execute(
                "INSERT INTO runs (run, date, started, program, catalogue) VALUES (?, ?, ?, ?, ?)",
                (run, date, started, program, catalogue),
            )
            self._db.execute("INSERT OR IGNORE INTO catalogues VALUES (?, ?)", (catalogue, content))
        return run

    def finish(self, run: int, exit_status: int, prints: str, outcome_text: str, result_date: str) -> None:
        """Mark a run as finished; call within `together` with what else belongs to its end."""
        self._db.execute(
            "UPDATE runs SET finished = 1, exit_status = ?, prints = ?, said = ?, result_date = ? WHERE run = ?",
            (exit_status, prints, outcome_text, result_date, run),
        )

    def programs(self) -> dict[int, str]:
        """The program, with the fingerprint of its code, of each finished run."""
        return dict(self._db.execute("SELECT run, program FROM runs WHERE finished = 1"))

    def catalogue(self, fingerprint: str) -> Kept | None:
        """A catalogue that a run used; None where it is not known."""
        row = self._db.execute("SELECT content FROM catalogues WHERE fingerprint = ?", (fingerprint,)).fetchone()
        return from_plain(unpack(row[0])) if row else None

    def catalogue_file(self, key: str) -> bytes | None:
        """What the last finished run read from its catalogue's file, packed; None where `key` is another one's."""
        row = self._db.execute("SELECT content FROM catalogue_file WHERE key = ?", (key,)).fetchone()
        return row[0] if row else None

    def keep_catalogue_file(self, key: str, content: bytes) -> None:
        """Keep what was read from the catalogue's file, in place of the one before; call within `together`."""
        self._db.execute("DELETE FROM catalogue_file")
        self._db.execute("INSERT INTO catalogue_file VALUES (?, ?)", (key, content))

    # revisions

    def revisions(self, site: str | None = None) -> dict[str, list[Revision]]:
        """Revisions by folded site code, oldest first; of one site, or of all."""
        where, values = ("WHERE site = ?", (site,)) if site is not None else ("", ())
        found: dict[str, list[Revision]] = {}
        for row in self._db.execute(f"SELECT {_REVISION} FROM revisions {where} ORDER BY site, revision", values):
            r = _revision(row)
            found.setdefault(r.site, []).append(r)
        return found

    def latest(self, until: int) -> dict[str, Latest]:
        """Each site's newest revision of the runs up to `until`, by folded code."""
        rows = self._db.execute(
            "SELECT site, MAX(revision), date, valid_until, workbook, workbook_hash, seen, total FROM revisions "
            "WHERE run <= ? GROUP BY site ORDER BY site",
            (until,),
        )
        return {r[0]: Latest(*(*r[:4], _path(r[4]), *r[5:])) for r in rows}

    def revision(self, site: str, revision: int) -> Latest:
        """One revision of a site, without its content; KeyError where there is none."""
        row = self._db.execute(
            "SELECT site, revision, date, valid_until, workbook, workbook_hash, seen, total FROM revisions "
            "WHERE site = ? AND revision = ?",
            (site, revision),
        ).fetchone()
        if row is None:
            raise KeyError(f"{site}-r{revision}")
        return Latest(*(*row[:4], _path(row[4]), *row[5:]))

    def latest_of_sites(self, until: int) -> dict[str, Latest]:
        """The same without the customers' quotations."""
        return {key: r for key, r in self.latest(until).items() if not key.startswith(OF_A_CUSTOMER)}

    def contents(self, sites: Sequence[tuple[str, int]]) -> dict[str, Revision]:
        """Whole revisions, given (folded site, revision), by folded code."""
        found = {}
        for site, revision in sites:
            row = self._db.execute(
                f"SELECT {_REVISION} FROM revisions WHERE site = ? AND revision = ?", (site, revision)
            ).fetchone()
            if row:
                found[site] = _revision(row)
        return found

    def unfinished(self, run: int) -> dict[tuple[str, int], str]:
        """Workbooks that a killed run intended: (folded site, revision) -> path."""
        rows = self._db.execute("SELECT site, revision, workbook FROM revisions WHERE run >= ?", (run,))
        return {(r[0], r[1]): _path(r[2]) for r in rows}

    def intend(self, revisions: Sequence[Revision]) -> None:
        """Say which workbooks are about to be written, so that a killed run's files are known as ours."""
        self._db.executemany(
            "INSERT OR REPLACE INTO revisions VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                (
                    r.site, r.revision, r.run, r.date, r.valid_until, r.workbook, r.workbook_hash, r.seen,
                    r.catalogue, r.program, r.content_hash, pack(r.content), r.total,
                )
                for r in revisions
            ],
        )  # fmt: skip

    def forget_revision(self, site: str, revision: int) -> None:
        """Take back a revision that a killed run intended."""
        self._db.execute("DELETE FROM revisions WHERE site = ? AND revision = ?", (site, revision))

    def saw(self, site: str, revision: int, workbook_hash: str, seen: str) -> None:
        """Note the hash of a workbook that we wrote, and of the file as it stands."""
        self._db.execute(
            "UPDATE revisions SET workbook_hash = ?, seen = ? WHERE site = ? AND revision = ?",
            (workbook_hash, seen, site, revision),
        )

    # changes

    def put_changes(self, run: int, rows: Sequence[Mapping[str, Any]]) -> None:
        """Keep the changes of a run; call within `together`."""
        names = ("site_code", "revision_was", "revision", "kind", "item", "was", "now", "total_was", "total")
        self._db.executemany(
            "INSERT INTO changes VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [(run, i, *(row[n] for n in names)) for i, row in enumerate(rows)],
        )

    def changes(self, after: int, until: int) -> list[dict[str, Any]]:
        """Changes of the runs after `after` up to `until`, with the run's number."""
        cursor = self._db.execute("SELECT * FROM changes WHERE run > ? AND run <= ? ORDER BY run, place", (after, until))
        names = [d[0] for d in cursor.description]
        return [dict(zip(names, row, strict=True)) for row in cursor]

    def gone(self) -> set[str]:
        """Folded codes of the sites that were listed as no longer asked for, and have not come back since."""
        rows = self._db.execute("SELECT site_code, kind FROM changes WHERE kind IN (?, ?) ORDER BY run, place", (GONE, BACK))
        last = {folded(site): kind for site, kind in rows}
        return {site for site, kind in last.items() if kind == GONE}

    # outputs

    def outputs(self) -> dict[str, Output]:
        """Files that belong to no single site, by path."""
        return {_path(r[0]): Output(*r[1:]) for r in self._db.execute("SELECT path, hash, seen, recipe FROM outputs")}

    def about_to_write(self, files: Iterable[tuple[str, str]]) -> None:
        """Say that files (path, hash) are about to be written, so that a killed run's files are known as ours."""
        self._db.executemany("INSERT INTO pending VALUES (?, ?) ON CONFLICT DO NOTHING", files)

    def pending(self) -> set[tuple[str, str]]:
        """(path, hash) of files that a killed run may have written."""
        return {(_path(path), hash_) for path, hash_ in self._db.execute("SELECT path, hash FROM pending")}

    def put_outputs(self, outputs: Mapping[str, Output]) -> None:
        """Replace the list of outputs; call within `together`."""
        self._db.execute("DELETE FROM outputs")
        self._db.execute("DELETE FROM pending")
        rows = [(path, o.hash, o.seen, o.recipe) for path, o in sorted(outputs.items())]
        self._db.executemany("INSERT INTO outputs VALUES (?, ?, ?, ?)", rows)


_NAMES = tuple(f.name for f in fields(Revision))
_REVISION = ", ".join(_NAMES)


def _revision(row: Sequence[Any]) -> Revision:
    named = dict(zip(_NAMES, row, strict=True))
    return Revision(**{**named, "workbook": _path(named["workbook"]), "content": unpack(named["content"])})


def _path(text: Any) -> str:
    """A path that leads to no place outside the output folder; any other makes the ledger one that cannot be used."""
    parts = str(text).split("/")
    if {"", ".", ".."} & set(parts) or any(c in "\\:\0" for c in str(text)):
        raise sqlite3.DatabaseError("a path in it leads out of the folder")
    return str(text)
