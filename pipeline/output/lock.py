"""One run at a time on a folder; a lock left by a dead process is no hindrance, since the system lets go of it."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from filelock import FileLock, Timeout

_LOCK = ".lock"
_HOLDER = ".lock-holder.json"


class FolderBusyError(Exception):
    """Another run holds the folder."""


@contextmanager
def hold(folder: Path, now: datetime) -> Iterator[None]:
    """Hold `folder` for one run; FolderBusyError says who holds it and since when."""
    lock = FileLock(str(folder / _LOCK))
    holder = folder / _HOLDER
    try:
        lock.acquire(timeout=0)
    except Timeout as busy:
        raise FolderBusyError(f"Another run holds {folder} ({_who(holder)}). Wait until it has ended, then run again.") from busy
    try:
        holder.write_text(json.dumps({"process": os.getpid(), "since": now.isoformat(sep=" ", timespec="seconds")}))
        yield
    finally:
        holder.unlink(missing_ok=True)
        lock.release()


def _who(holder: Path) -> str:
    try:
        said = json.loads(holder.read_text())
        return f"process {said['process']}, since {said['since']}"
    except (OSError, ValueError, KeyError):
        return "process not known"
