"""Processes measured from outside: time by the clock, processor time, and the most memory that they held."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
POSTQUOTE = [sys.executable, "-c", "import sys; sys.argv[0] = 'postquote'; from pipeline.cli import main; main()"]
"""The command, started as its console script starts it."""


@dataclass(frozen=True)
class Cost:
    """What a process took: by the clock and of the processors [s], its children's included; peak memory [MB]."""

    wall: float
    cpu: float
    peak: float


def run(command: Sequence[str], allowed: Sequence[int] = (0,), out: int = subprocess.DEVNULL) -> Cost:
    """The cost of a command; a RuntimeError where it ends with another status than `allowed`."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": "0"}
    start = time.perf_counter()
    with subprocess.Popen(command, stdout=out, stderr=subprocess.PIPE, env=env, text=True) as process:
        assert process.stderr is not None
        said = process.stderr.read()
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in allowed:
        raise RuntimeError(f"{command} ended with {process.returncode}: {said}")
    return Cost(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def best(command: Sequence[str], times: int, allowed: Sequence[int] = (0,)) -> Cost:
    """The least of several runs, which others on the machine disturbed least."""
    return min((run(command, allowed) for _ in range(times)), key=lambda cost: cost.wall)


def quote(surveys: Path, catalogue: Path, out: Path, jobs: int = 1) -> Cost:
    """The cost of one run of `quote`."""
    where = [str(surveys), "--catalogue", str(catalogue), "--out", str(out)]
    return run([*POSTQUOTE, "quote", *where, "--date", "2026-03-02", "--jobs", str(jobs), "--quiet"], (0, 1))
