"""A child process that reads files one after the other, and may die of one without harm to the rest."""

from __future__ import annotations

import os
import pickle
import signal
import struct
import subprocess
import sys
import threading
from collections.abc import Sequence
from typing import Any

from pipeline.reading.answers import ANSWERS, answer
from pipeline.reading.book import Book, UnreadableFileError
from pipeline.reading.replies import consists_of, opened

MEMORY = 640 << 20
"""Address space that a file may add to a child's own [byte].
Source: common practice; 0.45 GiB are enough for 99.9 % of 2,700 public test files."""
ROOM = 2048 << 20
"""The same for the one child at a time that reads what is larger [byte]; a survey of 100,000 posts takes 1.5 GB."""
_LARGE = 5_000_000  # bytes on disk from which a file goes there at once
_BOMB = 2_000_000  # bytes on disk up to which a file that needs so much is none that a survey's sender made
PROCESSOR_SECONDS = 20.0
WALL_SECONDS = 10 * PROCESSOR_SECONDS
"""A child that waits for so long has lost its file or its machine; what a file costs is counted in processor time, so that the
load of the machine decides nothing."""
_SECONDS_PER_MB = 10.0  # an honest file of 20,000 posts is 2.6 MB, one of 100,000 posts 13 MB; a bomb is small on disk
_MOST_SECONDS = 120.0

FRAME = struct.Struct("<Q")
_OUT_OF_TIME = getattr(signal, "SIGXCPU", 0)  # by which a system ends a process that has used up its processor time
_MOST_REPLY = 1 << 31
_ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
_START = "import sys; sys.path.insert(0, sys.argv[1]); from pipeline.reading.child import main; main(sys.argv[2:])"


_WANT_OF_MEMORY = (ANSWERS["memory"][0], ANSWERS["crashed"][0])
_one_at_a_time = threading.Lock()


class _LostError(UnreadableFileError):
    """The child was lost over a file, and not for want of time."""


