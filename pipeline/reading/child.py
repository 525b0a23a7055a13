"""The child's side of the sandbox: requests come in, replies go out, under limits.

Started by `sandbox` only. What a library prints goes nowhere; the reply has a channel of its own.
"""

from __future__ import annotations

import importlib
import os
import pickle
import signal
import sys
import threading
import time
import traceback
from collections.abc import Callable, Sequence
from typing import IO, Any

from pipeline.reading.answers import ANSWERS
from pipeline.reading.book import UnreadableFileError
from pipeline.reading.sandbox import FRAME

try:
    import resource
except ImportError:  # not on this platform: the parent's clock is the only limit
    resource = None  # type: ignore[assignment]

_WORN = 0.4  # a child that has used so much of its memory is replaced, so that the next file has all of it
_POLL_SECONDS = 0.5
_NO_MEMORY = (*ANSWERS["memory"], False)


def main(args: Sequence[str]) -> None:
    """Serve until the parent closes its end: work, address space in bytes, the parent's process id."""
    work, memory, parent = args[0], int(args[1]), int(args[2])
    requests, replies = _private_channels()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent decides what an interrupt means
    _watch(parent)
    try:
        call = _load(work)
    except BaseException as e:
        _send(replies, ("broken", f"the sandbox cannot load {work}: {e!r}", True))
        return
    loaded, peak = _address_space(), _peak()
    _limit(loaded + memory)  # the libraries take more on one system than on another; the file may add so much
    serve(call, requests, replies, lambda: _is_worn(loaded, peak, memory))


def serve(call: Callable[..., Any], requests: IO[bytes], replies: IO[bytes], worn: Callable[[], bool]) -> None:
    """Answer requests one by one until there are no more, or until this process is worn out."""
    while len(head := requests.read(FRAME.size)) == FRAME.size:
        (size,) = FRAME.unpack(head)
        path, args, seconds = pickle.loads(requests.read(size))
        _limit_processor(seconds)
        state, content = attempt(call, path, args)
        last = state == "fault" or content == _NO_MEMORY or worn()
        _send(replies, (state, content, last))
        if last:
            return


def attempt(call: Callable[..., Any], path: str, args: Sequence[Any]) -> tuple[str, Any]:
    """`call(path, *args)` as a reply that says what became of it."""
    try:
        return "done", call(path, *args)
    except UnreadableFileError as e:
        return "unreadable", (e.reason, e.remedy, e.lasting)
    except MemoryError:
        return "unreadable", _NO_MEMORY
    except BaseException as e:
        frames = traceback.extract_tb(e.__traceback__)
        where = f" in {os.path.basename(frames[-1].filename)}, line {frames[-1].lineno}" if frames else ""
        return "fault", f"{type(e).__name__}{where}"


def _private_channels() -> tuple[IO[bytes], IO[bytes]]:
    """The pipes under new numbers; what a library prints or reads meets the null device."""
    requests, replies = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    null = os.open(os.devnull, os.O_RDWR)
    for standard in (0, 1, 2):
        os.dup2(null, standard)
    os.close(null)
    return requests, replies


def _watch(parent: int) -> None:
    """End with the parent even in the middle of a file."""

    def loop() -> None:
        while os.getppid() == parent:
            time.sleep(_POLL_SECONDS)
        os._exit(1)

    threading.Thread(target=loop, daemon=True).start()


def _load(work: str) -> Callable[..., Any]:
    module, _, name = work.partition(":")
    call: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return call


def _limit(memory: int) -> None:
    """Bound the address space, and leave no core behind."""
    if resource is not None:
        _, most = resource.getrlimit(resource.RLIMIT_AS)
        if sys.platform != "darwin":  # that system takes the call and does not keep it
            resource.setrlimit(resource.RLIMIT_AS, (memory if most < 0 else min(memory, most), most))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _limit_processor(seconds: float) -> None:
    """Bound the processor time of the next file: what has been used so far, and so much more."""
    if resource is not None:
        _, most = resource.getrlimit(resource.RLIMIT_CPU)
        soft = int(time.process_time() + seconds) + 1
        resource.setrlimit(resource.RLIMIT_CPU, (soft if most < 0 else min(soft, most), most))


def _is_worn(loaded: int, peak: int, memory: int) -> bool:
    """Whether files have used much of the memory at any time, or hold much of the address space beyond what was loaded.

    A new process starts with its parent's peak on some systems, so only a peak that has risen counts.
    """
    most = _peak()
    return max(most if most > peak else 0, _address_space() - loaded) > _WORN * memory


def _peak() -> int:
    """Most bytes of memory that this process has held; 0 where the system does not tell."""
    if resource is None:
        return 0
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit


def _address_space() -> int:
    """Bytes of address space in use; 0 where the system does not tell."""
    try:
        with open("/proc/self/statm", encoding="ascii") as f:
            return int(f.read().split()[0]) * resource.getpagesize()
    except (OSError, ValueError):
        return 0


def _send(replies: IO[bytes], reply: tuple[str, Any, bool]) -> None:
    try:
        content = pickle.dumps(reply, pickle.HIGHEST_PROTOCOL)
    except MemoryError:
        content = pickle.dumps(("unreadable", _NO_MEMORY, reply[2]))
    except Exception as e:
        content = pickle.dumps(("fault", f"{type(e).__name__} on the way back", reply[2]))
    replies.write(FRAME.pack(len(content)) + content)
    replies.flush()
