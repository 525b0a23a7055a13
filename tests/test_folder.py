"""The output folder under bad luck: two runs at once, full and read-only disks, folders in the way or gone."""

from __future__ import annotations

import json
import os
import re
import resource
import shutil
import signal
import subprocess
import tempfile
import time
from pathlib import Path

import pytest
from nightly_made import Nights, changed, results, stamps, whole


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    nights = Nights(tmp_path_factory.mktemp("first"))
    nights.run()
    return nights


@pytest.fixture
def nights(first: Nights, tmp_path: Path) -> Nights:
    shutil.copytree(first.home, tmp_path / "n")
    return Nights(tmp_path / "n")


def _python(nights: Nights) -> Path:
    return Path(nights.command()[0]).parent / "python"


def _run(nights: Nights, before: str = "") -> subprocess.CompletedProcess[str]:
    """The command after some lines of Python that bring the bad luck."""
    nights.write()
    script = f"{before}\nfrom pipeline.cli import main\nmain({nights.command()[1:]!r})"
    return subprocess.run([_python(nights), "-c", script], capture_output=True, text=True)


def _nothing_torn(nights: Nights) -> None:
    assert [name for name, data in results(nights.out).items() if not whole(name, data)] == []
    assert list(nights.out.rglob(".*.part")) == []


HOLDER = """
import sys, time
from datetime import datetime
from pathlib import Path
from pipeline.output.lock import hold
with hold(Path(sys.argv[1]), datetime(2026, 3, 2, 4, 5, 6)):
    print("held", flush=True)
    time.sleep(60)
"""