class Sandbox:
    """Calls `work`, named as `package.module:function`, in a child process under limits.

        with Sandbox("pipeline.reading:read_book") as box:
            book = box.run(path)

    The child starts with the first file, serves all of them, and is replaced when it dies. It ends
    with the sandbox, and with its parent however that ends. One file at a time; threads may share it.
    A file that is not small and needs more than `memory` is done again with `room`, for which all
    sandboxes of this process wait in line, so that a run's need is bounded whatever its children's number.
    `admits` are the classes that a reply may consist of, with those of their fields; without it those of a book.
    """

    def __init__(
        self,
        work: str,
        *,
        admits: Sequence[type] = (),
        memory: int = MEMORY,
        room: int = ROOM,
        processor_seconds: float = PROCESSOR_SECONDS,
        wall_seconds: float = WALL_SECONDS,
    ) -> None:
        self._work = work
        self._admitted = consists_of(*(admits or (Book,)))
        self._memory = memory
        self._processor = processor_seconds
        self._wall = wall_seconds
        self._child: subprocess.Popen[bytes] | None = None
        self._late = False
        self._lock = threading.Lock()
        self._roomy = (
            Sandbox(work, admits=admits, memory=room, room=0, processor_seconds=processor_seconds, wall_seconds=wall_seconds)
            if room
            else None
        )

    def __enter__(self) -> Sandbox:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def start(self) -> None:
        """Start the child now, so that it loads while the caller does something else."""
        with self._lock:
            self._running()

    def run(self, path: str, *args: Any, hurry: float = 1.0) -> Any:
        """`work(path, *args)`, called in the child, in that share of the time that a file may take.

        Raises UnreadableFileError where the work does, and where the child dies, hangs or raises
        anything else; RuntimeError where the child cannot load the work at all.
        """
        if self._roomy is None:
            return self._once(path, args, hurry)
        if _size(path) < _LARGE:
            try:
                return self._once(path, args, hurry)
            except UnreadableFileError as e:
                if e.reason not in _WANT_OF_MEMORY or _size(path) < _BOMB:
                    raise
        with _one_at_a_time:
            return self._roomy._once(path, args, hurry)

    def _once(self, path: str, args: tuple[Any, ...], hurry: float) -> Any:
        """`work(path, *args)` with the memory that there is; a child that is lost once may have met with an accident."""
        request = pickle.dumps((path, args, hurry * _seconds(path, self._processor)), pickle.HIGHEST_PROTOCOL)
        with self._lock:
            try:
                reply = self._ask(request, hurry * _seconds(path, self._wall))
            except _LostError:
                reply = self._ask(request, hurry * _seconds(path, self._wall))
            state, content, last = opened(reply, self._admitted)
            if last:
                self._end()
        return _result(state, content)

    def close(self) -> None:
        """End the child; its process is always waited for."""
        with self._lock:
            self._end()
        if self._roomy is not None:
            self._roomy.close()

    def _running(self) -> subprocess.Popen[bytes]:
        """The child, started where there is none."""
        if self._child is None or self._child.poll() is not None:
            self._end()
            threads = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"), "1")
            self._child = subprocess.Popen(
                [sys.executable, "-P", "-c", _START, _ROOT, self._work, str(self._memory), str(os.getpid())],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env={**os.environ, **threads},  # threads of a number library would use up the address space
            )
        return self._child

    def _ask(self, request: bytes, seconds: float) -> bytes:
        """The child's reply to one request; raises UnreadableFileError where none comes."""
        child = self._running()
        self._late = False
        timer = threading.Timer(seconds, self._expire, (child,))
        timer.daemon = True
        timer.start()
        try:
            reply = _exchange(child, request)
        except BaseException:
            self._end(kill=True)  # an interrupted exchange leaves a reply that belongs to nobody
            raise
        finally:
            timer.cancel()
        if reply is None:
            self._end(kill=True)
            if self._late or child.returncode == -_OUT_OF_TIME:
                raise answer("slow")
            raise _LostError(*ANSWERS["crashed"], lasting=False)
        return reply

    def _expire(self, child: subprocess.Popen[bytes]) -> None:
        self._late = True
        child.kill()

    def _end(self, kill: bool = False) -> None:
        child, self._child = self._child, None
        if child is None:
            return
        if kill:
            child.kill()
        for pipe in (child.stdin, child.stdout):
            try:
                if pipe is not None:
                    pipe.close()
            except OSError:
                pass  # what was still to be written has no reader any more
        try:
            child.wait(2)
        except subprocess.TimeoutExpired:
            child.kill()
            child.wait()


def _size(path: str) -> int:
    """Bytes of a file; 0 where it cannot be looked at."""
    try:
        return os.stat(path).st_size
    except (OSError, ValueError):
        return 0


def _seconds(path: str, base: float) -> float:
    """Time for one file: more for a large one."""
    return base * min(1 + _SECONDS_PER_MB * _size(path) / 1e6 / 20, _MOST_SECONDS / 20)


def _exchange(child: subprocess.Popen[bytes], request: bytes) -> bytes | None:
    """Send one frame and receive one; None where the child is gone or sends nonsense."""
    assert child.stdin is not None
    assert child.stdout is not None
    try:
        child.stdin.write(FRAME.pack(len(request)) + request)
        child.stdin.flush()
    except OSError:
        return None
    head = child.stdout.read(FRAME.size)
    if len(head) < FRAME.size:
        return None
    (size,) = FRAME.unpack(head)
    if size > _MOST_REPLY:
        return None
    reply = child.stdout.read(size)
    return reply if len(reply) == size else None


def _result(state: str, content: Any) -> Any:
    """The work's result, or the error that the reply holds."""
    if state == "done":
        return content
    if state == "unreadable":
        raise UnreadableFileError(*content)
    if state == "fault":
        reason, remedy = ANSWERS["crashed"]
        raise UnreadableFileError(f"{reason.removesuffix('.')} ({content}).", remedy, lasting=False)
    raise RuntimeError(content)
