"""The ledger's tables, as named steps that are recorded in the same transaction."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from pipeline.errors import RefusedError

STEPS: tuple[tuple[str, str], ...] = (
    (
        "001 first tables",
        """
        CREATE TABLE runs (
            run INTEGER PRIMARY KEY, date TEXT NOT NULL, started TEXT NOT NULL, program TEXT NOT NULL,
            catalogue TEXT NOT NULL, finished INTEGER NOT NULL DEFAULT 0, exit_status INTEGER,
            prints TEXT NOT NULL DEFAULT '', said TEXT NOT NULL DEFAULT '', result_date TEXT NOT NULL DEFAULT '');
        CREATE TABLE catalogues (fingerprint TEXT PRIMARY KEY, content BLOB NOT NULL);
        CREATE TABLE surveys (key TEXT PRIMARY KEY, run INTEGER NOT NULL, content BLOB NOT NULL);
        CREATE TABLE sites (
            site TEXT PRIMARY KEY, run INTEGER NOT NULL, inputs TEXT NOT NULL, catalogue TEXT NOT NULL,
            rows BLOB NOT NULL, result BLOB NOT NULL, pieces TEXT NOT NULL);
        CREATE TABLE revisions (
            site TEXT NOT NULL, revision INTEGER NOT NULL, run INTEGER NOT NULL, date TEXT NOT NULL, valid_until TEXT NOT NULL,
            workbook TEXT NOT NULL, workbook_hash TEXT NOT NULL, seen TEXT NOT NULL, catalogue TEXT NOT NULL,
            program TEXT NOT NULL, content_hash TEXT NOT NULL, content BLOB NOT NULL, total TEXT NOT NULL,
            PRIMARY KEY (site, revision));
        CREATE TABLE changes (
            run INTEGER NOT NULL, place INTEGER NOT NULL, site_code TEXT NOT NULL, revision_was INTEGER, revision INTEGER,
            kind TEXT NOT NULL, item TEXT NOT NULL, was TEXT NOT NULL, now TEXT NOT NULL, total_was TEXT NOT NULL,
            total TEXT NOT NULL, PRIMARY KEY (run, place));
        CREATE TABLE outputs (path TEXT PRIMARY KEY, hash TEXT NOT NULL, seen TEXT NOT NULL, recipe TEXT NOT NULL);
        CREATE TABLE pending (path TEXT NOT NULL, hash TEXT NOT NULL, PRIMARY KEY (path, hash));
        """,
    ),
    ("002 file of the catalogue", "CREATE TABLE catalogue_file (key TEXT PRIMARY KEY, content BLOB NOT NULL);"),
    (
        "003 lines of data files by site",
        """
        DROP TABLE surveys; DROP TABLE sites;
        CREATE TABLE surveys (key TEXT PRIMARY KEY, file TEXT NOT NULL, run INTEGER NOT NULL, content BLOB NOT NULL);
        CREATE TABLE sites (
            site TEXT PRIMARY KEY, site_code TEXT NOT NULL, run INTEGER NOT NULL, inputs TEXT NOT NULL, catalogue TEXT NOT NULL,
            rows BLOB NOT NULL, result BLOB NOT NULL);
        CREATE TABLE lines (
            site TEXT NOT NULL, inputs TEXT NOT NULL, name TEXT NOT NULL, place INTEGER NOT NULL, content BLOB NOT NULL,
            PRIMARY KEY (site, inputs, name, place));
        """,
    ),
    (
        "004 marks: what became of quotations",
        """
        CREATE TABLE marks (
            mark INTEGER PRIMARY KEY, site TEXT NOT NULL, site_code TEXT NOT NULL, revision INTEGER NOT NULL,
            newest INTEGER NOT NULL, state TEXT NOT NULL, day TEXT NOT NULL, note TEXT NOT NULL, run INTEGER NOT NULL);
        """,
    ),
    (
        "005 contents of which marked copies went out",
        "CREATE TABLE marked (file TEXT NOT NULL, content TEXT NOT NULL, PRIMARY KEY (file, content));",
    ),
)


class LedgerError(RefusedError):
    """A ledger that cannot be used; the message says what to do."""


class LedgerNotKeptError(Exception):
    """A ledger that is sound and cannot be written: a full or read-only disk, a folder that has gone."""


def open_ledger(path: Path) -> sqlite3.Connection:
    """The ledger at `path`, made or brought up to date.

    Errors: LedgerError where it is damaged, newer than this program or a database of something else; LedgerNotKeptError
    where it cannot be written. Nothing is written before it has been found sound and ours.

    A rollback journal rather than WAL: one writer, few transactions, and no side files that a copied folder would miss.
    """
    try:
        db = sqlite3.connect(path, isolation_level=None)
        try:
            _make_ready(db, path)
        except BaseException:
            db.close()
            raise
    except sqlite3.DatabaseError as error:
        raise not_kept(path, error) from error
    return db


def _make_ready(db: sqlite3.Connection, path: Path) -> None:
    tables = {row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    if tables and "steps" not in tables:
        raise LedgerError(f"{path} is a database of something else. Move it away, or choose another folder with --out.")
    if db.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        raise sqlite3.DatabaseError("its check failed")
    if tables:
        _refuse_newer({row[0] for row in db.execute("SELECT step FROM steps")}, path)
    db.execute("PRAGMA journal_mode=DELETE")
    db.execute("PRAGMA synchronous=NORMAL")
    _bring_up_to_date(db)


def not_kept(path: Path, error: sqlite3.Error) -> LedgerError | LedgerNotKeptError:
    """Why a ledger cannot be opened or written, as a sentence."""
    name = getattr(error, "sqlite_errorname", "") or ""
    if name.startswith("SQLITE_FULL"):
        return LedgerNotKeptError(f"{path} could not be written: the disk is full; make room and run again.")
    if name.startswith("SQLITE_BUSY"):
        return LedgerError(f"{path} is open in another program. Close it there, then run again.")
    if name.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM", "SQLITE_AUTH")):
        return LedgerNotKeptError(f"{path} could not be written: it has gone, or you may not write there.")
    if name.startswith("SQLITE_IOERR"):
        return LedgerNotKeptError(f"{path} could not be written: its folder has gone, or the disk fails or is full.")
    return _damaged(path, error)


def open_to_read(path: Path) -> sqlite3.Connection:
    """The ledger at `path`, to be read only: nothing is written, not even beside it; LedgerError where it cannot be read.

    The whole of it is not checked, which would take long where it is large. One of an older program will do, as far as
    it has what is read.
    """
    try:
        db = sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True, isolation_level=None)
        done = {row[0] for row in db.execute("SELECT step FROM steps")}
    except sqlite3.DatabaseError as error:
        raise unreadable(path, error) from error
    _refuse_newer(done, path)
    return db


def unreadable(path: Path, error: sqlite3.DatabaseError) -> LedgerError:
    """Why a ledger that is only read cannot be, as a sentence."""
    text = str(error)
    if "locked" in text or "busy" in text:
        return LedgerError(f"A run is at work on {path}. Try again when it has ended.")
    if "readonly" in text:
        return LedgerError(f"{path} was left by a run that was stopped. Run `postquote quote` into that folder once more.")
    if "unable to open" in text:
        return LedgerError(f"{path} cannot be opened: it is not there, or you may not read it.")
    if "no such table" in text or "no such column" in text:
        return LedgerError(f"{path} is an older postquote's, or no ledger. Run `postquote quote` into that folder once.")
    return _damaged(path, error)


def _damaged(path: Path, error: sqlite3.Error) -> LedgerError:
    return LedgerError(
        f"{path} is damaged ({error}). Put a copy from before in its place, or move it away: "
        "every site is then quoted anew, beside the workbooks that stand."
    )


def _refuse_newer(done: set[str], path: Path) -> None:
    if done - {name for name, _ in STEPS}:
        raise LedgerError(f"{path} was written by a newer postquote. Use that one, or another output folder.")


def _bring_up_to_date(db: sqlite3.Connection) -> None:
    db.execute("CREATE TABLE IF NOT EXISTS steps (step TEXT PRIMARY KEY)")
    done = {row[0] for row in db.execute("SELECT step FROM steps")}
    for name, script in STEPS:
        if name not in done:
            db.executescript(f"BEGIN; {script} INSERT INTO steps VALUES ('{name}'); COMMIT;")
