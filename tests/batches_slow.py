"""A run whose batches are slow, or one of whose sites kills its worker; the workers are told by their environment."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pipeline.run.quote_sites as quoting
import pipeline.run.site_jobs as jobs
from pipeline.site.batch import quote_sites

jobs.BATCH_SITES, jobs.FEW_POSTS = 4, 0


def slow(tasks: Sequence[Any], world: Any) -> list[Any]:
    """The batch, after a while and a mark on disk; a killer's worker is gone before it is done."""
    mark, killer = os.environ.get("BATCH_MARK"), os.environ.get("KILLER_SITE")
    if mark:
        Path(f"{mark}-{os.getpid()}").touch()
    time.sleep(float(os.environ.get("SLOW_BATCHES", "0")))
    once = Path(os.environ.get("KILL_ONCE", "/"))
    if not once.exists():
        once.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    if any(t.site_code == killer for t in tasks):
        os.kill(os.getpid(), signal.SIGKILL)
    return quote_sites(tasks, world)


quoting.quote_sites = slow

if "PATIENCE" in os.environ:
    import pipeline.executors.cluster

    pipeline.executors.cluster.PATIENCE = float(os.environ["PATIENCE"])
