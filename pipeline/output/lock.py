"""One run at a time on a folder; a lock left by a dead process is no hindrance, since the system lets go of it."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout

from pipeline.errors import RefusedError
from pipeline.output.folder import NotWrittenError, in_words, open_plain, require_plain, write_whole

_LOCK = ".lock"
_HOLDER = ".lock-holder.json"


class FolderBusyError(RefusedError):
    """Another run holds the folder."""


@contextmanager
def hold(folder: Path, now: datetime) -> Iterator[None]:
    """Hold `folder` for one run; FolderBusyError says who holds it and since when."""
    lock = FileLock(str(folder / _LOCK))
    holder = folder / _HOLDER
    for place in (folder / _LOCK, holder):
        require_plain(place, folder)
    try:
        lock.acquire(timeout=0)
    except Timeout as busy:
        raise FolderBusyError(f"Another run holds {folder} ({_who(holder)}). Wait until it has ended, then run again.") from busy
    except OSError as error:
        raise NotWrittenError(f"{folder} could not be written: {in_words(error)}.") from error
    try:
        _say_who(holder, now)
        yield
    finally:
        with suppress(OSError):
            holder.unlink()
        lock.release()


def _say_who(holder: Path, now: datetime) -> None:
    content = json.dumps({"process": os.getpid(), "since": now.isoformat(sep=" ", timespec="seconds")})
    write_whole(holder, content.encode())


def _read(holder: Path) -> Any:
    with open_plain(holder) as f:
        return json.loads(f.read(1 << 12))


def _who(holder: Path) -> str:
    try:
        content = _read(holder)
        return f"process {content['process']}, since {content['since']}"
    except (OSError, ValueError, KeyError, TypeError):
        return "process not known"
