"""A run killed at any moment: no torn file, and the next run ends where an unbroken one does, byte for byte."""

from __future__ import annotations

import os
import random
import shutil
import signal
import sqlite3
import subprocess
import tempfile
import time
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest
from nightly_made import Nights, changed, results, site, whole

from pipeline.output.folder import PART


@dataclass(frozen=True)
class Unbroken:
    """Folders after unbroken runs: the first night; from there a second with other prices; from there a third, other ones."""

    ends: dict[str, Nights]
    took: dict[str, float]  # seconds


def _first(home: Path, sites: int) -> Nights:
    first = Nights(home, {n: site(n, 2) for n in range(1, sites + 1)})
    first.sites[2][0]["post_size"] = "about 4"  # a marked copy is given back
    first.run("--jobs", "2", status=1)
    return first


def _unbroken(home: Path, sites: int) -> Unbroken:
    began = time.monotonic()
    first = _first(home / "first", sites)
    ends, took = {"first": first}, {"first": time.monotonic() - began}
    for name, price in (("second", 333), ("third", 300)):
        shutil.copytree(first.home, home / name)
        ends[name] = Nights(home / name, first.sites, changed(first.made, "Mounts", "SQ-1", price=price))
        took[name] = _timed(ends[name])
    return Unbroken(ends, took)


def _timed(nights: Nights) -> float:
    began = time.monotonic()
    nights.run("--jobs", "2", status=1)
    return time.monotonic() - began


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    return _first(tmp_path_factory.mktemp("first"), 6)


def _kill_after(nights: Nights, seconds: float) -> bool:
    """Run and kill it after so long; whether that was before its end came to count. No file may be torn."""
    had = _finished(nights)
    with subprocess.Popen(nights.command("--jobs", "2"), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as run:
        try:
            run.wait(seconds)
        except subprocess.TimeoutExpired:
            os.kill(run.pid, signal.SIGKILL)
        run.wait()
    if nights.out.is_dir():
        torn = [name for name, data in results(nights.out).items() if not name.endswith(PART) and not whole(name, data)]
        assert torn == []
    return _finished(nights) == had


def _finished(nights: Nights) -> int:
    """Runs that count; looked up in a copy, since looking would mend what a kill left."""
    with tempfile.TemporaryDirectory() as aside:
        for path in nights.out.glob("ledger.sqlite*"):
            shutil.copy(path, aside)
        with closing(sqlite3.connect(Path(aside) / "ledger.sqlite")) as db:
            if not db.execute("SELECT 1 FROM sqlite_master WHERE name = 'runs'").fetchone():
                return 0
            return int(db.execute("SELECT COUNT(*) FROM runs WHERE finished = 1").fetchone()[0])


def _copy(home: Path, to: Path) -> None:
    shutil.rmtree(to, ignore_errors=True)
    shutil.copytree(home, to)


def _kill_and_mend(unbroken: Unbroken, tmp_path: Path, tries: int, seed: int) -> None:
    """First nights and second nights killed in turn; then the same run, or one with another catalogue, to its end."""
    rng = random.Random(seed)
    first, second, third = (unbroken.ends[n] for n in ("first", "second", "third"))
    bare = Nights(tmp_path / "bare", first.sites, first.made)
    bare.write()
    ready = Nights(tmp_path / "ready", first.sites, second.made)
    _copy(first.home, ready.home)
    ready.write()
    for number in range(tries):
        start, end, took = (bare, first, unbroken.took["first"]) if number % 4 == 0 else (ready, second, unbroken.took["second"])
        nights = Nights(tmp_path / "n", first.sites, start.made)
        _copy(start.home, nights.home)
        killed = _kill_after(nights, rng.uniform(0.15, 1.0) * took)
        if number % 4 == 3 and killed:  # another catalogue then, killed again, and to its end with that one
            end, nights.made = third, third.made
            nights.write()
            killed = _kill_after(nights, rng.uniform(0.15, 0.9) * took)
        if killed:  # else it ended before the kill, and one more run would have no change to tell of
            nights.run("--jobs", "2", status=1)
        assert _where(results(nights.out), results(end.out)) == []


def _where(a: dict[str, bytes], b: dict[str, bytes]) -> list[str]:
    """Names of results that differ, and of those that only one side has."""
    return sorted(name for name in a.keys() | b.keys() if a.get(name) != b.get(name))


@pytest.mark.slow
def test_24_kills_of_60_sites(tmp_path: Path) -> None:
    _kill_and_mend(_unbroken(tmp_path / "unbroken", 60), tmp_path, 24, 11)


@pytest.mark.slow
def test_a_killed_run_s_remains_go(first: Nights, tmp_path: Path) -> None:
    """A killed run's new revisions, marked copies and half-written files go when the next run has no use for them."""
    _copy(first.home, tmp_path / "n")
    dearer = changed(first.made, "Mounts", "SQ-1", price=333)
    nights = Nights(tmp_path / "n", {n: list(rows) for n, rows in first.sites.items()}, dearer)
    nights.sites[4] = [{**nights.sites[4][0], "post_height": "tall"}, nights.sites[4][1]]
    nights.write()
    script = (
        "import os, signal, sys\n"
        "from pipeline.ledger.store import Ledger\n"
        "Ledger.put_changes = lambda *a: os.kill(os.getpid(), signal.SIGKILL)\n"  # at the very last moment
        "from pipeline.cli import main\n"
        f"main({nights.command()[1:]!r})\n"
    )
    done = subprocess.run([Path(nights.command()[0]).parent / "python", "-c", script], capture_output=True)
    assert done.returncode == -signal.SIGKILL
    assert nights.workbook("K-02", 2).is_file()
    assert (nights.out / "returns").is_dir()
    (nights.out / "sites" / "K-02" / f".K-02-r2.xlsx{PART}").write_bytes(b"half")
    nights.sites, nights.made = first.sites, first.made
    nights.run(status=1)
    assert _where(results(nights.out), results(first.out)) == []


@pytest.mark.slow
def test_a_workbook_made_again_by_a_killed_run_is_not_taken_for_edited(first: Nights, tmp_path: Path) -> None:
    """It is made with tonight's options; the kill comes before the ledger knows."""
    _copy(first.home, tmp_path / "n")
    nights = Nights(tmp_path / "n", first.sites, changed(first.made, "Rings", "RG-2", price=99))
    nights.workbook("K-01", 1).unlink()
    nights.write()
    script = (
        "import os, signal\n"
        "from pipeline.ledger.store import Ledger\n"
        "Ledger.put_changes = lambda *a: os.kill(os.getpid(), signal.SIGKILL)\n"
        "from pipeline.cli import main\n"
        f"main({nights.command()[1:]!r})\n"
    )
    subprocess.run([Path(nights.command()[0]).parent / "python", "-c", script], capture_output=True)
    assert nights.workbook("K-01", 1).is_file()
    assert "edited by hand" not in nights.run(status=1)
    nights.made = changed(nights.made, "Mounts", "RM-1", price=310)
    nights.run(status=1)
    assert not {kind for _, kind, *_ in nights.reasons()} & {"workbook kept"}