def test_a_second_run_is_told_who_holds_the_folder(nights: Nights) -> None:
    with subprocess.Popen([_python(nights), "-c", HOLDER, str(nights.out)], stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "held\n"
        nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
        before = stamps(nights.out)
        said = " ".join(nights.run(status=2).split())
        assert f"process {other.pid}, since 2026-03-02 04:05:06" in said
        assert stamps(nights.out) == before
        other.send_signal(signal.SIGKILL)
        other.wait()
    nights.run()  # what a dead process left is no hindrance
    assert nights.risen() == {2, 4, 6}
    assert not (nights.out / ".lock-holder.json").exists()


@pytest.mark.slow
def test_workers_of_a_killed_run_let_go_of_the_folder(nights: Nights, tmp_path: Path) -> None:
    """Worker processes must not keep a dead run's lock, nor live on."""
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    nights.write()
    script = f"import batches_slow\nfrom pipeline.cli import main\nmain({nights.command('--jobs', '2')[1:]!r})"
    path = os.pathsep.join([str(Path(__file__).resolve().parent), os.environ["PYTHONPATH"]])
    slow = {**os.environ, "PYTHONPATH": path, "SLOW_BATCHES": "60", "BATCH_MARK": str(tmp_path / "at-work")}
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    with subprocess.Popen([_python(nights), "-c", script], env=slow, **quiet) as run:
        try:
            workers = _wait_for(lambda: [int(p.name.rpartition("-")[2]) for p in tmp_path.glob("at-work-*")])
        finally:
            run.kill()
        run.wait()
    assert run.pid not in workers
    nights.run("--jobs", "2")
    assert nights.risen() == {2, 4, 6}
    _wait_for(lambda: not [w for w in workers if _lives(w)])


def _wait_for(what):  # type: ignore[no-untyped-def]
    """The first true answer within a minute: the machine may be busy."""
    for _ in range(600):
        if said := what():
            return said
        time.sleep(0.1)
    raise AssertionError("waited in vain")


def _command(pid: int) -> bytes:
    try:
        return Path(f"/proc/{pid}/cmdline").read_bytes()
    except OSError:
        return b""


def _lives(pid: int) -> bool:
    return _command(pid) != b""


def test_a_full_disk(nights: Nights) -> None:
    """Files may grow to so many bytes and no further: the workbooks, then the ledger, cannot be written."""
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    before = results(nights.out)
    for most in (9_000, 60_000):
        done = _run(nights, f"import resource; resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, {most}))")
        assert done.returncode == 3, done.stderr
        assert "Traceback" not in done.stderr
        assert re.search("disk\\s+(is|fails\\s+or\\s+is)\\s+full", done.stderr), done.stderr
        _nothing_torn(nights)
    assert {n: v for n, v in results(nights.out).items() if n.startswith("sites/") and n in before} == {
        n: v for n, v in before.items() if n.startswith("sites/")
    }
    assert resource.getrlimit(resource.RLIMIT_FSIZE)[0] == resource.RLIM_INFINITY
    nights.run()
    assert nights.risen() == {2, 4, 6}
    assert {kind for _, kind, *_ in nights.reasons()} == {"price"}


@pytest.mark.skipif(os.geteuid() != 0 or shutil.which("setpriv") is None, reason="needs root, to become somebody else")
def test_a_folder_that_may_only_be_read(nights: Nights) -> None:
    with tempfile.TemporaryDirectory() as folder:  # one below which another session of tests changes no permissions
        shutil.copytree(nights.home, Path(folder) / "n")
        for open_to_all in (Path(folder), Path(folder) / "n"):
            os.chmod(open_to_all, 0o755)
        elsewhere = Nights(Path(folder) / "n", nights.sites, changed(nights.made, "Mounts", "SQ-1", price=333))
        elsewhere.write()
        before = stamps(elsewhere.out)
        os.chmod(elsewhere.out, 0o555)
        (elsewhere.out / ".lock").unlink(missing_ok=True)
        as_nobody = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"]
        done = subprocess.run([*as_nobody, *elsewhere.command()], capture_output=True, text=True)
        assert stamps(elsewhere.out) == before
    assert done.returncode == 3, done.stderr
    assert "you may not write there" in " ".join(done.stderr.split())
    assert "Traceback" not in done.stderr


@pytest.mark.slow
def test_a_folder_that_goes_halfway(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    gone = (
        "import shutil, pipeline.run.quote_sites as q\n"
        "write = q._write\n"
        f"q._write = lambda *a: (shutil.rmtree({str(nights.out)!r}, ignore_errors=True), write(*a))[1]\n"
    )
    done = _run(nights, gone)
    assert done.returncode == 3, done.stderr
    assert "gone" in done.stderr
    assert "Traceback" not in done.stderr
    assert not nights.out.exists() or not results(nights.out)
    nights.run()
    assert set(nights.revisions().values()) == {1}


def test_a_folder_stands_where_a_workbook_should(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    nights.workbook("K-02", 2).mkdir()
    said = " ".join(nights.run(status=3).split())
    assert "K-02-r2.xlsx could not be written: a folder stands in its place" in said
    assert nights.risen() == {4, 6}
    nights.workbook("K-02", 2).rmdir()
    nights.run()
    assert nights.risen() == {2, 4, 6}
    assert ("K-02", "price", "SQ-1", "320", "333") in nights.reasons()


@pytest.mark.slow
def test_a_portfolio_that_cannot_be_replaced(nights: Nights) -> None:
    """As where it is open in another program on a system that keeps it from being replaced."""
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    was = (nights.out / "portfolio.xlsx").read_bytes()
    deny = (
        "import pathlib\n"
        "replace = pathlib.Path.replace\n"
        "def deny(self, target):\n"
        "    if str(target).endswith('portfolio.xlsx'): raise PermissionError(13, 'Permission denied', str(target))\n"
        "    return replace(self, target)\n"
        "pathlib.Path.replace = deny\n"
    )
    done = _run(nights, deny)
    assert done.returncode == 3, done.stderr
    assert "portfolio.xlsx could not be written: it is open in another program" in " ".join(done.stderr.split())
    assert nights.risen() == {2, 4, 6}
    assert (nights.out / "portfolio.xlsx").read_bytes() == was
    _nothing_torn(nights)
    nights.run()
    assert (nights.out / "portfolio.xlsx").read_bytes() != was


@pytest.mark.slow
def test_run_json_that_cannot_be_replaced(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    (nights.out / "run.json").unlink()
    (nights.out / "run.json").mkdir()
    assert "a folder stands in its place" in " ".join(nights.run(status=3).split())
    (nights.out / "run.json").rmdir()
    nights.run()
    assert json.loads((nights.out / "run.json").read_text())["counts"]["sites"] == 6


def test_an_emptied_workbook_is_made_again(nights: Nights) -> None:
    """What a loss of power leaves is no person's work."""
    path = nights.workbook("K-01", 1)
    made = path.read_bytes()
    path.write_bytes(bytes(4096))
    nights.run()
    assert path.read_bytes() == made
