"""A child process that reads files one after the other, and may die of one without harm to the rest."""

from __future__ import annotations

import io
import os
import pickle
import signal
import struct
import subprocess
import sys
import threading
from typing import Any

from pipeline.intake.model import UnreadableFileError
from pipeline.intake.read.answers import ANSWERS, answer

MEMORY = 1536 << 20
"""Address space of the child [byte]. Source: common practice; 1.5 GiB read every one of 2,700 public test files."""
PROCESSOR_SECONDS = 20.0
WALL_SECONDS = 30.0
_SECONDS_PER_MB = 3.0  # an honest file of 100,000 posts is 20 MB; a bomb is small on disk
_MOST_SECONDS = 120.0

FRAME = struct.Struct("<Q")
_OUT_OF_TIME = getattr(signal, "SIGXCPU", 0)  # by which a system ends a process that has used up its processor time
_MOST_REPLY = 1 << 31
_ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__)))))
_START = "import sys; sys.path.insert(0, sys.argv[1]); from pipeline.intake.read.child import main; main(sys.argv[2:])"


class Sandbox:
    """Calls `work`, named as `package.module:function`, in a child process under limits.

        with Sandbox("pipeline.intake.read:read_book") as box:
            book = box.run(path)

    The child starts with the first file, serves all of them, and is replaced when it dies. It ends
    with the sandbox, and with its parent however that ends. One file at a time; threads may share it.
    """

    def __init__(
        self,
        work: str,
        *,
        memory: int = MEMORY,
        processor_seconds: float = PROCESSOR_SECONDS,
        wall_seconds: float = WALL_SECONDS,
    ) -> None:
        self._work = work
        self._memory = memory
        self._processor = processor_seconds
        self._wall = wall_seconds
        self._child: subprocess.Popen[bytes] | None = None
        self._late = False
        self._lock = threading.Lock()

    def __enter__(self) -> Sandbox:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def start(self) -> None:
        """Start the child now, so that it loads while the caller does something else."""
        with self._lock:
            self._running()

    def run(self, path: str, *args: Any) -> Any:
        """`work(path, *args)`, called in the child.

        Raises UnreadableFileError where the work does, and where the child dies, hangs or raises
        anything else; RuntimeError where the child cannot load the work at all.
        """
        request = pickle.dumps((path, args, self._seconds(path, self._processor)), pickle.HIGHEST_PROTOCOL)
        with self._lock:
            state, content, last = _opened(self._ask(request, self._seconds(path, self._wall)))
            if last:
                self._end()
        return _result(state, content)

    def close(self) -> None:
        """End the child; its process is always waited for."""
        with self._lock:
            self._end()

    def _seconds(self, path: str, base: float) -> float:
        """Time for one file: more for a large one."""
        try:
            size = os.stat(path).st_size / 1e6
        except (OSError, ValueError):
            size = 0.0
        return base * min(1 + _SECONDS_PER_MB * size / 20, _MOST_SECONDS / 20)

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
            raise answer("slow" if self._late or child.returncode == -_OUT_OF_TIME else "crashed")
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


def _opened(reply: bytes) -> tuple[str, Any, bool]:
    """What a reply says: a state, its content, and whether the child ends with it."""
    try:
        state, content, last = _Plain(io.BytesIO(reply)).load()
    except Exception:  # nonsense from a child that a file has taken over
        return "unreadable", ANSWERS["crashed"], True
    return state, content, last


def _result(state: str, content: Any) -> Any:
    """The work's result, or the error that the reply tells of."""
    if state == "done":
        return content
    if state == "unreadable":
        raise UnreadableFileError(*content)
    if state == "fault":
        reason, remedy = ANSWERS["crashed"]
        raise UnreadableFileError(f"{reason.removesuffix('.')} ({content}).", remedy)
    raise RuntimeError(content)


class _Plain(pickle.Unpickler):
    """Opens replies: data classes of this program and exact numbers, and nothing that could act.

    A file that took over its reader could send any pickle; classes that only hold fields are safe.
    """

    def find_class(self, module: str, name: str) -> Any:
        if (module, name) in {("fractions", "Fraction"), ("decimal", "Decimal"), ("builtins", "frozenset"), ("builtins", "set")}:
            return super().find_class(module, name)
        if module.split(".")[0] in ("pipeline", "schemas") and "." not in name:
            found = super().find_class(module, name)
            if isinstance(found, type) and hasattr(found, "__dataclass_fields__"):
                return found
        raise pickle.UnpicklingError(f"{module}.{name} has no place in a reply")
