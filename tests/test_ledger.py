"""The ledger: damaged, foreign, of another time; and one transaction or none."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from nightly_made import Nights, changed, results

from pipeline.intake.catalogue import read_catalogue
from pipeline.ledger.schema import STEPS, LedgerError, LedgerNotKeptError, not_kept, open_ledger
from pipeline.ledger.store import Ledger
from pipeline.output.folder import file_digest
from pipeline.run.known_catalogue import kept_catalogue
from pipeline.run.request import Prints, program_print


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    nights = Nights(tmp_path_factory.mktemp("first"))
    nights.night()
    return nights


@pytest.fixture
def nights(first: Nights, tmp_path: Path) -> Nights:
    import shutil

    shutil.copytree(first.home, tmp_path / "n")
    return Nights(tmp_path / "n", made=changed(first.made, "Mounts", "SQ-1", price=333))


def _foreign(path: Path) -> None:
    with sqlite3.connect(path) as db:
        db.execute("CREATE TABLE recipes (name TEXT)")


def _newer(path: Path) -> None:
    with sqlite3.connect(path) as db:
        db.execute("INSERT INTO steps VALUES ('999 of tomorrow')")


def _damage(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[4096:12288] = b"\xa5" * 8192
    path.write_bytes(data)


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda p: (p.unlink(), _foreign(p)), "a database of something else"),
        (_newer, "written by a newer postquote"),
        (lambda p: p.write_bytes(b"PK\x03\x04 no database at all" * 300), "is damaged"),
        (_damage, "is damaged"),
    ],
    ids=["foreign", "newer", "no database", "damaged"],
)
def test_a_ledger_that_cannot_be_used_is_left_alone(nights: Nights, spoil, says: str) -> None:  # type: ignore[no-untyped-def]
    path = nights.out / "ledger.sqlite"
    spoil(path)
    was, before = path.read_bytes(), results(nights.out)
    said = " ".join(nights.night(status=2).split())
    assert says in said
    assert path.read_bytes() == was
    assert results(nights.out) == before


def test_a_ledger_moved_away_starts_anew_beside_what_stands(nights: Nights) -> None:
    (nights.out / "ledger.sqlite").unlink()
    before = {n: v for n, v in results(nights.out).items() if n.startswith("sites/")}
    nights.night()
    now = results(nights.out)
    assert {n: now[n] for n in before} == before
    assert set(nights.revisions().values()) == {2}


def test_schema_steps_are_recorded(tmp_path: Path) -> None:
    db = open_ledger(tmp_path / "ledger.sqlite")
    assert [r[0] for r in db.execute("SELECT step FROM steps")] == [name for name, _ in STEPS]
    assert db.execute("PRAGMA journal_mode").fetchone()[0] == "delete"
    db.close()


def test_a_kept_catalogue_is_the_one_that_was_read(first: Nights) -> None:
    path = first.home / "catalogue.xlsx"
    prints = Prints({}, file_digest(path), program_print())
    ledger = Ledger(first.out / "ledger.sqlite", read_only=True)
    assert kept_catalogue(ledger, prints) == read_catalogue(str(path))
    assert kept_catalogue(ledger, Prints({}, "other", program_print())) is None
    ledger.close()


def test_all_or_nothing(tmp_path: Path) -> None:
    ledger = Ledger(tmp_path / "ledger.sqlite")
    with pytest.raises(sqlite3.IntegrityError), ledger.together():
        ledger.about_to_write([("a.xlsx", "00"), ("b.xlsx", None)])  # type: ignore[list-item]
    assert ledger.pending() == set()
    with ledger.together():
        ledger.about_to_write([("a.xlsx", "00")])
    assert ledger.pending() == {("a.xlsx", "00")}
    ledger.close()


def test_a_run_that_was_killed_counts_as_none(tmp_path: Path) -> None:
    ledger = Ledger(tmp_path / "ledger.sqlite")
    assert ledger.begin("2026-03-02", "now", "p", "c", b"") == 1
    assert ledger.begin("2026-03-02", "now", "p", "c", b"") == 1
    assert ledger.last_finished() is None
    with ledger.together():
        ledger.finish(1, 0, "prints", "{}", "2026-03-02")
    assert ledger.begin("2026-03-03", "now", "p", "c", b"") == 2
    assert [r.run for r in ledger.runs()] == [1]
    ledger.close()


def _error(code: str) -> sqlite3.Error:
    error = sqlite3.OperationalError("said by the library")
    error.sqlite_errorname = code
    return error


@pytest.mark.parametrize(
    ("code", "kind", "says"),
    [
        ("SQLITE_FULL", LedgerNotKeptError, "the disk is full"),
        ("SQLITE_IOERR_WRITE", LedgerNotKeptError, "the disk fails"),
        ("SQLITE_READONLY_DBMOVED", LedgerNotKeptError, "it has gone"),
        ("SQLITE_BUSY", LedgerError, "open in another program"),
        ("SQLITE_CORRUPT", LedgerError, "is damaged"),
        ("SQLITE_NOTADB", LedgerError, "is damaged"),
    ],
)
def test_why_a_ledger_cannot_be_written(code: str, kind: type[Exception], says: str) -> None:
    told = not_kept(Path("ledger.sqlite"), _error(code))
    assert type(told) is kind
    assert says in str(told)
