"""A Dask scheduler with two workers on loopback: the same bytes as one process, whatever becomes of the workers."""

from __future__ import annotations

import importlib.util
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from workers_made import FOLDER, results, runner, surveys_and_catalogue

pytestmark = pytest.mark.skipif(
    importlib.util.find_spec("distributed") is None, reason="the extra `cluster` (distributed) is not installed"
)
ROOT = Path(__file__).resolve().parent.parent


class Cluster:
    """A scheduler and its workers, as processes of their own, each known by its id."""

    def __init__(self, home: Path) -> None:
        self.home, self.processes = home, []
        with socket.socket() as s:
            s.bind(("127.0.0.1", 0))
            port = s.getsockname()[1]
        self.address = f"tcp://127.0.0.1:{port}"
        quick = {"DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": "0"}  # a batch's first loss counts
        self.scheduler = self._start(
            "scheduler", "--host", "127.0.0.1", "--port", str(port), "--no-dashboard", "--no-show", **quick
        )

    def worker(self, **env: str) -> subprocess.Popen[bytes]:
        """One more worker, without a nanny that would bring it back."""
        return self._start(
            "worker", self.address, "--nthreads", "1", "--no-nanny", "--no-dashboard", "--host", "127.0.0.1", **env
        )

    def _start(self, what: str, *args: str, **env: str) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", "distributed.cli.dask_" + what, *args]
        log = (self.home / "log.txt").open("ab")
        path = os.pathsep.join([str(ROOT), str(ROOT / "tests")])
        made = subprocess.Popen(command, cwd=self.home, stdout=log, stderr=log, env={**os.environ, "PYTHONPATH": path, **env})
        self.processes.append(made)
        return made

    def ready(self, workers: int) -> None:
        """Wait for so many workers."""
        from distributed import Client

        with Client(self.address, timeout=30, set_as_default=False) as client:
            if workers:
                client.wait_for_workers(workers, timeout=60)

    def close(self) -> None:
        for p in self.processes:
            p.kill()
            p.wait()


@pytest.fixture
def cluster(tmp_path: Path) -> Iterator[Cluster]:
    made = Cluster(tmp_path)
    try:
        yield made
    finally:
        made.close()


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return surveys_and_catalogue(tmp_path_factory.mktemp("cluster"), sites=16)


@pytest.fixture(scope="module")
def alone(home: Path) -> dict[str, bytes]:
    runner(home, "alone", "--jobs", "1")
    return results(home / "alone")


@pytest.mark.slow
def test_two_workers_give_the_same_bytes_as_one_process(cluster: Cluster, home: Path, alone: dict[str, bytes]) -> None:
    cluster.worker(), cluster.worker()
    cluster.ready(2)
    runner(home, "two", "--cluster", cluster.address)
    assert results(home / "two") == alone


@pytest.mark.slow
def test_a_worker_killed_on_the_way(cluster: Cluster, home: Path, alone: dict[str, bytes], tmp_path: Path) -> None:
    """It dies in the middle of a batch; the batch is done again by the other."""
    slow = {"SLOW_BATCHES": "0.3", "BATCH_MARK": str(tmp_path / "mark")}
    doomed = cluster.worker(**slow)
    cluster.worker(**slow)
    cluster.ready(2)
    with runner.start(home, "killed", "--cluster", cluster.address, script="batches_slow") as run:
        mark = tmp_path / f"mark-{doomed.pid}"
        while not mark.exists() and run.poll() is None:
            time.sleep(0.05)
        doomed.send_signal(signal.SIGKILL)
        assert run.wait(120) == 0, run.stderr.read()
    assert results(home / "killed") == alone


@pytest.mark.slow
def test_a_scheduler_lost_on_the_way(cluster: Cluster, home: Path, alone: dict[str, bytes], tmp_path: Path) -> None:
    """What is left is done on this machine."""
    slow = {"SLOW_BATCHES": "0.5", "BATCH_MARK": str(tmp_path / "mark")}
    worker = cluster.worker(**slow)
    cluster.ready(1)
    with runner.start(home, "lost", "--cluster", cluster.address, script="batches_slow", PATIENCE="3") as run:
        while not (tmp_path / f"mark-{worker.pid}").exists() and run.poll() is None:
            time.sleep(0.05)
        worker.kill()
        cluster.scheduler.kill()
        assert run.wait(120) == 0, run.stderr.read()
    assert results(home / "lost") == alone


def test_no_scheduler_at_the_address(home: Path) -> None:
    for address in ("tcp://127.0.0.1:9", "nonsense"):
        said = runner(home, "none", "--cluster", address, status=2)
        assert re.search(r"No\s+scheduler\s+answers\s+at", said), said
        assert not (home / "none").exists()


def test_a_scheduler_without_workers(cluster: Cluster, home: Path) -> None:
    cluster.ready(0)
    said = runner(home, "none", "--cluster", cluster.address, status=2)
    assert re.search(r"has\s+no\s+workers", said), said
    assert not (home / "none").exists()


@pytest.mark.slow
def test_a_site_that_kills_its_worker_fails_alone(cluster: Cluster, home: Path, alone: dict[str, bytes]) -> None:
    for _ in range(4):
        cluster.worker(KILLER_SITE="G-0007")
    cluster.ready(4)
    said = runner(home, "killer", "--cluster", cluster.address, status=3, script="batches_slow")
    assert "G-0007" in said
    made = results(home / "killer")
    books = {n for n in alone if n.startswith(f"{FOLDER}/")}
    assert {n for n in books if n not in made} == {n for n in books if "G-0007" in n}
    assert {n: made[n] for n in books & made.keys()} == {n: alone[n] for n in books & made.keys()}
