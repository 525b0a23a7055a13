"""Runs of the command for the tests of its workers: a small portfolio, and what a run left."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

from tests.bench.portfolio_made import write_catalogue, write_surveys

FOLDER = "sites"
TESTS = Path(__file__).resolve().parent


def surveys_and_catalogue(home: Path, sites: int) -> Path:
    """A folder with a survey a site, three posts each, and a catalogue."""
    write_surveys(home / "surveys", sites, 3)
    write_catalogue(home / "catalogue.xlsx", 4, 4, 1)
    return home


def results(out: Path) -> dict[str, bytes]:
    """Every file of a run's folder but the ledger, which also says when."""
    files = sorted(p for p in out.rglob("*") if p.is_file() and not p.name.startswith((".", "ledger.sqlite")))
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in files}


class _Runner:
    """Runs of the command in a process of its own."""

    def __call__(self, home: Path, out: str, *more: str, status: int = 0, script: str = "", **env: str) -> str:
        """What a run said on stderr."""
        with self.start(home, out, *more, script=script, **env) as run:
            said = run.communicate(timeout=240)[1]
        assert run.returncode == status, said
        assert "Traceback (most recent call last)" not in said.replace("\n    ", "") or status == 3
        return said

    def start(self, home: Path, out: str, *more: str, script: str = "", **env: str) -> subprocess.Popen[str]:
        """A run under way; `script` names a module of the tests that is imported first."""
        where = [str(home / "surveys"), "--catalogue", str(home / "catalogue.xlsx"), "--out", str(home / out)]
        command: list[Any] = ["quote", *where, "--date", "2026-03-02", "--quiet", *more]
        before = f"import {script}; " if script else ""
        code = f"{before}from pipeline.cli import main; main({command!r})"
        path = os.pathsep.join([str(TESTS.parent), str(TESTS)])
        return subprocess.Popen(
            [sys.executable, "-c", code],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": path, **env},
        )


runner = _Runner()
