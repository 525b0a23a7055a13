"""A run killed at any moment: no torn file, and the next run ends where an unbroken one does, byte for byte."""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import time
from pathlib import Path

import pytest
from nightly_made import Nights, changed, results, site, whole

SITES = 60


def _world(home: Path) -> Nights:
    nights = Nights(home, {n: site(n, 2) for n in range(1, SITES + 1)})
    nights.sites[2][0]["post_size"] = "about 4"  # a marked copy is given back
    nights.write()
    return nights


@pytest.fixture(scope="module")
def unbroken(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Nights]:
    """Folders after unbroken runs: the first night; from there a second with other prices; from there a third, other ones."""
    home = tmp_path_factory.mktemp("unbroken")
    first = _world(home / "first")
    first.run("--jobs", "2", status=1)
    ends = {"first": first}
    for name, start, price in (("second", "first", 333), ("third", "first", 300)):
        shutil.copytree(ends[start].home, home / name)
        ends[name] = Nights(home / name, first.sites, changed(first.made, "Mounts", "SQ-1", price=price))
        ends[name].run("--jobs", "2", status=1)
    return ends


def _kill_after(nights: Nights, seconds: float) -> bool:
    """Run and kill it after so long; whether it was killed before its end. Workers must die with it and let go of the folder."""
    with subprocess.Popen(nights.command("--jobs", "2"), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as run:
        try:
            run.wait(seconds)
        except subprocess.TimeoutExpired:
            os.kill(run.pid, signal.SIGKILL)
        run.wait()
    if nights.out.is_dir():
        torn = [name for name, data in results(nights.out).items() if not name.endswith(".part") and not whole(name, data)]
        assert torn == []
    return run.returncode == -signal.SIGKILL


def _took(nights: Nights, work: Path) -> float:
    """Seconds that the run takes here and now."""
    _copy(nights.home, work)
    began = time.monotonic()
    subprocess.run(Nights(work).command("--jobs", "2"), capture_output=True)
    return time.monotonic() - began


def _copy(home: Path, to: Path) -> None:
    shutil.rmtree(to, ignore_errors=True)
    shutil.copytree(home, to)


def _kill_and_mend(unbroken: dict[str, Nights], tmp_path: Path, tries: int, seed: int) -> None:
    """First nights and second nights killed in turn; then the same run, or one with another catalogue, to its end."""
    rng = random.Random(seed)
    first, second, third = (unbroken[n] for n in ("first", "second", "third"))
    took = {"first": 0.0, "second": 0.0}
    bare = Nights(tmp_path / "bare", first.sites, first.made)
    bare.write()
    took["first"] = _took(bare, tmp_path / "timed")
    ready = Nights(tmp_path / "ready", first.sites, second.made)
    _copy(first.home, ready.home)
    ready.write()
    took["second"] = _took(ready, tmp_path / "timed")
    for number in range(tries):
        which = "first" if number % 4 == 0 else "second"
        start, end = (bare, first) if which == "first" else (ready, second)
        nights = Nights(tmp_path / "n", first.sites, start.made)
        _copy(start.home, nights.home)
        killed = [_kill_after(nights, rng.uniform(0.15, 1.0) * took[which])]
        if number % 4 == 3:  # another catalogue half way, killed again, and then to its end with that one
            end = third
            nights.made = third.made
            nights.write()
            killed.append(_kill_after(nights, rng.uniform(0.15, 1.0) * took[which]))
        nights.run("--jobs", "2", status=1)
        if number % 4 == 3 and not killed[0]:
            continue  # it had ended before the kill: then its end counts, and the third night starts from another place
        assert _where(results(nights.out), results(end.out)) == []


def _where(a: dict[str, bytes], b: dict[str, bytes]) -> list[str]:
    """Names of results that differ, and of those that only one side has."""
    return sorted(name for name in a.keys() | b.keys() if a.get(name) != b.get(name))


def test_four_kills(unbroken: dict[str, Nights], tmp_path: Path) -> None:
    _kill_and_mend(unbroken, tmp_path, 4, 3)


@pytest.mark.slow
def test_24_kills(unbroken: dict[str, Nights], tmp_path: Path) -> None:
    _kill_and_mend(unbroken, tmp_path, 24, 11)


def test_a_killed_run_s_remains_go(unbroken: dict[str, Nights], tmp_path: Path) -> None:
    """A killed run's new revisions, marked copies and half-written files go when the next run has no use for them."""
    first = unbroken["first"]
    _copy(first.home, tmp_path / "n")
    nights = Nights(tmp_path / "n", {n: list(rows) for n, rows in first.sites.items()}, unbroken["second"].made)
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
    (nights.out / "sites" / "K-02" / ".K-02-r3.xlsx.part").write_bytes(b"half")
    nights.sites, nights.made = first.sites, first.made
    nights.run(status=1)
    assert _where(results(nights.out), results(first.out)) == []


def test_a_workbook_made_again_by_a_killed_run_is_not_taken_for_edited(unbroken: dict[str, Nights], tmp_path: Path) -> None:
    """It is made with tonight's options; the kill comes before the ledger knows."""
    first = unbroken["first"]
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
